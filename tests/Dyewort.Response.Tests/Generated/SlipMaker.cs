namespace Dyewort.Response.Tests.Generated;

/// <summary>Trials of a generated plant with one slip of the hand in them.</summary>
internal static class SlipMaker
{
    public static readonly SlipKind[] Kinds =
    [
        SlipKind.OtherPowder,
        SlipKind.TenTimes,
        SlipKind.OtherSpoon,
        SlipKind.Twice,
        SlipKind.Forgotten,
        SlipKind.Swapped,
    ];

    /// <param name="Rows">What was written and read.</param>
    /// <param name="Jar">The sample that is wrong.</param>
    /// <param name="Kind">What went wrong.</param>
    /// <param name="Truth">What is really in it; of a swap what is under its square.</param>
    /// <param name="ShowsDe00">How far the slip moved the colour.</param>
    public sealed record Seeded(TrialRow[] Rows, string Jar, SlipKind Kind, TrialPoint Truth, double ShowsDe00);

    public static Seeded Make(PlantMaker plant, SlipKind kind, int samples, int seed, bool measuredPh)
    {
        var random = new Random(seed);
        TrialPoint Ph(TrialPoint point) => point with { Ph = measuredPh ? Math.Round(plant.PhOf(point.GramsPerLitre), 1) : null };
        var points = Enumerable.Range(0, samples).Select(i => Ph(plant.Draw($"S{i}", plain: i == 0))).ToArray();
        var rows = points.Select(point => plant.Read(point, 1)).ToArray();
        var jar = 1 + random.Next(samples - 1);
        var typed = points[jar];
        var (name, dose) = typed.GramsPerLitre.ElementAt(random.Next(typed.GramsPerLitre.Count));
        var doses = typed.GramsPerLitre;
        if (kind == SlipKind.Swapped)
        {
            var other = jar == samples - 1 ? 1 : jar + 1;
            (rows[jar], rows[other]) = (rows[jar] with { Colour = rows[other].Colour }, rows[other] with { Colour = rows[jar].Colour });
            return new(
                rows,
                typed.Sample,
                kind,
                points[other],
                Colour.Difference.Ciede2000(plant.ColourOf(typed), plant.ColourOf(points[other]))
            );
        }

        switch (kind)
        {
            case SlipKind.OtherPowder:
                var others = plant.Used.Where(one => !doses.Contains(one)).ToArray();
                doses = doses.With(name, 0);
                doses = doses.With(others.Length == 0 ? name : others[random.Next(others.Length)], dose);
                break;
            case SlipKind.TenTimes:
                doses = doses.With(name, random.Next(2) == 0 ? dose * 10 : dose / 10);
                break;
            case SlipKind.OtherSpoon:
                doses = doses.With(name, new[] { dose * 3, dose / 3, dose / 2 }[random.Next(3)]);
                break;
            case SlipKind.Twice:
                doses = doses.With(name, dose * 2);
                break;
            default:
                doses = doses.With(name, 0);
                break;
        }

        // The paint and the pH strip follow the jar, the notebook what was typed.
        var truth = Ph(typed with { GramsPerLitre = doses });
        rows[jar] = plant.Read(truth, 1) with { Point = typed with { Ph = truth.Ph } };
        return new(rows, typed.Sample, kind, truth, Colour.Difference.Ciede2000(plant.ColourOf(typed), plant.ColourOf(truth)));
    }
}
