namespace Dyewort.Response;

/// <summary>Finds the most probable hyperparameters and a handful of others in proportion to how probable they are.</summary>
internal static class HyperSearch
{
    /// <summary>Climbs from a start with BFGS steps and a halving line search.</summary>
    public static (double[] Theta, double Value) Climb(FilmProcess process, double[] start, int rounds)
    {
        var d = start.Length;
        var theta = (double[])start.Clone();
        var slope = new double[d];
        var value = process.LogPosterior(theta, slope);
        var inverse = Scaled(process.PriorSpread, 0.3);
        for (var round = 0; round < rounds && double.IsFinite(value); round++)
        {
            var direction = Times(inverse, slope, d);
            var gain = Dot(direction, slope);
            if (!(gain > 0))
            {
                inverse = Scaled(process.PriorSpread, 0.3);
                direction = Times(inverse, slope, d);
                gain = Dot(direction, slope);
            }

            if (gain < 1e-5)
                break;
            var longest = 0.0;
            for (var q = 0; q < d; q++)
                longest = Math.Max(longest, Math.Abs(direction[q]) / process.PriorSpread[q]);
            var step = Math.Min(1, 1.5 / longest);
            var next = new double[d];
            var nextSlope = new double[d];
            var nextValue = double.NegativeInfinity;
            var accepted = false;
            for (var attempt = 0; attempt < 12; attempt++, step *= 0.4)
            {
                for (var q = 0; q < d; q++)
                    next[q] = theta[q] + (step * direction[q]);
                nextValue = process.LogPosterior(next, nextSlope);
                if (nextValue > value + (1e-4 * step * gain))
                {
                    accepted = true;
                    break;
                }
            }

            if (!accepted)
                break;
            var s = new double[d];
            var y = new double[d];
            for (var q = 0; q < d; q++)
                (s[q], y[q]) = (next[q] - theta[q], slope[q] - nextSlope[q]);
            var sy = Dot(s, y);
            if (sy > 1e-10)
            {
                var hy = Times(inverse, y, d);
                var yhy = Dot(y, hy);
                for (var a = 0; a < d; a++)
                {
                    for (var b = 0; b < d; b++)
                        inverse[(a * d) + b] += ((1 + (yhy / sy)) * s[a] * s[b] / sy) - (((hy[a] * s[b]) + (s[a] * hy[b])) / sy);
                }
            }

            var improvement = nextValue - value;
            (theta, slope, value) = (next, nextSlope, nextValue);
            if (improvement < 1e-4)
                break;
        }

        return (theta, value);
    }

    /// <summary>A seeded Metropolis walk around the summit; every few steps are kept.</summary>
    public static List<double[]> Walk(FilmProcess process, double[] summit, int kept, int between, int seed)
    {
        var d = summit.Length;
        var factor = Spread(process, summit);
        var random = new Normal(seed);
        var theta = (double[])summit.Clone();
        var value = process.LogPosterior(theta);
        var scale = 2.0 / Math.Sqrt(d);
        var result = new List<double[]>();
        var next = new double[d];
        for (var step = 1; step <= kept * between; step++)
        {
            var z = new double[d];
            for (var q = 0; q < d; q++)
                z[q] = random.Next();
            for (var a = 0; a < d; a++)
            {
                var sum = 0.0;
                for (var b = 0; b <= a; b++)
                    sum += factor[(a * d) + b] * z[b];
                next[a] = theta[a] + (scale * sum);
            }

            var nextValue = process.LogPosterior(next);
            if (Math.Log(random.NextUniform()) < nextValue - value)
                (theta, value, next) = (next, nextValue, theta);
            if (step % between == 0)
                result.Add((double[])theta.Clone());
        }

        return result;
    }

    /// <summary>Cholesky factor of the curvature's inverse at the summit, never wider than the prior.</summary>
    private static double[] Spread(FilmProcess process, double[] summit)
    {
        const double Step = 0.05;
        var d = summit.Length;
        var hessian = new double[d * d];
        var up = new double[d];
        var down = new double[d];
        for (var q = 0; q < d; q++)
        {
            var moved = (double[])summit.Clone();
            moved[q] += Step;
            process.LogPosterior(moved, up);
            moved[q] -= 2 * Step;
            process.LogPosterior(moved, down);
            for (var r = 0; r < d; r++)
                hessian[(q * d) + r] = (down[r] - up[r]) / (2 * Step);
        }

        for (var q = 0; q < d; q++)
        {
            for (var r = 0; r < q; r++)
            {
                var mean = 0.5 * (hessian[(q * d) + r] + hessian[(r * d) + q]);
                hessian[(q * d) + r] = mean;
                hessian[(r * d) + q] = mean;
            }
        }

        for (var ridge = 0.0; ; ridge = Math.Max(ridge * 4, 0.05))
        {
            var tried = (double[])hessian.Clone();
            for (var q = 0; q < d; q++)
            {
                var priorPrecision = 1 / (process.PriorSpread[q] * process.PriorSpread[q]);
                tried[(q * d) + q] = Math.Max(tried[(q * d) + q], 0.3 * priorPrecision) + (ridge * priorPrecision);
            }

            if (ridge > 1e3)
            {
                tried = new double[d * d];
                for (var q = 0; q < d; q++)
                    tried[(q * d) + q] = 1 / (process.PriorSpread[q] * process.PriorSpread[q]);
            }

            if (!Matrix.Cholesky(tried, d))
                continue;
            var covariance = Matrix.Inverse(tried, d);
            if (Matrix.Cholesky(covariance, d))
                return covariance;
        }
    }

    private static double[] Scaled(double[] spread, double share)
    {
        var matrix = new double[spread.Length * spread.Length];
        for (var q = 0; q < spread.Length; q++)
            matrix[(q * spread.Length) + q] = share * spread[q] * spread[q];
        return matrix;
    }

    private static double[] Times(double[] matrix, double[] vector, int d)
    {
        var result = new double[d];
        for (var a = 0; a < d; a++)
            result[a] = Dot(matrix.AsSpan(a * d, d), vector);
        return result;
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b) => System.Numerics.Tensors.TensorPrimitives.Dot(a, b);
}
