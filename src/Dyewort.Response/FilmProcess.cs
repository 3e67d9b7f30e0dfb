using System.Numerics.Tensors;

namespace Dyewort.Response;

/// <summary>What the process sees of a sample.</summary>
/// <param name="Ph">Its pH, for every liquor it may be made of.</param>
/// <param name="Doses">Grams per litre of each addition.</param>
/// <param name="Strength">Wash times coats.</param>
/// <param name="Paper">Which paper, −1 for one that was not tested.</param>
/// <param name="State">Which state, likewise.</param>
/// <param name="Pot">Which pot, likewise.</param>
internal readonly record struct FilmInput(PhSurface Ph, double[] Doses, double Strength, int Paper, int State, int Pot)
{
    /// <summary>Added to the pH: what no liquor explains.</summary>
    public double PhShift { get; init; }
}

/// <summary>Which inputs the data have, and what is believed about them before any sample is read.</summary>
internal sealed record FilmBelief
{
    /// <summary>Per addition: true for acids and bases, which act by way of the pH.</summary>
    public required bool[] Agent { get; init; }

    /// <summary>Per addition: natural logarithm of the dose in g/L that has half its effect, before data.</summary>
    public required double[] LogHalfDose { get; init; }

    /// <summary>Per addition: natural logarithm of its share of the colour's variance, before data.</summary>
    public required double[] LogShare { get; init; }

    public required int Papers { get; init; }

    public required int States { get; init; }

    public required int Pots { get; init; }

    public required bool LearnWash { get; init; }

    /// <summary>True where some pH is computed, so that the colours may say which liquor it was.</summary>
    public required bool LearnLiquor { get; init; }
}

/// <summary>A Gaussian process on the three densities of the film.</summary>
/// <remarks>The dye is shared out between its free form and one complex for every addition that is not an acid or base; shares saturate and may
/// compete. The free form's density is a smooth function of the pH, a complex's nearly a constant; how tightly an addition binds depends on the
/// pH. A small free-form residual over all inputs and a small private scatter per sample stand for what this picture of a dye bath leaves out.
/// The wash multiplies the density.</remarks>
internal sealed class FilmProcess
{
    private const double BandCorrelation = 0.7;
    private const double CommonShare = 1;
    private const double ComplexFollowsPh = 0.03;
    private const double Residual = 0.02;

    /// <summary>The part of a sample's private scatter that its painted colour shows again; the rest is what the picture of the bath missed near
    /// that one sample. Found on both kinds of made-up plants (docs/accuracy.md).</summary>
    private const double PrivateShown = 0.5;
    private const int PerAddition = 3;
    private const int Fixed = 6;
    private readonly FilmInput[] inputs;
    private readonly double[] density;
    private readonly double[] noise;
    private readonly FilmBelief belief;
    private readonly int n;
    private readonly int additions;

    /// <param name="inputs">One per row.</param>
    /// <param name="density">Three densities per row.</param>
    /// <param name="noise">Nine numbers per row: covariance of the densities for a reading that scatters by 1 ΔE₀₀ along each axis.</param>
    /// <param name="belief">What is believed before data.</param>
    public FilmProcess(FilmInput[] inputs, double[] density, double[] noise, FilmBelief belief)
    {
        (this.inputs, this.density, this.noise, this.belief) = (inputs, density, noise, belief);
        n = inputs.Length;
        additions = belief.LogHalfDose.Length;
        (PriorMean, PriorSpread) = Prior();
    }

    public double[] PriorMean { get; }

    public double[] PriorSpread { get; }

    /// <summary>The same process on some of the rows.</summary>
    public FilmProcess Part(int[] rows) =>
        new(
            [.. rows.Select(row => inputs[row])],
            [.. rows.SelectMany(row => density[(3 * row)..((3 * row) + 3)])],
            [.. rows.SelectMany(row => noise[(9 * row)..((9 * row) + 9)])],
            belief
        );

