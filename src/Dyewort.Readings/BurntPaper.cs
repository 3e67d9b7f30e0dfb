using Dyewort.Numerics;

namespace Dyewort.Readings;

/// <summary>How much lighter burnt-out paper must have been than the file can say.</summary>
/// <remarks>
/// A full channel is a lower bound of the light. Over the cells of a page the logarithm of the paper's light is taken as a plane with a
/// scatter of 12 % (shadows); cells whose paper is not full show it, cells whose paper is full lie above the top of the file, by 5 % where
/// not even grain falls below it. What that leaves open is settled by priors, our own fit to simulated photos: burnt-out paper is a fifth
/// too light, give or take a tenth; a camera's white balance keeps its channels within a tenth of each other; the light changes by some 20
/// % from the middle of a page to its rim. The expected light of each cell is found by repeated expectation and fit (Dempster, Laird and
/// Rubin 1977 [Dempster1977]).
/// </remarks>
public static class BurntPaper
{
    /// <summary>File light from which on a channel is taken as full: 250 of 255.</summary>
    public const double Full = 0.955;

    private const double NearlyFull = 0.88;
    private const double Usual = 0.19;
    private const double UsualDoubt = 0.1;
    private const double ChannelDoubt = 0.08;
    private const double SlopeDoubt = 0.2;
    private const double Scatter = 0.12;
    private const double Grain = 0.05;

    /// <summary>Neighbours share their shadows, so this many full cells tell as much as one.</summary>
    private const double Shared = 6;
    private const double CardDoubt = 0.15;

    /// <summary>Factors of at least 1 by which the paper beside each cell was lighter than its full channels say; 1 where a channel is not
    /// full.</summary>
    /// <param name="cells">The page's cells.</param>
    /// <param name="look">What the camera did to the light.</param>
    /// <param name="byCard">Light of the paper as a reference card beside it foretells, or null.</param>
    public static FileRgb[] Excess(IReadOnlyList<CellSample> cells, CameraLook look, FileRgb? byCard = null)
    {
        var excess = new double[3][];
        var full = new bool[3][];
        for (var channel = 0; channel < 3; channel++)
        {
            var c = channel;
            full[c] = [.. cells.Select(cell => cell.PaperClipped > 0.3 && cell.Paper[c] > Full)];
            excess[c] = [.. cells.Select(_ => 1.0)];
        }

        if (full.All(channel => !channel.Contains(true)))
            return [.. cells.Select(_ => new FileRgb(1, 1, 1))];
        var light = cells.Select(cell => look.Undo(cell.Paper)).ToArray();
        var (left, right) = (cells.Min(cell => cell.X), cells.Max(cell => cell.X));
        var (top, bottom) = (cells.Min(cell => cell.Y), cells.Max(cell => cell.Y));
        var half = Math.Max(1e-6, Math.Max(right - left, bottom - top) / 2);
        double? sister = null;
        foreach (var channel in new[] { 0, 1, 2 }.OrderBy(channel => full[channel].Count(one => one)))
        {
            if (!full[channel].Contains(true))
            {
                sister = Math.Log(light.Average(one => Math.Max(one[channel], 1e-3)));
                continue;
            }

            var (prior, doubt) =
                byCard is { } card && card[channel] > 0.5 ? (Math.Log(Math.Min(card[channel], 2)), CardDoubt)
                : sister is { } known ? (known, ChannelDoubt)
                : (Usual, UsualDoubt);
            var plane = Plane(cells, light, full[channel], channel, (left + right) / 2, (top + bottom) / 2, half, prior, doubt);
            for (var i = 0; i < cells.Count; i++)
            {
                if (full[channel][i])
                    excess[channel][i] = Math.Exp(Math.Clamp(plane[i], 0, 0.6));
            }

            sister = plane.Average();
        }

        return [.. cells.Select((cell, i) => Even(cell, new(excess[0][i], excess[1][i], excess[2][i])))];
    }

    /// <summary>Where all channels are at or near their top the same factor serves them all, because a factor of their own would be a tint;
    /// where only part of the paper around a cell is full, the other part has told most of the light already.</summary>
    private static FileRgb Even(CellSample cell, FileRgb excess)
    {
        var share = Math.Clamp((cell.PaperClipped - 0.4) / 0.5, 0, 1);
        if (Math.Min(cell.Paper.R, Math.Min(cell.Paper.G, cell.Paper.B)) <= NearlyFull)
            return new(Math.Pow(excess.R, share), Math.Pow(excess.G, share), Math.Pow(excess.B, share));
        var one = Math.Pow(excess.R * excess.G * excess.B, share / 3);
        return new(one, one, one);
    }

    /// <summary>Light of a wash relative to the paper's, where the file says the same of both because it is full.</summary>
    /// <param name="light">File light of the wash, one channel.</param>
    /// <param name="excess">The paper's excess in that channel.</param>
    /// <returns>A factor of at least 1: a full wash lay somewhere between the top of the file and its paper, so it is put
    /// halfway.</returns>
    public static double WashFactor(double light, double excess) => Math.Pow(excess, 0.5 * Math.Clamp((light - Full + 0.03) / 0.03, 0, 1));

    private static double[] Plane(
        IReadOnlyList<CellSample> cells,
        FileRgb[] light,
        bool[] full,
        int channel,
        double x,
        double y,
        double half,
        double prior,
        double doubt
    )
    {
        var basis = cells.Select(cell => (double[])[1, (cell.X - x) / half, (cell.Y - y) / half]).ToArray();
        var expected = new double[cells.Count];
        double[] at = [prior, 0, 0];
        for (var round = 0; round < 15; round++)
        {
            var normal = new double[9];
            double[] right = [prior / (doubt * doubt), 0, 0];
            normal[0] = 1 / (doubt * doubt);
            normal[4] = normal[8] = 1 / (SlopeDoubt * SlopeDoubt);
            for (var i = 0; i < cells.Count; i++)
            {
                var plane = (at[0] * basis[i][0]) + (at[1] * basis[i][1]) + (at[2] * basis[i][2]);
                expected[i] = full[i]
                    ? Above(plane, cells[i].PaperClipped > 0.95 ? Grain : 0)
                    : Math.Log(Math.Max(light[i][channel], 1e-3));
                var weight = (full[i] ? 1.0 / Shared : 1) / (Scatter * Scatter);
                for (var a = 0; a < 3; a++)
                {
                    right[a] += weight * basis[i][a] * expected[i];
                    for (var b = 0; b < 3; b++)
                        normal[(a * 3) + b] += weight * basis[i][a] * basis[i][b];
                }
            }

            if (Cholesky.TrySolve(normal, right))
                at = right;
        }

        return expected;
    }

    /// <summary>Mean of a bell curve of the plane's scatter, cut off below a bound.</summary>
    private static double Above(double middle, double bound)
    {
        double sum = 0,
            total = 0;
        for (var step = 0; step < 40; step++)
        {
            var value = bound + ((step + 0.5) / 40 * 5 * Scatter);
            var weight = Math.Exp(-0.5 * Math.Pow((value - Math.Max(middle, bound - (4 * Scatter))) / Scatter, 2));
            sum += weight * value;
            total += weight;
        }

        return sum / total;
    }
}
