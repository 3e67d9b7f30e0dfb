using Xunit;

namespace Dyewort.Chemistry.Tests;

/// <summary>Sums of the trade. What follows from molar masses is exact; the rest says where it comes from.</summary>
public sealed class TradeTests
{
    [Fact]
    public void Ten_grams_of_alum_take_between_3_35_and_6_7_g_of_soda_ash_and_give_0_76_litres_and_1_64_g()
    {
        Assert.True(Lake.Plan(Named("alum"), 10, Named("soda ash"), 500).TryGet(out var lake));
        Assert.Equal(0.335, lake.LeastAlkaliGrams / 10, 0.0005);
        Assert.Equal(0.670, lake.MostAlkaliGrams / 10, 0.0005);
        Assert.Equal(760, lake.MostGasMillilitres, 1.0);
        Assert.Equal(1.644, lake.WhiteBodyGrams, 0.001);
        Assert.True(lake.BucketMillilitres >= 1260);
    }

    /// <summary>By hand: 10 g of alum are 10 / 474.39 = 21.08 mmol with 42.16 mmol of sulfate and ask for 63.24 mmol of alkali, 31.62 mmol
    /// of
    /// chalk or lime. Their calcium meets enough sulfate: 31.62 mmol × 172.17 g/mol = 5.444 g of gypsum, of which half a litre holds 1.2 g
    /// (2.4 g/L). Molar masses from IUPAC's standard atomic weights.</summary>
    [Theory]
    [InlineData("chalk", 3.165)]
    [InlineData("slaked lime", 2.343)]
    public void A_lake_with_chalk_or_lime_holds_its_gypsum(string alkali, double least)
    {
        Assert.True(Lake.Plan(Named("alum"), 10, Named(alkali), 500).TryGet(out var lake));
        Assert.Equal(least, lake.LeastAlkaliGrams, 0.001);
        Assert.Equal(5.444 - 1.2, lake.GypsumGrams, 0.002);
        Assert.Equal(1.644 + 4.244, lake.BodyGrams, 0.003);
        Assert.Contains("4.24 g of gypsum", lake.Words, StringComparison.Ordinal);
        Assert.Contains("as it should be", lake.Judge(9), StringComparison.Ordinal);
        Assert.True(Lake.Plan(Named("alum"), 10, Named("soda ash"), 500).TryGet(out var soda));
        Assert.Equal(0, soda.GypsumGrams);
        Assert.DoesNotContain("gypsum", soda.Words, StringComparison.Ordinal);
        // Acetate brings no sulfate, so there is no gypsum to fall.
        Assert.True(Lake.Plan(Named("aluminium triacetate"), 10, Named(alkali), 500).TryGet(out var acetate));
        Assert.Equal(0, acetate.GypsumGrams);
    }

