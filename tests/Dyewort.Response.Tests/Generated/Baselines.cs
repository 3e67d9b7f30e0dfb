using Dyewort.Colour;

namespace Dyewort.Response.Tests.Generated;

/// <summary>What a maker could do without any model: take the nearest square, or weigh squares by distance.</summary>
internal static class Baselines
{
    public static Lab Nearest(IReadOnlyList<TrialRow> rows, TrialPoint point, IReadOnlyList<string> additions) =>
        rows.MinBy(row => Distance(rows, row.Point, point, additions))!.Colour;

    public static Lab Weighted(IReadOnlyList<TrialRow> rows, TrialPoint point, IReadOnlyList<string> additions)
    {
        double sum = 0,
            l = 0,
            a = 0,
            b = 0;
        foreach (var row in rows)
        {
            var d = Distance(rows, row.Point, point, additions);
            var w = 1 / ((d * d) + 1e-9);
            sum += w;
            l += w * row.Colour.L;
            a += w * row.Colour.A;
            b += w * row.Colour.B;
        }

        return new(l / sum, a / sum, b / sum);
    }

    /// <summary>pH and doses, each over the range it was tested in.</summary>
    private static double Distance(IReadOnlyList<TrialRow> rows, TrialPoint one, TrialPoint two, IReadOnlyList<string> additions)
    {
        var sum = 0.0;
        foreach (var name in additions)
        {
            var range = rows.Max(row => row.Point.Dose(name));
            if (range == 0)
                continue;
            var d = (one.Dose(name) - two.Dose(name)) / range;
            sum += d * d;
        }

        var phs = rows.Select(row => row.Point.Ph ?? 7).ToArray();
        var ph = ((one.Ph ?? 7) - (two.Ph ?? 7)) / Math.Max(phs.Max() - phs.Min(), 0.1);
        return Math.Sqrt(sum + (ph * ph));
    }
}
