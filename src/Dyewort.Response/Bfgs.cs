using System.Numerics.Tensors;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>Where a search for the most probable hyperparameters ended.</summary>
/// <param name="Theta">The hyperparameters, the most probable seen.</param>
/// <param name="Value">Logarithm of their posterior density, up to a constant.</param>
/// <param name="Ending">How the search ended; Stalled where no step along the last direction was better, or the start had no density at
/// all.</param>
internal readonly record struct PosteriorMode(double[] Theta, double Value, Ending Ending);

/// <summary>The most probable hyperparameters.</summary>
internal static class Bfgs
{
    /// <summary>The inverse Hessian to begin with, as a share of the prior's variances.</summary>
    private const double FirstScale = 0.3;

    /// <summary>The longest step, in prior standard deviations of the hyperparameter that moves most.</summary>
    private const double LongestStep = 1.5;
    private const double SmallestGain = 1e-5;
    private const double SmallestImprovement = 1e-4;
    private const double SufficientIncrease = 1e-4;
    private const double Backtracking = 0.4;
    private const int MostBacktracks = 12;

    /// <summary>Maximises the posterior density from a start.</summary>
    /// <param name="evidence">The density.</param>
    /// <param name="start">Where to begin.</param>
    /// <param name="rounds">Most rounds to go.</param>
    /// <remarks>BFGS with a backtracking line search on Armijo's condition; an update that would lose positive definiteness is left out
    /// [NocedalWright2006], algorithms 3.1 and 6.1.</remarks>
    public static PosteriorMode Maximise(FilmEvidence evidence, double[] start, int rounds)
    {
        var d = start.Length;
        var spread = evidence.Layout.PriorSpread;
        var theta = (double[])start.Clone();
        var slope = new double[d];
        var value = evidence.LogPosterior(theta, slope);
        if (!double.IsFinite(value))
            return new(theta, value, Ending.Stalled);
        var inverse = Diagonal(spread);
        for (var round = 0; round < rounds; round++)
        {
            var direction = Times(inverse, slope, d);
            var gain = TensorPrimitives.Dot<double>(direction, slope);
            if (!(gain > 0))
            {
                inverse = Diagonal(spread);
                direction = Times(inverse, slope, d);
                gain = TensorPrimitives.Dot<double>(direction, slope);
            }

            if (gain < SmallestGain)
                return new(theta, value, Ending.Converged);
            var longest = 0.0;
            for (var q = 0; q < d; q++)
                longest = Math.Max(longest, Math.Abs(direction[q]) / spread[q]);
            var step = Math.Min(1, LongestStep / longest);
            var next = new double[d];
            var nextSlope = new double[d];
            var nextValue = double.NegativeInfinity;
            var accepted = false;
            for (var attempt = 0; attempt < MostBacktracks && !accepted; attempt++, step *= Backtracking)
            {
                for (var q = 0; q < d; q++)
                    next[q] = theta[q] + (step * direction[q]);
                nextValue = evidence.LogPosterior(next, nextSlope);
                accepted = nextValue > value + (SufficientIncrease * step * gain);
            }

            if (!accepted)
                return new(theta, value, Ending.Stalled);
            Update(inverse, theta, next, slope, nextSlope);
            var improvement = nextValue - value;
            (theta, slope, value) = (next, nextSlope, nextValue);
            if (improvement < SmallestImprovement)
                return new(theta, value, Ending.Converged);
        }

        return new(theta, value, Ending.RoundLimit);
    }

    private static void Update(double[] inverse, double[] theta, double[] next, double[] slope, double[] nextSlope)
    {
        var d = theta.Length;
        var s = new double[d];
        var y = new double[d];
        for (var q = 0; q < d; q++)
            (s[q], y[q]) = (next[q] - theta[q], slope[q] - nextSlope[q]);
        var sy = TensorPrimitives.Dot<double>(s, y);
        if (!(sy > 1e-10))
            return;
        var hy = Times(inverse, y, d);
        var yhy = TensorPrimitives.Dot<double>(y, hy);
        for (var a = 0; a < d; a++)
        {
            for (var b = 0; b < d; b++)
                inverse[(a * d) + b] += ((1 + (yhy / sy)) * s[a] * s[b] / sy) - (((hy[a] * s[b]) + (s[a] * hy[b])) / sy);
        }
    }

    private static double[] Diagonal(double[] spread)
    {
        var matrix = new double[spread.Length * spread.Length];
        for (var q = 0; q < spread.Length; q++)
            matrix[(q * spread.Length) + q] = FirstScale * spread[q] * spread[q];
        return matrix;
    }

    private static double[] Times(double[] matrix, double[] vector, int d)
    {
        var result = new double[d];
        for (var a = 0; a < d; a++)
            result[a] = TensorPrimitives.Dot<double>(matrix.AsSpan(a * d, d), vector);
        return result;
    }
}
