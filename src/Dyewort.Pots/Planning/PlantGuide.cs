using Dyewort.Numerics;

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
            .. TextTable
                .Embedded(typeof(PlantGuide), "heat.csv")
                .Rows.Select(row =>
                    (
                        row["names"].Split(';', StringSplitOptions.RemoveEmptyEntries),
                        Enum.Parse<ColourantClass>(row["class"]),
                        new HeatGuide(
                            row.NumberOf("c_low"),
                            row.NumberOf("c_typical"),
                            row.NumberOf("c_high"),
                            row.NumberOf("min_low"),
                            row.NumberOf("min_typical"),
                            row.NumberOf("min_high"),
                            row["names"].Length > 0,
                            row["note"],
                            row["source"],
                            row["confidence"]
                        )
                    )
                ),
        ]
    );

    /// <summary>All plants of the table of ratios.</summary>
    public static IReadOnlyList<PlantRatio> All { get; } =
    [
        .. TextTable
            .Embedded(typeof(PlantGuide), "plants.csv")
            .Rows.Select(row => new PlantRatio(
                row["names"].Split(';'),
                Enum.Parse<ColourantClass>(row["class"]),
                Enum.Parse<Tissue>(row["tissue"]),
                Enum.Parse<PlantForm>(row["form"]),
                Enum.Parse<PotBase>(row["base"]),
                row.Number("g_low"),
                row.Number("g_typical"),
                row.Number("g_high"),
                row["note"],
                row["source"],
                row["confidence"]
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
