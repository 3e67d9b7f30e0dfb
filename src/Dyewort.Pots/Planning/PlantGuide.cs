namespace Dyewort.Pots;

/// <summary>A plant as the table of ratios knows it.</summary>
/// <param name="Names">The name shown first, then others it is found by.</param>
/// <param name="Colourants">Its class of colourant.</param>
/// <param name="Tissue">How fast it lets go.</param>
/// <param name="Form">The state the ratio is meant for.</param>
/// <param name="Base">The usual liquid.</param>
/// <param name="Low">Least grams per 100 ml of liquid poured in; null where the source gives no number.</param>
/// <param name="Typical">Usual grams per 100 ml.</param>
/// <param name="High">Most grams per 100 ml.</param>
/// <param name="Note">How it is done, in a sentence.</param>
/// <param name="Source">Where this comes from.</param>
/// <param name="Confidence">high, medium or low.</param>
public sealed record PlantRatio(
    IReadOnlyList<string> Names,
    ColourantClass Colourants,
    Tissue Tissue,
    PlantForm Form,
    PotBase Base,
    double? Low,
    double? Typical,
    double? High,
    string Note,
    string Source,
    string Confidence
)
{
    /// <summary>The name to show.</summary>
    public string Name => Names[0];
}

/// <summary>Heat and time for a plant or a class.</summary>
/// <param name="CelsiusLow">Coolest that works, °C.</param>
/// <param name="CelsiusTypical">Usual, °C.</param>
/// <param name="CelsiusCeiling">Hotter than this spoils it, °C.</param>
/// <param name="MinutesLow">Shortest, minutes.</param>
/// <param name="MinutesTypical">Usual, minutes.</param>
/// <param name="MinutesHigh">Longest, minutes.</param>
/// <param name="ForPlant">Whether it is for this very plant, not only for its class.</param>
/// <param name="Note">What to mind.</param>
/// <param name="Source">Where this comes from.</param>
/// <param name="Confidence">high, medium or low.</param>
public sealed record HeatGuide(
    double CelsiusLow,
    double CelsiusTypical,
    double CelsiusCeiling,
    double MinutesLow,
    double MinutesTypical,
    double MinutesHigh,
    bool ForPlant,
    string Note,
    string Source,
    string Confidence
);

/// <summary>What is commonly done with a plant: ratio, heat, time, hazards.</summary>
public static class PlantGuide
{
    private static readonly Lazy<List<(string[] Names, ColourantClass Class, HeatGuide Guide)>> Heat = new(() =>
        [
            .. Table
                .Rows("heat.csv")
                .Select(cells =>
                {
                    double Number(int cell) => Table.Number(cells[cell])!.Value;
                    return (
                        cells[0].Split(';', StringSplitOptions.RemoveEmptyEntries),
                        Enum.Parse<ColourantClass>(cells[1]),
                        new HeatGuide(
                            Number(2),
                            Number(3),
                            Number(4),
                            Number(5),
                            Number(6),
                            Number(7),
                            cells[0].Length > 0,
                            cells[8],
                            cells[9],
                            cells[10]
                        )
                    );
                }),
        ]
    );

    /// <summary>All plants of the table of ratios.</summary>
    public static IReadOnlyList<PlantRatio> All { get; } =
    [
        .. Table
            .Rows("plants.csv")
            .Select(cells => new PlantRatio(
                cells[0].Split(';'),
                Enum.Parse<ColourantClass>(cells[1]),
                Enum.Parse<Tissue>(cells[2]),
                Enum.Parse<PlantForm>(cells[3]),
                Enum.Parse<PotBase>(cells[4]),
                Table.Number(cells[5]),
                Table.Number(cells[6]),
                Table.Number(cells[7]),
                cells[8],
                cells[9],
                cells[10]
            )),
    ];

    /// <summary>The plant's ratio, by any of its names, singular or plural; null if the table does not have it.</summary>
    public static PlantRatio? Find(string? plant) =>
        Plain(plant) is { Length: > 0 } wanted
            ? All.FirstOrDefault(row => row.Names.Contains(wanted))
                ?? All.FirstOrDefault(row => row.Names.Any(name => Mentions(wanted, name)))
            : null;

    /// <summary>Heat and time for a plant, else for its class.</summary>
    public static HeatGuide HeatFor(string? plant, ColourantClass colourants)
    {
        var wanted = Plain(plant);
        return Heat.Value.Where(row => wanted.Length > 0 && row.Names.Any(name => name == wanted)).Select(row => row.Guide).FirstOrDefault()
            ?? Heat.Value.Where(row => wanted.Length > 0 && row.Names.Any(name => Mentions(wanted, name)))
                .Select(row => row.Guide)
                .FirstOrDefault()
            ?? Heat.Value.First(row => row.Names.Length == 0 && row.Class == colourants).Guide;
    }

    /// <summary>A name as the tables spell it: small letters, single spaces, no plural.</summary>
    internal static string Plain(string? name)
    {
        var words = (name ?? "").ToLowerInvariant().Replace(',', ' ').Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
            return "";
        var last = words[^1];
        if (last.EndsWith("ies", StringComparison.Ordinal))
            words[^1] = last[..^3] + "y";
        else if (last.EndsWith('s') && !last.EndsWith("ss", StringComparison.Ordinal) && !last.EndsWith("us", StringComparison.Ordinal))
            words[^1] = last[..^1];
        return string.Join(' ', words);
    }

    /// <summary>Whether the words of a name stand in a longer one.</summary>
    internal static bool Mentions(string longer, string name) => $" {longer} ".Contains($" {name} ", StringComparison.Ordinal);
}
