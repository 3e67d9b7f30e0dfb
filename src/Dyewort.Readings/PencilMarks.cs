using Dyewort.Numerics;

namespace Dyewort.Readings;

/// <summary>The read part of a cell as an even grid, row by row, relative to the bare paper at the same place.</summary>
/// <param name="R">Red ratios; NaN where the grid leaves the cell or the picture.</param>
/// <param name="G">Green ratios.</param>
/// <param name="B">Blue ratios.</param>
/// <param name="Columns">Points along a row.</param>
/// <param name="PitchMm">Distance of neighbouring points on the paper, millimetres.</param>
public sealed record CellRaster(ReadOnlyMemory<float> R, ReadOnlyMemory<float> G, ReadOnlyMemory<float> B, int Columns, double PitchMm)
{
    /// <summary>Number of rows.</summary>
    public int Rows => Columns == 0 ? 0 : R.Length / Columns;
}

/// <summary>Finds pencil in a painted cell: a code, a line across, a tick; and what looks like it, a hair or a crease.</summary>
/// <remarks>
/// <para>A mark is a line, darker than the wash, at most about a millimetre wide, some millimetres long, with the same wash on both sides.
/// It is looked for in the channel in which the ink is lightest, where more or less ink shows least. Places paler than the wash
/// count as wash, so what stands between brush gaps is no line, nor does the rim of a backrun pass as one: it is paler on its inner
/// side.</para>
/// <para>Graphite is grey: it darkens the channel in which the ink is light at least as much as the one in which it is dark, where more ink
/// darkens the second more. Where the ink is grey itself, that does not tell, and only a line is believed that is darker than pooled ink
/// gets. A line must stand out of the cell's own grain too. Lines on ink as dark as graphite are not found, and hardly matter.</para>
/// <para>The limits are our own, set on simulated cells with pencil drawn on them; docs/accuracy.md says how often it is right on
/// others.</para>
/// </remarks>
public static class PencilMarks
{
    /// <summary>Length over which darkness is averaged along a line: grain breaks a pencil line, but not for so long.</summary>
    private const double LengthMm = 2.6;

    /// <summary>Distance from the line's middle to the wash beside it.</summary>
    private const double FlankMm = 0.75;

    /// <summary>Directions tried.</summary>
    private const int Directions = 8;

    /// <summary>Area that must look like pencil, square millimetres.</summary>
    private const double LeastMm2 = 0.8;

    /// <summary>Least darkness of a line below the wash, natural logarithm.</summary>
    private const float Faintest = 0.085f;

    /// <summary>The same as a multiple of the cell's grain.</summary>
    private const float AboveGrain = 1.87f;

    /// <summary>Wash in its lightest channel below which graphite no longer shows, natural logarithm: it gives back about an eighth of the
    /// light itself.</summary>
    private const float Darkest = -1.5f;

    /// <summary>Blur and the soft sides of a line are left out with it.</summary>
    private const double SkirtMm = 0.4;

