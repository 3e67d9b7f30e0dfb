using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>A swatch read wet and read again dry.</summary>
/// <param name="Wet">CIELAB (D65) while wet.</param>
/// <param name="Dry">CIELAB (D65) when dry.</param>
/// <param name="Paper">CIELAB (D65) of its bare dry paper.</param>
public sealed record WetDryPair(Lab Wet, Lab Dry, Lab Paper);

/// <summary>What a wet swatch will dry to.</summary>
/// <param name="Dry">CIELAB (D65).</param>
/// <param name="UncertaintyDe00">95 % uncertainty, ΔE₀₀.</param>
/// <param name="Pairs">How many of the maker's own pairs it rests on.</param>
public sealed record DryForecast(Lab Dry, double UncertaintyDe00, int Pairs);

/// <summary>Learns how much paler swatches dry, from the maker's own pairs.</summary>
/// <remarks>Water in the paper lets light go deeper, so a wet swatch is darker and stronger in colour than it dries. Depth relative to
/// paper (the logarithm of XYZ over the paper's) shrinks by a factor per channel on drying; the factor is learnt by Bayes' rule for a
/// normal mean: prior 0.80 ± 0.15 (a swatch dries about a fifth paler; common practice, no source), each pair weighted by how deep it is.
/// How far one swatch strays from the factor starts at 0.12 (a guess worth six pairs) and is then learnt from the pairs' own scatter. With
/// no pairs the prior speaks, with a wide uncertainty.</remarks>
public sealed class WetToDry
{
    private const double PriorFactor = 0.80;
    private const double PriorSigma = 0.15;
    private const double PairSigma = 0.12;

    /// <summary>How many pairs the guess of the scatter is worth.</summary>
    private const double ScatterWorth = 6;

    private readonly double[] factor = new double[3];
    private readonly double[] sigma = new double[3];
    private readonly double[] scatter = new double[3];
    private readonly int pairs;

    private WetToDry(IReadOnlyList<WetDryPair> learnt)
    {
        for (var channel = 0; channel < 3; channel++)
        {
            var seen = new List<(double Factor, double Weight)>();
            foreach (var pair in learnt)
            {
                var wet = Depth(pair.Wet, pair.Paper)[channel];
                var dry = Depth(pair.Dry, pair.Paper)[channel];

                // A pale channel says nothing about a factor: its weight falls with the square of its depth.
                if (wet >= 0.05)
                    seen.Add((Math.Clamp(dry / wet, 0.2, 1.5), wet * wet / ((wet * wet) + 0.04)));
            }

            scatter[channel] = PairSigma;
            for (var round = 0; round < 3; round++)
            {
                var precision = 1 / (PriorSigma * PriorSigma);
                var sum = PriorFactor * precision;
                foreach (var (one, weight) in seen)
                {
                    precision += weight / (scatter[channel] * scatter[channel]);
                    sum += weight * one / (scatter[channel] * scatter[channel]);
                }

                factor[channel] = sum / precision;
                sigma[channel] = Math.Sqrt(1 / precision);
                var squares = seen.Sum(one => one.Weight * (one.Factor - factor[channel]) * (one.Factor - factor[channel]));
                scatter[channel] = Math.Sqrt(
                    ((ScatterWorth * PairSigma * PairSigma) + squares) / (ScatterWorth + seen.Sum(one => one.Weight))
                );
            }
        }

        pairs = learnt.Count;
    }

    /// <summary>Learns from pairs; none is allowed.</summary>
    public static WetToDry Learn(IReadOnlyList<WetDryPair> pairs) => new(pairs);

    /// <summary>What a wet swatch will dry to.</summary>
    /// <param name="wet">CIELAB (D65) while wet.</param>
    /// <param name="paper">CIELAB (D65) of the bare dry paper.</param>
    /// <param name="wetUncertaintyDe00">95 % uncertainty of the wet reading.</param>
    public DryForecast Forecast(Lab wet, Lab paper, double wetUncertaintyDe00)
    {
        var depth = Depth(wet, paper);
        var dry = Colour(0);
        var spread = Math.Max(Difference.Ciede2000(dry, Colour(1)), Difference.Ciede2000(dry, Colour(-1)));
        return new(
            dry,
            Math.Sqrt((wetUncertaintyDe00 * wetUncertaintyDe00) + (Uncertainty.TwoSided * spread * Uncertainty.TwoSided * spread)),
            pairs
        );

        Lab Colour(double sigmas)
        {
            var white = paper.ToXyz();
            double One(int channel, double of) =>
                of
                * Math.Exp(
                    -depth[channel]
                        * (
                            factor[channel]
                            + (sigmas * Math.Sqrt((sigma[channel] * sigma[channel]) + (scatter[channel] * scatter[channel])))
                        )
                );
            return Lab.FromXyz(new(One(0, white.X), One(1, white.Y), One(2, white.Z)));
        }
    }

    private static double[] Depth(Lab swatch, Lab paper)
    {
        var (s, p) = (swatch.ToXyz(), paper.ToXyz());
        static double One(double of, double whole) => Math.Log(Math.Max(whole, 0.1) / Math.Max(of, 0.1));
        return [One(s.X, p.X), One(s.Y, p.Y), One(s.Z, p.Z)];
    }
}