    /// <summary>The same process with every reading's scatter multiplied.</summary>
    public FilmProcess WithScatter(double[] times)
    {
        var scaled = (double[])noise.Clone();
        for (var e = 0; e < scaled.Length; e++)
            scaled[e] *= times[e / 9];
        return new(inputs, density, scaled, belief);
    }

    /// <summary>Normal beliefs about the logarithms of: the densities' spread, the readings' scatter in ΔE₀₀, the pH over which colour changes,
    /// the pH's share, a sample's private scatter in density, and the odds of competition; then per addition half dose, share and the pH below
    /// which it lets go; then what papers, states and pots do not have in common, the power by which a wash thins, the strength on each paper,
    /// in each state and of each pot but the first, and how far the liquor's pH and acids lie from what is believed.</summary>
    private (double[] Mean, double[] Spread) Prior()
    {
        var mean = new List<double> { Math.Log(0.9), Math.Log(0.6), Math.Log(1.7), Math.Log(0.8), Math.Log(0.015), 1.5 };
        var spread = new List<double> { 0.5, 0.5, 0.35, 0.8, 0.5, 1.5 };
        for (var m = 0; m < additions; m++)
        {
            mean.AddRange([belief.LogHalfDose[m], belief.LogShare[m], 3]);
            spread.AddRange([1, 1, 1]);
        }

        foreach (var levels in new[] { belief.Papers, belief.States, belief.Pots })
        {
            if (levels < 2)
                continue;
            mean.Add(Math.Log(0.03));
            spread.Add(1);
        }

        if (belief.LearnWash)
        {
            mean.Add(0);
            spread.Add(0.1);
        }

        // Pots of one plant differ in strength before anything else, papers in how much ink they take up, wet and dry films in density: about a
        // quarter either way (estimate, no source).
        for (var level = 3; level < Math.Max(belief.Papers, 1) + Math.Max(belief.States, 1) + Math.Max(belief.Pots, 1); level++)
        {
            mean.Add(0);
            spread.Add(0.25);
        }

        if (belief.LearnLiquor)
        {
            mean.AddRange([0, 0]);
            spread.AddRange([1, 1]);
        }

        return ([.. mean], [.. spread]);
    }

    private sealed record Terms
    {
        public required double Variance { get; init; }

        public required double Noise { get; init; }

        public required double InverseLength { get; init; }

        public required double PhShare { get; init; }

        public required double Private { get; init; }

        public required double Competition { get; init; }

        public required double[] HalfDose { get; init; }

        public required double[] Share { get; init; }

        public required double[] ReleasePh { get; init; }

        public required double PaperApart { get; init; }

        public required double StateApart { get; init; }

        public required double PotApart { get; init; }

        public required double WashPower { get; init; }

        /// <summary>Density of a film on each paper against the first; likewise in each state and of each pot.</summary>
        public required double[] PaperStrength { get; init; }

        public required double[] StateStrength { get; init; }

        public required double[] PotStrength { get; init; }

        public required double LiquorPh { get; init; }

        public required double LiquorAcid { get; init; }
    }

    private Terms Read(ReadOnlySpan<double> theta)
    {
        var half = new double[additions];
        var share = new double[additions];
        var release = new double[additions];
        var at = Fixed;
        for (var m = 0; m < additions; m++, at += PerAddition)
            (half[m], share[m], release[m]) = (Math.Exp(theta[at]), Math.Exp(theta[at + 1]), theta[at + 2]);
        return new()
        {
            Variance = Math.Exp(2 * theta[0]),
            Noise = Math.Exp(2 * theta[1]),
            InverseLength = Math.Exp(-theta[2]),
            PhShare = Math.Exp(theta[3]),
            Private = Math.Exp(2 * theta[4]),
            Competition = 1 / (1 + Math.Exp(-theta[5])),
            HalfDose = half,
            Share = share,
            ReleasePh = release,
            PaperApart = belief.Papers > 1 ? Math.Exp(theta[at++]) : 0.05,
            StateApart = belief.States > 1 ? Math.Exp(theta[at++]) : 0.05,
            PotApart = belief.Pots > 1 ? Math.Exp(theta[at++]) : 0.05,
            WashPower = belief.LearnWash ? Math.Exp(theta[at++]) : 1,
            PaperStrength = Strengths(belief.Papers, theta, ref at),
            StateStrength = Strengths(belief.States, theta, ref at),
            PotStrength = Strengths(belief.Pots, theta, ref at),
            LiquorPh = belief.LearnLiquor ? theta[at] : 0,
            LiquorAcid = belief.LearnLiquor ? theta[at + 1] : 0,
        };
    }

