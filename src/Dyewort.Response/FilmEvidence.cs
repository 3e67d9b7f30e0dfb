using System.Numerics.Tensors;
using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>Painted and read samples as a Gaussian process on the three densities of the film, and how probable a set of hyperparameters
/// is by them.</summary>
/// <remarks>Evidence and its gradient: [RasmussenWilliams2006], equations 5.8 and 5.9; Cholesky throughout (algorithm 2.1 there). The three
/// bands of a film share one kernel with a constant covariance between bands, the intrinsic model of coregionalisation
/// [Alvarez2012].</remarks>
internal sealed class FilmEvidence
{
    /// <summary>Added to every variance so that two readings of one sample do not make the covariance singular.</summary>
    private const double Jitter = 1e-8;
    private readonly FilmInput[] inputs;
    private readonly double[] density;
    private readonly double[] noise;
    private readonly FilmBelief belief;

    /// <param name="inputs">One per row.</param>
    /// <param name="density">Three densities per row.</param>
    /// <param name="noise">Nine numbers per row: covariance of the densities for a reading that scatters by 1 ΔE₀₀ along each axis.</param>
    /// <param name="belief">What is believed before data.</param>
    public FilmEvidence(FilmInput[] inputs, double[] density, double[] noise, FilmBelief belief)
    {
        (this.inputs, this.density, this.noise, this.belief) = (inputs, density, noise, belief);
        Layout = new(belief);
    }

    /// <summary>How many rows there are.</summary>
    public int Count => inputs.Length;

    /// <summary>Where the hyperparameters stand, and what is believed of them.</summary>
    public HyperLayout Layout { get; }

    public FilmInput[] Inputs => inputs;

    /// <summary>True where it supposes a liquor of its own.</summary>
    public bool LearnsLiquor => belief.LearnLiquor;

    /// <summary>One band of one row.</summary>
    public double Density(int row, int band) => density[(3 * row) + band];

    /// <summary>Covariance of two bands of a row for a reading that scatters by 1 ΔE₀₀ along each axis.</summary>
    public double Noise(int row, int a, int b) => noise[(9 * row) + (3 * a) + b];

    /// <summary>The same process on some of the rows.</summary>
    public FilmEvidence Part(int[] rows) =>
        new(
            [.. rows.Select(row => inputs[row])],
            [.. rows.SelectMany(row => density[(3 * row)..((3 * row) + 3)])],
            [.. rows.SelectMany(row => noise[(9 * row)..((9 * row) + 9)])],
            belief
        );

    /// <summary>The same process with every reading's scatter multiplied.</summary>
    public FilmEvidence WithScatter(double[] times)
    {
        var scaled = (double[])noise.Clone();
        for (var e = 0; e < scaled.Length; e++)
            scaled[e] *= times[e / 9];
        return new(inputs, density, scaled, belief);
    }

    public FilmKernel Kernel(double[] theta) => new(belief, Layout.Read(theta));

    /// <summary>Logarithm of posterior density of the hyperparameters, up to a constant; −∞ where the covariance breaks down.</summary>
    public double LogPosterior(double[] theta) =>
        TryFactor(Kernel(theta), out var factor) ? LogPosterior(factor, theta, out _) : double.NegativeInfinity;

    /// <summary>The same with its slope in every hyperparameter.</summary>
    public double LogPosterior(double[] theta, double[] slope)
    {
        const double Step = 1e-5;
        var (n, size) = (Count, 3 * Count);
        var kernel = Kernel(theta);
        var scalars = Scalars(kernel);
        if (!TryFactor(scalars, kernel.By.Noise, out var factor))
            return double.NegativeInfinity;
        var value = LogPosterior(factor, theta, out var alpha);
        var inverse = Cholesky.Inverse(factor, size);

        // Contract ½(ααᵀ − K⁻¹) with the band covariance once; every slope is then one inner product with the scalar kernel's change.
        var contracted = new double[n * n];
        var noiseSlope = 0.0;
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                var sum = 0.0;
                for (var a = 0; a < 3; a++)
                {
                    for (var b = 0; b < 3; b++)
                    {
                        var weight = 0.5 * ((alpha[(3 * i) + a] * alpha[(3 * j) + b]) - inverse[(((3 * i) + a) * size) + (3 * j) + b]);
                        sum += weight * FilmKernel.OfBands(a, b);
                        if (i == j)
                            noiseSlope += weight * Noise(i, a, b);
                    }
                }

                contracted[(i * n) + j] = sum;
            }
        }

        var moved = (double[])theta.Clone();
        for (var q = 0; q < theta.Length; q++)
        {
            double sum;
            if (Layout.IsAmplitude(q))
            {
                sum = 2 * TensorPrimitives.Dot<double>(contracted, scalars);
            }
            else if (Layout.IsNoise(q))
            {
                sum = 2 * kernel.By.Noise * noiseSlope;
            }
            else
            {
                moved[q] = theta[q] + Step;
                var up = Scalars(Kernel(moved));
                moved[q] = theta[q];
                TensorPrimitives.Subtract(up, scalars, up);
                sum = TensorPrimitives.Dot<double>(contracted, up) / Step;
            }

            slope[q] = sum + Layout.LogPriorSlope(theta, q);
        }

        return value;
    }

    /// <summary>Cholesky factor of the covariance of all readings; false where it breaks down.</summary>
    public bool TryFactor(FilmKernel kernel, out double[] factor) => TryFactor(Scalars(kernel), kernel.By.Noise, out factor);

    /// <summary>K⁻¹ y, the weights of the readings in every forecast.</summary>
    public double[] Weights(double[] factor)
    {
        var alpha = (double[])density.Clone();
        Cholesky.Forward(factor, 3 * Count, alpha);
        Cholesky.Backward(factor, 3 * Count, alpha);
        return alpha;
    }

    private double LogPosterior(double[] factor, double[] theta, out double[] alpha)
    {
        var size = 3 * Count;
        alpha = (double[])density.Clone();
        Cholesky.Forward(factor, size, alpha);
        var value = -0.5 * TensorPrimitives.Dot<double>(alpha, alpha);
        Cholesky.Backward(factor, size, alpha);
        for (var i = 0; i < size; i++)
            value -= Math.Log(factor[(i * size) + i]);
        return value + Layout.LogPrior(theta);
    }

    /// <summary>Covariance of one band of every two rows.</summary>
    private double[] Scalars(FilmKernel kernel)
    {
        var (n, width) = (Count, kernel.Width);
        var features = kernel.Features(inputs);
        var k = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            var own = features.AsSpan(i * width, width);
            for (var j = 0; j < i; j++)
            {
                k[(i * n) + j] = kernel.Between(inputs[i], own, inputs[j], features.AsSpan(j * width, width));
                k[(j * n) + i] = k[(i * n) + j];
            }

            k[(i * n) + i] = kernel.Own(inputs[i], own);
        }

        return k;
    }

    private bool TryFactor(double[] scalars, double noiseVariance, out double[] factor)
    {
        var (n, size) = (Count, 3 * Count);
        factor = new double[size * size];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                for (var a = 0; a < 3; a++)
                {
                    for (var b = 0; b < 3; b++)
                        factor[(((3 * i) + a) * size) + (3 * j) + b] = scalars[(i * n) + j] * FilmKernel.OfBands(a, b);
                }
            }

            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                    factor[(((3 * i) + a) * size) + (3 * i) + b] += noiseVariance * Noise(i, a, b);
                factor[(((3 * i) + a) * size) + (3 * i) + a] += Jitter;
            }
        }

        return Cholesky.TryFactor(factor, size);
    }
}
