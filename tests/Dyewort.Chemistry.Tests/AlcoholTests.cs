using CsCheck;
using Dyewort.Chemistry.Solving;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Chemistry.Tests;

public sealed class AlcoholTests
{
    [Theory, Published("Perry1997", "densities of aqueous ethanol at 20 °C")]
    [InlineData(0, 0.99823)]
    [InlineData(5, 0.98938)]
    [InlineData(10, 0.98187)]
    [InlineData(20, 0.96864)]
    [InlineData(30, 0.95382)]
    [InlineData(40, 0.93518)]
    [InlineData(50, 0.91384)]
    [InlineData(60, 0.89113)]
    [InlineData(70, 0.86766)]
    [InlineData(80, 0.84344)]
    [InlineData(90, 0.81797)]
    [InlineData(100, 0.78934)]
    public void Density_follows_the_handbook(double percentByWeight, double density) =>
        // Two independent sets of measurements, a century apart: they agree to about a ten-thousandth.
        Assert.Equal(density, AlcoholMix.Density(percentByWeight / 100), 0.0002);

    [Theory, Published("OIML-R22", "strengths of common spirits")]
    [InlineData(40, 0.3330, 0.94805)]
    [InlineData(96, 0.9384, 0.80742)]
    public void Strength_by_volume_and_by_weight_belong_together(double percentByVolume, double massFraction, double density)
    {
        Assert.Equal(massFraction, AlcoholMix.MassFraction(percentByVolume), 0.0005);
        Assert.Equal(density, AlcoholMix.DensityAtStrength(percentByVolume), 0.0005);
    }

    [Fact]
    public void Half_a_litre_of_each_shrinks_by_about_thirty_six_millilitres()
    {
        var blend = AlcoholMix.Mix([(500, 100), (500, 0)]);
        Assert.Equal(36, blend.ShrinkageMillilitres, 2.0);
        Assert.Equal(51.9, blend.PercentByVolume, 0.2);
    }

    [Theory]
    [InlineData(40, 100)]
    [InlineData(70, 40)]
    [InlineData(96, 26.3)]
    public void Spirit_to_reach_twenty_percent_is_near_the_rule_that_ignores_shrinkage(double spirit, double rule) =>
        Assert.Equal(rule, AlcoholMix.SpiritToReach(100, 0, spirit, 20), 0.03 * rule);

    [Fact]
    public void Mixing_loses_no_ethanol_and_reaches_its_goal()
    {
        Gen.Select(Gen.Double[1, 1000], Gen.Double[30, 99], Gen.Double[1, 25])
            .Sample(
                (ink, spirit, goal) =>
                {
                    var needed = AlcoholMix.SpiritToReach(ink, 0, spirit, goal);
                    var blend = AlcoholMix.Mix([(ink, 0), (needed, spirit)]);
                    Assert.Equal(goal, blend.PercentByVolume, 1e-6);
                    Assert.Equal(needed * spirit / 100 * AlcoholMix.Density(1), blend.EthanolGrams, 1e-6 * blend.EthanolGrams);
                    // Strong spirit shrinks on letting down. Weak spirit let down a long way swells a little, which is true of the measured
                    // densities: they change sign at 63 % for the last drop in much water, and lower for stronger goals.
                    Assert.InRange(blend.ShrinkageMillilitres / blend.Millilitres, spirit > 63.2 ? 0 : -0.002, 0.04);
                }
            );
    }

    /// <summary>Printed at engineeringtoolbox.com/ethanol-water-d_989.html (by weight; an encyclopedia copy prints the same by volume),
    /// closed
    /// cup; pure ethanol 12 to 14 °C on supplier sheets. Between two rows a straight line, by hand.</summary>
    [Theory]
    [InlineData(4, null)]
    [InlineData(5, 62.0)]
    [InlineData(30, 29.0)]
    [InlineData(40, 26.0)]
    [InlineData(50, 24.0)]
    [InlineData(60, 22.0)]
    [InlineData(70, 21.0)]
    [InlineData(80, 20.0)]
    [InlineData(96, 17.0)]
    [InlineData(98, 14.5)]
    [InlineData(100, 12.0)]
    [InlineData(10, 49.0)]
    [InlineData(15, 42.5)]
    [InlineData(20, 36.0)]
    [InlineData(95, 17.0)]
    public void Flash_point_is_read_from_the_table_by_volume(double percent, double? celsius)
    {
        var found = AlcoholMix.FlashPoint(percent);
        if (celsius is null)
            Assert.Null(found);
        else
            Assert.Equal(celsius.Value, found!.Value, 1e-9);
    }

    [Theory]
    [InlineData(80, "far above its flash point (26 °C): no flame, off the hob, lid on")]
    [InlineData(30, "is above its flash point")]
    [InlineData(22, "close to its flash point")]
    [InlineData(15, "")]
    public void A_jar_of_spirit_says_where_it_stands_beside_its_flash_point(double celsius, string says)
    {
        var spirit = Portion.OfMillilitres(TradeTests.Named("denatured alcohol 80 %"), 50);
        Assert.True(JarReport.Of(new() { LiquorMillilitres = 50, Portions = [spirit] }, celsius).TryGet(out var report));
        var said = Assert.Single(report.Remarks, remark => remark.Code == "alcohol-vapour").Text;
        if (says.Length > 0)
            Assert.Contains(says, said, StringComparison.Ordinal);
        else
            Assert.DoesNotContain("flash point", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Impossible_mixtures_are_our_own_mistake()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => AlcoholMix.Density(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => AlcoholMix.MassFraction(101));
        Assert.Throws<ArgumentOutOfRangeException>(() => AlcoholMix.SpiritToReach(100, 0, 40, 50));
        Assert.Equal(0, AlcoholMix.Mix([]).Millilitres);
    }

    [Fact]
    public void A_jar_with_spirit_shrinks_and_warns_of_its_vapour()
    {
        var jar = new JarContents { LiquorMillilitres = 100, Portions = [Portion.OfMillilitres(TradeTests.Named("ethanol 96 %"), 26.3)] };
        Assert.Equal(20, jar.AlcoholPercent, 0.6);
        Assert.True(jar.VolumeMillilitres < 126.3);
        Assert.True(JarReport.Of(jar).TryGet(out var report));
        Assert.Contains(
            report.Remarks,
            remark => remark.Code == "alcohol-vapour" && remark.Text.Contains("No flame", StringComparison.Ordinal)
        );
    }

    [Theory, Published("Kell1975", "density of water")]
    [InlineData(0, 999.84)]
    [InlineData(20, 998.20)]
    [InlineData(25, 997.05)]
    [InlineData(60, 983.20)]
    [InlineData(100, 958.36)]
    public void Water_is_as_dense_as_it_should_be(double celsius, double density) => Assert.Equal(density, Water.Density(celsius), 0.02);

    [Theory, Published("BradleyPitzer1979", "relative permittivity at 1 bar")]
    [InlineData(0, 87.9)]
    [InlineData(25, 78.38)]
    [InlineData(100, 55.6)]
    public void Water_screens_charges_as_it_should(double celsius, double permittivity) =>
        Assert.Equal(permittivity, Water.Permittivity(celsius), 0.15);
}
