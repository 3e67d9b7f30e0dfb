using CsCheck;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class DifferenceTests
{
    private const double PrintedTo4Decimals = 0.00005;
    private static readonly Gen<Lab> Labs = Gen.Select(
        Gen.Double[0, 100],
        Gen.Double[-90, 90],
        Gen.Double[-90, 90],
        (l, a, b) => new Lab(l, a, b)
    );

    [Fact, Published("Sharma2005", "Table 1, all 34 pairs")]
    public void Ciede2000_gives_the_published_difference_both_ways_round()
    {
        var rows = Data.Published("sharma2005-ciede2000.csv");
        Assert.Equal(34, rows.Count);
        foreach (var row in rows)
        {
            Assert.Equal(row.Number("dE00"), Difference.Ciede2000(row.Lab("1"), row.Lab("2")), PrintedTo4Decimals);
            Assert.Equal(row.Number("dE00"), Difference.Ciede2000(row.Lab("2"), row.Lab("1")), PrintedTo4Decimals);
        }
    }

    [Fact]
    public void Ciede2000_is_symmetric_and_zero_only_for_equals() =>
        Gen.Select(Labs, Labs)
            .Sample(
                (first, second) =>
                {
                    Assert.Equal(Difference.Ciede2000(first, second), Difference.Ciede2000(second, first), 1e-9);
                    Assert.Equal(0, Difference.Ciede2000(first, first));
                    // Colours closer than doubles can tell are equals to any formula that squares their distance.
                    if (Math.Abs(first.L - second.L) + Math.Abs(first.A - second.A) + Math.Abs(first.B - second.B) > 1e-9)
                        Assert.True(Difference.Ciede2000(first, second) > 0);
                    Assert.True(double.IsNaN(Difference.Ciede2000(first, new(double.NaN, 0, 0))));
                }
            );

    [Fact]
    public void Weights_divide_their_part()
    {
        var (first, second) = (new Lab(40, 0, 0), new Lab(50, 0, 0));
        Assert.Equal(Difference.Ciede2000(first, second) / 2, Difference.Ciede2000(first, second, kL: 2), 1e-12);
        Assert.Equal(Difference.Ciede2000(first, second), Difference.Ciede2000(first, second, kC: 2, kH: 3), 1e-12);
    }

    [Fact]
    public void Parts_of_a_difference_add_up_in_squares() =>
        Gen.Select(Labs, Labs)
            .Sample(
                (first, second) =>
                {
                    var (l, c, h) = Difference.Split(first, second);
                    Assert.Equal(Difference.Cie1976(first, second), Math.Sqrt((l * l) + (c * c) + (h * h)), 1e-8);
                }
            );

    // Worked by hand from the formula of ISO 105-J03: at L* 50 on the grey axis S_L = 0.040975·50/1.8825 = 1.088314,
    // S_C = 0.638; a pure lightness step of 2 is 2/1.088314, a chroma step of 2 from grey 2/0.638.
    [Theory, Published("ISO105-J03", "the formula, worked by hand")]
    [InlineData(52, 0, 1, 1.837705)]
    [InlineData(52, 0, 2, 0.918853)]
    [InlineData(50, 2, 1, 3.134796)]
    public void Cmc_of_simple_steps_from_grey(double l, double a, double weight, double expected) =>
        Assert.Equal(expected, Difference.Cmc(new(50, 0, 0), new(l, a, 0), weight), 1e-5);

    [Fact, Published("ISO105-A05", "the scale of ISO 105-A02: neutral pairs")]
    public void Neutral_pairs_get_their_grades()
    {
        foreach (var row in Data.Published("iso105-a02-a03-scales.csv"))
        {
            var step = row.Number("dE_nominal");
            var white = row["scale"].StartsWith("staining", StringComparison.Ordinal);
            var rating = white
                ? GreyScale.Staining(new(95, 0, 0), new(95 - step, 0, 0))
                : GreyScale.Change(new(50, 0, 0), new(50 + step, 0, 0));
            Assert.Equal(row["grade"], rating.Grade);
        }
    }

    [Fact, Published("ISO105-A05", "worked values, computed by a separate program from the restated formula")]
    public void Changes_get_the_worked_ratings()
    {
        var rows = Data.Published("iso105-a05-worked.csv");
        Assert.Equal(11, rows.Count);
        foreach (var row in rows)
        {
            var rating = GreyScale.Change(row.Lab("0"), row.Lab("1"));
            Assert.Equal(row.Number("dE76"), Difference.Cie1976(row.Lab("0"), row.Lab("1")), PrintedTo4Decimals);
            Assert.Equal(row.Number("dEF"), rating.Difference, PrintedTo4Decimals);
            Assert.Equal(row.Number("GS_formula"), rating.Rating, PrintedTo4Decimals);
            Assert.Equal(row["grade_table"], rating.Grade);
        }
    }

    [Theory, Published("ISO105-A04", "worked values, computed by a separate program from the restated formula")]
    [InlineData(95, 0, 2, 92.8, 0, 2, 2.2, 4.494)]
    [InlineData(95, 0, 2, 90, 3, 6, 5.0711, 3.7459)]
    [InlineData(94, -1, 3, 80, 15, -5, 15.5602, 2.1202)]
    [InlineData(95, 0, 0, 60.9, 0, 0, 34.1, 1)]
    public void Stains_get_the_worked_ratings(
        double l0,
        double a0,
        double b0,
        double l1,
        double a1,
        double b1,
        double difference,
        double rating
    )
    {
        var stain = GreyScale.Staining(new(l0, a0, b0), new(l1, a1, b1));
        Assert.Equal(difference, stain.Difference, PrintedTo4Decimals);
        Assert.Equal(rating, stain.Rating, PrintedTo4Decimals);
    }

    [Theory]
    [InlineData(50, 0, 30, 50, 0, 30, "the same")]
    [InlineData(50, 0, 30, 50.1, 0, 30, "the same")]
    [InlineData(50, 0, 30, 51, 0, 30, "a little lighter")]
    [InlineData(50, 0, 30, 40, 0, 30, "much darker")]
    [InlineData(50, 30, 0, 50, 36, 0, "clearly stronger")]
    [InlineData(50, 30, 0, 50, 20, 0, "much greyer")]
    [InlineData(50, 2, 40, 50.8, -2, 40, "clearly greener, a little lighter")]
    [InlineData(50, 30, 2, 50, 30, -2, "clearly bluer")]
    [InlineData(50, 0, 0, 50, -3, 0, "much greener")]
    [InlineData(50, 0, 0, 50, 0, 2, "clearly yellower")]
    public void A_difference_is_said_in_a_makers_words(double l0, double a0, double b0, double l1, double a1, double b1, string words) =>
        Assert.Equal(words, DifferenceWords.Say(new(l0, a0, b0), new(l1, a1, b1)));

    [Fact]
    public void Words_never_fail() => Gen.Select(Labs, Labs).Sample((first, second) => Assert.NotEmpty(DifferenceWords.Say(first, second)));
}
