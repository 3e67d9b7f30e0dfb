using System.Globalization;
using System.Reflection;
using System.Text;

namespace Dyewort.Chemistry;

/// <summary>A table that the program carries inside itself: lines that start with # give its source, the next line names the columns.</summary>
internal sealed class CsvTable
{
    private readonly Dictionary<string, int> columns;
    private readonly List<string[]> rows;

    private CsvTable(List<string> sourceLines, List<string[]> lines)
    {
        SourceLines = sourceLines;
        columns = lines[0].Select((name, index) => (name, index)).ToDictionary(pair => pair.name, pair => pair.index);
        rows = lines[1..];
    }

    /// <summary>Where the table's figures come from, as its first lines say.</summary>
    public IReadOnlyList<string> SourceLines { get; }

    public IEnumerable<Row> Rows => rows.Select(cells => new Row(this, cells));

    public static CsvTable Read(string name)
    {
        using var stream =
            typeof(CsvTable).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The table {name} is not inside {Assembly.GetExecutingAssembly().GetName().Name}.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var source = new List<string>();
        var lines = new List<string[]>();
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#'))
                source.Add(line[1..].Trim());
            else if (line.Length > 0)
                lines.Add(Split(line));
        }

        return new(source, lines);
    }

    private static string[] Split(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            var c = line[i];
            if (c == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString());
        return [.. cells];
    }

    internal readonly record struct Row(CsvTable Table, string[] Cells)
    {
        public string this[string column] => Cells[Table.columns[column]];

        public double? Number(string column) =>
            this[column] is { Length: > 0 } text ? double.Parse(text, CultureInfo.InvariantCulture) : null;
    }
}