    private static double[] Strengths(int levels, ReadOnlySpan<double> theta, ref int at)
    {
        var strength = new double[Math.Max(levels, 1)];
        strength[0] = 1;
        for (var level = 1; level < strength.Length; level++)
            strength[level] = Math.Exp(theta[at++]);
        return strength;
    }

    /// <summary>Per addition the share of the dye it holds (of an acid or base: a saturating measure of its dose), then the strength of the wash and the pH.</summary>
    private void Features(Terms terms, in FilmInput input, Span<double> into)
    {
        var ph = input.Ph.At(terms.LiquorPh, terms.LiquorAcid) + input.PhShift;
        var sum = 0.0;
        for (var m = 0; m < additions; m++)
        {
            into[m] = input.Doses[m] / terms.HalfDose[m];
            if (belief.Agent[m])
                continue;
            into[m] /= 1 + Math.Pow(10, terms.ReleasePh[m] - ph);
            sum += into[m];
        }

        for (var m = 0; m < additions; m++)
            into[m] /= 1 + into[m] + (belief.Agent[m] ? 0 : terms.Competition * (sum - into[m]));
        into[additions] =
            Math.Pow(input.Strength, terms.WashPower)
            * terms.PaperStrength[Math.Max(input.Paper, 0)]
            * terms.StateStrength[Math.Max(input.State, 0)]
            * terms.PotStrength[Math.Max(input.Pot, 0)];
        into[additions + 1] = ph;
    }

    private double Kernel(Terms terms, in FilmInput first, ReadOnlySpan<double> one, in FilmInput second, ReadOnlySpan<double> two)
    {
        var distance = (one[additions + 1] - two[additions + 1]) * terms.InverseLength;
        var near = Math.Exp(-0.5 * distance * distance);
        double freeOne = 1,
            freeTwo = 1,
            complexes = 0,
            agents = 1,
            apart = distance * distance;
        for (var m = 0; m < additions; m++)
        {
            var step = one[m] - two[m];
            if (belief.Agent[m])
            {
                agents += terms.Share[m] * one[m] * two[m];
                apart += step * step;
                continue;
            }

            freeOne -= one[m];
            freeTwo -= two[m];
            complexes += one[m] * two[m] * (terms.Share[m] + (ComplexFollowsPh * terms.PhShare * near));
            apart += 4 * step * step;
        }

        var value =
            (agents * (CommonShare + complexes + (freeOne * freeTwo * (1 + (terms.PhShare * near))))) + (Residual * Math.Exp(-0.5 * apart));
        if (first.Paper != second.Paper)
            value /= 1 + terms.PaperApart;
        if (first.State != second.State)
            value /= 1 + terms.StateApart;
        if (first.Pot != second.Pot)
            value /= 1 + terms.PotApart;
        return terms.Variance * value * one[additions] * two[additions];
    }

    private double OwnKernel(Terms terms, in FilmInput input, ReadOnlySpan<double> features) =>
        Kernel(terms, input, features, input, features) + (terms.Private * features[additions] * features[additions]);

    private double[] Scalars(ReadOnlySpan<double> theta)
    {
        var terms = Read(theta);
        var width = additions + 2;
        var features = new double[n * width];
        for (var i = 0; i < n; i++)
            Features(terms, inputs[i], features.AsSpan(i * width, width));
        var k = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            var own = features.AsSpan(i * width, width);
            for (var j = 0; j < i; j++)
            {
                k[(i * n) + j] = Kernel(terms, inputs[i], own, inputs[j], features.AsSpan(j * width, width));
                k[(j * n) + i] = k[(i * n) + j];
            }

            k[(i * n) + i] = OwnKernel(terms, inputs[i], own);
        }

