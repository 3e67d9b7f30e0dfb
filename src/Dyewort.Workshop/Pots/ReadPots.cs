using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Reads a maker's own pots from a table.</summary>
public static class ReadPots
{
    /// <summary>Columns code, plant g, liquid ml, strained ml, strength (which may be missing or empty).</summary>
    public static Outcome<IReadOnlyList<PastPot>> FromCsv(string field, string text)
    {
        var table = CsvText.Read(field, text, ["code", "plant g", "liquid ml", "strained ml"], ["strength"]);
        if (!table.TryGet(out var rows))
            return Outcome.Refused<IReadOnlyList<PastPot>>(table.Problems);
        var pots = new List<PastPot>();
        var problems = new List<Problem>();
        foreach (var row in rows)
        {
            if (
                row.Number("plant g", problems) is { } plant
                && row.Number("liquid ml", problems) is { } liquid
                && row.Number("strained ml", problems) is { } strained
            )
                pots.Add(new(row["code"] ?? "", plant, liquid, strained, row.OptionalNumber("strength", problems)));
        }

        return problems.Count > 0 ? Outcome.Refused<IReadOnlyList<PastPot>>(problems) : Outcome.Of<IReadOnlyList<PastPot>>(pots);
    }
}
