using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Response;

public sealed partial class ResponseModel
{
    /// <summary>Film densities that several samples may have at once: what is open about one is open about its neighbours too.</summary>
    /// <param name="points">The samples.</param>
    /// <param name="oneJar">True where they are stages of one jar.</param>
    /// <param name="phDoubt">Standard deviation of each sample's pH beyond what its estimate says; none where left out.</param>
    /// <returns>Per sample equally likely densities; the same place belongs to the same state of the world in every sample.</returns>
    internal FilmDensity[][] DensitiesTogether(IReadOnlyList<TrialPoint> points, bool oneJar, double[]? phDoubt = null)
    {
        var m = points.Count;
        var wide = 3 * m;
        var result = points.Select(_ => new FilmDensity[ensemble.Count * Draws]).ToArray();
        var random = new NormalDraws(Seed);
        var mean = new double[wide];
        var covariance = new double[wide * wide];
        var z = new double[wide];
        var d = new double[3];
        var phs = points.Select(Ph.Surface).ToArray();
        var (at, member) = (0, 0);
        foreach (var one in ensemble)
        {
            // One doubt about the liquor's acids moves the computed pH of every sample the same way; evenly spread over the members, in an
            // order that has nothing to do with them, it leaves less to chance than drawn.
            var doubt = NormalDistribution.Quantile((((member++ * 7) % ensemble.Count) + 0.5) / ensemble.Count);
            var liquor = (random.Next(), random.Next());
            var inputs = new FilmInput[m];
            var thinned = new double[m];
            for (var p = 0; p < m; p++)
            {
                var strength = points[p].Wash * points[p].Coats;
                var nearest = Nearest(strength);
                thinned[p] = strength / nearest;
                inputs[p] = encoding.Input(points[p], Supposed(one, phs[p].Surface, liquor)) with
                {
                    Strength = nearest,
                    PhShift = ((PhScatterShare * phs[p].Scatter) + (phDoubt?[p] ?? 0)) * doubt,
                };
            }

            one.Predict(inputs, mean, covariance, oneJar);
            Factor(covariance, wide);
            Widen(covariance, rows.Length);
            for (var draw = 0; draw < Draws; draw++, at++)
            {
                for (var i = 0; i < wide; i++)
                    z[i] = random.Next();
                for (var p = 0; p < m; p++)
                {
                    for (var k = 0; k < 3; k++)
                    {
                        var row = (3 * p) + k;
                        var sum = 0.0;
                        for (var i = 0; i <= row; i++)
                            sum += covariance[(row * wide) + i] * z[i];
                        d[k] = (mean[row] + sum) * thinned[p];
                    }

                    result[p][at] = new(d[0], d[1], d[2]);
                }
            }
        }

        return result;
    }

    /// <summary>The same as colours, each on its own paper.</summary>
    internal Lab[][] ColoursTogether(IReadOnlyList<TrialPoint> points, bool oneJar, double[]? phDoubt = null)
    {
        var densities = DensitiesTogether(points, oneJar, phDoubt);
        return
        [
            .. points.Select(
                (point, p) => FilmOf(point.Paper) is var film ? Array.ConvertAll(densities[p], density => film.ColourOf(density)) : []
            ),
        ];
    }

    /// <summary>What is open about several samples' densities together: covariance (three rows and columns per sample) with the share that
    /// comes from not knowing the hyperparameters, and the variance of one reading along each axis, ΔE₀₀².</summary>
    /// <remarks>Strengths outside what was tested are taken as the nearest tested one.</remarks>
    internal (double[] Covariance, double NoiseVariance) OpenTogether(IReadOnlyList<TrialPoint> points)
    {
        var inputs = points
            .Select(point => encoding.Input(point, Ph.Surface(point).Surface) with { Strength = Nearest(point.Wash * point.Coats) })
            .ToArray();
        var wide = 3 * inputs.Length;
        var means = new List<double[]>();
        var total = new double[wide * wide];
        var covariance = new double[wide * wide];
        foreach (var one in ensemble)
        {
            var mean = new double[wide];
            one.Predict(inputs, mean, covariance);
            means.Add(mean);
            for (var i = 0; i < total.Length; i++)
                total[i] += covariance[i] / ensemble.Count;
        }

        var centre = new double[wide];
        foreach (var mean in means)
        {
            for (var i = 0; i < wide; i++)
                centre[i] += mean[i] / means.Count;
        }

        foreach (var mean in means)
        {
            for (var i = 0; i < wide; i++)
            {
                for (var j = 0; j < wide; j++)
                    total[(i * wide) + j] += (mean[i] - centre[i]) * (mean[j] - centre[j]) / means.Count;
            }
        }

        return (total, ensemble.Average(one => one.NoiseVariance));
    }
}
