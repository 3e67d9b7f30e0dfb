using Dyewort.Numerics;

namespace Dyewort.Response;

public sealed partial class ResponseModel
{
    /// <summary>Logarithm of how probable a reading of a sample is, as a density over the film's three densities.</summary>
    /// <param name="row">What the sample is made of, and what was read.</param>
    /// <remarks>Comparable between compositions for one and the same reading only.</remarks>
    internal double LogLikelihood(TrialRow row)
    {
        var point = row.Point;
        var film = FilmOf(point.Paper);
        var strength = point.Wash * point.Coats;
        var input = encoding.Input(point, Ph.Surface(point).Surface) with { Strength = Nearest(strength) };
        var thinned = strength / Nearest(strength);
        var read = film.DensityOf(row.Colour);
        Span<double> noise = stackalloc double[9];
        Scatter.InDensity(film, read, noise);
        for (var i = 0; i < 9; i++)
            noise[i] *= scatter.Times(row);
        Span<double> mean = stackalloc double[3];
        Span<double> covariance = stackalloc double[9];
        var widened = Widened(rows.Length);
        var logs = new List<double>();
        foreach (var one in ensemble)
        {
            one.Predict(input, mean, covariance, out _);
            for (var i = 0; i < 9; i++)
                covariance[i] = (covariance[i] * thinned * thinned * widened * widened) + (one.NoiseVariance * noise[i]);
            var off = read - (thinned * new FilmDensity(mean[0], mean[1], mean[2]));
            Cholesky.Factor3(covariance);
            logs.Add(NormalTriple.LogDensity(covariance, off));
        }

        var most = logs.Max();
        return most + Math.Log(logs.Average(log => Math.Exp(log - most)));
    }
}
