using Dyewort.Colour;
using Dyewort.Workshop.Colours;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class ColoursTests
{
    private static MixInksAnswer Mixed(string[] inks, string? wash = null, string? paper = null)
    {
        var outcome = new MixInks().Handle(inks, wash, paper);
        return outcome.TryGet(out var answer) ? answer : throw new Xunit.Sdk.XunitException(string.Join(' ', outcome.Problems));
    }

    [Fact]
    public void One_ink_mixed_with_nothing_is_itself()
    {
        var answer = Mixed(["#5b3f7a=3"], paper: "lab(95 0 3)");
        Assert.True(ColourText.Parse("colour", "#5b3f7a").TryGet(out var ink));
        Assert.InRange(Difference.Ciede2000(Lab.FromXyz(ink.Colour), answer.Lab), 0, 1e-6);
        Assert.InRange(answer.UncertaintyDe00, 0, 0.05);
        Assert.Empty(answer.Warnings);
        Assert.False(answer.PaperIsGuessed);
    }

    [Fact]
    public void A_quarter_wash_is_lighter_and_less_sure_on_a_guessed_paper()
    {
        var known = Mixed(["#5b3f7a=1"], "1/4", "lab(95.5 -0.5 2.3)");
        var guessed = Mixed(["#5b3f7a=1"], "0.25");
        Assert.True(known.Lab.L > 55);
        Assert.Equal(0.25, guessed.Wash, 1e-12);
        Assert.True(guessed.UncertaintyDe00 > known.UncertaintyDe00);
        Assert.Contains(guessed.Warnings, warning => warning.Contains("guessed", StringComparison.Ordinal));
        Assert.Equal(guessed.Lab, Mixed(["#5b3f7a=1"], "25%").Lab);
    }

    [Fact]
    public void Colours_may_hold_spaces_and_commas_and_parts_may_be_fractions()
    {
        var answer = Mixed(["rgb(91, 63, 122)=1/2", "5Y 8/8=0.5", "dark grayish purple=1"], paper: "#f4f2ec");
        Assert.Equal([0.25, 0.25, 0.5], answer.Inks.Select(ink => Math.Round(ink.Share, 9)));
    }

    [Theory]
    [InlineData("#5b3f7a", null, null, "has no parts")]
    [InlineData("#5b3f7a=0", null, null, "not a number of parts")]
    [InlineData("#5b3f7a=-1", null, null, "not a number of parts")]
    [InlineData("#5b3f7a=1/0", null, null, "not a number of parts")]
    [InlineData("#5b3f7a=much", null, null, "not a number of parts")]
    [InlineData("nonsense=1", null, null, "not a colour")]
    [InlineData("#5b3f7a=1", "5", null, "not a share")]
    [InlineData("#5b3f7a=1", "1/4/2", null, "not a share")]
    [InlineData("#5b3f7a=1", null, "black", "cannot be a paper")]
    [InlineData("#5b3f7a=1", null, "paperish", "not a colour")]
    public void What_cannot_be_mixed_is_refused_with_its_reason(string ink, string? wash, string? paper, string reason)
    {
        var outcome = new MixInks().Handle([ink], wash, paper);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(outcome.Problems, problem => problem.What.Contains(reason, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_problem_is_told_at_once() => Assert.Equal(3, new MixInks().Handle(["nonsense=1", "#fff"], "9", null).Problems.Count);

    [Fact]
    public void Black_and_white_inks_still_give_an_answer()
    {
        var answer = Mixed(["#000000=1", "#ffffff=1"]);
        Assert.InRange(answer.Lab.L, 0, 60);
        Assert.True(double.IsFinite(answer.UncertaintyDe00));
        Assert.Contains(answer.Warnings, warning => warning.Contains("nearest that can be", StringComparison.Ordinal));
    }

    [Fact]
    public void A_colour_is_shown_in_all_its_ways()
    {
        Assert.True(new ShowColour().Handle("colour", "5P 4/8").TryGet(out var answer));
        Assert.Equal("5P 4/8", answer.Munsell.ToString());
        Assert.Equal("moderate purple", answer.Name.Name);
        Assert.True(answer.MunsellIsWithinData);
        Assert.True(answer.Chip.IsTrue);
        Assert.False(new ShowColour().Handle("colour", "no colour").TryGet(out _));
    }

    [Fact]
    public void Two_colours_are_compared_with_the_chance_that_the_eye_tells_them_apart()
    {
        Assert.True(new CompareColours().Handle("#5b3f7a", "#604080", "0.8").TryGet(out var answer));
        Assert.Equal(1.45, answer.De00, 0.005);
        Assert.InRange(answer.ChanceVisible!.Value, 0.8, 1);
        Assert.Equal(2, new CompareColours().Handle("x", "y", "0").Problems.Count);
    }
}
