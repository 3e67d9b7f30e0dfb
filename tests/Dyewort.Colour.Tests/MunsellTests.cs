using CsCheck;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class MunsellTests
{
    [Fact, Published("Newhall1943", "Table I, the 2734 real samples")]
    public void Every_real_sample_has_its_printed_chromaticity_and_luminance()
    {
        var rows = Data.Read(Repository.PathOf("src", "Dyewort.Colour", "Tables", "munsell.csv"));
        Assert.Equal(2734, rows.Count);
        foreach (var row in rows)
        {
            Assert.True(MunsellNotation.Parse("sample", $"{row["hue"]} {row["value"]}/{row["chroma"]}").TryGet(out var notation));
            var colour = Munsell.ToChromaticity(notation);
            Assert.Equal(row.Number("x"), colour.X, 1e-12);
            Assert.Equal(row.Number("y"), colour.Y, 1e-12);
            Assert.Equal(0.975 * row.Number("luminance"), colour.Luminance, 1e-9);
            Assert.True(Munsell.IsWithinData(notation));
        }
    }

    [Fact]
    public void Every_real_sample_is_found_again_from_its_chromaticity()
    {
        foreach (var row in Data.Read(Repository.PathOf("src", "Dyewort.Colour", "Tables", "munsell.csv")))
        {
            Assert.True(MunsellNotation.Parse("sample", $"{row["hue"]} {row["value"]}/{row["chroma"]}").TryGet(out var notation));
            var colour = Munsell.ToChromaticity(notation);
            var back = Munsell.ToChromaticity(Munsell.FromChromaticity(colour));
            Assert.InRange(
                Difference.Ciede2000(Lab.FromXyz(colour.ToXyz(), WhitePoint.C), Lab.FromXyz(back.ToXyz(), WhitePoint.C)),
                0,
                0.1
            );
        }
    }

    [Fact]
    public void Any_colour_within_the_data_comes_back() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[1, 9], Gen.Double[0, 26])
            .Sample(
                (hue, value, chroma) =>
                {
                    var notation = new MunsellNotation(hue, value, chroma);
                    if (!Munsell.IsWithinData(notation))
                        return true;
                    var colour = Munsell.ToChromaticity(notation);
                    var back = Munsell.ToChromaticity(Munsell.FromChromaticity(colour));
                    return Difference.Ciede2000(Lab.FromXyz(colour.ToXyz(), WhitePoint.C), Lab.FromXyz(back.ToXyz(), WhitePoint.C)) < 0.1;
                },
                iter: 20_000,
                // A sample that failed once is tried first.
                seed: Environment.GetEnvironmentVariable("CsCheck_Seed") ?? "0000KZ7cVSfG"
            );

    [Fact]
    public void Any_screen_colour_comes_back() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1])
            .Sample(
                (r, g, b) =>
                {
                    var colour = RgbSpace.Srgb.ToXyz(new(r, g, b));
                    return Difference.Ciede2000(Lab.FromXyz(colour), Lab.FromXyz(Munsell.ToXyz(Munsell.FromXyz(colour)))) < 0.1;
                },
                iter: 3000
            );

    [Theory]
    [InlineData("5P 4/8", 85, 4, 8, "5P 4/8")]
    [InlineData("5p4/8", 85, 4, 8, "5P 4/8")]
    [InlineData("2.5 YR 6.5 / 10", 12.5, 6.5, 10, "2.5YR 6.5/10")]
    [InlineData("10RP 3/2", 100, 3, 2, "10RP 3/2")]
    [InlineData("10R 3/2", 10, 3, 2, "10R 3/2")]
    [InlineData("0YR 3/2", 10, 3, 2, "10R 3/2")]
    [InlineData("N 5/", 0, 5, 0, "N 5/")]
    [InlineData("N7.5", 0, 7.5, 0, "N 7.5/")]
    public void A_notation_is_read_and_printed(string text, double hue, double value, double chroma, string printed)
    {
        Assert.True(MunsellNotation.Parse("colour", text).TryGet(out var notation));
        Assert.Equal(new MunsellNotation(hue, value, chroma), notation);
        Assert.Equal(printed, notation.ToString());
    }

    [Theory]
    [InlineData("5P 11/8", "above 10")]
    [InlineData("12P 4/8", "above 10")]
    [InlineData("5P 4/80", "above 50")]
    [InlineData("5P 4", "not a Munsell notation")]
    [InlineData("", "not a Munsell notation")]
    [InlineData(null, "not a Munsell notation")]
    public void A_wrong_notation_is_refused_with_its_reason(string? text, string reason)
    {
        var outcome = MunsellNotation.Parse("colour", text);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(reason, outcome.Problems[0].What, StringComparison.Ordinal);
    }

    [Fact, Published("Kelly1958", "all 267 central colours")]
    public void Every_central_colour_is_named_by_its_own_name()
    {
        Assert.Equal(267, ColourName.All.Count);
        foreach (var name in ColourName.All)
        {
            Assert.Equal(name.Name, ColourName.Of(name.Centre).Name);
            Assert.Equal(name, ColourName.Find(name.Name));
            Assert.Equal(name.Name, ColourName.Of(Munsell.ToXyz(name.Centre)).Name);
        }
    }

    [Fact, Published("Kelly1976", "section 13: 29 names at level 2")]
    public void Level_two_has_twenty_nine_names() =>
        Assert.Equal(
            [
                "black",
                "blue",
                "bluish green",
                "brown",
                "gray",
                "green",
                "greenish blue",
                "greenish yellow",
                "olive",
                "olive brown",
                "olive green",
                "orange",
                "orange yellow",
                "pink",
                "purple",
                "purplish blue",
                "purplish pink",
                "purplish red",
                "red",
                "reddish brown",
                "reddish orange",
                "reddish purple",
                "violet",
                "white",
                "yellow",
                "yellow green",
                "yellowish brown",
                "yellowish green",
                "yellowish pink",
            ],
            ColourName.All.Select(name => name.Family).Distinct().Order(StringComparer.Ordinal)
        );

    [Fact]
    public void Every_colour_has_a_name() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[0, 10], Gen.Double[0, 30])
            .Sample((hue, value, chroma) => ColourName.Of(new MunsellNotation(hue, value, chroma)).Number is >= 1 and <= 267, iter: 20_000);

    [Theory]
    [InlineData("Dark Grayish-Purple")]
    [InlineData("dark greyish  purple")]
    public void A_name_is_found_as_people_write_it(string text) => Assert.Equal("dark grayish purple", ColourName.Find(text)!.Name);
}
