using Dyewort.Numerics;

namespace Dyewort.Safety;

/// <summary>Two things that must not meet, or only with care: pairs.csv of this room.</summary>
/// <param name="First">The one, by its name in the table of hazards or as it was called.</param>
/// <param name="Second">The other.</param>
/// <param name="Level">How much care it asks for; <see cref="CareLevel.Stop"/> is never planned or proposed.</param>
/// <param name="What">What happens, without a full stop.</param>
/// <param name="Instead">What to do, without a full stop.</param>
/// <param name="Source">Where this comes from.</param>
/// <param name="IsSeen">Whether the source was read; else it is from memory.</param>
public sealed record PairHazard(string First, string Second, CareLevel Level, string What, string Instead, string Source, bool IsSeen)
{
    private static readonly List<TextRow> Rows = [.. TextTable.Embedded(typeof(PairHazard), "pairs.csv").Rows];

    /// <summary>All rows of the table, by kinds: "bleach", "acid".</summary>
    public static IReadOnlyList<PairHazard> All { get; } =
    [.. Rows.Select(row => Of(row["first"], row["second"], row)).OrderByDescending(pair => pair.Level)];

    /// <summary>The one wording of this pair.</summary>
    public string Words => $"{First} and {Second}: {What}. {Instead}.";

    /// <summary>What is known against two things meeting, the worst of it; null where the table has no word, which does not mean that they
    /// go together.</summary>
    /// <param name="first">What is known of the one.</param>
    /// <param name="second">What is known of the other.</param>
    public static PairHazard? Between(Hazard first, Hazard second) => Between((first.Name, first), (second.Name, second));

    /// <summary>The same by the names that somebody gave them.</summary>
    public static PairHazard? Between((string Name, Hazard Hazard) first, (string Name, Hazard Hazard) second)
    {
        ArgumentNullException.ThrowIfNull(first.Hazard);
        ArgumentNullException.ThrowIfNull(second.Hazard);
        return Rows.Where(row =>
                (first.Hazard.Is(row["first"]) && second.Hazard.Is(row["second"]))
                || (first.Hazard.Is(row["second"]) && second.Hazard.Is(row["first"]))
            )
            .Select(row => Of(first.Name, second.Name, row))
            // Of one level the row that stands first.
            .MaxBy(pair => pair.Level);
    }

    /// <summary>Every pair among several things of which the table has a word, worst first.</summary>
    public static IReadOnlyList<PairHazard> Among(IReadOnlyList<(string Name, Hazard Hazard)> things)
    {
        ArgumentNullException.ThrowIfNull(things);
        return
        [
            .. things
                .SelectMany((first, place) => things.Skip(place + 1).Select(second => Between(first, second)))
                .OfType<PairHazard>()
                .OrderByDescending(pair => pair.Level),
        ];
    }

    private static PairHazard Of(string first, string second, TextRow row) =>
        new(
            first,
            second,
            Enum.Parse<CareLevel>(row["level"], ignoreCase: true),
            row["what"],
            row["instead"],
            row["source"],
            row["sure"] == "seen"
        );
}
