namespace Dyewort.Notebook;

/// <summary>A material offered when a pantry is stocked.</summary>
/// <param name="Name">Everyday name.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Key">The key of its substance in the chemistry tables, or null.</param>
public sealed record CommonMaterial(string Name, MaterialKind Kind, string? Key)
{
    /// <summary>All of them, in the order they are offered.</summary>
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

            var cells = line.Split(',');
            lines.Add(new(cells[0], Enum.Parse<MaterialKind>(cells[1]), cells[2].Length == 0 ? null : cells[2]));
        }

        return lines;
    }
}
