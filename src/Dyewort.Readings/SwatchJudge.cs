using Dyewort.Numerics;

namespace Dyewort.Readings;

/// <summary>Pixels of one cell relative to the bare paper at the same place, linear channels side by side.</summary>
/// <param name="R">Red ratios.</param>
/// <param name="G">Green ratios.</param>
/// <param name="B">Blue ratios.</param>
/// <param name="High">Pixels with a channel at its top.</param>
/// <param name="Low">Pixels with a channel at zero.</param>
public sealed record CellPixels(float[] R, float[] G, float[] B, int High, int Low);

/// <summary>What the pixels of a cell say about its wash.</summary>
/// <param name="Wash">The even wash, relative to paper.</param>
/// <param name="Pale">The palest tenth of the coloured pixels.</param>
/// <param name="Deep">The deepest tenth.</param>
/// <param name="Coverage">Share of pixels that carry colour.</param>
/// <param name="Glare">Share of pixels that shine.</param>
/// <param name="Noise">Relative spread of the wash pixels about their depth line.</param>
public sealed record Judgement(FileRgb Wash, FileRgb Pale, FileRgb Deep, double Coverage, double Glare, double Noise);

/// <summary>Finds the even wash of a painted cell.</summary>
/// <remarks>The even wash is defined as follows. Each pixel is taken relative to the bare paper beside the cell, in logarithms. Its depth
/// is its place on the line from bare paper (0) to the middle of the cell's colour (1). Pixels below a quarter of that depth are gaps in
/// the painting, not wash. The wash is the mean of the middle half of the others in order of depth: neither the palest quarter
/// (backruns, mixed edges of gaps, glare) nor the deepest quarter (pooled rims, granules) has a say. The middle half is a median
/// without its coarseness in eight-bit pictures. Where less than half of the cell is painted, the search begins from the pixels that are
/// darker than the paper's own scatter. Pixels that shine (lighter than the wash by the same amount of light in all channels,
/// and lighter than the paper in one) are set aside first.</remarks>
public static class SwatchJudge
{
    private const float Gap = 0.25f;

    /// <summary>Added light, relative to the paper's, between the least and the most shining tenth from which on a cell is taken to
    /// shine.</summary>
    private const float Sheen = 0.25f;

    /// <summary>Squared logarithm of the light that is missing, the three channels together, below which a cell is not painted, or nobody
    /// could see that it is: some two per cent of the light of each channel.</summary>
    private const float Visible = 0.0012f;

    /// <summary>Share of a cell that must be darker than its paper before paint is believed to lie there and not a drop or a
    /// finger.</summary>
    private const float LeastPainted = 0.2f;

    /// <summary>A shadow's edge darkens the channels alike, within this share of each other, and leaves more than half of the
    /// light.</summary>
    private const float ShadowTint = 0.2f;

    /// <summary>Judges the pixels of one cell; with no pixels, the paper itself.</summary>
    public static Judgement Judge(CellPixels pixels)
    {
        var n = pixels.R.Length;
        var paper = new FileRgb(1, 1, 1);
        if (n < 8)
            return new(paper, paper, paper, 0, 0, 0);
        var keep = new bool[n];
        Array.Fill(keep, true);
        var work = new float[n];
        var glare = Math.Max(MarkGlare(pixels, keep, work), MarkSheen(pixels, keep, work));
        var kept = new int[n];
        var count = 0;
        for (var i = 0; i < n; i++)
        {
            if (keep[i])
                kept[count++] = i;
        }

        if (count < 8)
        {
            for (var i = 0; i < n; i++)
                kept[i] = i;
            count = n;
        }

        Array.Resize(ref kept, count);
        float[][] logs = [Logs(pixels.R, kept), Logs(pixels.G, kept), Logs(pixels.B, kept)];
        Span<float> middle = stackalloc float[3];
        for (var channel = 0; channel < 3; channel++)
        {
            logs[channel].CopyTo(work, 0);
            middle[channel] = Ranks.Select(work.AsSpan(0, count), count / 2);
        }

        if (Square(middle) < Visible)
            BeginFromPaint(logs, work, middle);

        var depth = new float[count];
        var coloured = count;
        float scale = 0,
            gap = float.NegativeInfinity;
        for (var round = 0; round < 3; round++)
        {
            scale = Square(middle);
            if (scale < 0.0004f)
                break;
            coloured = 0;
            for (var i = 0; i < count; i++)
            {
                depth[i] = ((logs[0][i] * middle[0]) + (logs[1][i] * middle[1]) + (logs[2][i] * middle[2])) / scale;
                if (depth[i] > Gap)
                    work[coloured++] = depth[i];
            }

            gap = Gap;
            if (coloured < 8)
            {
                (coloured, gap) = (count, float.NegativeInfinity);
                break;
            }

            MeanBetween(
                pixels,
                kept,
                depth,
                Depth(work, coloured, coloured / 4),
                Depth(work, coloured, (coloured / 4) + Math.Max(1, coloured / 2) - 1),
                middle
            );
        }

        if (scale < Visible)
        {
            var level = Exp(middle);
            return new(level, level, level, 0, glare, Deviation(logs[1], depth, float.NegativeInfinity, middle[1], work));
        }

        var tenth = Math.Max(1, coloured / 5);
        coloured = 0;
        foreach (var value in depth)
        {
            if (value > gap)
                work[coloured++] = value;
        }

        Span<float> pale = stackalloc float[3];
        Span<float> deep = stackalloc float[3];
        var (paleEnd, deepStart) = (Depth(work, coloured, tenth - 1), Depth(work, coloured, coloured - tenth));
        MeanBetween(pixels, kept, depth, gap, paleEnd, pale);
        MeanBetween(pixels, kept, depth, deepStart, float.MaxValue, deep);
        return new(Exp(middle), Exp(pale), Exp(deep), coloured / (double)count, glare, Deviation(logs[1], depth, gap, middle[1], work));
    }

