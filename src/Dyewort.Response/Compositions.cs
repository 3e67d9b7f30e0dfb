namespace Dyewort.Response;

/// <summary>The compositions that a plant's trials speak about: doses inside the tested ranges, one or two at a time, and what was tested
/// itself.</summary>
internal static class Compositions
{
    /// <summary>Lowest and highest tested dose of each addition that was tested, g/L.</summary>
    public static IReadOnlyList<(string Name, double Low, double High)> Ranges(ResponseModel model) =>
        [
            .. model
                .Additions.Select(name =>
                    (Name: name, Doses: model.Rows.Select(row => row.Point.Dose(name)).Where(dose => dose > 0).ToArray())
                )
                .Where(one => one.Doses.Length > 0)
                .Select(one => (one.Name, one.Doses.Min(), one.Doses.Max())),
        ];

    /// <summary>Doses even on a logarithmic scale.</summary>
    public static IEnumerable<double> Ladder(double low, double high, int steps) =>
        low >= high ? [high] : Enumerable.Range(0, steps).Select(i => low * Math.Pow(high / low, i / (steps - 1.0)));

    /// <summary>The point with one dose set (0 takes the addition out). A measured pH is moved by what the chemistry expects of the
    /// change.</summary>
    public static TrialPoint WithDose(ResponseModel model, TrialPoint point, string addition, double gramsPerLitre)
    {
        var changed = point with { GramsPerLitre = point.GramsPerLitre.With(addition, gramsPerLitre) };
        if (point.Ph is not { } ph)
            return changed;
        var step = model.Ph.Of(changed with { Ph = null }).Ph - model.Ph.Of(point with { Ph = null }).Ph;
        return changed with { Ph = Math.Clamp(ph + step, 0, 14) };
    }

    /// <summary>A grid over singles and pairs inside the tested ranges, the plain liquor, and every tested composition, painted as a
    /// setting says.</summary>
    public static IReadOnlyList<TrialPoint> Grid(ResponseModel model, TrialPoint setting, int singleSteps = 9, int pairSteps = 6)
    {
        var ranges = Ranges(model);
        double?[] phs = model.Ph.IsFree
            ?
            [
                .. model
                    .Rows.Select(row => row.Point.Ph)
                    .Where(ph => ph is not null)
                    .Distinct()
                    .Order()
                    .Chunk(Math.Max(1, model.Rows.Count / 6))
                    .Select(chunk => chunk[chunk.Length / 2]),
            ]
            : [null];
        var grid = new List<TrialPoint>();
        foreach (var ph in phs)
        {
            var plain = setting with { Sample = "", Ph = ph, GramsPerLitre = [] };
            grid.Add(plain);
            for (var i = 0; i < ranges.Count; i++)
            {
                var (name, low, high) = ranges[i];
                grid.AddRange(Ladder(low, high, singleSteps).Select(dose => plain with { GramsPerLitre = [new(name, dose)] }));
                for (var j = 0; j < i; j++)
                {
                    var (other, otherLow, otherHigh) = ranges[j];
                    grid.AddRange(
                        Ladder(low, high, pairSteps)
                            .SelectMany(dose =>
                                Ladder(otherLow, otherHigh, pairSteps)
                                    .Select(second => plain with { GramsPerLitre = [new(name, dose), new(other, second)] })
                            )
                    );
                }
            }
        }

        grid.AddRange(
            model
                .Rows.Select(row => row.Point)
                .DistinctBy(point => (point.Pot, point.Sample))
                .Select(point =>
                    setting with
                    {
                        Sample = point.Sample,
                        GramsPerLitre = point.GramsPerLitre,
                        Ph = model.Ph.IsFree ? point.Ph : null,
                    }
                )
        );
        return grid;
    }
}
