using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>Wanted colours that the generated plant can make; the best proposal is made up and painted by the generator.</summary>
internal static class MatchCheck
{
    public static void Run(int plants, int samples, double scatter, bool washes, int first = 4000)
    {
        var factors = new List<double>(); double off = 0, nearest = 0, miss = 0, radius = 0;
        int within = 0, count = 0;
        var byKind = new Dictionary<MatchKind, (int Count, int Within, double Off)>();
        var clock = System.Diagnostics.Stopwatch.StartNew();
        for (var p = 0; p < plants; p++)
        {
            var plant = new PlantMaker(first + p);
            var rows = Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), scatter)).ToArray();
            if (!ResponseModel.Fit(rows, plant.Used).TryGet(out var model)) throw new InvalidOperationException();
            for (var w = 0; w < 6; w++)
            {
                var wanted = plant.ColourOf(plant.Draw("W", wash: washes && w % 2 == 1 ? 0.4 : 1));
                var best = Match.Find(wanted, [model]).Proposals[0];
                var painted = plant.Paint(best, rows);
                var d = Difference.Ciede2000(painted, wanted);
                var inside = Difference.Ciede2000(painted, best.Colour) <= best.UncertaintyDe00;
                factors.Add(Difference.Ciede2000(painted, best.Colour) / best.UncertaintyDe00); off += d; miss += Difference.Ciede2000(painted, best.Colour); radius += best.UncertaintyDe00;
                nearest += rows.Min(row => Difference.Ciede2000(row.Colour, wanted));
                within += inside ? 1 : 0;
                count++;
                var old = byKind.GetValueOrDefault(best.Kind);
                byKind[best.Kind] = (old.Count + 1, old.Within + (inside ? 1 : 0), old.Off + d);
            }
        }

        Console.WriteLine(FormattableString.Invariant($"match from {samples} samples, scatter {scatter}, washes {washes}: painted {off / count:0.00}, nearest tested {nearest / count:0.00}, missed by {miss / count:0.00} radius {radius / count:0.00}, ratio {off / nearest:0.00}, within radius {100.0 * within / count:0.0} %, {clock.Elapsed.TotalSeconds / count:0.00} s each"));
        factors.Sort(); Console.WriteLine(FormattableString.Invariant($"  factors 90 % {factors[(int)(.9 * count)]:0.00} 95 % {factors[(int)(.95 * count)]:0.00} 98 % {factors[(int)(.98 * count)]:0.00}"));
        foreach (var (kind, (n, inside, d)) in byKind.OrderBy(pair => pair.Key)) Console.WriteLine(FormattableString.Invariant($"  {kind}: {n}, off {d / n:0.00}, within {100.0 * inside / n:0} %"));
    }
}
