using Dyewort.Colour;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class PaperKindTests
{
    /// <summary>Papers and white balances drawn as the guess believes them: the paper lies within the stated 95 % that often, and not much
    /// more.</summary>
    [Theory, InlineData(false), InlineData(true)]
    public void The_stated_doubt_of_a_guess_holds_for_papers_drawn_as_it_believes(bool scan)
    {
        var random = new Random(72);
        const int Draws = 3000;
        double inside = 0;
        for (var draw = 0; draw < Draws; draw++)
        {
            var paper = Draw(random.NextDouble() < 0.8 ? PaperKind.Natural : PaperKind.Bright, random);
            var (a, b) =
                scan ? (0.7, 0.9)
                : random.NextDouble() < 0.7 ? (1.5, 2.0)
                : (5, 7);
            var guess = PaperColour.Guess(new(95, paper.A + (a * Normal(random)), paper.B + (b * Normal(random))), scan);
            Assert.False(guess.Known);
            if (Difference.Ciede2000(guess.Colour, paper) <= Uncertainty.TwoSided * guess.Doubt)
                inside++;
        }

        Assert.InRange(inside / Draws, 0.93, 0.99);
    }

    [Theory, InlineData(PaperKind.Natural), InlineData(PaperKind.Bright), InlineData(PaperKind.Cream), InlineData(PaperKind.Brown)]
    public void The_guess_before_any_photo_holds_nineteen_of_twenty_such_papers(PaperKind kind)
    {
        var random = new Random(5);
        var guess = PaperGuess.All.Single(one => one.Kind == kind);
        var inside = Enumerable.Range(0, 4000).Count(_ => Difference.Ciede2000(guess.Colour, Draw(kind, random)) <= guess.UncertaintyDe00);
        Assert.InRange(inside / 4000.0, 0.94, 0.995);
    }

    [Fact]
    public void A_paper_that_is_named_is_guessed_among_its_kind_alone()
    {
        // Seen as white, said to be brown: the camera is believed a little, the word more.
        var seen = new Lab(95, 0, 3);
        Assert.Equal(68, PaperColour.Guess(seen, scan: false, PaperKind.Brown).Colour.L, 1e-9);
        Assert.InRange(PaperColour.Guess(seen, scan: false, PaperKind.Brown).Colour.B, 8, 22);
        Assert.True(PaperColour.Guess(seen, scan: false).Colour.L > 95);
    }

    [Fact]
    public void A_white_between_two_kinds_of_paper_is_doubted_most()
    {
        double Doubt(double b) => PaperColour.Guess(new(95, 0.4, b), scan: false).Doubt;
        Assert.True(Doubt(-1) > 1.25 * Doubt(5), $"{Doubt(-1):0.00} and {Doubt(5):0.00}");
    }

    private static Lab Draw(PaperKind kind, Random random)
    {
        var guess = PaperGuess.All.Single(one => one.Kind == kind);
        return new(
            guess.Colour.L + (guess.Spread.L * Normal(random)),
            guess.Colour.A + (guess.Spread.A * Normal(random)),
            guess.Colour.B + (guess.Spread.B * Normal(random))
        );
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
