using System.Numerics.Tensors;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>What the readings say of film densities under one set of hyperparameters.</summary>
/// <remarks>Forecasts: [RasmussenWilliams2006], equations 2.25 and 2.26. Leaving out: equations 5.10 to 5.12 there, for blocks of
/// rows.</remarks>
internal sealed class FilmPosterior
{
    /// <summary>The part of a sample's private scatter that its painted colour shows again; the rest is what the picture of the bath missed
    /// near that one sample. Found on both kinds of made-up plants (docs/accuracy.md).</summary>
    private const double PrivateShown = 0.5;
    private readonly FilmEvidence evidence;
    private readonly FilmKernel kernel;
    private readonly double[] features;
    private readonly double[] factor;
    private readonly double[] alpha;

    /// <exception cref="InvalidOperationException">The covariance is not positive definite; one whose evidence is finite is.</exception>
    public FilmPosterior(FilmEvidence evidence, double[] theta)
    {
        this.evidence = evidence;
        Theta = theta;
        kernel = evidence.Kernel(theta);
        features = kernel.Features(evidence.Inputs);
        if (!evidence.TryFactor(kernel, out factor))
            throw new InvalidOperationException("The covariance is not positive definite.");
        alpha = evidence.Weights(factor);
    }

    public double[] Theta { get; }

    /// <summary>True where it supposes a liquor of its own.</summary>
    public bool KnowsLiquor => evidence.LearnsLiquor;

    /// <summary>Variance of a reading along each axis, ΔE₀₀².</summary>
    public double NoiseVariance => kernel.By.Noise;

    /// <summary>The inverse of the covariance of all rows.</summary>
    public double[] Inverse() => Cholesky.Inverse(factor, 3 * evidence.Count);

