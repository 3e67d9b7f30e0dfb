using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Dyewort.Quantities;
using Dyewort.Workshop;

namespace Dyewort.Cli.Commands;

/// <summary>How the pot's commands answer.</summary>
internal static class PotAnswer
{
    private static readonly JsonSerializerOptions Machine = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    internal static T OrRefuse<T>(this Outcome<T> outcome)
        where T : notnull => outcome.TryGet(out var value) ? value : throw new RefusalException(outcome.Problems);

    internal static void Json(object answer) => Console.Out.WriteLine(JsonSerializer.Serialize(answer, Machine));

    /// <summary>One line of the answer, of as many parts as its source takes lines.</summary>
    internal static void Line(params FormattableString[] parts) =>
        Console.Out.WriteLine(string.Concat(parts.Select(part => part.ToString(CultureInfo.InvariantCulture))));

    /// <summary>Cautions and remarks are talk, not the answer.</summary>
    internal static void Say(IEnumerable<string> remarks)
    {
        foreach (var remark in remarks)
            Console.Error.WriteLine(remark);
    }

    internal static string Minutes(double minutes) =>
        minutes switch
        {
            < 90 => string.Create(CultureInfo.InvariantCulture, $"{minutes:0} min"),
            < 48 * 60 => string.Create(CultureInfo.InvariantCulture, $"{minutes / 60:0.#} h"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{minutes / 1440:0.#} days"),
        };

    internal static string ReadFile(string field, string path) =>
        File.Exists(path)
            ? File.ReadAllText(path)
            : throw new RefusalException(field, $"There is no file “{path}”.", "Check the name and the folder.");
}