    /// <summary>Which points of the raster lie on marks, row by row; null where there are none.</summary>
    public static bool[]? Find(CellRaster cell)
    {
        var (columns, rows) = (cell.Columns, cell.Rows);
        if (columns < 12 || rows < 12 || cell.PitchMm is not (> 0 and < 0.35))
            return null;
        using var scratch = new Scratch();
        Memory<float>[] logs = [Logs(cell.R, scratch), Logs(cell.G, scratch), Logs(cell.B, scratch)];
        var work = scratch.Of<float>(cell.R.Length).Span;
        float[] wash = [Middle(logs[0].Span, work), Middle(logs[1].Span, work), Middle(logs[2].Span, work)];
        if (!float.IsFinite(wash[0]) || wash.Max() < Darkest)
            return null;
        var (light, dark) = (Array.IndexOf(wash, wash.Max()), Array.IndexOf(wash, wash.Min()));
        ReadOnlySpan<float> pale = logs[light].Span,
            deep = logs[dark].Span,
            red = logs[0].Span,
            green = logs[1].Span,
            blue = logs[2].Span;
        var level = MathF.Exp(wash[0]) + MathF.Exp(wash[1]) + MathF.Exp(wash[2]);
        var darker = scratch.Filled(pale.Length, 0f).Span;
        var any = false;
        for (var i = 0; i < darker.Length; i++)
        {
            if (float.IsNaN(pale[i]))
                continue;

            // A gap may be darker than the wash in one channel, never in all light together.
            if (MathF.Exp(red[i]) + MathF.Exp(green[i]) + MathF.Exp(blue[i]) < level)
                darker[i] = Math.Clamp(wash[light] - pale[i], 0, 0.7f);
            any |= darker[i] > 0.1f;
        }

        if (!any)
            return null;
        var share = wash[dark] < -0.02f ? Math.Clamp(wash[light] / wash[dark], 0, 1) : 1;
        var limit = Math.Max(Faintest, AboveGrain * Grain(pale, columns, work, scratch));
        var lines = new Lines(columns, rows, cell.PitchMm);
        var likeness = scratch.Filled(darker.Length, 0f).Span;
        var count = 0;
        for (var i = 0; i < darker.Length; i++)
        {
            if (darker[i] <= 0.1f)
                continue;
            var (best, direction) = (0f, -1);
            for (var d = 0; d < Directions; d++)
            {
                var (middle, left, right) = lines.Means(darker, i, d);
                var ridge = middle - MathF.Max(left, right) - (0.5f * MathF.Abs(left - right));
                if (ridge > best)
                    (best, direction) = (ridge, d);
            }

            if (best < 0.5f * limit)
                continue;
            var (middlePale, leftPale, rightPale) = lines.Means(pale, i, direction);
            var (middleDeep, leftDeep, rightDeep) = lines.Means(deep, i, direction);
            var byLight = ((leftPale + rightPale) / 2) - middlePale;
            var byDark = ((leftDeep + rightDeep) / 2) - middleDeep;
            var isGrey =
                share <= 0.7f
                    ? byDark <= byLight * MathF.Min(1.3f, 0.5f + (0.5f / MathF.Max(share, 0.05f)))
                    : byDark <= 2 * byLight && byLight > -0.6f * wash[light];
            if (!isGrey || byLight <= 0)
                continue;
            likeness[i] = best - (0.6f * MathF.Abs(leftPale - rightPale));
            if (likeness[i] > limit)
                count++;
        }

        return count * cell.PitchMm * cell.PitchMm < LeastMm2
            ? null
            : Widened(likeness, limit / 2, columns, (int)Math.Ceiling(SkirtMm / cell.PitchMm));
    }

    private static Memory<float> Logs(ReadOnlyMemory<float> ratios, Scratch scratch)
    {
        var logs = scratch.Of<float>(ratios.Length);
        var from = ratios.Span;
        var to = logs.Span;
        for (var i = 0; i < from.Length; i++)
            to[i] = float.IsNaN(from[i]) ? float.NaN : MathF.Log(MathF.Max(from[i], 0.02f));
        return logs;
    }

    private static float Middle(ReadOnlySpan<float> values, Span<float> work)
    {
        var count = 0;
        foreach (var value in values)
        {
            if (!float.IsNaN(value))
                work[count++] = value;
        }

        return count < 100 ? float.NaN : Ranks.Select(work[..count], count / 2);
    }

