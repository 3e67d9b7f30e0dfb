using Dyewort.Testing;
using Xunit;

namespace Dyewort.Pots.Tests;

public sealed class WaterTests
{
    [Fact, Published("CrcWater2010", "enthalpy of vaporization of water, 100 °C: 40.657 kJ/mol")]
    public void A_kilowatt_drives_off_at_most_1_6_litres_an_hour()
    {
        const double molarMass = 18.015;
        Assert.Equal(40.657, Steam.HeatOfVaporisation(100) * molarMass / 1000, 0.01);
        Assert.Equal(1.6, Steam.CeilingLitresPerHour(1), 0.05);
        Assert.Equal(3600 / 2256.4, Steam.CeilingLitresPerHour(1), 1e-9);
        Assert.True(Steam.CeilingLitresPerHour(1, 60) < Steam.CeilingLitresPerHour(1));
    }

    /// <summary>Clausius and Clapeyron tie the two published sources together: the slope of the one must give the heat of the
    /// other.</summary>
    [Theory]
    [InlineData(25)]
    [InlineData(40)]
    [InlineData(60)]
    public void Heat_of_vaporisation_follows_from_the_slope_of_the_vapour_pressure(double celsius)
    {
        const double step = 0.05;
        var slope =
            Math.Log(Steam.VapourPressureKilopascals(celsius + step) / Steam.VapourPressureKilopascals(celsius - step)) / (2 * step);
        var kelvin = celsius + 273.15;
        var joulesPerMole = slope * 8.314462618 * kelvin * kelvin;

        // Steam is not quite an ideal gas: its volume is smaller by 0.2 % at 25 °C and 0.6 % at 60 °C.
        Assert.InRange(joulesPerMole / 18.015 / Steam.HeatOfVaporisation(celsius), 1.0, 1.009);
    }

    [Theory, Published("WagnerPruss1993", "saturation line: IAPWS values at 20, 60 and 100 °C")]
    [InlineData(20, 2.3393)]
    [InlineData(60, 19.946)]
    [InlineData(100, 101.42)]
    public void Vapour_pressure_is_the_published_one(double celsius, double kilopascals) =>
        Assert.Equal(kilopascals, Steam.VapourPressureKilopascals(celsius), kilopascals * 3e-4);

    [Fact]
    public void The_boiling_point_falls_by_about_a_degree_every_three_hundred_metres()
    {
        Assert.Equal(99.97, Steam.BoilingCelsius(0), 0.02);
        Assert.InRange(Steam.BoilingCelsius(0) - Steam.BoilingCelsius(300), 0.9, 1.1);
    }

    // The four sums of an invented season: figures made up for a demonstration.
    public static TheoryData<string, double, double, double, double, double, double, PotFacts> FourSums() =>
        new()
        {
            {
                "onion skin",
                1500,
                0,
                1140,
                210,
                150,
                0,
                new PotFacts(75, PlantForm.Dry, Hours: 0.75, Celsius: 90, KilowattsReachingLiquor: 1)
            },
            {
                "walnut hull",
                4500,
                550,
                3150,
                1900,
                0,
                0,
                new PotFacts(1500, Pressed: true, Hours: 5, Celsius: 94, KilowattsReachingLiquor: 1)
            },
            {
                "elderberry",
                260,
                610,
                790,
                60,
                0,
                20,
                new PotFacts(900, Pressed: true, Hours: 35.0 / 60, Celsius: 72, KilowattsReachingLiquor: 1)
            },
            { "black bean", 1500, 0, 985, 0, 510, 5, new PotFacts(500, PlantForm.Seed, Hours: 0) },
        };

    [Theory, MemberData(nameof(FourSums))]
    public void The_four_worked_sums_close(
        string pot,
        double into,
        double plant,
        double strained,
        double boiled,
        double held,
        double spilt,
        PotFacts facts
    )
    {
        var answer = Close(Figures(into, plant, strained, boiled, held, spilt), facts);
        Assert.True(answer.Closes, pot);
        Assert.Equal(0, answer.MissingMillilitres, 1e-9);
        Assert.Empty(answer.Remarks);
        Assert.All(answer.Lines, line => Assert.Equal(line.Given!.Value, line.Closed, 1e-9));
    }

