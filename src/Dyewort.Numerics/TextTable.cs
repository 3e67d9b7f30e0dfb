using System.Globalization;
using System.Text;

namespace Dyewort.Numerics;

/// <summary>A table as text: a line of headings, a line for each row; lines that begin with # are remarks, empty ones are passed
/// over.</summary>
/// <remarks>Cells as in RFC 4180: one that begins with a quotation mark ends with the next single one, may hold separators and line ends,
/// and writes a quotation mark twice. Blanks around a cell do not count. Values are read with a decimal point whatever the machine's
/// language.</remarks>
public sealed class TextTable
{
    private readonly Dictionary<string, int> places = new(StringComparer.OrdinalIgnoreCase);

    private TextTable(string[] columns, List<TextRow> rows, List<string> remarks, char separator, int? openQuoteLine)
    {
        (Columns, Rows, Remarks, Separator, OpenQuoteLine) = (columns, rows, remarks, separator, openQuoteLine);
        for (var place = 0; place < columns.Length; place++)
            places.TryAdd(columns[place], place);
    }

    /// <summary>The headings in the order of the table; none where the text has no line but remarks.</summary>
    public IReadOnlyList<string> Columns { get; }

    /// <summary>The lines below the headings.</summary>
    public IReadOnlyList<TextRow> Rows { get; }

    /// <summary>The remarks without their #: in the program's own tables, where the figures come from.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>What stands between cells.</summary>
    public char Separator { get; }

    /// <summary>The line, counted from 1, with a quotation mark that is never closed: what follows it cannot be trusted. Null where all are
    /// closed.</summary>
    public int? OpenQuoteLine { get; }

    /// <summary>Reads a table.</summary>
    /// <param name="text">The text; a byte order mark at its beginning does not count.</param>
    /// <param name="separator">What stands between cells; null takes the tab, else the semicolon, else the comma: the first that the
    /// headings hold.</param>
    public static TextTable Parse(string text, char? separator = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        text = text.TrimStart('\uFEFF');
        var between = separator ?? SeparatorOf(text);
        var remarks = new List<string>();
        var lines = new List<(int Number, string[] Cells)>();
        int? open = null;
        var (at, number) = (0, 1);
        while (at < text.Length)
        {
            var begun = number;
            if (text[at] == '#')
            {
                var end = text.IndexOf('\n', at) is >= 0 and var found ? found : text.Length;
                remarks.Add(text[(at + 1)..end].Trim());
                (at, number) = (end + 1, number + 1);
                continue;
            }

            var (cells, closed) = Line(text, between, ref at, ref number);
            if (!closed)
                open ??= begun;
            if (Array.Exists(cells, cell => cell.Length > 0))
                lines.Add((begun, cells));
        }

        var rows = new List<TextRow>(Math.Max(0, lines.Count - 1));
        var table = new TextTable(lines.Count > 0 ? lines[0].Cells : [], rows, remarks, between, open);
        foreach (var (line, cells) in lines.Skip(1))
            rows.Add(new(table, line, cells));
        return table;
    }

    /// <summary>Reads a table that a library carries inside itself.</summary>
    /// <param name="room">Any type of that library.</param>
    /// <param name="name">The resource's name, such as <c>heat.csv</c>.</param>
    /// <exception cref="InvalidOperationException">It is not there, or a quotation mark is not closed.</exception>
    public static TextTable Embedded(Type room, string name)
    {
        ArgumentNullException.ThrowIfNull(room);
        using var stream =
            room.Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The table {name} is not inside {room.Assembly.GetName().Name}.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var table = Parse(reader.ReadToEnd(), ',');
        return table.OpenQuoteLine is { } line
            ? throw new InvalidOperationException($"A quotation mark in line {line} of the table {name} is not closed.")
            : table;
    }

    /// <summary>The place of a column whatever its capitals, the first of several of one name; null where there is none.</summary>
    public int? PlaceOf(string column) => places.TryGetValue(column, out var place) ? place : null;

    private static char SeparatorOf(string text)
    {
        var at = 0;
        while (at < text.Length)
        {
            var end = text.IndexOf('\n', at) is >= 0 and var found ? found : text.Length;
            var line = text.AsSpan(at, end - at);
            if (line.Trim().Length > 0 && line[0] != '#')
                return line.Contains('\t') ? '\t'
                    : line.Contains(';') ? ';'
                    : ',';
            at = end + 1;
        }

        return ',';
    }

    /// <summary>Reads to the end of a line that is not inside quotation marks, and passes over it.</summary>
    private static (string[] Cells, bool Closed) Line(string text, char separator, ref int at, ref int number)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var (quoted, blank) = (false, true);
        for (; at < text.Length; at++)
        {
            var sign = text[at];
            if (sign == '\n')
                number++;
            if (quoted)
            {
                if (sign != '"')
                    cell.Append(sign);
                else if (at + 1 < text.Length && text[at + 1] == '"')
                    cell.Append(text[++at]);
                else
                    quoted = false;
            }
            else if (sign == '\n')
            {
                at++;
                break;
            }
            else if (sign == separator)
            {
                EndCell();
            }
            else if (sign == '"' && blank)
            {
                cell.Clear();
                (quoted, blank) = (true, false);
            }
            else
            {
                cell.Append(sign);
                blank &= char.IsWhiteSpace(sign);
            }
        }

        EndCell();
        return ([.. cells], !quoted);

        void EndCell()
        {
            cells.Add(cell.ToString().Trim());
            cell.Clear();
            blank = true;
        }
    }
}

/// <summary>One line of a table.</summary>
public sealed class TextRow
{
    private readonly TextTable table;
    private readonly string[] cells;

    internal TextRow(TextTable table, int line, string[] cells) => (this.table, Line, this.cells) = (table, line, cells);

    /// <summary>Its line in the text, counted from 1; where a cell runs over several, the first.</summary>
    public int Line { get; }

    /// <summary>Its cells as they stand: there may be fewer or more than columns.</summary>
    public IReadOnlyList<string> Cells => cells;

    /// <summary>The text of a column; empty where the line is too short to have it.</summary>
    /// <exception cref="KeyNotFoundException">The table has no such column.</exception>
    public string this[string column] =>
        table.PlaceOf(column) is not { } place ? throw new KeyNotFoundException($"The table has no column “{column}”.")
        : place < cells.Length ? cells[place]
        : "";

    /// <summary>The text of a column; null where the cell is empty or the table has no such column.</summary>
    public string? Text(string column) =>
        table.PlaceOf(column) is { } place && place < cells.Length && cells[place].Length > 0 ? cells[place] : null;

    /// <summary>The number in a column; null where the cell is empty.</summary>
    /// <exception cref="FormatException">It is not a number.</exception>
    /// <exception cref="KeyNotFoundException">The table has no such column.</exception>
    public double? Number(string column) =>
        this[column] is not { Length: > 0 } text ? null
        : double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number
        : throw new FormatException($"“{text}” in line {Line}, column {column}, is not a number.");

    /// <summary>The number in a column that must have one.</summary>
    /// <exception cref="FormatException">The cell is empty or not a number.</exception>
    public double NumberOf(string column) => Number(column) ?? throw new FormatException($"Line {Line} has nothing in column {column}.");
}
