using System.Globalization;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>A small table that a maker typed or saved from a spreadsheet: a head, then rows; # begins a remark.</summary>
internal static class CsvText
{
    private const int MostRows = 10_000;

    /// <summary>Reads the rows, columns in any order and case; commas, semicolons or tabs between.</summary>
    internal static Outcome<IReadOnlyList<Row>> Read(string field, string text, string[] needed, string[] optional)
    {
        var table = TextTable.Parse(text);
        if (table.Rows.Count == 0)
            return Refuse("There are no rows in the table.", $"Give a head with {string.Join(", ", needed)} and rows under it.");
        if (table.Rows.Count > MostRows)
            return Refuse($"The table has more than {MostRows} rows.", "Give fewer.");
        if (table.OpenQuoteLine is { } open)
            return Refuse($"A quotation mark in line {open} is not closed.", "Close it, or take it out.");
        if (needed.FirstOrDefault(name => table.PlaceOf(name) is null) is { } missing)
            return Refuse(
                $"The table has no column “{missing}”.",
                $"Its head must name {string.Join(", ", needed)}"
                    + (optional.Length > 0 ? $"; it may name {string.Join(", ", optional)}." : ".")
            );
        return Outcome.Of<IReadOnlyList<Row>>([.. table.Rows.Select(row => new Row(field, row, table.Separator))]);

        Outcome<IReadOnlyList<Row>> Refuse(string what, string remedy) => Outcome.Refused<IReadOnlyList<Row>>(field, what, remedy);
    }

    /// <summary>One row.</summary>
    internal sealed record Row(string Field, TextRow Cells, char Separator)
    {
        internal int Line => Cells.Line;

        /// <summary>The cell of a column; null where it is empty or not there.</summary>
        internal string? this[string column] => Cells.Text(column);

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
            var plain = Separator == ',' ? cell : cell.Replace(',', '.');
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
