using System.Globalization;

namespace Dyewort.Colour;

/// <summary>Reads the tables embedded in this library: comma separated, # lines give the source, the first other line names the columns.</summary>
internal static class Table
{
    public static List<string[]> Rows(string name)
    {
        using var stream =
            typeof(Table).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The table {name} is not embedded.");
        using var reader = new StreamReader(stream);
        var rows = new List<string[]>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#')
                rows.Add(line.Split(','));
        }

        return rows;
    }

    public static double Number(string text) => double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
