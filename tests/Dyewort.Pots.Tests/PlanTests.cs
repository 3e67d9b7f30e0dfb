using Dyewort.Safety;
using Xunit;

namespace Dyewort.Pots.Tests;

public sealed class PlanTests
{
    // Elder pots of an invented season.
    private static readonly PastPot[] Elder =
    [
        new("EB25-1", 900, 260, 790, 0.62),
        new("EB25-2", 1400, 400, 1270, 0.66),
        new("EB26-1", 1000, 280, 890, 0.58),
    ];

    [Fact]
    public void Forty_bottles_are_walked_back_to_the_hedge()
    {
        var wish = new PotWish(
            "elderberries",
            Bottles: 40,
            FillMillilitres: 29,
            KeptBackMillilitres: 30,
            FilterLoss: 0.03,
            AdditionsMillilitresPer100: 10,
            ReduceTo: 0.68
        );
        Assert.True(PotPlanner.Plan(wish, new PotMeans(Past: Elder, PotMillilitres: 8000)).TryGet(out var plan));
        var liquor = ((40 * 29) + 30) / 0.97 / 1.1;
        Assert.Equal(liquor, plan.Steps.Single(step => step.What == "liquor").Millilitres, 1e-6);
        Assert.Equal(liquor / 0.68, plan.StrainedMillilitres, 1e-6);

        // The three pots gave 0.878, 0.907 and 0.890 ml per gram.
        Assert.InRange(plan.PlantGrams.Median, 0.97 * liquor / 0.68 / 0.89, 1.03 * liquor / 0.68 / 0.89);
        Assert.InRange(plan.SafePlantGrams, plan.PlantGrams.Median, plan.PlantGrams.High);
        Assert.Equal("elderberry", plan.Plant);
        Assert.NotNull(plan.Reducing);
        Assert.Equal(85, plan.Heat.CelsiusCeiling);
        Assert.Contains(plan.Hazards, hazard => hazard.Latin == "Sambucus nigra");
        Assert.Contains(plan.Cautions, caution => caution.Contains("Not above 85 °C", StringComparison.Ordinal));
        Assert.Equal(PotBase.Water, plan.Base);
    }