    [Theory, MemberData(nameof(FourSums))]
    public void A_line_left_open_is_filled_with_what_closes_the_sum(
        string pot,
        double into,
        double plant,
        double strained,
        double boiled,
        double held,
        double spilt,
        PotFacts facts
    )
    {
        var open = Figures(into, plant, strained, boiled, held, spilt).Where(figure => figure.Line != WaterLine.Held).ToList();
        var answer = Close(open, facts);
        Assert.True(answer.Closes, pot);
        var found = answer[WaterLine.Held];
        Assert.Null(found.Given);
        Assert.InRange(found.Closed, held - (2 * found.ClosedUncertainty) - 1, held + (2 * found.ClosedUncertainty) + 1);
    }

    [Theory]
    [InlineData("onion skin", WaterLine.Out, 1410, "two digits changed places")]
    [InlineData("onion skin", WaterLine.BoiledOff, 2100, "a zero too many")]
    [InlineData("walnut hull", WaterLine.BoiledOff, 190, "a zero was left out")]
    [InlineData("elderberry", WaterLine.Out, 979, null)]
    [InlineData("black bean", WaterLine.In, 150, "a zero was left out")]
    public void A_slip_of_the_pen_is_found(string pot, WaterLine line, double written, string? why)
    {
        var row = FourSums().First(one => one.Data.Item1 == pot).Data;
        var figures = Figures(row.Item2, row.Item3, row.Item4, row.Item5, row.Item6, row.Item7);
        figures = [.. figures.Select(figure => figure.Line == line ? figure with { Millilitres = written } : figure)];
        var answer = Close(figures, row.Item8);
        Assert.False(answer.Closes);
        Assert.Equal(line, answer.Lines.MaxBy(one => one.ChanceWrong)!.Line);
        if (why is not null)
            Assert.Contains(answer.Remarks, remark => remark.Contains(why, StringComparison.Ordinal));
    }

    [Fact]
    public void Steam_beyond_the_ceiling_is_said()
    {
        var answer = Close(
            [new(WaterLine.In, 5000), new(WaterLine.Out, 3000), new(WaterLine.BoiledOff, 2000)],
            new PotFacts(0, Hours: 1, KilowattsReachingLiquor: 1)
        );
        Assert.Contains(answer.Remarks, remark => remark.Contains("cannot drive off", StringComparison.Ordinal));
    }

    [Fact]
    public void Nonsense_is_refused()
    {
        Assert.False(WaterSum.Close([], new PotFacts()).TryGet(out _));
        Assert.False(WaterSum.Close([new(WaterLine.In, double.NaN)], new PotFacts()).TryGet(out _));
        Assert.False(WaterSum.Close([new(WaterLine.In, 10), new(WaterLine.In, 10)], new PotFacts()).TryGet(out _));
        Assert.False(WaterSum.Close([new(WaterLine.In, -1)], new PotFacts(Celsius: 200)).TryGet(out _));
    }

    [Fact]
    public void The_band_of_the_boil_off_rate_holds_the_next_boil_as_often_as_it_says()
    {
        var random = new Random(20251108);
        var inside = 0;
        const int pots = 600;
        for (var pot = 0; pot < pots; pot++)
        {
            var own = Math.Log(0.42) + (0.3 * Gauss(random));
            BoilOffRecord Boil() => new("S4", "ring", false, 96, 1, 1000 * Math.Exp(own + (0.25 * Gauss(random))));
            List<BoilOffRecord> past = [.. Enumerable.Range(0, 3).Select(_ => Boil())];
            Assert.True(BoilOff.Predict(past, "S4", "ring", false, 96).TryGet(out var rate));
            var next = Boil().Millilitres / 1000;
            if (next >= rate.LowLitresPerHour && next <= rate.HighLitresPerHour)
                inside++;
        }

        Assert.InRange(inside / (double)pots, 0.87, 0.95);
    }

    [Fact]
    public void A_pot_learns_its_own_rate_and_forgets_the_guess()
    {
        Assert.True(BoilOff.Predict([], "S4", "ring", false, 96).TryGet(out var guess));
        Assert.Equal(0.42, guess.LitresPerHour, 1e-6);
        Assert.Equal(0, guess.Records);
        List<BoilOffRecord> past = [.. Enumerable.Range(0, 8).Select(i => new BoilOffRecord("S4", "ring", false, 96, 1, 800 + (10 * i)))];
        Assert.True(BoilOff.Predict(past, "S4", "ring", false, 96).TryGet(out var learned));
        Assert.Equal(0.81, learned.LitresPerHour, 0.03);
        Assert.True(learned.HighLitresPerHour / learned.LowLitresPerHour < guess.HighLitresPerHour / guess.LowLitresPerHour);
        Assert.True(BoilOff.Predict(past, "S8", "ring", false, 96).TryGet(out var other));
        Assert.Equal(0, other.Records);
        Assert.True(BoilOff.Predict(past, "S4", "ring", false, 96, kilowattsReachingLiquor: 0.4).TryGet(out var weak));
        Assert.True(weak.HighLitresPerHour <= Steam.CeilingLitresPerHour(0.4, 96));
    }

