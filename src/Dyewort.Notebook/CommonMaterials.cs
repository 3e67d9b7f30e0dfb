using System.Globalization;

namespace Dyewort.Notebook;

/// <summary>A material offered when a pantry is stocked.</summary>
/// <param name="Name">Everyday name.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Substance">Its name in the chemistry tables, or null.</param>
/// <param name="StrengthPercent">Strength by weight in per cent, or null.</param>
/// <param name="GramsPerTeaspoon">Grams in a level 5 ml teaspoon, or null.</param>
/// <param name="GramsSource">Where that figure comes from, or null.</param>
/// <param name="Caution">What to be careful of, or null.</param>
public sealed record CommonMaterial(
    string Name,
    MaterialKind Kind,
    string? Substance,
    double? StrengthPercent,
    double? GramsPerTeaspoon,
    string? GramsSource,
    string? Caution
)
{
    /// <summary>All of them, in the order they are offered. Source: the lines on top of common-materials.csv.</summary>
    public static IReadOnlyList<CommonMaterial> All { get; } = Read();

    private static List<CommonMaterial> Read()
    {
        using var stream =
            typeof(CommonMaterial).Assembly.GetManifestResourceStream("common-materials.csv")
            ?? throw new InvalidOperationException("The table of common materials is not in the program.");
        using var reader = new StreamReader(stream);
        var lines = new List<CommonMaterial>();
        var head = true;
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#')
                continue;
            if (head)
            {
                head = false;
                continue;
            }

            // Only the last column may hold a comma.
            var cells = line.Split(',', 7);
            lines.Add(
                new(
                    cells[0],
                    Enum.Parse<MaterialKind>(cells[1]),
                    Text(cells[2]),
                    Number(cells[3]),
                    Number(cells[4]),
                    Text(cells[5]),
                    Text(cells[6])
                )
            );
        }

        return lines;
    }

    private static string? Text(string cell) => cell.Length == 0 ? null : cell;

    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, CultureInfo.InvariantCulture);
}
