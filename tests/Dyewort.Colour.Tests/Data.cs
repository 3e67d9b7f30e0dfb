using System.Globalization;
using Dyewort.Testing;

namespace Dyewort.Colour.Tests;

/// <summary>Published tables of data/published, and a few ways to say numbers.</summary>
internal static class Data
{
    public static List<Dictionary<string, string>> Published(string name) => Read(Repository.PathOf("data", "published", name));

    public static List<Dictionary<string, string>> Read(string path)
    {
        var lines = File.ReadLines(path).Where(line => line.Length > 0 && line[0] != '#').Select(line => line.Split(',')).ToList();
        return
        [
            .. lines
                .Skip(1)
                .Select(cells =>
                    lines[0]
                        .Select((name, place) => (name, place))
                        .ToDictionary(pair => pair.name, pair => cells[pair.place], StringComparer.Ordinal)
                ),
        ];
    }

    public static double Number(this Dictionary<string, string> row, string column) =>
        double.Parse(row[column], NumberStyles.Float, CultureInfo.InvariantCulture);

    public static Lab Lab(this Dictionary<string, string> row, string suffix) =>
        new(row.Number("L" + suffix), row.Number("a" + suffix), row.Number("b" + suffix));

    public static Xyz Colour(string text) =>
        ColourText.Parse("colour", text).TryGet(out var colour) ? colour.Colour : throw new Xunit.Sdk.XunitException($"Not read: {text}");

    public static void Close(Xyz expected, Xyz actual, double tolerance)
    {
        Xunit.Assert.Equal(expected.X, actual.X, tolerance);
        Xunit.Assert.Equal(expected.Y, actual.Y, tolerance);
        Xunit.Assert.Equal(expected.Z, actual.Z, tolerance);
    }
}
