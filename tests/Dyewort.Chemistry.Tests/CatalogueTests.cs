using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Chemistry.Tests;

public sealed class CatalogueTests
{
    [Theory]
    [InlineData("bicarbonate of soda", "baking-soda")]
    [InlineData("Baking Soda", "baking-soda")]
    [InlineData("sodium hydrogen carbonate", "baking-soda")]
    [InlineData("white vinegar 5 %", "white-vinegar")]
    [InlineData("white vinegar 5 % w/v", "white-vinegar")]
    [InlineData("household vinegar", "white-vinegar")]
    [InlineData("VINEGAR", "white-vinegar")]
    [InlineData("vinegar (5% acidity)", "white-vinegar")]
    [InlineData("copperas", "iron-sulfate")]
    [InlineData("ferrous sulphate", "iron-sulfate")]
    [InlineData("iron(II) sulfate (7 H2O)", "iron-sulfate")]
    [InlineData("iron (II) sulphate heptahydrate", "iron-sulfate")]
    [InlineData("iron", "iron-sulfate")]
    [InlineData("iron sulfate, fully air-oxidised", "iron-sulfate-oxidised")]
    [InlineData("rusty nails in vinegar", "iron-liquor")]
    [InlineData("alum", "alum")]
    [InlineData("alum (12 H2O)", "alum")]
    [InlineData("potassium aluminum sulfate", "alum")]
    [InlineData("ammonium alum", "ammonium-alum")]
    [InlineData("alum, anhydrous", "alum-anhydrous")]
    [InlineData("washing soda", "washing-soda-crystals")]
    [InlineData("washing soda crystals (10 H2O)", "washing-soda-crystals")]
    [InlineData("sodium carbonate decahydrate", "washing-soda-crystals")]
    [InlineData("soda ash (anhydrous, dense)", "soda-ash")]
    [InlineData("anhydrous washing soda", "soda-ash")]
    [InlineData("soda ash monohydrate", "soda-monohydrate")]
    [InlineData("citric acid (anhydrous)", "citric-acid")]
    [InlineData("citric acid monohydrate", "citric-acid-monohydrate")]
    [InlineData("gallic acid (1 H2O)", "gallic-acid")]
    [InlineData("copper sulfate (5 H2O)", "copper-sulfate")]
    [InlineData("blue vitriol", "copper-sulfate")]
    [InlineData("calcium acetate (1 H2O)", "calcium-acetate")]
    [InlineData("aluminium acetate, basic", "aluminium-acetate")]
    [InlineData("household ammonia 5 % w/w", "household-ammonia")]
    [InlineData("household ammonia", "household-ammonia")]
    [InlineData("wood-ash lye", "wood-ash-lye")]
    [InlineData("wood-ash lye 0.2 mol/L", "wood-ash-lye")]
    [InlineData("pickling lime", "slaked-lime")]
    [InlineData("whiting", "chalk")]
    [InlineData("eggshells", "chalk")]
    [InlineData("vitamin C", "ascorbic-acid")]
    [InlineData("cloves", "clove")]
    [InlineData("clove oil", "clove-oil")]
    [InlineData("methylated spirits", "denatured-alcohol")]
    [InlineData("ethanol 96 % v/v", "denatured-alcohol")]
    [InlineData("turmeric powder", "turmeric")]
    [InlineData("table salt", "salt")]
    [InlineData("crème de tartre", "cream-of-tartar")]
    [InlineData("cream of tartar", "cream-of-tartar")]
    [InlineData("potassium bicarbonate", "potassium-bicarbonate")]
    [InlineData("sodium benzoate", "sodium-benzoate")]
    [InlineData("E202", "potassium-sorbate")]
    [InlineData("lemon juice", "lemon-juice")]
    [InlineData("gum arabic", "gum-arabic")]
    [InlineData("glycerin", "glycerine")]
    public void A_common_name_finds_its_substance(string name, string key)
    {
        var found = SubstanceCatalogue.Standard.Find("add", name).TryGet(out var named) ? named.Substance.Key : null;
        Assert.Equal(key, found);
    }