    /// <summary>Sets aside the shinier pixels of a cell over which a sheen lies that is weaker than the paper's light, and returns how much
    /// of it shines.</summary>
    /// <remarks>Between its deeper and its paler places a wash keeps to one line of densities; a sheen adds the same light to all channels.
    /// So each pixel is taken apart into a depth and an added light. In greys, and where all channels darken alike, the two
    /// cannot be told apart, and nothing is set aside.</remarks>
    private static double MarkSheen(CellPixels pixels, bool[] keep, float[] work)
    {
        var n = keep.Length;
        float Low(float[] values)
        {
            values.CopyTo(work, 0);
            return Math.Clamp(Ranks.Select(work.AsSpan(0, n), n / 10), 0.01f, 0.99f);
        }

        // The tenth darkest pixel of each channel: what shines least.
        Span<float> own = [Low(pixels.R), Low(pixels.G), Low(pixels.B)];
        Span<float> density = [MathF.Log(own[0]), MathF.Log(own[1]), MathF.Log(own[2])];
        var most = MathF.Min(own[0], MathF.Min(own[1], own[2]));
        if (most > 0.93f)
            return 0;
        var added = new float[n];
        for (var i = 0; i < n; i++)
        {
            float depth = 1,
                light = 0;
            var sound = true;
            for (var round = 0; round < 4 && sound; round++)
            {
                float tt = 0,
                    t1 = 0,
                    rt = 0,
                    r1 = 0;
                for (var channel = 0; channel < 3; channel++)
                {
                    var wash = MathF.Exp(depth * density[channel]);
                    var tangent = wash * density[channel];
                    var off =
                        (
                            channel switch
                            {
                                0 => pixels.R[i],
                                1 => pixels.G[i],
                                _ => pixels.B[i],
                            }
                        )
                        - wash
                        - light;
                    tt += tangent * tangent;
                    t1 += tangent;
                    rt += off * tangent;
                    r1 += off;
                }

                var det = (3 * tt) - (t1 * t1);
                sound = det > 0.06f * 3 * tt;
                if (!sound)
                    break;
                depth = Math.Clamp(depth + (((3 * rt) - (t1 * r1)) / det), 0, 2.5f);
                light += ((tt * r1) - (t1 * rt)) / det;
            }

            added[i] = sound ? light : 0;
        }

        added.CopyTo(work, 0);
        var least = Ranks.Select(work.AsSpan(0, n), n / 20);
        var strong = Ranks.Select(work.AsSpan(0, n), n * 9 / 10);
        if (strong - least < Sheen)
            return 0;
        var limit = MathF.Max(least + 0.02f, Ranks.Select(work.AsSpan(0, n), n * 3 / 20));
        var shining = 0;
        for (var i = 0; i < n; i++)
        {
            if (added[i] > least + 0.03f)
                shining++;
            if (added[i] > limit)
                keep[i] = false;
        }

        return shining / (double)n;
    }

    private static float Square(ReadOnlySpan<float> logs) => (logs[0] * logs[0]) + (logs[1] * logs[1]) + (logs[2] * logs[2]);

