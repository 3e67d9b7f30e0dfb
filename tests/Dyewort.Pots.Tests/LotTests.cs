using Xunit;

namespace Dyewort.Pots.Tests;

public sealed class LotTests
{
    private static readonly DateOnly Autumn = new(2026, 9, 12);

    [Fact]
    public void A_personal_yes_does_not_cover_sale()
    {
        var spoken = new GatheringLeave("the neighbour", PlantUse.Personal);
        Assert.Empty(LotRules.Against(bought: false, spoken, PlantUse.Personal, Autumn, Autumn));
        Assert.Contains(
            LotRules.Against(bought: false, spoken, PlantUse.Sale, Autumn, Autumn),
            text => text.Contains("not sale", StringComparison.Ordinal)
        );
        Assert.NotEmpty(LotRules.Against(bought: false, null, PlantUse.Sale, Autumn, Autumn));
        Assert.Empty(LotRules.Against(bought: true, null, PlantUse.Sale, Autumn, Autumn));
    }

    [Fact]
    public void Leave_ends()
    {
        var leave = new GatheringLeave("the hedge's owner", PlantUse.Sale, new DateOnly(2026, 12, 31), Written: true);
        Assert.Empty(LotRules.Against(false, leave, PlantUse.Sale, Autumn, Autumn));
        Assert.Contains(
            LotRules.Against(false, leave, PlantUse.Sale, new DateOnly(2027, 1, 1), new DateOnly(2027, 1, 2)),
            text => text.Contains("after the permission ended", StringComparison.Ordinal)
        );
        Assert.Contains(
            LotRules.Against(false, leave, PlantUse.Sale, Autumn, new DateOnly(2027, 2, 1)),
            text => text.Contains("no more may be gathered", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_day_of_gathering_that_nobody_knows_is_asked_for_once_the_leave_has_ended()
    {
        var leave = new GatheringLeave("the hedge's owner", PlantUse.Sale, new DateOnly(2026, 12, 31), Written: true);
        Assert.Empty(LotRules.Against(false, leave, PlantUse.Sale, null, Autumn));
        Assert.Contains(
            LotRules.Against(false, leave, PlantUse.Sale, null, new DateOnly(2027, 2, 1)),
            text => text.Contains("the day of gathering is not known", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_lot_is_drawn_down_and_never_below_nothing()
    {
        Assert.True(LotRules.Left(2000, [new("EB26-1", 1000), new("EB26-2", 600)]).TryGet(out var left));
        Assert.Equal(400, left);
        Assert.True(LotRules.Left(1000, [new("a", 1010)]).TryGet(out left));
        Assert.Equal(0, left);
        Assert.False(LotRules.Left(1000, [new("a", 1100)]).TryGet(out _));
        Assert.False(LotRules.Left(1000, [new("a", -5)]).TryGet(out _));
        Assert.False(LotRules.Left(double.NaN, []).TryGet(out _));
    }

    [Fact]
    public void Own_drying_weights_replace_the_rule_of_thumb()
    {
        Assert.True(LotRules.Dry([]).TryGet(out var thumb));
        Assert.Equal(4, thumb.Ratio);
        Assert.True(LotRules.Dry([new(1000, 200), new(800, 158), new(1200, 245), new(500, 101)]).TryGet(out var own));
        Assert.InRange(own.Ratio, 4.8, 5.05);
        Assert.True(own.High - own.Low < thumb.High - thumb.Low);
        Assert.Equal(4, own.Records);
        var dry = own.ToDry(1000);
        Assert.Equal(1000, own.ToFresh(dry.Median).Median, 1e-9);
        Assert.True(dry.Low < dry.Median && dry.Median < dry.High);
        Assert.False(LotRules.Dry([new(100, 200)]).TryGet(out _));
        Assert.True(LotRules.IsDry([120, 101, 100.8], 0.5));
        Assert.False(LotRules.IsDry([120, 101], 0.5));
        Assert.Equal(0.75, LotRules.MoistureLeft(400, 100), 1e-12);
    }

    [Fact]
    public void Tap_water_is_an_addition_nobody_meant()
    {
        var tap = new PotSetting("S4", Water: new WaterSource("tap", HardnessMilligramsPerLitre: 210, AlkalinityMilligramsPerLitre: 150));
        Assert.True(HiddenAdditions.Of(tap, acid: false, 1).TryGet(out var found));
        Assert.Equal(0.150, found.Single(one => one.Substance == "chalk").GramsPerLitre, 1e-9);
        Assert.Equal(0.060 * 172.17 / 100.09, found.Single(one => one.Substance == "gypsum").GramsPerLitre, 1e-9);
        Assert.All(found, one => Assert.True(one.Measured));

        var softened = new PotSetting("S4", Water: new WaterSource("tap", 20, 150));
        Assert.True(HiddenAdditions.Of(softened, acid: false, 1).TryGet(out found));
        Assert.Equal(2 * 84.007 / 100.09 * 0.130, found.Single(one => one.Substance == "bicarbonate of soda").GramsPerLitre, 1e-9);

        Assert.True(HiddenAdditions.Of(new PotSetting("S4", Water: new WaterSource("tap", 210)), acid: false, 1).TryGet(out found));
        Assert.All(found, one => Assert.False(one.Measured));
        Assert.True(HiddenAdditions.Of(new PotSetting("S4", Water: new WaterSource("rain")), acid: true, 1).TryGet(out found));
        Assert.Empty(found);
        Assert.False(HiddenAdditions.Of(new PotSetting("S4", Water: new WaterSource("tap", -5)), acid: true, 1).TryGet(out _));
    }

    [Fact]
    public void A_reactive_pot_gives_more_to_a_sour_liquor_and_chips_give_a_little()
    {
        double Iron(PotSetting setting, bool acid)
        {
            Assert.True(HiddenAdditions.Of(setting, acid, 1).TryGet(out var found));
            return found.Single(one => one.Substance == "copperas").GramsPerLitre;
        }

        var pan = new PotSetting("I2", PotMetal.Iron);
        var chipped = new PotSetting("E5", EnamelChipped: true);
        Assert.True(Iron(pan, acid: true) > Iron(pan, acid: false));
        Assert.True(Iron(pan, acid: true) > 5 * Iron(chipped, acid: true));
        Assert.True(Iron(chipped, acid: true) > 0);
    }

    [Fact]
    public void Hidden_additions_are_carried_into_the_jars_chemistry()
    {
        var setting = new PotSetting("A4", PotMetal.Aluminium, Water: new WaterSource("tap", 300, 250));
        Assert.True(HiddenAdditions.Of(setting, acid: true, 1).TryGet(out var found));
        var portions = HiddenAdditions.Portions(found, 1500);
        Assert.Equal(found.Count, portions.Count);
        Assert.Equal(0.25 * 1.5, portions[0].Grams, 1e-9);
        Assert.True(Dyewort.Chemistry.SubstanceCatalogue.Standard.Find("t", "citric acid").TryGet(out var citric));
        var plain = new Dyewort.Chemistry.JarContents
        {
            LiquorMillilitres = 1500,
            Portions = [Dyewort.Chemistry.Portion.OfGrams(citric, 0.3)],
        };
        Assert.True(Dyewort.Chemistry.Jar.Equilibrate(plain).TryGet(out var soft));
        Assert.True(Dyewort.Chemistry.Jar.Equilibrate(plain with { Portions = [.. plain.Portions, .. portions] }).TryGet(out var hard));
        Assert.True(hard.Ph > soft.Ph + 0.5, $"{soft.Ph} {hard.Ph}");
    }

    /// <summary>Alum dissolves 14 g in 100 ml at 20 °C (common practice): 7 g/100 ml stays when the volume halves, 20 g/100 ml does
    /// not.</summary>
    [Theory]
    [InlineData(30, 700, 410, false)]
    [InlineData(70, 700, 300, true)]
    public void What_falls_out_on_reducing_is_computed(double alumGrams, double start, double end, bool fallsOut)
    {
        Assert.True(Dyewort.Chemistry.SubstanceCatalogue.Standard.Find("t", "alum").TryGet(out var alum));
        var before = new Dyewort.Chemistry.JarContents
        {
            LiquorMillilitres = start,
            Portions = [Dyewort.Chemistry.Portion.OfGrams(alum, alumGrams)],
        };
        Assert.True(ReducedJar.Of(before, end).TryGet(out var reduced));
        Assert.Equal(fallsOut, reduced.Warnings.Any(warning => warning.Contains("undissolved", StringComparison.Ordinal)));
        Assert.True(Dyewort.Chemistry.Jar.Equilibrate(before with { LiquorMillilitres = end }).TryGet(out var smaller));
        Assert.Equal(smaller.Ph, reduced.PhAfter, 1e-9);
        Assert.Equal(100 * alumGrams / end, reduced.Doses[0].AfterGramsPer100Millilitres, 1e-9);
        Assert.False(ReducedJar.Of(before, start).TryGet(out _));
    }

    [Fact]
    public void A_repeat_in_another_pot_is_flagged()
    {
        var before = new PotSetting("A4", PotMetal.Aluminium, Water: new WaterSource("tap", 210));
        Assert.Empty(HiddenAdditions.Differences(before, before));
        var now = new PotSetting("E5", EnamelChipped: true, Spoon: PotMetal.Copper, Water: new WaterSource("rain butt", 10));
        var said = HiddenAdditions.Differences(before, now);
        Assert.Equal(4, said.Count);
        Assert.Contains(said, text => text.Contains("210 mg/L before, 10 mg/L now", StringComparison.Ordinal));
    }
}
