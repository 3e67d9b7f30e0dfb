using Dyewort.Colour;

namespace Dyewort.Response.Tests;

public sealed class ColourMoveTests
{
    [Theory]
    [InlineData(45, 20, -20, 45.2, 20.1, -20, "hardly changed")]
    [InlineData(45, 20, -20, 20, 5, -5, "darker", "greyer")]
    [InlineData(45, 20, -20, 45, 45, 5, "redder", "turns red")]
    [InlineData(45, 20, -20, 45, -20, 5, "greener", "turns green")]
    [InlineData(45, 0, 0, 60, 0, 0, "lighter")]
    [InlineData(70, 0, 30, 72, 0, 60, "stronger")]
    [InlineData(78, 8, -16, 55, 8, -25, "darker", "greyer for its depth")]
    [InlineData(78, 8, -16, 55, 20, -40, "darker", "stronger")]
    public void Says_where_a_colour_went(double l, double a, double b, double l2, double a2, double b2, params string[] words)
    {
        var said = ColourMove.Describe(new Lab(l, a, b), new Lab(l2, a2, b2));
        Assert.All(words, word => Assert.Contains(word, said, StringComparison.Ordinal));
    }

    [Fact]
    public void Nothing_opposite_is_said_of_one_move()
    {
        var said = ColourMove.Describe(new Lab(45, 30, 10), new Lab(30, 6, 2));
        Assert.Contains("greyer", said, StringComparison.Ordinal);
        Assert.DoesNotContain("greener", said, StringComparison.Ordinal);
    }
}
