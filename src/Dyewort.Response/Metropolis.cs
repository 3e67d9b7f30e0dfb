using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>Hyperparameters in proportion to how probable they are.</summary>
/// <remarks>A random walk with normal proposals, accepted by the ratio of the densities [Metropolis1953]. Proposals have the shape of the
/// posterior near its mode, scaled by 2/√d; 2.38/√d is best for wide normal posteriors [Roberts1997].</remarks>
internal static class Metropolis
{
    private const double ProposalScale = 2;

    /// <summary>Step of the numeric second derivatives, in units of a hyperparameter (logarithms mostly).</summary>
    private const double Step = 0.05;

    /// <summary>No direction is proposed wider than this share of the prior's precision allows.</summary>
    private const double LeastPrecision = 0.3;
    private const double FirstRidge = 0.05;
    private const double MostRidge = 1e3;

    /// <summary>A seeded walk from the mode, of which every few steps one is kept.</summary>
    /// <param name="evidence">The density.</param>
    /// <param name="mode">The most probable hyperparameters, where it starts.</param>
    /// <param name="samples">How many to keep.</param>
    /// <param name="thinning">Steps from one that is kept to the next.</param>
    /// <param name="seed">The same seed gives the same walk.</param>
    public static List<double[]> Sample(FilmEvidence evidence, double[] mode, int samples, int thinning, int seed)
    {
        var d = mode.Length;
        var factor = ProposalFactor(evidence, mode);
        var random = new NormalDraws(seed);
        var theta = (double[])mode.Clone();
        var value = evidence.LogPosterior(theta);
        var scale = ProposalScale / Math.Sqrt(d);
        var result = new List<double[]>();
        var next = new double[d];
        var z = new double[d];
        for (var step = 1; step <= samples * thinning; step++)
        {
            for (var q = 0; q < d; q++)
                z[q] = random.Next();
            for (var a = 0; a < d; a++)
            {
                var sum = 0.0;
                for (var b = 0; b <= a; b++)
                    sum += factor[(a * d) + b] * z[b];
                next[a] = theta[a] + (scale * sum);
            }

            var nextValue = evidence.LogPosterior(next);
            if (Math.Log(random.NextUniform()) < nextValue - value)
                (theta, value, next) = (next, nextValue, theta);
            if (step % thinning == 0)
                result.Add((double[])theta.Clone());
        }

        return result;
    }

    /// <summary>Cholesky factor of the inverse Hessian at the mode, never wider than the prior.</summary>
    /// <remarks>A Hessian that is not positive definite gets a growing share of the prior's precision on its diagonal [NocedalWright2006],
    /// section 3.4; beyond the largest the prior's own precision stands in, which always has a factor.</remarks>
    private static double[] ProposalFactor(FilmEvidence evidence, double[] mode)
    {
        var d = mode.Length;
        var spread = evidence.Layout.PriorSpread;
        var hessian = Hessian(evidence, mode);
        for (var ridge = 0.0; ; ridge = Math.Max(ridge * 4, FirstRidge))
        {
            var tried = ridge > MostRidge ? new double[d * d] : (double[])hessian.Clone();
            for (var q = 0; q < d; q++)
            {
                var priorPrecision = 1 / (spread[q] * spread[q]);
                tried[(q * d) + q] =
                    ridge > MostRidge
                        ? priorPrecision
                        : Math.Max(tried[(q * d) + q], LeastPrecision * priorPrecision) + (ridge * priorPrecision);
            }

            if (!Cholesky.TryFactor(tried, d))
                continue;
            var covariance = Cholesky.Inverse(tried, d);
            if (Cholesky.TryFactor(covariance, d))
                return covariance;
        }
    }

    /// <summary>Second derivatives of minus the logarithm of the density, by central differences of its slope, made symmetric.</summary>
    private static double[] Hessian(FilmEvidence evidence, double[] mode)
    {
        var d = mode.Length;
        var hessian = new double[d * d];
        var up = new double[d];
        var down = new double[d];
        for (var q = 0; q < d; q++)
        {
            var moved = (double[])mode.Clone();
            moved[q] += Step;
            evidence.LogPosterior(moved, up);
            moved[q] -= 2 * Step;
            evidence.LogPosterior(moved, down);
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

        return hessian;
    }
}