    /// <summary>By hand, with 2257 kJ/kg for water at 100 °C (CRC Handbook, enthalpy of vaporisation): 2 kW drive off
    /// 2 × 3600 / 2257 = 3.19 kg an hour, so 450 ml are gone in 60 × 0.45 / 3.19 = 8.5 minutes; with 0.1 kW of it lost to the room in
    /// 60 × 0.45 / (1.9 × 3600 / 2257) = 8.9.</summary>
    [Fact]
    public void A_heat_that_is_known_boils_down_as_fast_as_latent_heat_lets_it()
    {
        Assert.True(BoilOff.Predict([], "", "", false, 100, kilowattsReachingLiquor: 2).TryGet(out var rate));
        Assert.True(Reduction.ToVolume(new PotToReduce(900, rate), 450).TryGet(out var plan));
        Assert.Equal(60 * 0.45 / (1.9 * 3600 / 2257), plan.Minutes, 0.05);
        Assert.InRange(plan.LowMinutes, 60 * 0.45 / (2.0 * 3600 / 2257) - 0.05, plan.Minutes);
        Assert.True(plan.HighMinutes > plan.Minutes);

        // Below the boil the vapour pressure decides, and no heat drives off more than its latent heat.
        Assert.True(BoilOff.Predict([], "", "", false, 80, kilowattsReachingLiquor: 2).TryGet(out var held));
        Assert.True(held.LitresPerHour < 0.4);
        Assert.True(BoilOff.Predict([], "", "", true, 100, kilowattsReachingLiquor: 2).TryGet(out var lid));
        Assert.True(lid.LitresPerHour < 0.3 * rate.LitresPerHour);
    }

    [Fact]
    public void A_pot_that_loses_half_its_heat_is_believed_by_its_own_log()
    {
        // 2 kW for half an hour drove off 800 ml: 1.6 l/h where latent heat allows 3.19.
        List<BoilOffRecord> past = [.. Enumerable.Range(0, 6).Select(_ => new BoilOffRecord("S4", "ring", false, 100, 0.5, 800, 2))];
        Assert.True(BoilOff.Predict(past, "S4", "ring", false, 100, kilowattsReachingLiquor: 2).TryGet(out var same));
        Assert.Equal(1.6, same.LitresPerHour, 0.15);
        Assert.True(BoilOff.Predict(past, "S4", "ring", false, 100, kilowattsReachingLiquor: 1).TryGet(out var half));
        Assert.Equal(0.8, half.LitresPerHour, 0.08);
        Assert.Equal(6, half.Records);
    }

    [Fact]
    public void A_plant_that_was_never_weighed_is_not_a_plant_without_water()
    {
        // Berries thrown in by eye: 300 ml of water in, 700 ml of juice out.
        WaterFigure[] figures = [new(WaterLine.In, 300), new(WaterLine.Out, 700)];
        Assert.True(WaterSum.Close(figures, new PotFacts(Hours: 0.5)).TryGet(out var unknown));
        Assert.True(WaterSum.Close(figures, new PotFacts(0, Hours: 0.5)).TryGet(out var nothing));
        Assert.False(nothing.Closes);
        Assert.True(unknown.Closes);
        Assert.InRange(unknown[WaterLine.FromPlant].Closed, 200, 600);
        Assert.True(unknown[WaterLine.FromPlant].ClosedUncertainty > 50);
        Assert.Contains(unknown.Remarks, remark => remark.StartsWith("The plant was not weighed", StringComparison.Ordinal));
        Assert.DoesNotContain(nothing.Remarks, remark => remark.StartsWith("The plant was not weighed", StringComparison.Ordinal));
    }

    [Fact]
    public void A_figure_below_what_can_be_known_is_said_in_words()
    {
        Assert.True(Reduction.ToVolume(new PotToReduce(2000, new(0.1, 0.05, 0.2, 0), LossPerHour: 2), 1000).TryGet(out var gone));
        Assert.Equal("hardly any colour left", gone.StrengthWords);
        Assert.Equal("hardly any of the colour", gone.KeptWords);
        Assert.True(Reduction.ToVolume(new PotToReduce(1000, new(0.4, 0.3, 0.6, 0)), 500).TryGet(out var twice));
        Assert.Equal("2 times", twice.StrengthWords);
        Assert.True(Reduction.ToVolume(new PotToReduce(2000, new(0.2, 0.1, 0.3, 0), LossPerHour: 0.2), 1000).TryGet(out var thin));
        Assert.InRange(thin.StrengthFactor, 0.5, 0.99);
        Assert.Equal(FormattableString.Invariant($"thinned to {thin.StrengthFactor:0.##} of its strength"), thin.StrengthWords);
        Assert.Equal("100 % of the colour", twice.KeptWords);
    }

