using System.Globalization;
using System.Text.RegularExpressions;
using Dyewort.Testing;

namespace Dyewort.Chemistry.Tests;

/// <summary>Reads data/published: lines with # are the source, the next names the columns.</summary>
internal static partial class PublishedTable
{
    public static List<Dictionary<string, string>> Read(string name)
    {
        var lines = File.ReadLines(Repository.PathOf("data", "published", name))
            .Where(line => !line.StartsWith('#') && line.Length > 0)
            .Select(Split)
            .ToList();
        return [.. lines.Skip(1).Select(cells => lines[0].Zip(cells).ToDictionary(pair => pair.First, pair => pair.Second))];
    }

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string[] Split(string line) =>
        [
            .. Cell()
                .Matches(line)
                .Select(match => match.Groups["q"].Success ? match.Groups["q"].Value.Replace("\"\"", "\"") : match.Groups["p"].Value),
        ];

    [GeneratedRegex("(?:^|,)(?:\"(?<q>(?:[^\"]|\"\")*)\"|(?<p>[^,]*))")]
    private static partial Regex Cell();
}
