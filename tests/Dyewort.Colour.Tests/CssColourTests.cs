using CsCheck;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class CssColourTests
{
    [Theory, Published("CSS4", "sections 5 to 10: the same colour in several notations")]
    [InlineData("#0af", "#00aaff")]
    [InlineData("#5B3F7A", "#5b3f7a")]
    [InlineData("rebeccapurple", "#663399")]
    [InlineData("rgb(91, 63, 122)", "#5b3f7a")]
    [InlineData("rgb(91 63 122 / 1)", "#5b3f7a")]
    [InlineData("rgb(100% 0% 50%)", "#ff0080")]
    [InlineData("rgb(300 -5 none)", "#ff0000")]
    [InlineData("hsl(120deg 100% 25%)", "#008000")]
    [InlineData("hsl(-240, 100%, 25%)", "#008000")]
    [InlineData("hsl(0.3333333333turn 100% 25%)", "#008000")]
    [InlineData("hwb(120 0% 49.8%)", "#008000")]
    [InlineData("hwb(0 20% 40%)", "#993333")]
    [InlineData("hwb(60 30% 90%)", "#404040")]
    [InlineData("color(xyz 7.719% 15.438% 2.573%)", "#008000")]
    [InlineData("color(xyz-d50 8.314% 15.4744% 2.0951%)", "#008000")]
    [InlineData("lab(46.2775% -47.5621 48.5837)", "#008000")]
    [InlineData("lch(46.2775% 67.9892 134.3912)", "#008000")]
    [InlineData("oklab(51.975% -0.1403 0.10768)", "#008000")]
    [InlineData("oklch(51.975% 0.17686 142.495)", "#008000")]
    [InlineData("color(srgb 0 0.50196 0)", "#008000")]
    [InlineData("color(srgb-linear 0 0.21586 0)", "#008000")]
    [InlineData("color(display-p3 0.21604 0.49418 0.13151)", "#008000")]
    [InlineData("color(a98-rgb 0.281363 0.498012 0.116746)", "#008000")]
    [InlineData("color(prophoto-rgb 0.230479 0.395789 0.129968)", "#008000")]
    [InlineData("color(xyz-d50 0.08314 0.154744 0.020951)", "#008000")]
    [InlineData("color(xyz 0.07719 0.15438 0.02573)", "#008000")]
    public void Notations_of_one_colour_agree(string text, string hex) => Assert.Equal(hex, CssColour.Hex(Data.Colour(text)));

    [Theory]
    [InlineData("5P 4/8")]
    [InlineData("N 5/")]
    [InlineData("dark grayish purple")]
    [InlineData("40,20,-30")]
    [InlineData("40, 20, -30")]
    [InlineData("color(--lab-d65 40 20 -30)")]
    public void A_colour_may_be_typed_in_each_of_its_ways(string text) => Assert.True(ColourText.Parse("colour", text).TryGet(out _));

    [Fact]
    public void Css_lab_is_under_D50_and_the_programs_own_under_D65()
    {
        var own = Lab.FromXyz(Data.Colour("color(--lab-d65 40 20 -30)"));
        Assert.Equal((40.0, 20.0, -30.0), (Math.Round(own.L, 9), Math.Round(own.A, 9), Math.Round(own.B, 9)));
        var css = Lab.FromXyz(Data.Colour("lab(40 20 -30)"));
        Assert.Equal(-29.78, css.B, 0.01);
    }

    [Theory]
    [InlineData("", "No colour")]
    [InlineData("#12", "not a CSS colour")]
    [InlineData("#12345g", "not a CSS colour")]
    [InlineData("rgb(1 2)", "not a CSS colour")]
    [InlineData("rgb(1 2 x)", "not a CSS colour")]
    [InlineData("lab(1e999 0 0)", "not a CSS colour")]
    [InlineData("color(nowhere 1 1 1)", "not a CSS colour")]
    [InlineData("frob(1 2 3)", "not a CSS colour")]
    [InlineData("oklch(0.5 0.1 50%)", "not a CSS colour")]
    [InlineData("#5b3f7a80", "show through")]
    [InlineData("lab(50 9999 0)", "far outside")]
    [InlineData("5P 44/8", "above 10")]
    [InlineData("sort of mauve", "not a colour")]
    public void What_is_no_colour_is_refused_with_its_reason(string text, string reason)
    {
        var outcome = ColourText.Parse("colour", text);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(reason, Assert.Single(outcome.Problems).What, StringComparison.Ordinal);
        Assert.NotEmpty(outcome.Problems[0].Remedy);
    }

    [Fact]
    public void A_misspelt_name_gets_a_suggestion()
    {
        Assert.False(ColourText.Parse("colour", "dark greyish purpel").TryGet(out _));
        Assert.Contains(
            "dark grayish purple",
            ColourText.Parse("colour", "dark greyish purpel").Problems[0].Remedy,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Printed_colours_read_back() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 1], Gen.Double[0, 1])
            .Sample(
                (r, g, b) =>
                {
                    var colour = RgbSpace.Srgb.ToXyz(new(r, g, b));
                    foreach (
                        var text in new[]
                        {
                            CssColour.LabText(colour),
                            CssColour.LchText(colour),
                            CssColour.OklabText(colour),
                            CssColour.OklchText(colour),
                            CssColour.ColorText(colour, RgbSpace.DisplayP3),
                        }
                    )
                        Assert.InRange(Difference.Ciede2000(Lab.FromXyz(colour), Lab.FromXyz(Data.Colour(text))), 0, 0.02);
                    Assert.InRange(Difference.Ciede2000(Lab.FromXyz(colour), Lab.FromXyz(Data.Colour(CssColour.Hex(colour)))), 0, 0.9);
                },
                iter: 2000
            );

    [Fact]
    public void Garbage_never_throws() =>
        Gen.String[Gen.Char["#()/%,. -0123456789abcdefglnorstNRYGBP"], 0, 30]
            .Sample(text => ColourText.Parse("colour", text).Problems.Count >= 0, iter: 3000);

    [Fact]
    public void A_chip_outside_sRGB_says_so_and_stays_near_in_hue()
    {
        var colour = Data.Colour("color(display-p3 0 1 0)");
        var chip = SrgbChip.Of(colour);
        Assert.False(chip.IsTrue);
        Assert.InRange(chip.DifferenceDe00, 1, 10);
        Assert.True(SrgbChip.Of(Data.Colour("#12ab34")).IsTrue);
        Assert.Equal("#12ab34", SrgbChip.Of(Data.Colour("#12ab34")).Hex);
    }
}
