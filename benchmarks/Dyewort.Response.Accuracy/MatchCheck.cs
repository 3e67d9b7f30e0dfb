using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>Wanted colours that the generated plant can make; the best proposal is made up and painted by the generator.</summary>
internal static class MatchCheck
{
    public static void Run(Func<int, IPlant> grow, int plants, int samples, double scatter, bool washes, string phMode, int first)
    {
        const int Wanted = 6;
        var found = new List<(double Off, double Miss, double Radius, double Nearest, double Expected, MatchKind Kind)>();
        var clock = System.Diagnostics.Stopwatch.StartNew();
        for (var p = 0; p < plants; p++)
        {
            var plant = grow(first + p);
            var noise = scatter < 0 ? 0.5 + (p % 3 * 0.5) : scatter;
            var rows = Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), noise)).ToArray();
            rows = [.. rows.Select((row, i) => phMode == "none" || (phMode == "half" && i % 2 == 1) ? row with { Point = row.Point with { Ph = null } } : row)];
            if (!ResponseModel.Fit(rows, plant.Used).TryGet(out var model)) throw new InvalidOperationException();
            for (var w = 0; w < Wanted; w++)
            {
                var wanted = plant.ColourOf(plant.Draw("W", wash: washes && w % 2 == 1 ? 0.4 : 1));
                var best = Match.Find(wanted, [model]).Proposals[0];
                var painted = plant.Paint(best, rows);
                found.Add((Difference.Ciede2000(painted, wanted), Difference.Ciede2000(painted, best.Colour), best.UncertaintyDe00,
                    rows.Min(row => Difference.Ciede2000(row.Colour, wanted)), best.ExpectedDe00, best.Kind));
            }
        }

        var count = found.Count;
        Console.WriteLine(FormattableString.Invariant(
            $"match from {samples} samples, {(washes ? "every second a wash" : "full strength")}: painted {found.Average(one => one.Off):0.00} (expected {found.Average(one => one.Expected):0.00}), nearest tested {found.Average(one => one.Nearest):0.00}, ratio {found.Average(one => one.Off) / found.Average(one => one.Nearest):0.00}, missed by {found.Average(one => one.Miss):0.00}, radius {found.Average(one => one.Radius):0.00}, inside {100.0 * found.Count(one => one.Miss <= one.Radius) / count:0.0} %, {clock.Elapsed.TotalSeconds / count:0.00} s each"));
        var factors = found.Select(one => one.Miss / one.Radius).Order().ToArray();
        Console.WriteLine(FormattableString.Invariant($"  miss over radius: 50 % {factors[count / 2]:0.00}, 90 % {factors[(int)(0.9 * count)]:0.00}, 95 % {factors[(int)(0.95 * count)]:0.00}, 98 % {factors[(int)(0.98 * count)]:0.00}"));
        foreach (var group in found.GroupBy(one => one.Kind).OrderBy(group => group.Key))
            Console.WriteLine(FormattableString.Invariant($"  {group.Key}: {group.Count()}, off {group.Average(one => one.Off):0.00}, inside {100.0 * group.Count(one => one.Miss <= one.Radius) / group.Count():0} %"));
    }
}
