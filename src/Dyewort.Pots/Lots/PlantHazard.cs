using Dyewort.Numerics;

namespace Dyewort.Pots;

/// <summary>A plant that can hurt.</summary>
/// <param name="Plant">Everyday name.</param>
/// <param name="Latin">Botanical name or genus.</param>
/// <param name="PartAndUse">Part used and for what.</param>
/// <param name="Toxin">What is in it.</param>
/// <param name="Hazard">What it does.</param>
/// <param name="Level">low, moderate, high or severe.</param>
/// <param name="Source">Where this comes from.</param>
public sealed record PlantHazard(string Plant, string Latin, string PartAndUse, string Toxin, string Hazard, string Level, string Source)
{
    /// <summary>What it does and what holds it, in sentences: the words that every page uses.</summary>
    public string Words =>
        $"{char.ToUpperInvariant(Hazard[0])}{Hazard[1..]}{(Toxin.Length > 0 ? $" ({Toxin})" : "")}. "
        + "Ask local rules and a poison centre's advice before handling.";

    /// <summary>All plants of the table.</summary>
    public static IReadOnlyList<PlantHazard> All { get; } = [.. Rows().Select(row => row.Hazard)];

    /// <summary>What is known against a plant, by its everyday or botanical name. An empty answer does not mean that it is safe.</summary>
    public static IReadOnlyList<PlantHazard> For(string? plant)
    {
        var wanted = PlantGuide.Plain(plant);
        return wanted.Length == 0
            ? []
            : [.. Rows().Where(row => row.Keys.Any(key => PlantGuide.Mentions(wanted, key))).Select(row => row.Hazard)];
    }

    private static IEnumerable<(string[] Keys, PlantHazard Hazard)> Rows() =>
        TextTable
            .Embedded(typeof(PlantHazard), "plant_hazards.csv")
            .Rows.Select(row =>
                (
                    row["keys"].Split(';'),
                    new PlantHazard(
                        row["plant"],
                        row["latin"],
                        row["part_and_use"],
                        row["toxin"],
                        row["hazard"],
                        row["level"],
                        row["source"]
                    )
                )
            );
}
