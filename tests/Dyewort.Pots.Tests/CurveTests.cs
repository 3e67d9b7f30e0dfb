using CsCheck;
using Xunit;

namespace Dyewort.Pots.Tests;

public sealed class CurveTests
{
    [Fact]
    public void The_best_time_is_where_the_curve_is_highest() =>
        Gen.Select(Gen.Double[-5, 1], Gen.Double[-9, 0])
            .Sample(
                (logUptake, logLoss) =>
                {
                    var (uptake, loss) = (Math.Exp(logUptake), Math.Exp(logLoss));
                    var best = CurveFit.BestTime(uptake, loss);

                    // A plain search that knows nothing of the formula.
                    var (low, high) = (0.0, 20 * best);
                    var golden = (Math.Sqrt(5) - 1) / 2;
                    for (var step = 0; step < 200; step++)
                    {
                        var (left, right) = (high - (golden * (high - low)), low + (golden * (high - low)));
                        if (CurveFit.Strength(1, uptake, loss, left) < CurveFit.Strength(1, uptake, loss, right))
                            low = left;
                        else
                            high = right;
                    }

                    Assert.Equal(1, ((low + high) / 2) / best, 1e-4);
                    Assert.True(CurveFit.Strength(1, uptake, loss, best) >= CurveFit.Strength(1, uptake, loss, best * 1.01));
                }
            );

    public static TheoryData<string, ColourantClass, Tissue, double[], double, double> Pots() =>
        new()
        {
            { "three drops of berries", ColourantClass.Anthocyanin, Tissue.Soft, [5, 15, 40], 72, 0.01 },
            { "six drops of berries", ColourantClass.Anthocyanin, Tissue.Soft, [3, 8, 15, 30, 60, 120], 85, 0.01 },
            { "four dips of weld", ColourantClass.Flavonol, Tissue.Hard, [15, 30, 45, 60], 80, 0.02 },
            { "five drops of beet", ColourantClass.Betalain, Tissue.Soft, [2, 5, 10, 20, 40], 60, 0.01 },
        };

    /// <summary>Truths drawn from a flat range, not from the prior: the bands must hold all the same.</summary>
    [Theory, MemberData(nameof(Pots))]
    public void Bands_hold_the_truth_as_often_as_they_say(
        string pot,
        ColourantClass colourants,
        Tissue tissue,
        double[] minutes,
        double celsius,
        double noise
    )
    {
        const int pots = 160;
        var random = new Random(6);
        var prior = CurvePrior.For(colourants, tissue);
        var (curve, plateau, uptake, best, more) = (0, 0, 0, 0, 0);
        for (var trial = 0; trial < pots; trial++)
        {
            double Flat(double spread) => Math.Sqrt(3) * spread * ((2 * random.NextDouble()) - 1);
            var (trueUptakeKj, trueLossKj) = (
                prior.UptakeKilojoules + Flat(prior.UptakeKilojoulesSpread),
                prior.LossKilojoules + Flat(prior.LossKilojoulesSpread)
            );
            var ke = prior.UptakePerMinuteAt75 * Math.Exp(Flat(prior.UptakeSpread)) * Arrhenius.Factor(trueUptakeKj, 75, celsius);
            var kd = prior.LossPerHourAt80 / 60 * Math.Exp(Flat(prior.LossSpread)) * Arrhenius.Factor(trueLossKj, 80, celsius);
            var cmax = Math.Exp(Math.Log(0.3) + (random.NextDouble() * Math.Log(6)));
            var scatter = 0.05 * Math.Exp(Flat(0.4));
            var drops = minutes
                .Select(minute =>
                {
                    var truth = CurveFit.Strength(cmax, ke, kd, minute);
                    return new Drop(minute, truth + (truth * scatter * Gauss(random)) + (noise * Gauss(random)), noise);
                })
                .ToList();
            Assert.True(CurveFit.Fit(drops, HeatHistory.Steady(celsius), prior, seed: trial).TryGet(out var fit));
            var middle = (minutes[0] + minutes[^1]) / 2;
            if (Inside(fit.StrengthAt(middle), CurveFit.Strength(cmax, ke, kd, middle)))
                curve++;
            if (Inside(fit.Plateau, cmax))
                plateau++;
            if (Inside(fit.UptakePerMinute, ke))
                uptake++;
            if (Inside(fit.BestMinute, CurveFit.BestTime(ke, kd)))
                best++;
            var change = (CurveFit.Strength(cmax, ke, kd, minutes[^1] + 30) / CurveFit.Strength(cmax, ke, kd, minutes[^1])) - 1;
            if (Inside(fit.ChangeBy(minutes[^1], 30), change))
                more++;
        }

        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{pot}: strength {100.0 * curve / pots:0}, plateau {100.0 * plateau / pots:0}, uptake {100.0 * uptake / pots:0}, best "
                + $"time {100.0 * best / pots:0}, half an hour more {100.0 * more / pots:0} % inside"
        );
        Assert.All(new[] { curve, plateau, uptake, best, more }, inside => Assert.InRange(inside / (double)pots, 0.90, 0.995));
        Assert.InRange((curve + plateau + uptake + best + more) / (5.0 * pots), 0.90, 0.98);
    }

    private static bool Inside(Band band, double truth) => truth >= band.Low && truth <= band.High;

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
