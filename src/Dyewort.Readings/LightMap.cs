using Dyewort.Numerics;

namespace Dyewort.Readings;

/// <summary>The light over a page, told by its bare paper.</summary>
/// <remarks>A smooth surface (third order in both directions, in the logarithm of each channel) is fitted to all paper samples by
/// iteratively reweighted least squares with Tukey's biweight, which ignores stains, shadows of small things and what is not paper.
/// Around a cell the paper's own residuals against that surface are fitted by a plane; where they disagree among themselves
/// (a shadow's edge), the disagreement is reported and doubted. Sources: Beaton and Tukey 1974 for the weights [Beaton1974];
/// the order of the surface is common practice.</remarks>
public sealed class LightMap
{
    private readonly double[][] surface;
    private readonly (double X, double Y, double Scale) frame;

    private LightMap(double[][] surface, (double X, double Y, double Scale) frame, double residual, int order)
    {
        this.surface = surface;
        this.frame = frame;
        Residual = residual;
        Order = order;
    }

    /// <summary>Robust relative spread of the paper against the smooth surface, 0.01 = one per cent.</summary>
    public double Residual { get; }

    /// <summary>Order of the surface, 0 to 3.</summary>
    public int Order { get; }

    /// <summary>Fits the light.</summary>
    /// <param name="samples">Bare paper; places that are too dark to be paper may be among them.</param>
    /// <returns>Null where there is no paper at all.</returns>
    public static LightMap? Fit(IReadOnlyList<PaperSample> samples)
    {
        var sound = samples.Where(sample => sample.Light.R > 1e-4 && sample.Light.G > 1e-4 && sample.Light.B > 1e-4).ToList();
        if (sound.Count == 0)
            return null;
        var (minX, maxX) = (sound.Min(sample => sample.X), sound.Max(sample => sample.X));
        var (minY, maxY) = (sound.Min(sample => sample.Y), sound.Max(sample => sample.Y));
        var span = ((minX + maxX) / 2, (minY + maxY) / 2, Math.Max(1e-6, Math.Max(maxX - minX, maxY - minY) / 2));
        var order =
            sound.Count >= 60 ? 3
            : sound.Count >= 24 ? 2
            : sound.Count >= 9 ? 1
            : 0;

        // Green decides what is paper; red and blue are fitted with the same weights.
        var weights = Enumerable.Repeat(1.0, sound.Count).ToArray();
        double[]? green = null;
        double spread = 0;
        for (var round = 0; round < 12; round++)
        {
            green = Solve(sound, weights, span, order, 1) ?? Solve(sound, weights, span, 0, 1);
            if (green is null)
                return null;
            var residuals = sound.Select(sample => Math.Log(sample.Light.G) - Value(green, span, sample.X, sample.Y)).ToArray();
            var absolute = residuals.Select(Math.Abs).Order().ToArray();
            spread = Math.Max(0.004, 1.4826 * absolute[absolute.Length / 2]);
            for (var i = 0; i < weights.Length; i++)
            {
                // What is darker than paper is more often a stain than what is lighter.
                var z = residuals[i] / (spread * (residuals[i] < 0 ? 4.5 : 6));
                weights[i] = Math.Abs(z) >= 1 ? 0 : Math.Pow(1 - (z * z), 2);
            }
        }

        var channels = new double[3][];
        for (var channel = 0; channel < 3; channel++)
        {
            var solved = Solve(sound, weights, span, order, channel) ?? Solve(sound, weights, span, 0, channel);
            if (solved is null)
                return null;
            channels[channel] = solved;
        }

        return new(channels, span, spread, order);
    }

    /// <summary>Linear channels of bare paper at a place, by the smooth surface alone.</summary>
    public FileRgb At(double x, double y) =>
        new(Math.Exp(Value(surface[0], frame, x, y)), Math.Exp(Value(surface[1], frame, x, y)), Math.Exp(Value(surface[2], frame, x, y)));

