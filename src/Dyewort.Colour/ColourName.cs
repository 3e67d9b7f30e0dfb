using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>An ISCC–NBS colour name: what the Universal Color Language calls a block of Munsell colours.</summary>
/// <remarks>Source: Kelly and Judd 1976, NBS Special Publication 440 [Kelly1976]; central colours Kelly 1958 [Kelly1958].
/// Spelling as printed there (gray, grayish); reading accepts grey, greyish too.</remarks>
public sealed record ColourName
{
    private static readonly string[] Neutrals = ["white", "gray", "black"];

    private static readonly HashSet<string> Modifiers = new(StringComparer.Ordinal)
    {
        "vivid",
        "brilliant",
        "strong",
        "deep",
        "very",
        "light",
        "moderate",
        "medium",
        "dark",
        "pale",
        "grayish",
        "blackish",
    };

    private static readonly ColourName[] Names = LoadNames();
    private static readonly Block[] Blocks = LoadBlocks();
    private static readonly Dictionary<string, ColourName> ByName = Names.ToDictionary(name => name.Name, StringComparer.Ordinal);

    private ColourName(int number, string name, MunsellNotation centre)
    {
        Number = number;
        Name = name;
        Centre = centre;
        Family = FamilyOf(name);
    }

    /// <summary>All 267 names of level 3, in the order of their numbers.</summary>
    public static IReadOnlyList<ColourName> All => Names;

    /// <summary>Number of the name, 1 to 267.</summary>
    public int Number { get; }

    /// <summary>The level 3 name, such as “dark grayish purple”.</summary>
    public string Name { get; }

    /// <summary>The level 2 name, one of 29, such as “purple”.</summary>
    public string Family { get; }

    /// <summary>The central colour of the block.</summary>
    public MunsellNotation Centre { get; }

    /// <summary>The name of a colour.</summary>
    public static ColourName Of(Xyz colour) => Of(Munsell.FromXyz(colour));

    /// <summary>The name of a Munsell notation. Where blocks share a border, the higher hue, lighter value and stronger chroma takes
    /// it.</summary>
    public static ColourName Of(MunsellNotation notation)
    {
        var hue = notation.HueNumber;
        if (hue < 1)
            hue += 100;
        var value = Math.Clamp(notation.Value, 0, 10);
        Block? nearest = null;
        foreach (var block in Blocks)
        {
            if (hue < block.HueFrom || (hue >= block.HueTo && block.HueTo < 101))
                continue;
            if (value < block.ValueFrom || (value >= block.ValueTo && block.ValueTo < 10))
                continue;
            if (notation.Chroma < block.ChromaFrom)
                continue;
            if (nearest is null || block.ChromaFrom > nearest.ChromaFrom)
                nearest = block;
        }

        return Names[(nearest ?? throw new InvalidOperationException($"No block holds {notation}.")).Number - 1];
    }

    /// <summary>The name spelled so, level 3; null if there is none. Case, spaces and hyphens, and gray or grey do not matter.</summary>
    public static ColourName? Find(string? text) => ByName.GetValueOrDefault(Normal(text));

    internal static string Normal(string? text) =>
        string.Join(
            ' ',
            (text ?? "")
                .ToLowerInvariant()
                .Replace("grey", "gray", StringComparison.Ordinal)
                .Replace('-', ' ')
                .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
        );

    private static string FamilyOf(string name)
    {
        var words = name.Split(' ');
        if (Neutrals.Contains(words[^1]))
            return words[^1];
        var kept = words.Where(word => !Modifiers.Contains(word)).ToList();
        // Two blocks, brownish pink and brownish orange, belong to pink and orange at level 2.
        if (kept is ["brownish", var hue])
            return hue;
        return string.Join(' ', kept);
    }

    private static ColourName[] LoadNames() =>
        [
            .. TextTable
                .Embedded(typeof(ColourName), "iscc-nbs-centroids.csv")
                .Rows.Select(row =>
                    MunsellNotation.Parse("munsell", row["munsell"]).TryGet(out var centre)
                        ? new ColourName((int)row.NumberOf("number"), row["name"], centre)
                        : throw new InvalidOperationException($"Not a notation: {row["munsell"]}.")
                ),
        ];

    private static Block[] LoadBlocks() =>
        [
            .. TextTable
                .Embedded(typeof(ColourName), "iscc-nbs-blocks.csv")
                .Rows.Select(row => new Block(
                    row.NumberOf("h_min"),
                    row.NumberOf("h_max"),
                    row.NumberOf("v_min"),
                    row.NumberOf("v_max"),
                    row.NumberOf("c_min"),
                    (int)row.NumberOf("number")
                )),
        ];

    private sealed record Block(double HueFrom, double HueTo, double ValueFrom, double ValueTo, double ChromaFrom, int Number);
}
