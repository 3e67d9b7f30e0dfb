using Dyewort.Numerics;

namespace Dyewort.Safety;

/// <summary>What is known to hurt, by substance and strength: hazards.csv, hazard_bands.csv and statements.csv of this room.</summary>
public static class HazardList
{
    private static readonly Dictionary<string, TextRow> Statements = Table("statements.csv").ToDictionary(row => row["code"]);

    private static readonly ILookup<string, (double From, string[] Codes, string Source)> Bands = Table("hazard_bands.csv")
        .ToLookup(
            row => row["key"],
            row =>
                (
                    row.NumberOf("from_percent"),
                    row["statements"].Split(' ', StringSplitOptions.RemoveEmptyEntries),
                    $"{row["source"]} ({row["sure"]})"
                )
        );

    private static readonly Dictionary<string, TextRow> Rows = Table("hazards.csv").ToDictionary(row => row["key"]);

    private static readonly List<(string Key, string Row)> Names =
    [
        .. Rows.Values.SelectMany(row =>
            row["names"]
                .Split('|', StringSplitOptions.RemoveEmptyEntries)
                .Append(row["name"])
                .Select(name => (NameWords.Plain(name), row["key"]))
                .Distinct()
        ),
    ];

    /// <summary>The keys of everything that is listed.</summary>
    public static IReadOnlyCollection<string> Keys => Rows.Keys;

    /// <summary>Whether the percentages of a key count volume, as on a bottle of spirit, and not weight.</summary>
    /// <exception cref="KeyNotFoundException">The key is not listed.</exception>
    public static bool IsByVolume(string key) => Rows[key]["basis"] == "v/v";

    /// <summary>What is known of a thing at a strength.</summary>
    /// <param name="key">A key of the table.</param>
    /// <param name="percent">0 to 100, by weight or by volume as <see cref="IsByVolume"/> says; 100 is the pure thing.</param>
    /// <exception cref="KeyNotFoundException">The key is not listed.</exception>
    public static Hazard At(string key, double percent = 100)
    {
        var row = Rows[key];
        var (_, codes, source) = Bands[key].Where(band => band.From <= percent).OrderByDescending(band => band.From).FirstOrDefault();
        codes ??= [];
        source ??= "";
        var words = codes.Select(code => Statements[code]).ToList();
        return new(
            key,
            percent,
            row["name"],
            words.Exists(one => one["signal_word"] == "Danger") ? "Danger"
                : words.Exists(one => one["signal_word"] == "Warning") ? "Warning"
                : "none",
            string.Join(' ', words.Select(one => one["pictogram"]).Where(one => one.Length > 0).Distinct().Order()),
            string.Join(' ', codes),
            // A supplemental statement is printed without its code.
            string.Join(' ', words.Select(one => one["code"].StartsWith('H') ? $"{one["code"]} {one["words"]}." : $"{one["words"]}.")),
            row["caution"],
            row["disposal"],
            row["never"],
            source,
            row["kinds"].Replace('|', ' ')
        );
    }

    /// <summary>What is known of a thing by a name that the cupboard does not have, undiluted; null where the name is not in the list,
    /// which does not mean that it is safe.</summary>
    public static Hazard? Find(string? name)
    {
        var plain = NameWords.Plain(name);
        // Of several that are named, the one that asks for most care.
        return NameWords.Meant(plain, Names).Select(key => At(key)).OrderByDescending(one => one.Level).FirstOrDefault();
    }

    /// <summary>The statement's words, how a mixture comes by it, and those that say more.</summary>
    internal static StatementRule Rule(string code)
    {
        var row = Statements[code];
        return new(
            code,
            row["words"],
            row["signal_word"],
            row["rule"] == "sum",
            row["worse"].Split(' ', StringSplitOptions.RemoveEmptyEntries)
        );
    }

    /// <summary>The codes of all statements.</summary>
    internal static IReadOnlyCollection<string> StatementCodes => Statements.Keys;

    /// <summary>The lowest strength from which a thing carries one of several statements, per cent; null where it never does.</summary>
    internal static double? From(string key, IReadOnlyCollection<string> codes)
    {
        var found = Bands[key].Where(band => band.Codes.Any(codes.Contains)).Select(band => band.From).ToList();
        return found.Count == 0 ? null : found.Min();
    }

    private static IReadOnlyList<TextRow> Table(string name) => TextTable.Embedded(typeof(HazardList), name).Rows;
}
