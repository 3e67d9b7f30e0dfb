using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Web.Components;

/// <summary>A correction as a page says it: the field and its values in words.</summary>
public static partial class CorrectionWords
{
    // An amount's words say all of these.
    private static readonly string[] Within =
    [
        "Number",
        "Unit",
        "Counted",
        "Spoon",
        "Kitchen",
        "Least",
        "Most",
        "Ml",
        "GramsLow",
        "GramsHigh",
    ];
    private static readonly string[] Amounts = ["Amount", "Measured", "Planned"];

    private static readonly Dictionary<string, string> Fields = new(StringComparer.Ordinal)
    {
        [nameof(Entry.WithdrawnAt)] = "taken back",
        [nameof(Entry.WithdrawnWhy)] = "why",
        [nameof(Addition.At)] = "when",
        ["Ph"] = "pH",
        ["PhBy"] = "what it was read with",
        [nameof(Addition.Seen)] = "what was seen",
        [nameof(Sample.Said)] = "what it is called",
        [nameof(Sample.VolumeMl)] = "millilitres",
        [nameof(Sample.PouredAt)] = "poured",
        [nameof(Trial.SetOutOn)] = "set out on",
        [nameof(Swatch.AfterStep)] = "painted after step",
        [nameof(Swatch.SampleId)] = "jar",
        ["Ml"] = "millilitres",
        ["Celsius"] = "°C",
    };

    /// <summary>False for what an amount's own words say already.</summary>
    public static bool IsShown(Correction one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return !Amounts.Any(amount =>
            one.Field.StartsWith(amount, StringComparison.Ordinal) && Within.Contains(one.Field[amount.Length..], StringComparer.Ordinal)
        );
    }

    /// <summary>The field, such as "plant, grams" or "amount".</summary>
    public static string Field(Correction one)
    {
        ArgumentNullException.ThrowIfNull(one);
        if (Fields.TryGetValue(one.Field, out var known))
            return known;
        var words = Capital().Replace(one.Field, match => " " + match.Value.ToLowerInvariant()).Trim();
        return words.EndsWith(" text", StringComparison.Ordinal) ? words[..^5]
            : words.EndsWith(" ml", StringComparison.Ordinal) ? words[..^3] + ", ml"
            : words;
    }

    /// <summary>A value, such as "¼ tsp", "6 Sep 2025" or "nothing".</summary>
    public static string Value(Correction one, string json)
    {
        ArgumentNullException.ThrowIfNull(one);
        var value = JsonSerializer.Deserialize<JsonElement>(json);
        return value.ValueKind switch
        {
            JsonValueKind.Null => "nothing",
            JsonValueKind.True => "yes",
            JsonValueKind.False => "no",
            JsonValueKind.Number when one is { EntryKind: nameof(Trial), Field: nameof(Trial.Kind) } => Words.Kind(
                (TrialKind)value.GetInt32()
            ),
            JsonValueKind.Number => Figures.Say(value.GetDouble(), 5),
            JsonValueKind.String => Text(value.GetString()!),
            _ => json,
        };
    }

    /// <summary>The fields that were changed together last, in words.</summary>
    public static string Last(IReadOnlyList<Correction> corrections)
    {
        ArgumentNullException.ThrowIfNull(corrections);
        var at = corrections.Max(one => one.CorrectedAt);
        var last = corrections.Where(one => one.CorrectedAt == at).ToList();
        return last.Find(one => one.Field == nameof(Entry.WithdrawnAt)) is { } withdrawal
            ? withdrawal.After == "null"
                ? "put back"
                : "taken back"
            : string.Join(", ", last.Select(Field).Distinct());
    }

    private static string Text(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? Words.Day(day)
        : Instant().IsMatch(text) && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, out var instant) ? Words.When(instant)
        : text;

    [GeneratedRegex("[A-Z]")]
    private static partial Regex Capital();

    [GeneratedRegex(@"^\d{4}-\d\d-\d\dT\d\d:\d\d")]
    private static partial Regex Instant();
}
