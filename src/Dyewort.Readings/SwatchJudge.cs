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
/// without its coarseness in eight-bit pictures. Pixels that shine (lighter than the wash by the same amount of light in all channels,
/// and lighter than the paper in one) are set aside first.</remarks>
public static class SwatchJudge
{
    private const double Gap = 0.25;

    /// <summary>Judges the pixels of one cell; with no pixels, the paper itself.</summary>
    public static Judgement Judge(CellPixels pixels)
    {
        var n = pixels.R.Length;
        var paper = new FileRgb(1, 1, 1);
        if (n < 8) return new(paper, paper, paper, 0, 0, 0);
        var keep = new bool[n];
        Array.Fill(keep, true);
        var glare = MarkGlare(pixels, keep);
        var logs = new double[3][];
        for (var channel = 0; channel < 3; channel++)
        {
            var source = channel switch { 0 => pixels.R, 1 => pixels.G, _ => pixels.B };
            logs[channel] = [.. source.Select(value => Math.Log(Math.Max(value, 2e-3f)))];
        }

        var kept = Enumerable.Range(0, n).Where(i => keep[i]).ToArray();
        if (kept.Length < 8) kept = [.. Enumerable.Range(0, n)];
        var middle = new double[3];
        for (var channel = 0; channel < 3; channel++) middle[channel] = kept.Select(i => logs[channel][i]).Order().ElementAt(kept.Length / 2);
        var depth = new double[n];
        var coloured = kept;
        double scale = 0;
        for (var round = 0; round < 3; round++)
        {
            scale = (middle[0] * middle[0]) + (middle[1] * middle[1]) + (middle[2] * middle[2]);
            if (scale < 0.0004) break;
            foreach (var i in kept) depth[i] = ((logs[0][i] * middle[0]) + (logs[1][i] * middle[1]) + (logs[2][i] * middle[2])) / scale;
            coloured = [.. kept.Where(i => depth[i] > Gap).OrderBy(i => depth[i])];
            if (coloured.Length < 8)
            {
                coloured = kept;
                break;
            }

            var next = Mean(coloured.AsSpan(coloured.Length / 4, Math.Max(1, coloured.Length / 2)));
            middle = next;
        }

        // Less than about one per cent of the light missing: the cell is not painted, or nobody could see that it is.
        var empty = scale < 0.0012;
        if (empty)
        {
            var level = Exp(middle);
            return new(level, level, level, 0, glare, Deviation(kept, logs[1], middle[1]));
        }

        var tenth = Math.Max(1, coloured.Length / 5);
        var pale = Mean(coloured.AsSpan(0, tenth));
        var deep = Mean(coloured.AsSpan(coloured.Length - tenth));
        return new(Exp(middle), Exp(pale), Exp(deep), coloured.Length / (double)kept.Length, glare, Deviation(coloured, logs[1], middle[1]));

        double[] Mean(ReadOnlySpan<int> chosen)
        {
            var mean = new double[3];
            foreach (var i in chosen)
            {
                for (var channel = 0; channel < 3; channel++) mean[channel] += channel switch { 0 => pixels.R[i], 1 => pixels.G[i], _ => pixels.B[i] };
            }

            for (var channel = 0; channel < 3; channel++) mean[channel] = Math.Log(Math.Max(mean[channel] / chosen.Length, 1e-3));
            return mean;
        }
    }

    /// <summary>Marks pixels that shine and returns their share.</summary>
    private static double MarkGlare(CellPixels pixels, bool[] keep)
    {
        // Shine adds the lamp's light, about the same in all channels, to a wash whose own colour its deeper pixels show.
        var n = keep.Length;
        double Own(float[] values) => values.Order().ElementAt(n * 3 / 10);
        var (r, g, b) = (Own(pixels.R), Own(pixels.G), Own(pixels.B));
        var limit = 1.08 * Math.Max(1, Math.Max(r, Math.Max(g, b)));
        var shining = 0;
        for (var i = 0; i < n; i++)
        {
            var most = Math.Max(pixels.R[i], Math.Max(pixels.G[i], pixels.B[i]));
            var rise = Math.Min(pixels.R[i] - r, Math.Min(pixels.G[i] - g, pixels.B[i] - b));
            if (most <= limit || rise <= 0.06) continue;
            keep[i] = false;
            shining++;
        }

        var share = shining / (double)keep.Length;

        // A wash is rarely lighter than its paper; where nearly all pixels are, it is the paper that was misjudged.
        if (share > 0.8) Array.Fill(keep, true);
        return share;
    }

    private static double Deviation(int[] chosen, double[] logs, double middle)
    {
        if (chosen.Length == 0) return 0;
        var off = chosen.Select(i => Math.Abs(logs[i] - middle)).Order().ToArray();
        return 1.4826 * off[off.Length / 2];
    }

    private static FileRgb Exp(double[] logs) => new(Math.Exp(logs[0]), Math.Exp(logs[1]), Math.Exp(logs[2]));
}