    [Fact]
    public void Nobody_is_told_to_taste()
    {
        Assert.True(Lake.Plan(Named("alum"), 10, Named("soda ash"), 500).TryGet(out var lake));
        Assert.DoesNotContain("taste", lake.Judge(5), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Crystals_are_2_70_times_soda_ash_and_aluminium_sulfate_0_70_times_alum()
    {
        Assert.True(Lake.Plan(Named("alum"), 10, Named("soda ash"), 500).TryGet(out var ash));
        Assert.True(Lake.Plan(Named("alum"), 10, Named("washing soda crystals"), 500).TryGet(out var crystals));
        Assert.Equal(2.70, crystals.LeastAlkaliGrams / ash.LeastAlkaliGrams, 0.005);
        Assert.True(Lake.Plan(Named("aluminium sulfate"), 7.02, Named("soda ash"), 500).TryGet(out var sulfate));
        Assert.Equal(ash.WhiteBodyGrams, sulfate.WhiteBodyGrams, 0.002);
        Assert.True(Lake.Plan(Named("alum"), 10, Named("bicarbonate of soda"), 500).TryGet(out var soda));
        Assert.Equal(0.53, soda.LeastAlkaliGrams / 10, 0.005);
    }

    [Fact]
    public void The_solver_agrees_that_the_least_soda_drops_the_alum_out_hot_and_open_and_half_of_it_does_not()
    {
        Assert.True(Lake.Plan(Named("alum"), 10, Named("soda ash"), 1000).TryGet(out var lake));
        var jar = new JarContents
        {
            LiquorMillilitres = 1000,
            Portions = [Portion.OfGrams(Named("alum"), 10), Portion.OfGrams(Named("soda ash"), lake.LeastAlkaliGrams)],
        };
        Assert.True(Jar.Equilibrate(jar, 20, CarbonDioxide.Open, JarModel.PlainConstants).TryGet(out var full));
        Assert.InRange(
            full.Solids.Single(solid => solid.Key == "Al(OH)3(am)").Grams,
            0.98 * lake.WhiteBodyGrams,
            1.001 * lake.WhiteBodyGrams
        );
        var half = jar with { Portions = [jar.Portions[0], jar.Portions[1].Times(0.5)] };
        Assert.True(Jar.Equilibrate(half, 20, CarbonDioxide.Open, JarModel.PlainConstants).TryGet(out var part));
        Assert.InRange(part.Solids.Single(solid => solid.Key == "Al(OH)3(am)").Grams, 0.4 * lake.WhiteBodyGrams, 0.6 * lake.WhiteBodyGrams);
    }

    [Theory]
    [InlineData(1.0, "not all fell out")]
    [InlineData(1.7, "hardly any colour")]
    [InlineData(2.5, "as it should be")]
    [InlineData(5, "not washed out")]
    public void A_yield_is_judged_against_the_white_body(double grams, string says)
    {
        Assert.True(Lake.Plan(Named("alum"), 10, Named("soda ash"), 500).TryGet(out var lake));
        Assert.Contains(says, lake.Judge(grams), StringComparison.Ordinal);
    }

    [Fact]
    public void A_lake_needs_an_aluminium_salt_and_an_alkali()
    {
        Assert.False(Lake.Plan(Named("salt"), 10, Named("soda ash"), 500).TryGet(out _));
        Assert.False(Lake.Plan(Named("alum"), 10, Named("citric acid"), 500).TryGet(out _));
        Assert.False(Lake.Plan(Named("alum"), 0, Named("soda ash"), 500).TryGet(out _));
    }

    [Theory]
    [InlineData(3.0, 94)]
    [InlineData(5.0, 14)]
    [InlineData(7.0, 0.2)]
    public void Benzoate_is_awake_as_its_pKa_says(double ph, double percent) =>
        Assert.Equal(percent, 100 * Preservative.Benzoate.AwakeShare(ph), percent > 1 ? 0.5 : 0.05);

    [Fact]
    public void A_tenth_of_a_percent_of_benzoate_protects_at_pH_3_and_not_at_pH_6()
    {
        Assert.True(Preservative.Benzoate.At(3, 1000).IsEnough);
        Assert.False(Preservative.Benzoate.At(6, 1000).IsEnough);
        Assert.True(Preservative.Benzoate.At(2.5, 10_000).CrystalMilligramsPerLitre > 4000);
    }

    [Fact]
    public void A_gram_of_tannic_acid_balances_0_59_g_of_copperas()
    {
        Assert.Equal(0.59, IronTannin.CopperasPerGramTannicAcid, 0.005);
        Assert.Equal(1, IronTannin.Balance(0.588, 1).Multiple, 0.01);
        // The classic over-iron test ink: 5.5 mol to the mol, 0.90 g to the gram.
        Assert.Equal(5.5 / 3.6, IronTannin.Balance(0.90, 1).Multiple, 0.01);
        Assert.Contains("harm", IronTannin.Balance(0.90, 1).Words, StringComparison.Ordinal);
        // Mole for mole with gallic acid: 1.22 g of its monohydrate is 1.10 g dry.
        Assert.Equal(1.11, IronTannin.Balance(2.00, 0, 1.10).Multiple, 0.01);
        Assert.Equal(0, IronTannin.Balance(0, 1).SpareIronGrams);
        Assert.True(IronTannin.Balance(1, 0).SpareIronGrams > 0);
    }

    [Fact]
    public void An_iron_liquor_made_from_known_copperas_is_found_again_by_titration()
    {
        // 5 g of copperas in 100 ml; a gram of tannic acid takes 0.588 g of it, which stands in 11.77 ml.
        var found = IronTitration.Of(1, 0.5883 / 0.05, 0.5);
        Assert.Equal(50, found.CopperasGramsPerLitre, 0.1);
        Assert.InRange(found.RelativeUncertainty, 0.2, 0.3);
        Assert.Throws<ArgumentOutOfRangeException>(() => IronTitration.Of(0, 1, 0));
    }

    [Fact]
    public void Gum_of_one_to_three_gives_back_its_dry_gum_and_costs_colour()
    {
        var gum = GumSolution.Of(1, 3);
        var millilitres = gum.MillilitresFor(3, 100);
        Assert.Equal(3, gum.DryGramsPer100(millilitres, 100), 1e-9);
        Assert.InRange(gum.Density, 1.08, 1.13);
        Assert.Equal(millilitres / (100 + millilitres), gum.ColourLost(millilitres, 100), 1e-12);
        Assert.Throws<ArgumentOutOfRangeException>(() => gum.MillilitresFor(40, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => GumSolution.Of(2, 1));
    }

    [Theory]
    [InlineData(StockTool.Syringe)]
    [InlineData(StockTool.Drops)]
    public void A_stock_solution_makes_every_dose_of_a_ladder_readable(StockTool tool)
    {
        double[] doses = [0.005, 0.01, 0.02, 0.04, 0.08];
        Assert.True(StockSolution.Plan(Named("copperas"), doses, tool).TryGet(out var stock));
        Assert.Equal(doses.Length, stock.Doses.Count);
        foreach (var dose in stock.Doses)
        {
            Assert.InRange(Math.Abs(dose.Error), 0, 0.05);
            Assert.InRange(dose.Millilitres, 0.05, 10);
            Assert.Equal(dose.WantedGrams * (1 + dose.Error), dose.Millilitres * stock.PercentWeightPerVolume / 100, 1e-9);
        }

        Assert.Equal(stock.Grams, stock.PercentWeightPerVolume / 100 * stock.BottleMillilitres, 1e-9);
        Assert.True(stock.BottleMillilitres >= stock.Doses.Sum(dose => dose.Millilitres));
        Assert.Contains("brown", stock.Keeps, StringComparison.Ordinal);
    }

    [Fact]
    public void A_stock_solution_stays_below_what_dissolves_and_says_when_no_strength_will_do()
    {
        Assert.True(StockSolution.Plan(Named("cream of tartar"), [0.01, 0.02]).TryGet(out var tartar));
        Assert.True(tartar.PercentWeightPerVolume < 0.4);
        Assert.False(StockSolution.Plan(Named("alum"), [0.00001, 10]).TryGet(out _));
        Assert.False(StockSolution.Plan(Named("turmeric"), [0.1]).TryGet(out _));
        Assert.False(StockSolution.Plan(Named("alum"), []).TryGet(out _));
    }

    [Fact]
    public void Waste_with_copper_never_goes_down_the_drain_and_acid_is_neutralised_first()
    {
        var waste = Waste.Of(
            new()
            {
                LiquorMillilitres = 500,
                Portions = [Portion.OfGrams(Named("copper sulfate"), 2), Portion.OfMillilitres(Named("vinegar"), 50)],
            }
        );
        Assert.NotNull(waste.Neutraliser);
        Assert.InRange(waste.Neutraliser.State.Ph, 6.5, 8.6);
        Assert.Equal(2 / 249.68 * 63.546 * 1000, waste.MetalMilligrams.Single().Milligrams, 0.1);
        Assert.Contains(waste.Words, line => line.Contains("none of it goes down the drain", StringComparison.Ordinal));
        Assert.Contains(waste.Words, line => line.Contains("local waste service", StringComparison.Ordinal));
    }

    [Fact]
    public void Chalk_filled_paper_turns_a_sour_red_blue_and_cotton_does_not()
    {
        var hibiscus = new JarContents
        {
            LiquorMillilitres = 90,
            Liquor = Liquor.Of(ExtractBuffer.Prior(ExtractBuffer.Kinds.First(kind => kind.Name == "dried calyx"))),
        };
        var chalky = PaperReserve.Usual.First(paper => paper.Name.StartsWith("chalk-filled", StringComparison.Ordinal));
        var cotton = PaperReserve.Usual.First(paper => paper.Name.StartsWith("neutral", StringComparison.Ordinal));
        Assert.True(chalky.Predict(hibiscus).TryGet(out var blue));
        Assert.True(cotton.Predict(hibiscus).TryGet(out var red));
        Assert.True(blue.PhOnPaper > blue.PhInJar + 1);
        Assert.Contains("blue", blue.Words, StringComparison.Ordinal);
        Assert.True(red.PhOnPaper < red.PhInJar + 1 && red.PhOnPaper < blue.PhOnPaper - 2);
        Assert.True(blue.PhHigh - blue.PhLow > 1, "How much chalk is reached is not well known, and the interval must show it.");
        Assert.True(
            PaperReserve
                .Usual.First(paper => paper.Name.StartsWith("acid", StringComparison.Ordinal))
                .Predict(new() { LiquorMillilitres = 90 })
                .TryGet(out var acid)
        );
        Assert.True(acid.PhOnPaper < 5);
    }

    internal static NamedSubstance Named(string name)
    {
        Assert.True(SubstanceCatalogue.Standard.Find("add", name).TryGet(out var named), name);
        return named;
    }
}