    [Fact]
    public void Reducing_restates_every_dose_and_says_what_falls_out()
    {
        Assert.True(BoilOff.Predict([], "S3", "ring", false, 96).TryGet(out var rate));
        var pot = new PotToReduce(700, rate, Doses: [new("alum", 70, 14), new("chalk", 2)]);
        Assert.True(Reduction.ToVolume(pot, 410).TryGet(out var plan));
        Assert.Equal(60 * 0.29 / 0.42, plan.Minutes, 1e-6);
        Assert.Equal(700.0 / 410, plan.StrengthFactor, 1e-9);
        Assert.Equal(10, plan.Doses[0].BeforeGramsPer100Millilitres, 1e-9);
        Assert.Equal(10 * 700.0 / 410, plan.Doses[0].AfterGramsPer100Millilitres, 1e-9);
        Assert.True(plan.Doses[0].FallsOut);
        Assert.False(plan.Doses[1].FallsOut);
        Assert.Contains(plan.Warnings, warning => warning.StartsWith("alum:", StringComparison.Ordinal));
        Assert.False(Reduction.ToVolume(pot, 700).TryGet(out _));
        Assert.False(Reduction.ToVolume(pot, double.NaN).TryGet(out _));
    }

    [Fact]
    public void Reducing_to_a_strength_pays_for_what_the_heat_destroys()
    {
        var rate = new BoilOffRate(0.42, 0.3, 0.6, 4);
        Assert.True(Reduction.ToStrength(new PotToReduce(400, rate), 2).TryGet(out var stable));
        Assert.Equal(200, stable.EndMillilitres, 1e-6);
        Assert.True(Reduction.ToStrength(new PotToReduce(400, rate, LossPerHour: 0.3), 2).TryGet(out var fading));
        Assert.Equal(2, fading.StrengthFactor, 1e-6);
        Assert.True(fading.EndMillilitres < 200);
        Assert.True(fading.ColourKept < 1);
        Assert.True(Reduction.ToStrength(new PotToReduce(2000, rate, LossPerHour: 0.3), 2).TryGet(out var weakerFirst));
        Assert.Equal(2, weakerFirst.StrengthFactor, 1e-6);
        Assert.Contains(weakerFirst.Warnings, warning => warning.Contains("weaker before", StringComparison.Ordinal));
        Assert.False(Reduction.ToStrength(new PotToReduce(5000, rate, LossPerHour: 3), 2).TryGet(out _));
    }

    [Fact]
    public void A_second_run_is_the_first_thinned_by_the_new_water()
    {
        Assert.True(
            ColourSums.Further(1140, 150, 600, rate: new BoilOffRate(0.4, 0.3, 0.6, 0), prices: new RunPrices(4, 0.3)).TryGet(out var runs)
        );
        Assert.Equal(150.0 / 750, runs[0].Strength, 1e-9);
        Assert.Equal(0.2 * 600 / 1140, runs[0].ColourShare, 1e-9);
        Assert.Equal(0.2 * 150 / 750, runs[1].Strength, 1e-9);
        Assert.NotNull(runs[0].Pays);

        // Nothing comes from nowhere: all runs together never hold more than the plant did.
        Assert.True(ColourSums.Further(1000, 200, 1000, uptake: 0.7, runs: 6).TryGet(out var six));
        Assert.True(1000 + six.Sum(run => run.Strength * run.Millilitres) < 1200 / 0.7);
    }

    private static List<WaterFigure> Figures(double into, double plant, double strained, double boiled, double held, double spilt) =>
        [
            new(WaterLine.In, into),
            new(WaterLine.FromPlant, plant),
            new(WaterLine.Out, strained),
            new(WaterLine.BoiledOff, boiled),
            new(WaterLine.Held, held),
            new(WaterLine.Spilt, spilt),
        ];

    private static WaterSumAnswer Close(IReadOnlyList<WaterFigure> figures, PotFacts facts)
    {
        Assert.True(WaterSum.Close(figures, facts).TryGet(out var answer));
        return answer;
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