    /// <summary>Where less than half of a cell is painted its middle is bare paper: the colour to begin from is then that of the pixels
    /// that the paper's own scatter does not explain. Left as it is where these are few, or may be a shadow.</summary>
    private static void BeginFromPaint(float[][] logs, float[] work, Span<float> middle)
    {
        var count = logs[0].Length;
        var light = new float[count];
        for (var i = 0; i < count; i++)
            light[i] = logs[0][i] + logs[1][i] + logs[2][i];
        float At(int rank)
        {
            light.CopyTo(work, 0);
            return Ranks.Select(work.AsSpan(0, count), rank);
        }

        // From the middle to the lightest tenth there is nothing but paper; noise is as wide to the other side.
        var (typical, lightest) = (At(count / 2), At(count * 9 / 10));
        var limit = typical - MathF.Max(4 * (lightest - typical), 0.06f);
        Span<float> begin = stackalloc float[3];
        var painted = 0;
        for (var channel = 0; channel < 3; channel++)
        {
            painted = 0;
            for (var i = 0; i < count; i++)
            {
                if (light[i] < limit)
                    work[painted++] = logs[channel][i];
            }

            if (painted < 8 || painted < LeastPainted * count)
                return;
            begin[channel] = Ranks.Select(work.AsSpan(0, painted), painted / 2);
        }

        var (most, least) = (MathF.Min(begin[0], MathF.Min(begin[1], begin[2])), MathF.Max(begin[0], MathF.Max(begin[1], begin[2])));
        if (most > MathF.Log(0.5f) && least < (1 - ShadowTint) * most)
            return;
        begin.CopyTo(middle);
    }

    private static float Depth(float[] work, int count, int rank) => Ranks.Select(work.AsSpan(0, count), Math.Clamp(rank, 0, count - 1));

    private static float[] Logs(float[] values, int[] kept)
    {
        var logs = new float[kept.Length];
        for (var i = 0; i < logs.Length; i++)
            logs[i] = MathF.Log(MathF.Max(values[kept[i]], 2e-3f));
        return logs;
    }

    /// <summary>Logarithm of the mean of the pixels whose depth lies between two bounds.</summary>
    private static void MeanBetween(CellPixels pixels, int[] kept, float[] depth, float from, float to, Span<float> mean)
    {
        double r = 0,
            g = 0,
            b = 0;
        var count = 0;
        for (var i = 0; i < depth.Length; i++)
        {
            if (depth[i] < from || depth[i] > to)
                continue;
            var at = kept[i];
            r += pixels.R[at];
            g += pixels.G[at];
            b += pixels.B[at];
            count++;
        }

        if (count == 0)
            return;
        (mean[0], mean[1], mean[2]) = (Log(r / count), Log(g / count), Log(b / count));

        static float Log(double value) => (float)Math.Log(Math.Max(value, 1e-3));
    }

    /// <summary>Marks pixels that shine and returns their share.</summary>
    private static double MarkGlare(CellPixels pixels, bool[] keep, float[] work)
    {
        // Shine adds the lamp's light, about the same in all channels, to a wash whose own colour its deeper pixels show.
        var n = keep.Length;
        float Own(float[] values)
        {
            values.CopyTo(work, 0);
            return Ranks.Select(work.AsSpan(0, n), n * 3 / 10);
        }

        var (r, g, b) = (Own(pixels.R), Own(pixels.G), Own(pixels.B));
        var limit = 1.08f * MathF.Max(1, MathF.Max(r, MathF.Max(g, b)));
        var shining = 0;
        for (var i = 0; i < n; i++)
        {
            var most = MathF.Max(pixels.R[i], MathF.Max(pixels.G[i], pixels.B[i]));
            if (most <= limit)
                continue;
            var rise = MathF.Min(pixels.R[i] - r, MathF.Min(pixels.G[i] - g, pixels.B[i] - b));
            if (rise <= 0.06f)
                continue;
            keep[i] = false;
            shining++;
        }

        var share = shining / (double)keep.Length;

        // A wash is rarely lighter than its paper; where nearly all pixels are, it is the paper that was misjudged.
        if (share > 0.8)
            Array.Fill(keep, true);
        return share;
    }

    /// <summary>Robust standard deviation of the logarithms of pixels deeper than a bound.</summary>
    private static double Deviation(float[] logs, float[] depth, float above, float middle, float[] work)
    {
        var count = 0;
        for (var i = 0; i < logs.Length; i++)
        {
            if (depth[i] > above)
                work[count++] = MathF.Abs(logs[i] - middle);
        }

        return count == 0 ? 0 : 1.4826 * Ranks.Select(work.AsSpan(0, count), count / 2);
    }

    private static FileRgb Exp(Span<float> logs) => new(Math.Exp(logs[0]), Math.Exp(logs[1]), Math.Exp(logs[2]));
}
