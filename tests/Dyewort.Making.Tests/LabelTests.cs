using Dyewort.Chemistry;
using Xunit;

namespace Dyewort.Making.Tests;

public sealed class LabelTests
{
    private static LabelContent Named(string name)
    {
        Assert.True(SubstanceCatalogue.Standard.Find("name", name).TryGet(out var found));
        return new LabelContent(name, found.Substance.Hazard);
    }

    [Fact]
    public void Every_label_says_that_it_is_no_food()
    {
        var text = LabelText.Of(new LabelFacts { Name = "Plain", Code = "AAA-AAA" });
        Assert.Equal([LabelText.NotForEating, LabelText.LooksWrong], text.Warnings);
        Assert.Equal("AAA-AAA", text.Square);
    }

    [Fact]
    public void Hazards_of_what_is_in_it_are_named()
    {
        var text = LabelText.Of(
            new LabelFacts
            {
                Name = "Marsh Gall",
                Code = "AAC-AD7",
                Contents = [Named("copperas"), Named("copperas"), Named("clove oil"), new("honey", null)],
                Caution = "may weaken paper; not for fountain pens",
                MadeOn = new DateOnly(2025, 10, 25),
                KeepBy = new DateOnly(2026, 10, 25),
                ChartPosition = "C3 B2",
            }
        );
        Assert.Equal("Contains copperas, clove oil and honey.", text.Warnings[1]);
        Assert.Equal(
            "Clove oil, undiluted: may be fatal if swallowed and enters airways; causes skin irritation; may cause an allergic "
                + "skin reaction; causes serious eye irritation.",
            text.Warnings[2]
        );
        Assert.Equal("Copperas, undiluted: harmful if swallowed; causes skin irritation; causes serious eye irritation.", text.Warnings[3]);
        Assert.Equal("Honey: not in our list; that does not mean safe.", text.Warnings[4]);
        Assert.Equal("May weaken paper; not for fountain pens.", text.Warnings[^2]);
        Assert.Equal(["chart C3 B2", "made 2025-10-25", "keep by 2026-10-25"], text.Facts);
    }

    [Fact]
    public void The_worse_of_two_statements_stands_for_both()
    {
        var text = LabelText.Of(
            new LabelFacts
            {
                Name = "Sea Water",
                Code = "AAC-AD7",
                Contents = [Named("copper sulphate"), Named("citric acid")],
            }
        );
        Assert.Contains("serious eye damage", text.Warnings[2], StringComparison.Ordinal);
        Assert.DoesNotContain("eye irritation", text.Warnings[2], StringComparison.Ordinal);
    }

    /// <summary>Worked by hand: 1.2 g of iron sulfate and 0.1 g of clove oil in 100 ml are below 10 % (H319) and 1 % (H317), but above a
    /// tenth of that for the oil (EUH208); 3 g of copper sulfate are at the 3 % of eye damage and above the 2.5 % of H411.</summary>
    [Fact]
    public void What_is_in_the_ink_is_classed_at_its_strength_in_the_ink()
    {
        var weak = LabelText.Of(
            new LabelFacts
            {
                Name = "Marsh Gall",
                Code = "AAC-AD7",
                Contents = [Named("copperas") with { GramsPer100Ml = 1.2 }, Named("clove oil") with { GramsPer100Ml = 0.1 }],
            }
        );
        Assert.Equal("Contains copperas 1.2 % and clove oil 0.1 %.", weak.Warnings[1]);
        Assert.StartsWith("By the rules for mixtures no hazard statement remains", weak.Warnings[2], StringComparison.Ordinal);
        Assert.Contains("licensed work", weak.Warnings[2], StringComparison.Ordinal);
        Assert.Equal("Clove oil may produce an allergic reaction.", weak.Warnings[3]);

        var strong = LabelText.Of(
            new LabelFacts
            {
                Name = "Sea Water",
                Code = "AAC-AD7",
                Contents = [Named("copper sulphate") with { GramsPer100Ml = 3 }],
            }
        );
        Assert.StartsWith(
            "Danger. By the rules for mixtures: causes serious eye damage; very toxic to aquatic life",
            strong.Warnings[2],
            StringComparison.Ordinal
        );

        // One thing without an amount, and the rules cannot be worked: each is named as it was poured.
        var half = LabelText.Of(
            new LabelFacts
            {
                Name = "Half",
                Code = "AAC-AD7",
                Contents = [Named("copper sulphate") with { GramsPer100Ml = 3 }, Named("clove oil")],
            }
        );
        Assert.DoesNotContain(half.Warnings, warning => warning.Contains("mixtures", StringComparison.Ordinal));
        Assert.Contains(half.Warnings, warning => warning.StartsWith("Clove oil, undiluted", StringComparison.Ordinal));
    }

