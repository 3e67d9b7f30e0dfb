using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>Wanted colours that the generated plant can make, every second one as a wash; the best proposal, and the best of each kind, is
/// made up
/// and painted by the generator.</summary>
internal static class MatchCheck
{
    private sealed record Made(MatchKind Kind, double Off, double Miss, double Radius, double Nearest, double Expected);

    public static void Run(
        Func<int, IPlant> grow,
        int plants,
        int wantedEach,
        int samples,
        double scatter,
        string phMode,
        int first,
        bool paperKnown
    )
    {
        var best = new List<(bool Wash, Made Made)>();
        var ofKind = new List<(bool Wash, Made Made)>();
        var clock = System.Diagnostics.Stopwatch.StartNew();
        for (var p = 0; p < plants; p++)
        {
            var plant = grow(first + p);
            var noise = scatter < 0 ? 0.5 + (p % 3 * 0.5) : scatter;
            var rows = Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), noise)).ToArray();
            rows =
            [
                .. rows.Select(
                    (row, i) =>
                        phMode == "none" || (phMode == "half" && i % 2 == 1) ? row with { Point = row.Point with { Ph = null } } : row
                ),
            ];
            if (paperKnown)
                rows =
                [
                    .. rows,
                    new(
                        new()
                        {
                            Sample = "paper",
                            Plant = plant.Kind,
                            Wash = 0,
                        },
                        plant.Paper
                    ),
                ];
            if (!ResponseModel.Fit(rows, plant.Used).TryGet(out var model))
                throw new InvalidOperationException();
            for (var w = 0; w < wantedEach; w++)
            {
                var wash = w % 2 == 1;
                var wanted = plant.ColourOf(plant.Draw("W", wash: wash ? 0.4 : 1));
                var nearest = rows.Take(samples).Min(row => Difference.Ciede2000(row.Colour, wanted));
                Made Paint(Proposal one)
                {
                    var painted = plant.Paint(one, rows);
                    return new(
                        one.Kind,
                        Difference.Ciede2000(painted, wanted),
                        Difference.Ciede2000(painted, one.Colour),
                        one.UncertaintyDe00,
                        nearest,
                        one.ExpectedDe00
                    );
                }

                var proposals = Match.Find(wanted, [model]).Proposals;
                best.Add((wash, Paint(proposals[0])));
                ofKind.AddRange(proposals.GroupBy(one => one.Kind).Select(group => (wash, Paint(group.First()))));
            }
        }

        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"match from {samples} samples, {plants} plants, paper {(paperKnown ? "known" : "guessed")}, "
                    + $"{clock.Elapsed.TotalSeconds / plants:0.0} s each"
            )
        );
        Say("best, full strength", [.. best.Where(one => !one.Wash).Select(one => one.Made)]);
        Say("best, washes", [.. best.Where(one => one.Wash).Select(one => one.Made)]);
        Say("best, all", [.. best.Select(one => one.Made)]);
        foreach (var group in best.GroupBy(one => one.Made.Kind).OrderBy(group => group.Key))
            Say($"  best that are {group.Key}", [.. group.Select(one => one.Made)]);
        foreach (var group in ofKind.GroupBy(one => one.Made.Kind).OrderBy(group => group.Key))
            Say($"  best {group.Key}", [.. group.Select(one => one.Made)]);
        if (Environment.GetEnvironmentVariable("DUMP") is { Length: > 0 } dump)
            File.WriteAllLines(
                dump,
                best.Select(one => ("best", one))
                    .Concat(ofKind.Select(one => ("kind", one)))
                    .Select(one =>
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{one.Item1},{one.one.Wash},{one.one.Made.Kind},{one.one.Made.Off},"
                                + $"{one.one.Made.Miss},{one.one.Made.Radius},{one.one.Made.Expected}"
                        )
                    )
            );
    }

    private static void Say(string what, Made[] all)
    {
        if (all.Length == 0)
            return;
        var factors = all.Select(one => one.Miss / one.Radius).Order().ToArray();
        double At(double share) => factors[Math.Min((int)(share * factors.Length), factors.Length - 1)];
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{what}: {all.Length}, painted off by {all.Average(one => one.Off):0.00} (expected "
                    + $"{all.Average(one => one.Expected):0.00}), nearest tested {all.Average(one => one.Nearest):0.00}, ratio "
                    + $"{all.Sum(one => one.Off) / all.Sum(one => one.Nearest):0.00}, missed by {all.Average(one => one.Miss):0.00}, "
                    + $"radius {all.Average(one => one.Radius):0.00}, inside "
                    + $"{100.0 * all.Count(one => one.Miss <= one.Radius) / all.Length:0.0} %; miss over radius 50 % {At(0.5):0.00}, 90 "
                    + $"% {At(0.9):0.00}, 95 % {At(0.95):0.00}, 98 % {At(0.98):0.00}"
            )
        );
    }
}