    /// <summary>Mean and covariance of the densities of some rows, had none of those rows been read; in the order of the rows, without the
    /// reader's scatter.</summary>
    public void LeaveOut(ReadOnlySpan<int> rows, double[] inverse, double[] mean, double[] covariance)
    {
        var (all, size) = (3 * evidence.Count, 3 * rows.Length);
        var block = new double[size * size];
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++)
                block[(i * size) + j] = inverse[(((3 * rows[i / 3]) + (i % 3)) * all) + (3 * rows[j / 3]) + (j % 3)];
        }

        // [K⁻¹]ᵦ⁻¹ is the covariance of the block given the rest, and y − [K⁻¹]ᵦ⁻¹ αᵦ its mean.
        if (!Cholesky.TryFactor(block, size))
            throw new InvalidOperationException("The covariance is not positive definite.");
        Cholesky.Inverse(block, size).CopyTo(covariance, 0);
        for (var i = 0; i < size; i++)
        {
            var sum = 0.0;
            for (var j = 0; j < size; j++)
                sum += covariance[(i * size) + j] * alpha[(3 * rows[j / 3]) + (j % 3)];
            mean[i] = evidence.Density(rows[i / 3], i % 3) - sum;
        }

        for (var r = 0; r < rows.Length; r++)
        {
            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                    covariance[(((3 * r) + a) * size) + (3 * r) + b] -= NoiseVariance * evidence.Noise(rows[r], a, b);
            }
        }
    }

    /// <summary>Squared Mahalanobis distance of each row's reading from what the others let expect: about 3 where all is as
    /// believed.</summary>
    /// <param name="scatter">Nine numbers per row: covariance of the densities for a reading that scatters by 1 ΔE₀₀ along each
    /// axis.</param>
    public double[] SquaredMahalanobis(double[] scatter)
    {
        var inverse = Inverse();
        var result = new double[evidence.Count];
        var (mean, covariance, off) = (new double[3], new double[9], new double[3]);
        for (var i = 0; i < result.Length; i++)
        {
            LeaveOut([i], inverse, mean, covariance);
            for (var e = 0; e < 9; e++)
                covariance[e] += NoiseVariance * scatter[(9 * i) + e];
            for (var a = 0; a < 3; a++)
                off[a] = evidence.Density(i, a) - mean[a];
            var solved = (double[])off.Clone();
            NormalTriple.Solve(covariance, solved);
            result[i] = TensorPrimitives.Dot<double>(off, solved);
        }

        return result;
    }

    /// <summary>Means and joint covariance of the densities of several samples.</summary>
    /// <param name="points">The samples.</param>
    /// <param name="mean">Three numbers per sample.</param>
    /// <param name="covariance">Row by row.</param>
    /// <param name="oneJar">True where they are stages of one jar, whose private quirk is then the same in all.</param>
    public void Predict(IReadOnlyList<FilmInput> points, double[] mean, double[] covariance, bool oneJar = false)
    {
        var (m, size, width) = (points.Count, 3 * evidence.Count, kernel.Width);
        var own = kernel.Features(points);
        var solved = new double[3 * m * size];
        var k = new double[evidence.Count];
        for (var p = 0; p < m; p++)
        {
            Cross(points[p], own.AsSpan(p * width, width), k, mean.AsSpan(3 * p, 3));
            for (var a = 0; a < 3; a++)
                Solve(k, a, solved.AsSpan(((3 * p) + a) * size, size));
        }

        for (var p = 0; p < m; p++)
        {
            var first = own.AsSpan(p * width, width);
            for (var q = 0; q <= p; q++)
            {
                var second = own.AsSpan(q * width, width);
                var prior =
                    p == q
                        ? kernel.Own(points[p], first)
                        : kernel.Between(points[p], first, points[q], second) + (oneJar ? kernel.Private(first, second) : 0);
                for (var a = 0; a < 3; a++)
                {
                    for (var b = 0; b < 3; b++)
                    {
                        var (row, column) = ((3 * p) + a, (3 * q) + b);
                        var value =
                            (prior * FilmKernel.OfBands(a, b))
                            - TensorPrimitives.Dot<double>(solved.AsSpan(row * size, size), solved.AsSpan(column * size, size));
                        covariance[(row * 3 * m) + column] = value;
                        covariance[(column * 3 * m) + row] = value;
                    }
                }
            }
        }
    }

    /// <summary>Mean of the three densities, and, where wanted, their covariance (nine numbers) and the share of the prior spread that is
    /// left.</summary>
    public void Predict(in FilmInput input, Span<double> mean, Span<double> covariance, out double priorWeight)
    {
        Span<double> own = stackalloc double[kernel.Width];
        kernel.Features(input, own);
        var k = new double[evidence.Count];
        Cross(input, own, k, mean);
        priorWeight = 0;
        if (covariance.IsEmpty)
            return;
        var prior = kernel.Own(input, own, PrivateShown);
        var size = 3 * evidence.Count;
        var solved = new double[3 * size];
        for (var a = 0; a < 3; a++)
            Solve(k, a, solved.AsSpan(a * size, size));
        var left = 0.0;
        for (var a = 0; a < 3; a++)
        {
            for (var b = 0; b < 3; b++)
            {
                covariance[(a * 3) + b] =
                    (prior * FilmKernel.OfBands(a, b))
                    - TensorPrimitives.Dot<double>(solved.AsSpan(a * size, size), solved.AsSpan(b * size, size));
            }

            covariance[(a * 3) + a] = Math.Max(covariance[(a * 3) + a], 1e-12);
            left += covariance[(a * 3) + a];
        }

        priorWeight = prior > 0 ? Math.Sqrt(Math.Clamp(left / (3 * prior), 0, 1)) : 0;
    }

    /// <summary>Covariance of one band of a sample with each row, and the mean of its three densities.</summary>
    private void Cross(in FilmInput input, ReadOnlySpan<double> own, double[] k, Span<double> mean)
    {
        var width = kernel.Width;
        mean.Clear();
        for (var i = 0; i < k.Length; i++)
        {
            k[i] = kernel.Between(input, own, evidence.Inputs[i], features.AsSpan(i * width, width));
            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                    mean[a] += k[i] * FilmKernel.OfBands(a, b) * alpha[(3 * i) + b];
            }
        }
    }

    /// <summary>L⁻¹ times the covariance of one band of a sample with all readings.</summary>
    private void Solve(double[] k, int band, Span<double> column)
    {
        for (var i = 0; i < k.Length; i++)
        {
            for (var b = 0; b < 3; b++)
                column[(3 * i) + b] = k[i] * FilmKernel.OfBands(band, b);
        }

        Cholesky.Forward(factor, column.Length, column);
    }
}