    /// <summary>The light around one cell.</summary>
    /// <param name="around">Paper samples around the cell.</param>
    /// <param name="x">The cell's middle.</param>
    /// <param name="y">The cell's middle.</param>
    /// <param name="size">Half the cell's size, in the same unit.</param>
    public LocalLight Around(IReadOnlyList<PaperSample> around, double x, double y, double size)
    {
        // Samples that no light could explain beside their neighbours (paint, print, a finger) are out before the plane is fitted.
        var usable = around.Where(sample => sample.Light.R > 1e-4 && sample.Light.G > 1e-4 && sample.Light.B > 1e-4).ToList();
        var doubtWithout = Math.Max(Residual, 0.02);
        if (usable.Count < 3)
            return new(At(x, y), new double[3], new double[3], x, y, size, doubtWithout * 1.5, 0);
        var residual = new double[3][];
        for (var channel = 0; channel < 3; channel++)
        {
            var c = channel;
            residual[c] = [.. usable.Select(sample => Math.Log(sample.Light[c]) - Value(surface[c], frame, sample.X, sample.Y))];
        }

        var middle = residual[1].Order().ElementAt(usable.Count / 2);
        var typical = Math.Max(0.006, 1.4826 * residual[1].Select(value => Math.Abs(value - middle)).Order().ElementAt(usable.Count / 2));
        var chroma = usable
            .Select((_, i) => Math.Abs(residual[0][i] - residual[1][i]) + Math.Abs(residual[2][i] - residual[1][i]))
            .ToArray();
        var chromaMiddle = chroma.Order().ElementAt(usable.Count / 2);
        var weights = new double[usable.Count];
        for (var i = 0; i < usable.Count; i++)
        {
            var z = (residual[1][i] - middle) / Math.Max(0.03, 3.5 * typical);
            var tint = (chroma[i] - chromaMiddle) / 0.05;
            weights[i] =
                (Math.Abs(z) >= 1 ? 0 : Math.Pow(1 - (z * z), 2))
                * (tint >= 1 ? 0 : 1 - Math.Pow(Math.Max(0, tint), 2))
                * (1 - Math.Min(0.95, usable[i].Clipped));
            if (usable[i].Spread > 0.12)
                weights[i] *= 0.2;
        }

        if (weights.Sum() < 1.5)
            return new(At(x, y), new double[3], new double[3], x, y, size, doubtWithout * 1.5, 0);
        var level = new double[3];
        var slopeX = new double[3];
        var slopeY = new double[3];
        for (var channel = 0; channel < 3; channel++)
        {
            // A plane with a gentle pull towards no slope beyond the surface's own.
            var normal = new double[9];
            var right = new double[3];
            for (var i = 0; i < usable.Count; i++)
            {
                var w = weights[i];
                if (w <= 0)
                    continue;
                double[] basis = [1, (usable[i].X - x) / size, (usable[i].Y - y) / size];
                for (var a = 0; a < 3; a++)
                {
                    right[a] += w * basis[a] * residual[channel][i];
                    for (var b = 0; b < 3; b++)
                        normal[(a * 3) + b] += w * basis[a] * basis[b];
                }
            }

            normal[0] += 1e-6;
            normal[4] += 1;
            normal[8] += 1;
            if (Cholesky.TrySolve(normal, right))
                (level[channel], slopeX[channel], slopeY[channel]) = (right[0], right[1], right[2]);
        }

        double squares = 0,
            total = 0;
        for (var i = 0; i < usable.Count; i++)
        {
            var predicted = level[1] + (slopeX[1] * (usable[i].X - x) / size) + (slopeY[1] * (usable[i].Y - y) / size);
            var off = residual[1][i] - predicted;
            squares += weights[i] * off * off;
            total += weights[i];
        }

        var scatter = Math.Sqrt(squares / total);
        var dropped = 1 - (weights.Count(w => w > 0.05) / (double)weights.Length);
        var at = At(x, y);
        var light = new FileRgb(at.R * Math.Exp(level[0]), at.G * Math.Exp(level[1]), at.B * Math.Exp(level[2]));

        // The surface's own slope across the cell belongs to the light too.
        for (var channel = 0; channel < 3; channel++)
        {
            slopeX[channel] += (Value(surface[channel], frame, x + size, y) - Value(surface[channel], frame, x - size, y)) / 2;
            slopeY[channel] += (Value(surface[channel], frame, x, y + size) - Value(surface[channel], frame, x, y - size)) / 2;
        }

        var doubt = Math.Sqrt((scatter * scatter / Math.Max(1, total / 3)) + (0.003 * 0.003)) + (0.02 * Math.Max(0, dropped - 0.3));
        return new(light, slopeX, slopeY, x, y, size, doubt, scatter);
    }

