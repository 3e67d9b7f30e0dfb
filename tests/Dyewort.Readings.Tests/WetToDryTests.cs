using Dyewort.Colour;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class WetToDryTests
{
    private static readonly Lab Paper = new(95, -0.5, 3);

    /// <summary>Makers whose swatches dry by a factor of their own, drawn as the prior says, each swatch straying from it.</summary>
    [Theory, InlineData(0, 0.12), InlineData(3, 0.12), InlineData(12, 0.12), InlineData(20, 0.2)]
    public void The_stated_bound_contains_what_it_dries_to(int pairs, double stray)
    {
        var random = new Random(811);
        double inside = 0;
        const int Makers = 400;
        for (var maker = 0; maker < Makers; maker++)
        {
            var factor = 0.8 + (0.15 * Normal(random));
            WetDryPair Swatch()
            {
                var wet = new Lab(30 + (45 * random.NextDouble()), (random.NextDouble() - 0.5) * 60, (random.NextDouble() - 0.5) * 60);
                return new(wet, Dried(wet, Math.Clamp(factor + (stray * Normal(random)), 0.2, 1.5)), Paper);
            }

            var learnt = WetToDry.Learn([.. Enumerable.Range(0, pairs).Select(_ => Swatch())]);
            var asked = Swatch();
            var forecast = learnt.Forecast(asked.Wet, Paper, 0);
            if (Difference.Ciede2000(forecast.Dry, asked.Dry) <= forecast.UncertaintyDe00)
                inside++;
        }

        Assert.InRange(inside / Makers, 0.9, 0.995);
    }

    [Fact]
    public void Pairs_that_agree_narrow_the_bound_and_pairs_that_scatter_widen_it()
    {
        var wet = new Lab(45, 30, -20);
        double Bound(double stray, int pairs)
        {
            var random = new Random(5);
            return WetToDry
                .Learn([.. Enumerable.Range(0, pairs).Select(_ => new WetDryPair(wet, Dried(wet, 0.7 + (stray * Normal(random))), Paper))])
                .Forecast(wet, Paper, 1)
                .UncertaintyDe00;
        }

        Assert.True(Bound(0.02, 20) < 0.7 * Bound(0, 0));
        Assert.True(Bound(0.25, 20) > 1.3 * Bound(0.02, 20));
    }

    [Fact]
    public void Bare_paper_dries_to_bare_paper() =>
        Assert.Equal(0, Difference.Ciede2000(WetToDry.Learn([]).Forecast(Paper, Paper, 1).Dry, Paper), 1e-6);

    private static Lab Dried(Lab wet, double factor)
    {
        var (w, p) = (wet.ToXyz(), Paper.ToXyz());
        double One(double of, double whole) => whole * Math.Pow(Math.Max(of, 0.1) / whole, factor);
        return Lab.FromXyz(new(One(w.X, p.X), One(w.Y, p.Y), One(w.Z, p.Z)));
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
