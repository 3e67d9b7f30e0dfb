using Dyewort.Numerics;

namespace Dyewort.Safety;

/// <summary>What is known against a plant.</summary>
/// <param name="Plant">Everyday name.</param>
/// <param name="Latin">Botanical name or genus.</param>
/// <param name="Part">The part that is meant.</param>
/// <param name="Level">How much care it asks for.</param>
/// <param name="What">What it does.</param>
/// <param name="LookAlike">What it is taken for, or it for; may be empty.</param>
/// <param name="Allergen">The food or plant family that people are allergic to; may be empty.</param>
/// <param name="Source">Where this comes from.</param>
/// <param name="IsSeen">Whether the source was read; else it is from memory.</param>
public sealed record PlantHazard(
    string Plant,
    string Latin,
    string Part,
    CareLevel Level,
    string What,
    string LookAlike,
    string Allergen,
    string Source,
    bool IsSeen
)
{
    private static readonly List<(string Key, PlantHazard Row)> Keyed =
    [
        .. TextTable
            .Embedded(typeof(PlantHazard), "plants.csv")
            .Rows.SelectMany(row =>
            {
                var hazard = new PlantHazard(
                    row["plant"],
                    row["latin"],
                    row["part"],
                    Enum.Parse<CareLevel>(row["level"], ignoreCase: true),
                    row["what"],
                    row["look_alike"],
                    row["allergen"],
                    row["source"],
                    row["sure"] == "seen"
                );
                return row["keys"].Split(';').Select(key => (NameWords.Plain(key), hazard));
            }),
    ];

    /// <summary>All plants of the table.</summary>
    public static IReadOnlyList<PlantHazard> All { get; } = [.. Keyed.Select(one => one.Row).Distinct()];

    /// <summary>What it does and what it is taken for, in sentences: the words that every page uses.</summary>
    public string Words =>
        $"{char.ToUpperInvariant(What[0])}{What[1..]}.{(LookAlike.Length > 0 ? $" Easily confused with {LookAlike}." : "")} "
        + "Ask local rules and a poison centre's advice before handling.";

    /// <summary>What is known against a plant, by its everyday or botanical name, worst first. An empty answer does not mean that it is
    /// safe.</summary>
    public static IReadOnlyList<PlantHazard> For(string? plant) => [.. Listed(plant).Where(row => row.Level > CareLevel.None)];

    /// <summary>The same with plants of which a list says that they are harmless.</summary>
    public static IReadOnlyList<PlantHazard> Listed(string? plant) =>
        [.. NameWords.Meant(NameWords.Plain(plant), Keyed).OrderByDescending(row => row.Level)];
}