    [Theory]
    [InlineData("bicarbonat of soda", "bicarbonate of soda")]
    [InlineData("allum", "alum")]
    [InlineData("coper sulfat", "copper sulfate")]
    public void An_unknown_name_is_refused_with_near_ones(string name, string near)
    {
        var outcome = SubstanceCatalogue.Standard.Find("add", name);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains($"“{near}”", outcome.Problems[0].Remedy, StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("unobtainium")]
    [InlineData("")]
    [InlineData("%%%")]
    [InlineData("vinegar 300 %")]
    [InlineData("alum 5 %")]
    [InlineData("vinegar and alum")]
    public void Nonsense_is_refused_in_one_sentence_and_a_remedy(string name)
    {
        var outcome = SubstanceCatalogue.Standard.Find("add", name);
        Assert.False(outcome.TryGet(out _));
        Assert.NotEmpty(outcome.Problems[0].What);
        Assert.NotEmpty(outcome.Problems[0].Remedy);
    }

    [Fact]
    public void Every_name_and_alias_of_the_tables_leads_to_its_own_row()
    {
        foreach (var substance in SubstanceCatalogue.Standard.Substances)
        {
            foreach (var name in (string[])[substance.Name, .. substance.Aliases])
            {
                Assert.True(
                    SubstanceCatalogue.Standard.Find("add", name).TryGet(out var named),
                    $"{name} of {substance.Key} is not found."
                );
                Assert.True(named.Substance.Key == substance.Key, $"“{name}” leads to {named.Substance.Key}, not to {substance.Key}.");
                Assert.True(
                    SubstanceCatalogue.Standard.Find("add", name.ToUpperInvariant()).TryGet(out _),
                    $"{name} in capitals is not found."
                );
            }
        }
    }

    [Fact]
    public void Every_substance_balances_its_charges()
    {
        foreach (var substance in SubstanceCatalogue.Standard.Substances)
        {
            var charge = substance
                .Ions.Moles.Where(pair => pair.Key != "H2O")
                .Sum(pair => pair.Value * Solving.Constants.ChargeOf(pair.Key));
            Assert.True(Math.Abs(charge) < 1e-12, $"{substance.Name} carries a charge of {charge}.");
        }
    }

    [Fact]
    public void A_teaspoon_weighs_what_the_table_says_for_metric_and_US_spoons_and_more_for_the_imperial()
    {
        Assert.True(SubstanceCatalogue.Standard.Find("add", "bicarbonate of soda").TryGet(out var soda));
        Assert.Equal(1.15, Portion.OfTeaspoons(soda, 0.25, 5).Grams, 1e-9);
        Assert.Equal(1.15, Portion.OfTeaspoons(soda, 0.25, 4.929).Grams, 1e-9);
        Assert.Equal(1.15 * 5.919 / 4.93, Portion.OfTeaspoons(soda, 0.25, 5.919).Grams, 1e-9);
    }

    [Theory]
    [InlineData("1/4 tsp", 1.15)]
    [InlineData("¼ tsp", 1.15)]
    [InlineData("2.5 g", 2.5)]
    [InlineData("1 pinch", 4.6 / 16)]
    public void An_amount_is_weighed_as_it_was_said(string text, double grams)
    {
        Assert.True(SubstanceCatalogue.Standard.Find("add", "bicarbonate of soda").TryGet(out var soda));
        Assert.True(Amount.Parse("add", text).TryGet(out var amount));
        Assert.True(Portion.Measured("add", soda, amount, Teaspoon.Metric).TryGet(out var portion));
        Assert.Equal(grams, portion.Grams, 1e-9);
    }

    [Fact]
    public void Four_cloves_and_three_drops_have_a_weight_and_two_lemons_of_alum_do_not()
    {
        Assert.True(SubstanceCatalogue.Standard.Find("add", "cloves").TryGet(out var clove));
        Assert.True(SubstanceCatalogue.Standard.Find("add", "vinegar").TryGet(out var vinegar));
        Assert.True(SubstanceCatalogue.Standard.Find("add", "alum").TryGet(out var alum));
        Assert.True(Amount.Parse("add", "4 cloves").TryGet(out var four));
        Assert.True(Amount.Parse("add", "3 drops").TryGet(out var drops));
        Assert.True(Amount.Parse("add", "2 leaves").TryGet(out var pieces));
        Assert.True(Portion.Measured("add", clove, four, Teaspoon.Metric).TryGet(out var cloves));
        Assert.Equal(0.32, cloves.Grams, 1e-9);
        Assert.True(Portion.Measured("add", vinegar, drops, Teaspoon.Metric).TryGet(out var three));
        Assert.Equal(0.15, three.Millilitres, 1e-9);
        Assert.False(Portion.Measured("add", alum, pieces, Teaspoon.Metric).TryGet(out _));
    }

    [Fact]
    public void Weighing_ten_spoons_narrows_the_spread()
    {
        Assert.True(SubstanceCatalogue.Standard.Find("add", "soda ash").TryGet(out var ash));
        var weighed = ash with { Substance = ash.Substance.Weighed(3.1) };
        var (before, after) = (Portion.OfTeaspoons(ash, 1), Portion.OfTeaspoons(weighed, 1));
        Assert.Equal(3.1, after.Grams, 1e-9);
        Assert.True(after.HighFactor - after.LowFactor < 0.5 * (before.HighFactor - before.LowFactor));
        Assert.Same(weighed.Substance, SubstanceCatalogue.Standard.With(weighed.Substance).ByKey("soda-ash"));
    }
}