    [Fact]
    public void A_wanted_strength_decides_plant_and_reducing()
    {
        var wish = new PotWish("elderberry", LiquorMillilitres: 1000, FilterLoss: 0, WantedStrength: 0.9);
        Assert.True(PotPlanner.Plan(wish, new PotMeans(Past: Elder)).TryGet(out var plan));
        var units = new[] { 0.62 * 790 / 900, 0.66 * 1270 / 1400, 0.58 * 890 / 1000 };
        var expected = 900 / Math.Exp(units.Average(Math.Log));
        Assert.Equal(expected, plan.PlantGrams.Median, 1e-6 * expected);
        Assert.InRange(plan.ReduceTo, 0.6, 0.8);

        // What the plan pours away as steam is what the strength gains.
        Assert.Equal(0.9 * 1000, Math.Exp(units.Average(Math.Log)) * plan.PlantGrams.Median, 1e-6);
        Assert.True(PotPlanner.Plan(wish with { WantedStrength = 0.2 }, new PotMeans(Past: Elder)).TryGet(out var thin));
        Assert.Equal(1, thin.ReduceTo);
        Assert.Contains(thin.Warnings, warning => warning.Contains("too strong", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_own_pots_the_table_answers_with_a_wider_band()
    {
        var wish = new PotWish("elderberry", LiquorMillilitres: 800);
        Assert.True(PotPlanner.Plan(wish, new PotMeans()).TryGet(out var table));
        Assert.True(PotPlanner.Plan(wish, new PotMeans(Past: Elder)).TryGet(out var own));
        Assert.True(table.PlantGrams.High / table.PlantGrams.Low > own.PlantGrams.High / own.PlantGrams.Low);
        Assert.Contains("table", table.YieldSource, StringComparison.Ordinal);
        Assert.Contains("3 of your own", own.YieldSource, StringComparison.Ordinal);
    }

    /// <summary>What plants usually give and keep, against the pots of the invented season, which it has not seen: each within its
    /// band.</summary>
    [Theory]
    [InlineData("elderberry", 900, 260, 790)]
    [InlineData("onion skin", 75, 1500, 1140)]
    [InlineData("weld", 120, 2400, 1830)]
    [InlineData("madder", 100, 1500, 1040)]
    [InlineData("black bean", 500, 1500, 985)]
    [InlineData("oak gall", 160, 1200, 940)]
    [InlineData("hibiscus", 60, 600, 440)]
    public void The_guess_without_own_pots_holds_for_a_makers_pots(string plant, double grams, double liquid, double strained)
    {
        Assert.True(
            PotPlanner
                .Plan(
                    new PotWish(plant, LiquorMillilitres: strained, FilterLoss: 0),
                    new PotMeans(GramsPer100Millilitres: 100 * grams / liquid)
                )
                .TryGet(out var plan)
        );
        Assert.InRange(grams, plan.PlantGrams.Low, plan.PlantGrams.High);
    }

    [Fact]
    public void Eight_of_ten_pots_get_enough_from_the_safe_amount()
    {
        var random = new Random(17);
        var enough = 0;
        const int makers = 800;
        for (var maker = 0; maker < makers; maker++)
        {
            var own = Math.Log(0.9) + (0.3 * Gauss(random));
            double Yield() => Math.Exp(own + (0.15 * Gauss(random)));
            List<PastPot> past = [.. Enumerable.Range(0, 4).Select(i => new PastPot($"P{i}", 1000, 300, 1000 * Yield()))];
            Assert.True(
                PotPlanner
                    .Plan(new PotWish("elderberry", LiquorMillilitres: 500, FilterLoss: 0), new PotMeans(Past: past))
                    .TryGet(out var plan)
            );
            if (plan.SafePlantGrams * Yield() >= 500)
                enough++;
        }

        Assert.InRange(enough / (double)makers, 0.76, 0.86);
    }

    [Fact]
    public void A_pot_too_small_is_said_with_the_size_that_would_do()
    {
        Assert.True(
            PotPlanner
                .Plan(new PotWish("elderberry", LiquorMillilitres: 3000), new PotMeans(PotMillilitres: 4000, PlantOnHandGrams: 100))
                .TryGet(out var plan)
        );
        Assert.True(plan.Pots > 1);
        Assert.Contains(plan.Warnings, warning => warning.Contains("it foams", StringComparison.Ordinal));
        Assert.Contains(plan.Warnings, warning => warning.Contains("100 g are at hand", StringComparison.Ordinal));
    }

    [Fact]
    public void Bad_wishes_are_refused_in_words()
    {
        Assert.False(PotPlanner.Plan(new PotWish(""), new PotMeans()).TryGet(out _));
        Assert.False(PotPlanner.Plan(new PotWish("elderberry"), new PotMeans()).TryGet(out _));
        Assert.False(PotPlanner.Plan(new PotWish("elderberry", LiquorMillilitres: double.NaN), new PotMeans()).TryGet(out _));
        var unknown = PotPlanner.Plan(new PotWish("moonweed", LiquorMillilitres: 500), new PotMeans());
        Assert.False(unknown.TryGet(out _));
        Assert.Contains(unknown.Problems, problem => problem.What.Contains("moonweed", StringComparison.Ordinal));
        Assert.True(
            PotPlanner.Plan(new PotWish("moonweed", LiquorMillilitres: 500), new PotMeans(GramsPer100Millilitres: 10)).TryGet(out var plan)
        );
        Assert.Equal(ColourantClass.Unknown, plan.Colourants);
    }

    [Theory]
    [InlineData("black bean", 20)]
    [InlineData("red cabbage", 95)]
    [InlineData("Madder root", 75)]
    [InlineData("onion skins", 98)]
    [InlineData("beetroot", 40)]
    public void Every_class_has_its_ceiling(string plant, double ceiling) =>
        Assert.Equal(ceiling, PlantGuide.HeatFor(plant, PlantGuide.Find(plant)!.Colourants).CelsiusCeiling);

    [Fact]
    public void Every_class_has_a_guide_and_every_row_a_source()
    {
        foreach (var colourants in Enum.GetValues<ColourantClass>())
        {
            var guide = PlantGuide.HeatFor(null, colourants);
            Assert.True(guide.CelsiusLow <= guide.CelsiusTypical && guide.CelsiusTypical <= guide.CelsiusCeiling, colourants.ToString());
            Assert.NotEmpty(guide.Source);
            Assert.NotEmpty(BaseAdvice.For(colourants));
        }

        Assert.True(PlantGuide.All.Count >= 20);
        Assert.All(PlantGuide.All, row => Assert.NotEmpty(row.Source));
        Assert.All(
            PlantGuide.All.Where(row => row.Typical is not null),
            row => Assert.True(row.Low <= row.Typical && row.Typical <= row.High, row.Name)
        );
    }

    [Fact]
    public void Dangerous_liquids_and_plants_carry_their_caution()
    {
        Assert.Contains(BaseAdvice.Cautions(PotBase.Spirit), caution => caution.Contains("no gas ring", StringComparison.Ordinal));
        Assert.Contains(
            BaseAdvice.Cautions(PotBase.Alkali, PotMetal.Aluminium),
            caution => caution.Contains("hydrogen", StringComparison.Ordinal)
        );
        Assert.Contains(
            BaseAdvice.Cautions(PotBase.Vinegar, PotMetal.Iron),
            caution => caution.Contains("eats this pot", StringComparison.Ordinal)
        );
        Assert.Equal(CareLevel.Careful, PlantHazard.For("pokeberry").Single().Level);
        Assert.Single(PlantHazard.For("walnut hulls"));
        Assert.Contains(PlantHazard.For("Rhamnus cathartica"), hazard => hazard.Plant == "common buckthorn");
        Assert.Empty(PlantHazard.For("weld"));
        Assert.Empty(PlantHazard.For(null));
    }

    [Fact]
    public void A_deadly_plant_is_refused_with_the_word_and_asks_for_no_ratio()
    {
        var problem = Assert.Single(PotPlanner.Plan(new("yew", LiquorMillilitres: 500), new()).Problems);
        Assert.Contains("Deadly (taxines)", problem.What, StringComparison.Ordinal);
        Assert.StartsWith("Leave it out", problem.Remedy, StringComparison.Ordinal);
    }

    /// <summary>Adding volumes would say 100 × 70 / (100 + 75) = 40 %; the table, which knows the shrinkage, says more.</summary>
    [Fact]
    public void Spirit_is_thinned_by_the_plants_own_water_by_weight_not_by_volume()
    {
        Assert.True(PotSpirit.Of(100, 70, 100, PlantForm.Fresh).TryGet(out var fresh));
        var blend = Dyewort.Chemistry.AlcoholMix.Mix([(100, 70), (75, 0)]);
        Assert.Equal(blend.PercentByVolume, fresh.PercentByVolume, 1e-9);
        Assert.InRange(fresh.PercentByVolume, 40.2, 41.5);
        Assert.True(fresh.Millilitres < 175);
        Assert.True(fresh.LowPercent < fresh.PercentByVolume && fresh.PercentByVolume < fresh.HighPercent);
        Assert.Contains(fresh.Remarks, remark => remark.Contains("catch fire", StringComparison.Ordinal));
        // 40 to 41 % flashes at 26 °C by the printed table (engineeringtoolbox.com/ethanol-water-d_989.html, closed cup).
        Assert.DoesNotContain(fresh.Remarks, remark => remark.Contains("flash point", StringComparison.Ordinal));
        foreach (
            var (celsius, says) in (ReadOnlySpan<(double, string)>)
                [(80, "far above its flash point (26 °C): no flame, off the hob, lid on"), (30, "is above its"), (22, "close to its")]
        )
        {
            Assert.True(PotSpirit.Of(100, 70, 100, PlantForm.Fresh, celsius).TryGet(out var warm));
            Assert.Contains(warm.Remarks, remark => remark.Contains(says, StringComparison.Ordinal));
        }

        Assert.True(PotSpirit.Of(100, 70, 100, PlantForm.Fresh, 10).TryGet(out var cool));
        Assert.DoesNotContain(cool.Remarks, remark => remark.Contains("flash point", StringComparison.Ordinal));
        Assert.True(PotSpirit.Of(100, 40, 400, PlantForm.Fresh).TryGet(out var thin));
        Assert.Contains(thin.Remarks, remark => remark.Contains("keeps nothing", StringComparison.Ordinal));
        Assert.False(PotSpirit.Of(100, 140, 10, PlantForm.Dry).TryGet(out _));
        Assert.True(PotPlanner.Plan(new PotWish("turmeric", LiquorMillilitres: 200), new PotMeans(SpiritPercent: 70)).TryGet(out var plan));
        Assert.Equal(PotBase.Spirit, plan.Base);
        Assert.InRange(plan.Spirit!.PercentByVolume, 60, 70);
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
