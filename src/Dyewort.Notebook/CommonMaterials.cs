using Dyewort.Numerics;

namespace Dyewort.Notebook;

/// <summary>A material offered when a pantry is stocked.</summary>
/// <param name="Name">Everyday name.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Key">The key of its substance in the chemistry tables, or null.</param>
public sealed record CommonMaterial(string Name, MaterialKind Kind, string? Key)
{
    /// <summary>All of them, in the order they are offered.</summary>
    public static IReadOnlyList<CommonMaterial> All { get; } =
    [
        .. TextTable
            .Embedded(typeof(CommonMaterial), "common-materials.csv")
            .Rows.Select(row => new CommonMaterial(row["name"], Enum.Parse<MaterialKind>(row["kind"]), row.Text("key"))),
    ];
}
