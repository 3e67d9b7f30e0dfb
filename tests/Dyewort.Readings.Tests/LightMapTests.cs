using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class LightMapTests
{
    [Fact]
    public void A_dark_place_is_sooner_a_stain_than_a_light_one_is_shine()
    {
        // The paper scatters by 1 % (median), so by 1.5 % as a bell; every tenth sample is off by 5.3 times that, or not there. As many of
        // them stand where the paper is lighter as where it is darker, so that without them the level lies in the middle.
        var (without, dark, light) = (Level(null), Level(-0.078), Level(0.078));
        var (byDark, byLight) = (Math.Abs(Math.Log(dark / without)), Math.Abs(Math.Log(light / without)));
        Assert.True(byDark < 0.2 * byLight, $"Dark places pull by {byDark:0.00000}, light ones by {byLight:0.00000}.");
        Assert.InRange(byLight, 1e-4, 0.02);

        static double Level(double? off) =>
            LightMap
                .Fit([
                    .. Samples(
                            (i, _, _) =>
                                0.7
                                * Math.Exp(
                                    Off(i) ? off ?? 0
                                    : i % 2 == 0 ? 0.01
                                    : -0.01
                                )
                        )
                        .Where((_, i) => off is not null || !Off(i)),
                ])!
                .At(100, 150)
                .G;

        static bool Off(int i) => i % 20 is 3 or 14;
    }

    [Theory, InlineData(8, 0), InlineData(9, 1), InlineData(23, 1), InlineData(24, 2), InlineData(59, 2), InlineData(60, 3)]
    public void The_surface_bends_no_more_than_the_samples_can_tell(int count, int order) =>
        Assert.Equal(order, LightMap.Fit([.. Samples((_, _, _) => 0.7).Take(count)])!.Order);

    [Fact]
    public void Each_channel_has_a_light_of_its_own()
    {
        var map = LightMap.Fit([
            .. Samples((_, _, _) => 1).Select(one => one with { Light = new(0.8 - (0.001 * one.X), 0.6, 0.4 + (0.0005 * one.Y)) }),
        ])!;
        var at = map.At(60, 200);
        Assert.Equal(0.74, at.R, 0.002);
        Assert.Equal(0.6, at.G, 1e-4);
        Assert.Equal(0.5, at.B, 0.002);
    }

    [Fact]
    public void Around_a_cell_light_slopes_as_it_does_on_the_page()
    {
        // 20 % darker over 200 mm: a tenth of that over the 20 mm of a cell, half of it over half a cell.
        var samples = Samples((_, x, y) => 0.8 * Math.Exp((-0.001 * x) + (0.0004 * y)));
        var local = LightMap.Fit(samples)!.Around(Ring(samples, 100, 160), 100, 160, 10);
        var middle = 0.8 * Math.Exp(-0.1 + 0.064);
        Assert.Equal(1, local.Level.G / middle, 0.001);
        Assert.All(local.SlopeX, slope => Assert.Equal(-0.01, slope, 3e-4));
        Assert.All(local.SlopeY, slope => Assert.Equal(0.004, slope, 3e-4));
        var corner = local.At(110, 150);
        Assert.Equal(1, corner.R / (middle * Math.Exp(-0.01 - 0.004)), 0.001);
        Assert.Equal(corner.B, local.Across(110).B * local.Down(150).B, 1e-12);
    }

    [Fact]
    public void A_shadow_over_a_cell_that_the_page_does_not_show_is_followed()
    {
        // A shadow of 10 % whose light comes back by 1 % each millimetre to the right: more than the gentle pull towards the page hides.
        static double Shadow(double x) => 0.7 * 0.9 * Math.Exp(0.01 * (x - 100));
        var map = LightMap.Fit(Samples((_, _, _) => 0.7))!;
        PaperSample[] around = [.. Circle(100, 100, 24).Select(p => new PaperSample(p.X, p.Y, Grey(Shadow(p.X)), 0.01, 0))];
        var local = map.Around(around, 100, 100, 10);
        Assert.Equal(1, local.Level.R / 0.63, 0.005);
        Assert.InRange(local.SlopeX[1], 0.075, 0.1);
        Assert.Equal(0, local.SlopeY[1], 1e-3);
        Assert.InRange(local.Scatter, 0, 0.015);
    }

    [Fact]
    public void Paper_that_disagrees_with_itself_is_doubted_and_said_to_scatter()
    {
        var map = LightMap.Fit(Samples((_, _, _) => 0.7))!;
        LocalLight Of(double step) =>
            map.Around(
                [
                    .. Circle(100, 100, 24)
                        .Select((p, i) => new PaperSample(p.X, p.Y, Grey(0.7 * Math.Exp(i % 2 == 0 ? step : -step)), 0.01, 0)),
                ],
                100,
                100,
                10
            );
        Assert.Equal(0.02, Of(0.02).Scatter, 0.004);
        Assert.Equal(0, Of(0).Scatter, 1e-6);

        // What 24 samples that scatter by 2 % say of their three coefficients: 2 % over √8, and 0.3 % that is always there.
        Assert.Equal(Math.Sqrt((0.02 * 0.02 / 8) + (0.003 * 0.003)), Of(0.02).Doubt, 0.001);
        Assert.Equal(0.003, Of(0).Doubt, 1e-5);
    }

    [Fact]
    public void A_cell_most_of_whose_paper_had_to_be_left_out_is_doubted_more()
    {
        var map = LightMap.Fit(Samples((_, _, _) => 0.7))!;
        double Doubt(int dark) =>
            map.Around(
                [.. Circle(100, 100, 24).Select((p, i) => new PaperSample(p.X, p.Y, Grey(i % 24 < dark ? 0.3 : 0.7), 0.01, 0))],
                100,
                100,
                10
            ).Doubt;

        // Up to three in ten are what any cell has; each tenth beyond adds two tenths of a per cent.
        Assert.Equal(Doubt(0), Doubt(7), 1e-4);
        Assert.Equal(Doubt(0) + (0.02 * ((11 / 24.0) - 0.3)), Doubt(11), 1e-4);
    }

    [Fact]
    public void Burnt_out_rough_and_tinted_places_have_little_say()
    {
        var map = LightMap.Fit(Samples((_, _, _) => 0.7))!;
        PaperSample[] sound = [.. Circle(100, 100, 24).Select(p => new PaperSample(p.X, p.Y, Grey(0.7), 0.01, 0))];
        // Every third sample is lighter by 1.4 %: with full say that lifts the level by a quarter of it, the other way by a fifth of that.
        var lifted = With(one => one with { Light = Grey(0.71) }) - 0.7;
        Assert.InRange(lifted, 0.0018, 0.0028);
        Assert.InRange(With(one => one with { Light = Grey(0.71), Spread = 0.2 }) - 0.7, 0.15 * lifted, 0.35 * lifted);
        Assert.InRange(With(one => one with { Light = Grey(0.71), Clipped = 1 }) - 0.7, 0, 0.1 * lifted);
        Assert.Equal(0.7, With(one => one with { Light = new(0.74, 0.71, 0.68) }), 1e-5);

        double With(Func<PaperSample, PaperSample> change) =>
            map.Around([.. sound.Select((one, i) => i % 3 == 0 ? change(one) : one)], 100, 100, 10).Level.G;
    }

    [Theory, InlineData(0), InlineData(2)]
    public void Without_paper_around_it_a_cell_gets_the_light_of_the_page_and_more_doubt(int count)
    {
        var map = LightMap.Fit(Samples((_, x, _) => 0.7 - (0.001 * x)))!;
        var local = map.Around([.. Samples((_, _, _) => 0.2).Take(count)], 100, 100, 10);
        Assert.Equal(map.At(100, 100), local.Level);
        Assert.Equal(0.03, local.Doubt, 1e-9);
    }

    private static FileRgb Grey(double light) => new(light, light, light);

    private static IEnumerable<(double X, double Y)> Circle(double x, double y, int count) =>
        Enumerable
            .Range(0, count)
            .Select(i => (x + (11 * Math.Cos(i * 2 * Math.PI / count)), y + (11 * Math.Sin(i * 2 * Math.PI / count))));

    private static PaperSample[] Ring(List<PaperSample> samples, double x, double y) =>
        [.. samples.Where(one => Math.Abs(one.X - x) <= 20 && Math.Abs(one.Y - y) <= 20)];

    private static List<PaperSample> Samples(Func<int, double, double, double> light) =>
        [
            .. from i in Enumerable.Range(0, 176)
            let x = i % 11 * 20
            let y = i / 11 * 20
            select new PaperSample(x, y, Grey(light(i, x, y)), 0.01, 0),
        ];
}
