using Dyewort.Colour;

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
        var random = new Normal(Seed);
        var mean = new double[wide];
        var covariance = new double[wide * wide];
        var z = new double[wide];
        var d = new double[3];
        var phs = points.Select(Ph.Surface).ToArray();
        var (at, member) = (0, 0);
        foreach (var one in ensemble)
        {
            // One doubt about the liquor's acids moves the computed pH of every sample the same way; evenly spread over the members, in an order
            // that has nothing to do with them, it leaves less to chance than drawn.
            var doubt = Normal.Quantile((((member++ * 7) % ensemble.Count) + 0.5) / ensemble.Count);
            var liquor = (random.Next(), random.Next());
            var inputs = new FilmInput[m];
            var thinned = new double[m];
            for (var p = 0; p < m; p++)
            {
                var strength = points[p].Wash * points[p].Coats;
                var nearest = Nearest(strength);
                thinned[p] = strength / nearest;
                inputs[p] = Input(points[p], Supposed(one, phs[p].Surface, liquor), additions, levels) with
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

    /// <summary>What is open about several samples' densities together: covariance (three rows and columns per sample) with the share that comes
    /// from not knowing the hyperparameters, and the variance of one reading along each axis, ΔE₀₀².</summary>
    /// <remarks>Strengths outside what was tested are taken as the nearest tested one.</remarks>
    internal (double[] Covariance, double NoiseVariance) OpenTogether(IReadOnlyList<TrialPoint> points)
    {
        var inputs = points
            .Select(point =>
                Input(point, Ph.Surface(point).Surface, additions, levels) with
                {
                    Strength = Nearest(point.Wash * point.Coats),
                }
            )
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

    /// <summary>The same beliefs without some of the rows: hyperparameters, papers and pH stay as the whole table taught them.</summary>
    internal ResponseModel Without(Predicate<TrialRow> left)
    {
        int[] kept = [.. Enumerable.Range(0, rows.Length).Where(i => !left(rows[i]))];
        if (kept.Length == rows.Length || kept.Length == 0)
            return this;
        var part = process.Part(kept);
        return new(
            part,
            ensemble.ConvertAll(one => new FilmProcess.Settled(part, one.Theta)),
            films,
            [.. kept.Select(i => rows[i])],
            additions,
            levels,
            Ph,
            usualDoubt
        );
    }

    /// <summary>Logarithm of how probable a reading of a sample is, as a density over the film's three densities.</summary>
    /// <param name="row">What the sample is made of, and what was read.</param>
    /// <remarks>Comparable between compositions for one and the same reading only.</remarks>
    internal double LogLikelihood(TrialRow row)
    {
        var point = row.Point;
        var film = FilmOf(point.Paper);
        var strength = point.Wash * point.Coats;
        var input = Input(point, Ph.Surface(point).Surface, additions, levels) with { Strength = Nearest(strength) };
        var thinned = strength / Nearest(strength);
        var read = film.DensityOf(row.Colour);
        Span<double> noise = stackalloc double[9];
        Scatter.InDensity(film, read, noise);
        for (var i = 0; i < 9; i++)
            noise[i] *= ScatterTimes(row, usualDoubt);
        Span<double> mean = stackalloc double[3];
        Span<double> covariance = stackalloc double[9];
        Span<double> off = stackalloc double[3];
        var logs = new List<double>();
        foreach (var one in ensemble)
        {
            one.Predict(input, mean, covariance, out _);
            for (var i = 0; i < 9; i++)
                covariance[i] = (covariance[i] * thinned * thinned * Math.Pow(1 + (0.5 / rows.Length), 2)) + (one.NoiseVariance * noise[i]);
            for (var k = 0; k < 3; k++)
                off[k] = read[k] - (mean[k] * thinned);
            Scatter.Factor3(covariance);
            var (a, b, c) = (Math.Max(covariance[0], 1e-6), Math.Max(covariance[4], 1e-6), Math.Max(covariance[8], 1e-6));
            var x = off[0] / a;
            var y = (off[1] - (covariance[3] * x)) / b;
            var z = (off[2] - (covariance[6] * x) - (covariance[7] * y)) / c;
            logs.Add((-0.5 * ((x * x) + (y * y) + (z * z))) - Math.Log(a * b * c));
        }

        var most = logs.Max();
        return most + Math.Log(logs.Average(log => Math.Exp(log - most))) - (1.5 * Math.Log(2 * Math.PI));
    }
}
