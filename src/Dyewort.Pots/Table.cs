using System.Globalization;
using System.Text;

namespace Dyewort.Pots;

/// <summary>Reads the tables that are part of this room.</summary>
internal static class Table
{
    /// <summary>Rows of an embedded table, its head and its # lines left out.</summary>
    internal static IEnumerable<string[]> Rows(string name)
    {
        using var stream =
            typeof(Table).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The table {name} is not in the program.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var head = true;
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#')
                continue;
            if (head)
                head = false;
            else
                yield return Cells(line);
        }
    }

    /// <summary>A number, or null where the cell is empty.</summary>
    internal static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, CultureInfo.InvariantCulture);

    private static string[] Cells(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var place = 0; place < line.Length; place++)
        {
            var sign = line[place];
            if (sign == '"')
            {
                if (quoted && place + 1 < line.Length && line[place + 1] == '"')
                {
                    cell.Append('"');
                    place++;
                }
                else
                {
                    quoted = !quoted;
                }
            }
            else if (sign == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(sign);
            }
        }

        cells.Add(cell.ToString());
        return [.. cells];
    }
}
