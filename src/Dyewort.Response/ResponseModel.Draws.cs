using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Response;

public sealed partial class ResponseModel
{
    private const int Draws = 12;
    private const int SearchDraws = 3;

    /// <summary>Every so many members of the ensemble are asked for a quick colour.</summary>
    private const int QuickStride = 8;

    /// <summary>ΔE₀₀ to a wanted colour to expect of a sample, from a few draws: for searches that compare many samples.</summary>
    internal double Expected(TrialPoint point, Lab wanted) => Draw(point, SearchDraws).Expected(wanted);

    /// <summary>Colours the sample may have, equally likely.</summary>
    internal ColourDraws Draw(TrialPoint point, int drawsEach = Draws)
    {
        var film = FilmOf(point.Paper);
        var strength = point.Wash * point.Coats;
        var nearest = Nearest(strength);
        var (ph, phScatter) = Ph.Surface(point);
        var densities = new FilmDensity[ensemble.Count * drawsEach];
        var random = new NormalDraws(Seed);
        Span<double> mean = stackalloc double[3];
        Span<double> covariance = stackalloc double[9];
        var priorWeight = 0.0;
        var noise = 0.0;
        var at = 0;
        foreach (var one in ensemble)
        {
            // What is open about a computed pH is open in the colour too.
            var input = encoding.Input(point, Supposed(one, ph, random)) with
            {
                Strength = nearest,
                PhShift = phScatter * PhScatterShare * random.NextHeavy(),
            };
            one.Predict(input, mean, covariance, out var weight);
            priorWeight += weight / ensemble.Count;
            noise += one.NoiseVariance / ensemble.Count;
            Cholesky.Factor3(covariance);

            Widen(covariance, rows.Length);
            for (var draw = 0; draw < drawsEach; draw++)
                densities[at++] = NormalTriple.Draw(mean, covariance, random);
        }

        var draws = new ColourDraws(Array.ConvertAll(densities, film.ColourOf), priorWeight, noise, densities);
        return nearest == strength ? draws : WashedInk.Thin(draws, film, IsGuessed(point.Paper), strength / nearest);
    }

    /// <summary>The most probable colour without its uncertainty: quick enough for a search.</summary>
    internal FilmDensity QuickDensity(TrialPoint point)
    {
        Span<double> mean = stackalloc double[3];
        var sum = default(FilmDensity);
        var strength = point.Wash * point.Coats;
        var nearest = Nearest(strength);
        var input = encoding.Input(point, Ph.Surface(point).Surface) with { Strength = nearest };
        for (var member = 0; member < ensemble.Count; member += QuickStride)
        {
            ensemble[member].Predict(input, mean, default, out _);
            sum += strength / nearest / ((ensemble.Count + QuickStride - 1) / QuickStride) * new FilmDensity(mean[0], mean[1], mean[2]);
        }

        return sum;
    }

    /// <summary>Where the trials' own pH was computed, what the chemistry errs by is learned with the colours, most of it.</summary>
    private double PhScatterShare =>
        Ph.Measured == 0 ? 0.2
        : rows.All(row => row.Point.Ph is not null) ? 1
        : 0.6;

    /// <summary>The pH under one of the ensemble's liquors; where the colours did not have to say which, under any that the measured pH
    /// allow.</summary>
    private static PhSurface Supposed(FilmPosterior one, PhSurface ph, (double Ph, double Acid) liquor) =>
        ph.IsConstant || one.KnowsLiquor ? ph : PhSurface.Constant(ph.At(liquor.Ph, liquor.Acid));

    private static PhSurface Supposed(FilmPosterior one, PhSurface ph, NormalDraws random) =>
        Supposed(one, ph, (random.Next(), random.Next()));

    /// <summary>Cholesky factor, in place, with as little added to the variances as rounding asks for.</summary>
    private static void Factor(double[] covariance, int size)
    {
        for (var jitter = 1e-9; ; jitter *= 10)
        {
            var tried = (double[])covariance.Clone();
            for (var i = 0; i < size; i++)
                tried[(i * size) + i] += jitter;
            if (!Cholesky.TryFactor(tried, size))
                continue;
            tried.CopyTo(covariance, 0);
            return;
        }
    }

    /// <summary>Few samples leave more open than a handful of hyperparameter sets shows: measured on generated plants, see
    /// docs/accuracy.md.</summary>
    private static double Widened(int samples) => 1 + (0.5 / samples);

    private static void Widen(Span<double> factor, int samples)
    {
        for (var entry = 0; entry < factor.Length; entry++)
            factor[entry] *= Widened(samples);
    }
}