    /// <summary>5 % vinegar is no acid of trade strength; alcohol counts by volume.</summary>
    [Fact]
    public void A_liquid_counts_at_the_strength_of_its_bottle()
    {
        Assert.True(SubstanceCatalogue.Standard.Find("name", "vodka").TryGet(out var vodka));
        var text = LabelText.Of(
            new LabelFacts
            {
                Name = "Spirit ink",
                Code = "AAC-AD7",
                Contents =
                [
                    Named("white vinegar") with
                    {
                        GramsPer100Ml = 20,
                        MlPer100Ml = 20,
                    },
                    new("vodka", vodka.Substance.Hazard) { GramsPer100Ml = 48, MlPer100Ml = 50 },
                ],
            }
        );
        // Half of a 40 % spirit is 20 % by volume: a flammable liquid.
        Assert.StartsWith("Warning. By the rules for mixtures: flammable liquid and vapour (", text.Warnings[2], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("pokeberries", "Phytolacca americana")]
    [InlineData("walnut hulls", "May cause allergy: tree nut (walnut).")]
    public void A_label_names_the_plant_and_what_it_does(string plant, string says)
    {
        var text = LabelText.Of(
            new LabelFacts
            {
                Name = "Dusk",
                Code = "AAC-AD7",
                Plants = [plant],
            }
        );
        Assert.Contains(text.Warnings, warning => warning.Contains(says, StringComparison.Ordinal));
    }

    [Fact]
    public void A_recipe_is_said_in_words()
    {
        Assert.Equal(
            "elderberry with alum 2 g and clove oil 2 drops to 100 ml",
            LabelText.RecipeWords("elderberry", [("alum", "2 g"), ("clove oil", "2 drops")], "100 ml")
        );
        Assert.Equal("alum 2 g to 100 ml", LabelText.RecipeWords(null, [("alum", "2 g")], "100 ml"));
        Assert.Equal("weld", LabelText.RecipeWords("weld", [], "100 ml"));
    }

    [Theory]
    [InlineData(
        """{"page":"A4","columns":3,"rows":7,"widthMm":63.5,"heightMm":38.1,"leftMm":7.25,"topMm":15.15,"gapXMm":2.5,"gapYMm":0}""",
        21
    )]
    [InlineData("""{"page":"100x60","columns":1,"rows":1,"widthMm":100,"heightMm":60,"leftMm":0,"topMm":0}""", 1)]
    public void Label_sheets_are_described_by_their_dimensions(string json, int labels)
    {
        Assert.True(LabelSheet.Parse("front", json).TryGet(out var sheet));
        Assert.Equal(labels, sheet.Places.Count);
        Assert.All(
            sheet.Places,
            place => Assert.True(place.X >= 0 && place.Right <= sheet.Page.WidthMm + 0.01 && place.Bottom <= sheet.Page.HeightMm + 0.01)
        );
    }

    [Theory]
    [InlineData("""{"page":"A4","columns":4,"rows":7,"widthMm":63.5,"heightMm":38.1,"leftMm":7.25,"topMm":15.15}""", "beyond A4")]
    [InlineData("""{"page":"A4","columns":3,"rows":0,"widthMm":63.5,"heightMm":38.1,"leftMm":7.25,"topMm":15.15}""", "missing")]
    [InlineData("""{"page":"A4","columns":3,"rows":2,"widthMm":63.5,"heightMm":38.1,"leftMm":7.25,"topMm":15.15,"gapXMm":-3}""", "missing")]
    [InlineData("""{"page":"A4","columns":3,"rows":2,"widthMm":20,"heightMm":10,"leftMm":7.25,"topMm":15.15,"round":true}""", "round")]
    [InlineData("""{"page":"A99"}""", "page size")]
    [InlineData("""{"columns":"three"}""", "JSON")]
    [InlineData("null", "nothing")]
    public void A_sheet_that_cannot_be_is_refused(string json, string part) =>
        Assert.Contains(part, Assert.Single(LabelSheet.Parse("front", json).Problems).What, StringComparison.Ordinal);

    [Fact]
    public void The_usual_sheets_are_sound()
    {
        foreach (var sheet in new[] { LabelSheet.UsualFront, LabelSheet.UsualCap })
            Assert.All(
                sheet.Places,
                place => Assert.True(place.X > 0 && place.Right < sheet.Page.WidthMm && place.Y > 0 && place.Bottom < sheet.Page.HeightMm)
            );
    }
}
