using Dyewort.Colour;
using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Reads drops and washes from a table.</summary>
internal static class ReadDrops
{
    private const double UsualU95 = 2;

    /// <summary>The bare paper; a usual drawing paper where nothing is said.</summary>
    internal static Xyz Paper(Entered entered, string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Dyewort.Colour.Paper.DrawingPaperGuess.Colour;
        return entered.Take(ColourText.Parse("paper", text)) is { } colour ? colour.Colour : default;
    }

    /// <summary>Timed drops, as strengths or as colours; null with problems noted.</summary>
    internal static IReadOnlyList<Drop>? Timed(IReadOnlyList<CsvText.Row> rows, Xyz bare, List<Problem> problems)
    {
        var before = problems.Count;
        var strengths = rows.Where(row => row["strength"] is not null).ToList();
        if (strengths.Count > 0)
        {
            return
            [
                .. strengths.Select(row =>
                {
                    var strength = row.Number("strength", problems) ?? 0;
                    return new Drop(
                        row.Number("minute", problems) ?? 0,
                        strength,
                        row.OptionalNumber("uncertainty", problems) ?? (0.01 + (0.02 * Math.Abs(strength)))
                    );
                }),
            ];
        }

        var coloured = rows.Where(row => row["l"] is not null).ToList();
        if (coloured.Count == 0)
        {
            problems.Add(new("drops", "No drop has a strength or a colour.", "Give a column strength, or the columns L, a and b."));
            return null;
        }

        List<(double, UncertainColour)> drops = [.. coloured.Select(row => (row.Number("minute", problems) ?? 0, Colour(row, problems)))];
        if (problems.Count > before)
            return null;
        var timed = LiquorStrength.Timed(drops, bare);
        if (timed.TryGet(out var read))
            return read;
        problems.AddRange(timed.Problems);
        return null;
    }

    /// <summary>Painted drops or washes.</summary>
    internal static List<(string? Liquor, Painted Painted)> Painted(IReadOnlyList<CsvText.Row> rows, List<Problem> problems) =>
        [
            .. rows.Select(row =>
                (
                    row["liquor"],
                    new Painted(
                        row["name"] ?? FormattableString.Invariant($"line {row.Line}"),
                        Colour(row, problems),
                        Share(row["wash"], problems)
                    )
                )
            ),
        ];

    private static UncertainColour Colour(CsvText.Row row, List<Problem> problems)
    {
        var lab = new Lab(row.Number("l", problems) ?? 50, row.Number("a", problems) ?? 0, row.Number("b", problems) ?? 0);
        var radius = row.OptionalNumber("u95", problems) ?? UsualU95;
        if (lab.L is not (>= 0 and <= 110) || Math.Abs(lab.A) > 150 || Math.Abs(lab.B) > 150)
            problems.Add(
                new(
                    "drops",
                    FormattableString.Invariant($"L* {lab.L:0.#}, a* {lab.A:0.#}, b* {lab.B:0.#} in line {row.Line} is no paint's colour."),
                    "Give CIELAB under D65."
                )
            );
        if (radius is not (> 0 and <= 50))
            problems.Add(
                new(
                    "drops",
                    FormattableString.Invariant($"An uncertainty of {radius:0.##} ΔE00 in line {row.Line} is outside 0 to 50."),
                    "Leave it out, or give the ΔE00 that 95 of 100 readings lie within."
                )
            );
        return problems.Count > 0 ? default : UncertainColour.FromRadius(lab.ToXyz(), radius);
    }

    private static double Share(string? text, List<Problem> problems)
    {
        if (text is null)
            return 1;
        var parsed = Dilution.Parse("wash", text);
        if (parsed.TryGet(out var dilution))
            return dilution.Share;
        problems.AddRange(parsed.Problems);
        return 1;
    }
}
