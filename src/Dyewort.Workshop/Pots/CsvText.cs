using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>A small table that a maker typed or saved from a spreadsheet: a head, then rows; # begins a remark.</summary>
internal static class CsvText
{
    private const int MostRows = 10_000;

    /// <summary>Reads the rows, columns in any order and case; commas, semicolons or tabs between.</summary>
    internal static Outcome<IReadOnlyList<Row>> Read(string field, string text, string[] needed, string[] optional)
    {
        var lines = text.TrimStart('\uFEFF')
            .Split('\n')
            .Select(line => line.TrimEnd('\r'))
            .Select((line, index) => (Text: line, Number: index + 1))
            .Where(line => line.Text.Trim().Length > 0 && line.Text[0] != '#')
            .Take(MostRows + 2)
            .ToList();
        if (lines.Count < 2)
            return Refuse("There are no rows in the table.", $"Give a head with {string.Join(", ", needed)} and rows under it.");
        if (lines.Count > MostRows + 1)
            return Refuse($"The table has more than {MostRows} rows.", "Give fewer.");
        var sign =
            lines[0].Text.Contains('\t', StringComparison.Ordinal) ? '\t'
            : lines[0].Text.Contains(';', StringComparison.Ordinal) ? ';'
            : ',';
        var head = lines[0].Text.Split(sign).Select(cell => cell.Trim().Trim('"').Trim().ToLowerInvariant()).ToList();
        if (needed.FirstOrDefault(name => !head.Contains(name)) is { } missing)
            return Refuse(
                $"The table has no column “{missing}”.",
                $"Its head must name {string.Join(", ", needed)}"
                    + (optional.Length > 0 ? $"; it may name {string.Join(", ", optional)}." : ".")
            );
        return Outcome.Of<IReadOnlyList<Row>>([
            .. lines
                .Skip(1)
                .Select(line => new Row(
                    field,
                    line.Number,
                    head,
                    [.. line.Text.Split(sign).Select(cell => cell.Trim().Trim('"').Trim())],
                    sign
                )),
        ]);

        Outcome<IReadOnlyList<Row>> Refuse(string what, string remedy) => Outcome.Refused<IReadOnlyList<Row>>(field, what, remedy);
    }

    /// <summary>One row.</summary>
    internal sealed record Row(string Field, int Line, List<string> Head, string[] Cells, char Sign)
    {
        /// <summary>The cell of a column; null where it is empty or not there.</summary>
        internal string? this[string column]
        {
            get
            {
                var place = Head.IndexOf(column);
                return place >= 0 && place < Cells.Length && Cells[place].Length > 0 ? Cells[place] : null;
            }
        }

        internal double? Number(string column, List<Problem> problems)
        {
            if (this[column] is null)
            {
                problems.Add(new(Field, $"Line {Line} has no {column}.", "Fill it in, or leave the row out."));
                return null;
            }

            return OptionalNumber(column, problems);
        }

        internal double? OptionalNumber(string column, List<Problem> problems)
        {
            if (this[column] is not { } cell)
                return null;
            var plain = Sign == ',' ? cell : cell.Replace(',', '.');
            if (double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number))
                return number;
            problems.Add(
                new(
                    Field,
                    $"“{(cell.Length > 30 ? cell[..30] + "…" : cell)}” in line {Line}, column {column}, is not a number.",
                    "Write it with digits, such as 12.5."
                )
            );
            return null;
        }
    }
}