        return k;
    }

    private static double Between(int a, int b) => a == b ? 1 : BandCorrelation;

    private double[] Covariance(double[] scalars, double noiseVariance)
    {
        var size = 3 * n;
        var full = new double[size * size];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var k = scalars[(i * n) + j];
                for (var a = 0; a < 3; a++)
                {
                    for (var b = 0; b < 3; b++)
                        full[(((3 * i) + a) * size) + (3 * j) + b] = k * Between(a, b);
                }
            }

            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                    full[(((3 * i) + a) * size) + (3 * i) + b] += noiseVariance * noise[(i * 9) + (a * 3) + b];
                full[(((3 * i) + a) * size) + (3 * i) + a] += 1e-8;
            }
        }

        return full;
    }

    /// <summary>Logarithm of posterior density of the hyperparameters, up to a constant; −∞ where the covariance breaks down.</summary>
    public double LogPosterior(double[] theta)
    {
        var full = Covariance(Scalars(theta), Math.Exp(2 * theta[1]));
        return Matrix.Cholesky(full, 3 * n) ? Evidence(full, theta, out _) : double.NegativeInfinity;
    }

    private double Evidence(double[] factor, double[] theta, out double[] alpha)
    {
        var size = 3 * n;
        alpha = (double[])density.Clone();
        Matrix.Forward(factor, size, alpha);
        var value = -0.5 * TensorPrimitives.Dot<double>(alpha, alpha);
        for (var i = 0; i < size; i++)
            value -= Math.Log(factor[(i * size) + i]);
        Matrix.Backward(factor, size, alpha);
        for (var q = 0; q < theta.Length; q++)
        {
            var z = (theta[q] - PriorMean[q]) / PriorSpread[q];
            value -= 0.5 * z * z;
        }

        return value;
    }

    /// <summary>The same with its slope in every hyperparameter.</summary>
    public double LogPosterior(double[] theta, double[] slope)
    {
        const double Step = 1e-5;
        var size = 3 * n;
        var scalars = Scalars(theta);
        var noiseVariance = Math.Exp(2 * theta[1]);
        var full = Covariance(scalars, noiseVariance);
        if (!Matrix.Cholesky(full, size))
            return double.NegativeInfinity;
        var value = Evidence(full, theta, out var alpha);
        var inverse = Matrix.Inverse(full, size);

        // Contract ½(αᵀα − K⁻¹) with the band covariance once; every slope is then one inner product with the scalar kernel's change.
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
                        sum += weight * Between(a, b);
                        if (i == j)
                            noiseSlope += weight * noise[(i * 9) + (a * 3) + b];
                    }
                }

                contracted[(i * n) + j] = sum;
            }
        }

        var moved = (double[])theta.Clone();
        for (var q = 0; q < theta.Length; q++)
        {
            double sum;
            if (q == 0)
            {
                sum = 2 * TensorPrimitives.Dot<double>(contracted, scalars);
            }
            else if (q == 1)
            {
                sum = 2 * noiseVariance * noiseSlope;
            }
            else
            {
                moved[q] = theta[q] + Step;
                var up = Scalars(moved);
                moved[q] = theta[q];
                TensorPrimitives.Subtract(up, scalars, up);
                sum = TensorPrimitives.Dot<double>(contracted, up) / Step;
            }

            slope[q] = sum - ((theta[q] - PriorMean[q]) / (PriorSpread[q] * PriorSpread[q]));
        }

        return value;
    }

    /// <summary>The process with one set of hyperparameters, ready to predict.</summary>
    internal sealed class Settled
    {
        private readonly FilmProcess process;
        private readonly Terms terms;
        private readonly double[] features;
        private readonly double[] factor;
        private readonly double[] alpha;

        public Settled(FilmProcess process, double[] theta)
        {
            this.process = process;
            Theta = theta;
            terms = process.Read(theta);
            var width = process.additions + 2;
            features = new double[process.n * width];
            for (var i = 0; i < process.n; i++)
                process.Features(terms, process.inputs[i], features.AsSpan(i * width, width));
            factor = process.Covariance(process.Scalars(theta), terms.Noise);
            if (!Matrix.Cholesky(factor, 3 * process.n))
                throw new InvalidOperationException("The covariance is not positive definite.");
            process.Evidence(factor, theta, out alpha);
        }

        public double[] Theta { get; }

        /// <summary>True where it supposes a liquor of its own.</summary>
        public bool KnowsLiquor => process.belief.LearnLiquor;

        /// <summary>Variance of a reading along each axis, ΔE₀₀².</summary>
        public double NoiseVariance => terms.Noise;

        /// <summary>Mean and covariance of the densities of some rows, had none of those rows been read; in the order of the rows, without the reader's scatter.</summary>
        public void LeaveOut(ReadOnlySpan<int> rows, double[] inverse, double[] mean, double[] covariance)
        {
            var (all, size) = (3 * process.n, 3 * rows.Length);
            var block = new double[size * size];
            for (var i = 0; i < size; i++)
            {
                for (var j = 0; j < size; j++)
                    block[(i * size) + j] = inverse[(((3 * rows[i / 3]) + (i % 3)) * all) + (3 * rows[j / 3]) + (j % 3)];
            }

            // [K⁻¹]ᵦ⁻¹ is the covariance of the block given the rest, and y − [K⁻¹]ᵦ⁻¹ αᵦ its mean.
            if (!Matrix.Cholesky(block, size))
                throw new InvalidOperationException("The covariance is not positive definite.");
            Matrix.Inverse(block, size).CopyTo(covariance, 0);
            for (var i = 0; i < size; i++)
            {
                var sum = 0.0;
                for (var j = 0; j < size; j++)
                    sum += covariance[(i * size) + j] * alpha[(3 * rows[j / 3]) + (j % 3)];
                mean[i] = process.density[(3 * rows[i / 3]) + (i % 3)] - sum;
            }

            for (var r = 0; r < rows.Length; r++)
            {
                for (var a = 0; a < 3; a++)
                {
                    for (var b = 0; b < 3; b++)
                        covariance[(((3 * r) + a) * size) + (3 * r) + b] -= terms.Noise * process.noise[(9 * rows[r]) + (3 * a) + b];
                }
            }
        }

        /// <summary>How far each row lies from what the others let expect, squared and over its variance: about 3 where all is as believed.</summary>
        /// <param name="scatter">Nine numbers per row: covariance of the densities for a reading that scatters by 1 ΔE₀₀ along each axis.</param>
        public double[] Surprise(double[] scatter)
        {
            var inverse = Inverse();
            var result = new double[process.n];
            var (mean, covariance, off) = (new double[3], new double[9], new double[3]);
            for (var i = 0; i < process.n; i++)
            {
                LeaveOut([i], inverse, mean, covariance);
                for (var e = 0; e < 9; e++)
                    covariance[e] += terms.Noise * scatter[(9 * i) + e];
                for (var a = 0; a < 3; a++)
                    off[a] = process.density[(3 * i) + a] - mean[a];
                var solved = (double[])off.Clone();
                Matrix.Solve3(covariance, solved);
                result[i] = TensorPrimitives.Dot<double>(off, solved);
            }

            return result;
        }

        /// <summary>The inverse of the covariance of all rows.</summary>
        public double[] Inverse() => Matrix.Inverse(factor, 3 * process.n);

        /// <summary>Means and joint covariance of the densities of several samples.</summary>
        /// <param name="points">The samples.</param>
        /// <param name="mean">Three numbers per sample.</param>
        /// <param name="covariance">Row by row.</param>
        /// <param name="oneJar">True where they are stages of one jar, whose private quirk is then the same in all.</param>
        public void Predict(IReadOnlyList<FilmInput> points, double[] mean, double[] covariance, bool oneJar = false)
        {
            var (n, m, size, width) = (process.n, points.Count, 3 * process.n, process.additions + 2);
            var own = new double[m * width];
            for (var p = 0; p < m; p++)
                process.Features(terms, points[p], own.AsSpan(p * width, width));
            var solved = new double[3 * m * size];
            Array.Clear(mean);
            for (var p = 0; p < m; p++)
            {
                for (var i = 0; i < n; i++)
                {
                    var k = process.Kernel(
                        terms,
                        points[p],
                        own.AsSpan(p * width, width),
                        process.inputs[i],
                        features.AsSpan(i * width, width)
                    );
                    for (var a = 0; a < 3; a++)
                    {
                        for (var b = 0; b < 3; b++)
                        {
                            solved[(((3 * p) + a) * size) + (3 * i) + b] = k * Between(a, b);
                            mean[(3 * p) + a] += k * Between(a, b) * alpha[(3 * i) + b];
                        }
                    }
                }

                for (var a = 0; a < 3; a++)
                    Matrix.Forward(factor, size, solved.AsSpan(((3 * p) + a) * size, size));
            }

            for (var p = 0; p < m; p++)
            {
                for (var q = 0; q <= p; q++)
                {
                    var prior =
                        p == q
                            ? process.OwnKernel(terms, points[p], own.AsSpan(p * width, width))
                            : process.Kernel(terms, points[p], own.AsSpan(p * width, width), points[q], own.AsSpan(q * width, width))
                                + (
                                    oneJar ? terms.Private * own[(p * width) + process.additions] * own[(q * width) + process.additions] : 0
                                );
                    for (var a = 0; a < 3; a++)
                    {
                        for (var b = 0; b < 3; b++)
                        {
                            var (row, column) = ((3 * p) + a, (3 * q) + b);
                            var value =
                                (prior * Between(a, b))
                                - TensorPrimitives.Dot<double>(solved.AsSpan(row * size, size), solved.AsSpan(column * size, size));
                            covariance[(row * 3 * m) + column] = value;
                            covariance[(column * 3 * m) + row] = value;
                        }
                    }
                }
            }
        }

        /// <summary>Mean of the three densities, and, where wanted, their covariance (nine numbers) and the share of the prior spread that is left.</summary>
        public void Predict(in FilmInput input, Span<double> mean, Span<double> covariance, out double leaning)
        {
            var n = process.n;
            var width = process.additions + 2;
            Span<double> own = stackalloc double[width];
            process.Features(terms, input, own);
            var k = new double[n];
            mean.Clear();
            for (var i = 0; i < n; i++)
            {
                k[i] = process.Kernel(terms, input, own, process.inputs[i], features.AsSpan(i * width, width));
                for (var a = 0; a < 3; a++)
                {
                    for (var b = 0; b < 3; b++)
                        mean[a] += k[i] * Between(a, b) * alpha[(3 * i) + b];
                }
            }

            leaning = 0;
            if (covariance.IsEmpty)
                return;
            var prior =
                process.Kernel(terms, input, own, input, own)
                + (PrivateShown * terms.Private * own[process.additions] * own[process.additions]);
            var size = 3 * n;
            var solved = new double[3 * size];
            for (var a = 0; a < 3; a++)
            {
                var column = solved.AsSpan(a * size, size);
                for (var i = 0; i < n; i++)
                {
                    for (var b = 0; b < 3; b++)
                        column[(3 * i) + b] = k[i] * Between(a, b);
                }

                Matrix.Forward(factor, size, column);
            }

            var left = 0.0;
            for (var a = 0; a < 3; a++)
            {
                for (var b = 0; b < 3; b++)
                {
                    covariance[(a * 3) + b] =
                        (prior * Between(a, b))
                        - TensorPrimitives.Dot<double>(solved.AsSpan(a * size, size), solved.AsSpan(b * size, size));
                }

                covariance[(a * 3) + a] = Math.Max(covariance[(a * 3) + a], 1e-12);
                left += covariance[(a * 3) + a];
            }

            leaning = prior > 0 ? Math.Sqrt(Math.Clamp(left / (3 * prior), 0, 1)) : 0;
        }
    }
}