    private static double[]? Solve(
        List<PaperSample> samples,
        double[] weights,
        (double X, double Y, double Scale) frame,
        int order,
        int channel
    )
    {
        var n = (order + 1) * (order + 2) / 2;
        var normal = new double[n * n];
        var right = new double[n];
        var basis = new double[n];
        for (var i = 0; i < samples.Count; i++)
        {
            if (weights[i] <= 0)
                continue;
            Basis(basis, (samples[i].X - frame.X) / frame.Scale, (samples[i].Y - frame.Y) / frame.Scale, order);
            var value = Math.Log(samples[i].Light[channel]);
            for (var a = 0; a < n; a++)
            {
                right[a] += weights[i] * basis[a] * value;
                for (var b = 0; b < n; b++)
                    normal[(a * n) + b] += weights[i] * basis[a] * basis[b];
            }
        }

        for (var a = 0; a < n; a++)
            normal[(a * n) + a] += a == 0 ? 1e-9 : 1e-3;
        return Cholesky.TrySolve(normal, right) ? right : null;
    }

    private static double Value(double[] coefficients, (double X, double Y, double Scale) frame, double x, double y)
    {
        var (u, v) = ((x - frame.X) / frame.Scale, (y - frame.Y) / frame.Scale);
        Span<double> basis = stackalloc double[10];
        basis = basis[..coefficients.Length];
        Basis(
            basis,
            u,
            v,
            coefficients.Length switch
            {
                1 => 0,
                3 => 1,
                6 => 2,
                _ => 3,
            }
        );
        double sum = 0;
        for (var i = 0; i < basis.Length; i++)
            sum += coefficients[i] * basis[i];
        return sum;
    }

    private static void Basis(Span<double> basis, double u, double v, int order)
    {
        basis[0] = 1;
        var at = 1;
        for (var total = 1; total <= order; total++)
        {
            // Each power is one more factor on a power of the order before.
            var before = at - total;
            for (var j = 0; j < total; j++)
                basis[at + j] = basis[before + j] * u;
            basis[at + total] = basis[at - 1] * v;
            at += total + 1;
        }
    }
}

/// <summary>The light over one cell: a level and a slope per channel.</summary>
/// <param name="Level">Linear channels of bare paper at the cell's middle.</param>
/// <param name="SlopeX">Logarithm per half cell size to the right, three channels.</param>
/// <param name="SlopeY">Logarithm per half cell size downwards.</param>
/// <param name="X">The cell's middle.</param>
/// <param name="Y">The cell's middle.</param>
/// <param name="Size">Half the cell's size.</param>
/// <param name="Doubt">Relative standard uncertainty of the level.</param>
/// <param name="Scatter">Relative scatter of the paper around the cell against the slope.</param>
public sealed record LocalLight(
    FileRgb Level,
    double[] SlopeX,
    double[] SlopeY,
    double X,
    double Y,
    double Size,
    double Doubt,
    double Scatter
)
{
    /// <summary>Linear channels of bare paper at a place in the cell: the product of <see cref="Across"/> and <see cref="Down"/>.</summary>
    public FileRgb At(double x, double y)
    {
        var (across, down) = (Across(x), Down(y));
        return new(across.R * down.R, across.G * down.G, across.B * down.B);
    }

    /// <summary>Linear channels of bare paper at a place straight left or right of the cell's middle.</summary>
    public FileRgb Across(double x)
    {
        var u = (x - X) / Size;
        return new(Level.R * Math.Exp(SlopeX[0] * u), Level.G * Math.Exp(SlopeX[1] * u), Level.B * Math.Exp(SlopeX[2] * u));
    }

    /// <summary>Factor of the light at a place straight above or below the cell's middle.</summary>
    public FileRgb Down(double y)
    {
        var v = (y - Y) / Size;
        return new(Math.Exp(SlopeY[0] * v), Math.Exp(SlopeY[1] * v), Math.Exp(SlopeY[2] * v));
    }
}
