using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>Washes and coats that nobody painted, of compositions that were painted once at full strength.</summary>
internal static class WashCheck
{
    private static readonly (string What, double Wash, double Coats)[] Cases =
    [
        ("as it was painted", 1, 1),
        ("wash 1/2", 0.5, 1),
        ("wash 1/4", 0.25, 1),
        ("wash 1/10", 0.1, 1),
        ("two coats", 1, 2),
        ("three coats", 1, 3),
    ];

    public static void Run(Func<int, IPlant> grow, int plants, int samples, double scatter, int first)
    {
        foreach (var paperKnown in new[] { false, true })
        {
            var found = Cases.Select(_ => new List<(double Error, double Radius, double Undone)>()).ToArray();
            for (var p = 0; p < plants; p++)
            {
                var plant = grow(first + p);
                var noise = scatter < 0 ? 0.5 + (p % 3 * 0.5) : scatter;
                TrialRow[] rows = [.. Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), noise))];
                TrialRow[] taught = paperKnown
                    ?
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
                    ]
                    : rows;
                if (!ResponseModel.Fit(taught, plant.Used).TryGet(out var model))
                    throw new InvalidOperationException();
                foreach (var row in rows)
                {
                    for (var c = 0; c < Cases.Length; c++)
                    {
                        var point = row.Point with { Wash = Cases[c].Wash, Coats = Cases[c].Coats };
                        var truth = plant.ColourOf(point);
                        var prediction = model.Predict(point);
                        found[c]
                            .Add(
                                (
                                    Difference.Ciede2000(truth, prediction.Colour),
                                    prediction.UncertaintyDe00,
                                    Difference.Ciede2000(truth, row.Colour)
                                )
                            );
                    }
                }
            }

            Console.WriteLine($"{plants} plants, {samples} samples at full strength, paper {(paperKnown ? "known" : "guessed")}");
            for (var c = 0; c < Cases.Length; c++)
            {
                var errors = found[c].Select(one => one.Error).Order().ToArray();
                Console.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"  {Cases[c].What}: {errors.Length}, mean {errors.Average():0.00}, median {errors[errors.Length / 2]:0.00}, 95th "
                            + $"{errors[(int)(0.95 * errors.Length)]:0.00}, radius {found[c].Average(one => one.Radius):0.00}, inside "
                            + $"{100.0 * found[c].Count(one => one.Error <= one.Radius) / errors.Length:0.0} %; the painted square "
                            + $"itself lies {found[c].Average(one => one.Undone):0.00} off"
                    )
                );
            }
        }
    }
}