    /// <summary>Robust spread of a channel about its own mean over two millimetres: grain of paper and paint, and the camera's
    /// noise.</summary>
    private static float Grain(ReadOnlySpan<float> values, int columns, Span<float> work, Scratch scratch)
    {
        var rows = values.Length / columns;
        var sums = scratch.Filled((columns + 1) * (rows + 1), 0.0).Span;
        var counts = scratch.Filled(sums.Length, 0).Span;
        for (var y = 0; y < rows; y++)
        {
            for (var x = 0; x < columns; x++)
            {
                var (at, value) = (((y + 1) * (columns + 1)) + x + 1, values[(y * columns) + x]);
                sums[at] = sums[at - 1] + sums[at - columns - 1] - sums[at - columns - 2] + (float.IsNaN(value) ? 0 : value);
                counts[at] = counts[at - 1] + counts[at - columns - 1] - counts[at - columns - 2] + (float.IsNaN(value) ? 0 : 1);
            }
        }

        const int Reach = 7;
        var n = 0;
        for (var y = 0; y < rows; y++)
        {
            var (top, bottom) = (Math.Max(0, y - Reach) * (columns + 1), Math.Min(rows, y + Reach + 1) * (columns + 1));
            for (var x = 0; x < columns; x++)
            {
                if (float.IsNaN(values[(y * columns) + x]))
                    continue;
                var (left, right) = (Math.Max(0, x - Reach), Math.Min(columns, x + Reach + 1));
                var sum = sums[bottom + right] - sums[bottom + left] - sums[top + right] + sums[top + left];
                work[n++] = MathF.Abs(
                    values[(y * columns) + x]
                        - (float)(sum / (counts[bottom + right] - counts[bottom + left] - counts[top + right] + counts[top + left]))
                );
            }
        }

        return 1.4826f * Ranks.Select(work[..n], n / 2);
    }

    private static bool[] Widened(ReadOnlySpan<float> likeness, float above, int columns, int reach)
    {
        var marked = new bool[likeness.Length];
        for (var i = 0; i < likeness.Length; i++)
        {
            if (likeness[i] <= above)
                continue;
            var (x, y) = (i % columns, i / columns);
            for (var v = Math.Max(0, y - reach); v <= Math.Min((likeness.Length / columns) - 1, y + reach); v++)
            {
                for (var u = Math.Max(0, x - reach); u <= Math.Min(columns - 1, x + reach); u++)
                    marked[(v * columns) + u] |= ((u - x) * (u - x)) + ((v - y) * (v - y)) <= reach * reach;
            }
        }

        return marked;
    }

    /// <summary>Steps along a line and along its two flanks, in every direction.</summary>
    private sealed class Lines
    {
        private readonly (int X, int Y)[][] steps;
        private readonly int columns,
            rows,
            reach;

        public Lines(int columns, int rows, double pitchMm)
        {
            (this.columns, this.rows) = (columns, rows);
            var half = (int)Math.Round(LengthMm / 2 / pitchMm);
            steps =
            [
                .. Enumerable
                    .Range(0, Directions * 3)
                    .Select(i =>
                    {
                        var (sin, cos) = Math.SinCos(Math.PI * (i / 3) / Directions);
                        var off =
                            (i % 3) switch
                            {
                                0 => 0,
                                1 => FlankMm,
                                _ => -FlankMm,
                            } / pitchMm;
                        return Enumerable
                            .Range(-half, (2 * half) + 1)
                            .Select(step => ((int)Math.Round((step * cos) - (off * sin)), (int)Math.Round((step * sin) + (off * cos))))
                            .ToArray();
                    }),
            ];
            reach = steps.SelectMany(line => line).Max(step => Math.Max(Math.Abs(step.X), Math.Abs(step.Y)));
        }

        /// <summary>Means along the line through a point and along its flanks; a flank outside of the cell counts as the other.</summary>
        public (float Middle, float Left, float Right) Means(ReadOnlySpan<float> values, int at, int direction)
        {
            var (x, y) = (at % columns, at / columns);
            var inside = x >= reach && y >= reach && x < columns - reach && y < rows - reach;
            var middle = Mean(values, x, y, steps[direction * 3], inside);
            var (left, right) = (
                Mean(values, x, y, steps[(direction * 3) + 1], inside),
                Mean(values, x, y, steps[(direction * 3) + 2], inside)
            );
            if (float.IsNaN(left))
                left = right;
            if (float.IsNaN(right))
                right = left;
            return (middle, left, right);
        }

        private float Mean(ReadOnlySpan<float> values, int x, int y, (int X, int Y)[] line, bool inside)
        {
            var (sum, count) = (0f, 0);
            foreach (var (dx, dy) in line)
            {
                var (u, v) = (x + dx, y + dy);
                if (!inside && (u < 0 || v < 0 || u >= columns || v >= rows))
                    continue;
                var value = values[(v * columns) + u];
                if (float.IsNaN(value))
                    continue;
                sum += value;
                count++;
            }

            return sum / count;
        }
    }
}
