using CsCheck;
using Xunit;

namespace Dyewort.Numerics.Tests;

/// <summary>The one table reader.</summary>
public sealed class TextTableTests
{
    [Fact]
    public void Headings_rows_and_remarks_are_told_apart()
    {
        var table = TextTable.Parse("\uFEFF# Source: a book\r\nName, Grams\r\n\r\nalum,2.5\r\n#later\r\nsoda\r\n , \r\n");
        Assert.Equal(["Source: a book", "later"], table.Remarks);
        Assert.Equal(["Name", "Grams"], table.Columns);
        Assert.Equal([4, 6], table.Rows.Select(row => row.Line));
        Assert.Equal("alum", table.Rows[0]["name"]);
        Assert.Equal(2.5, table.Rows[0].Number("grams"));
        Assert.Equal(("", null, null), (table.Rows[1]["Grams"], table.Rows[1].Text("Grams"), table.Rows[1].Number("Grams")));
        Assert.Null(table.Rows[0].Text("price"));
        Assert.Null(table.OpenQuoteLine);
    }

    [Fact]
    public void Quotation_marks_hold_separators_line_ends_and_themselves()
    {
        var table = TextTable.Parse("a,b,c\n\"1,2\", \"say \"\"so\"\"\" ,\"two\nlines\"\n4,5,6\n7 \" jar,8,9");
        Assert.Equal(["1,2", "say \"so\"", "two\nlines"], table.Rows[0].Cells);
        Assert.Equal([2, 4, 5], table.Rows.Select(row => row.Line));
        Assert.Equal("7 \" jar", table.Rows[2]["a"]);
    }

    [Theory]
    [InlineData("a,b\n1,2", ',')]
    [InlineData("#x;y\na;b,c\n1;2", ';')]
    [InlineData("a;x\tb\n1\t2", '\t')]
    [InlineData("", ',')]
    public void The_headings_say_what_separates(string text, char separator) => Assert.Equal(separator, TextTable.Parse(text).Separator);

    [Fact]
    public void An_open_quotation_mark_is_told_with_its_line() => Assert.Equal(3, TextTable.Parse("a,b\n1,2\n\"3,4\n5,6").OpenQuoteLine);

    [Fact]
    public void What_is_not_there_is_said()
    {
        var table = TextTable.Parse("a,b\n1,x\n,2");
        Assert.Throws<KeyNotFoundException>(() => table.Rows[0]["c"]);
        var wrong = Assert.Throws<FormatException>(() => table.Rows[0].Number("b"));
        Assert.Equal("“x” in line 2, column b, is not a number.", wrong.Message);
        Assert.Throws<FormatException>(() => table.Rows[1].NumberOf("a"));
        Assert.Equal(2, table.Rows[1].NumberOf("b"));
        Assert.Throws<InvalidOperationException>(() => TextTable.Embedded(typeof(TextTable), "nothing.csv"));
    }

    [Fact]
    public void The_first_of_two_columns_of_one_name_counts()
    {
        var table = TextTable.Parse("a,A,b\n1,2,3");
        Assert.Equal((0, 2, null), (table.PlaceOf("A"), table.PlaceOf("B"), table.PlaceOf("c")));
        Assert.Equal("1", table.Rows[0]["a"]);
    }

    [Fact]
    public void What_is_written_by_the_rules_is_read_back() =>
        Gen.Char["ab ,;\t\"#\n1.é"]
            .Array[0, 6]
            .Select(letters => new string(letters).Trim())
            .Array[3]
            .Array[1, 5]
            .Sample(rows =>
            {
                var text = string.Join("\n", rows.Prepend(["x", "y", "z"]).Select(row => string.Join(",", row.Select(Quoted))));
                var table = TextTable.Parse(text, ',');
                Assert.Equal(rows.Where(row => row.Any(cell => cell.Length > 0)), table.Rows.Select(row => row.Cells));
            });

    private static string Quoted(string cell) => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
