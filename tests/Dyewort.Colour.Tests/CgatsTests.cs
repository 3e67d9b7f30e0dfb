using CsCheck;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class CgatsTests
{
    private const string Card = """
        CGATS.17
        ORIGINATOR "a maker"
        DESCRIPTOR "half a card"	# comments may follow
        KEYWORD "SAMPLE_COLOUR"
        NUMBER_OF_FIELDS 5
        BEGIN_DATA_FORMAT
        SAMPLE_ID SAMPLE_COLOUR LAB_L LAB_A LAB_B
        END_DATA_FORMAT
        NUMBER_OF_SETS 2
        BEGIN_DATA
        A1 "dark ""skin"" # 1" 37.54 14.37 14.92
        A2 light 64.66 19.27 17.50
        END_DATA
        """;

    private static Cgats Read(string text) =>
        Cgats.Parse("file", text).TryGet(out var file)
            ? file
            : throw new Xunit.Sdk.XunitException(Cgats.Parse("file", text).Problems[0].ToString());

    [Fact]
    public void A_reference_card_is_read()
    {
        var file = Read(Card);
        var table = Assert.Single(file.Tables);
        Assert.Equal("CGATS.17", file.Kind);
        Assert.Empty(file.Warnings);
        Assert.Equal("a maker", table.Property("originator"));
        Assert.Equal("dark \"skin\" # 1", table.Samples[0][1]);
        Assert.Equal("A2", table.IdOf(1));
        Assert.Equal(new Lab(64.66, 19.27, 17.50), table.LabOf(1));
        Assert.False(table.IsD65);
        Assert.Equal(37.54, Adaptation.LabToD50(Lab.FromXyz(table.ColourOf(0)!.Value)).L, 1e-9);
    }

    [Theory]
    [InlineData(
        "\uFEFFIT8.7/2\r\nBEGIN_DATA_FORMAT\r\nSAMPLE_ID\tLAB_L\tLAB_A\tLAB_B\r\nEND_DATA_FORMAT\r\n"
            + "BEGIN_DATA\r\n1\t50\t0\t0\r\nEND_DATA\r\n"
    )]
    [InlineData("BEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L\nLAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 50\n0 0\nEND_DATA")]
    [InlineData(
        "CTI3\n\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_NAME LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nbegin_data\n\"1\" 5.0e1 0 "
            + "-0.0\nend_data\n"
    )]
    [InlineData("CGATS\rBEGIN_DATA_FORMAT\rLAB_L LAB_A LAB_B\rEND_DATA_FORMAT\rBEGIN_DATA\r50,0;0,0;0,0\rEND_DATA\r")]
    public void Variants_of_the_world_are_read(string text)
    {
        var table = Assert.Single(Read(text).Tables);
        Assert.Equal(new Lab(50, 0, 0), table.LabOf(0));
        Assert.Equal("1", table.IdOf(0));
    }

    [Fact]
    public void Wrong_counts_are_told_and_several_tables_kept()
    {
        var file = Read(Card.Replace("NUMBER_OF_SETS 2", "NUMBER_OF_SETS 24", StringComparison.Ordinal) + "\n" + Card["CGATS.17".Length..]);
        Assert.Equal(2, file.Tables.Count);
        Assert.Equal("The file says it has 24 samples, and has 2.", Assert.Single(file.Warnings));
    }

    [Theory]
    [InlineData("SPECTRAL_NM400")]
    [InlineData("SPECTRAL_400")]
    [InlineData("nm400")]
    [InlineData("R_400nm")]
    [InlineData("400")]
    public void Spectra_are_read_under_the_names_instruments_give_them(string pattern)
    {
        var fields = string.Join(' ', Enumerable.Range(40, 31).Select(i => pattern.Replace("400", $"{10 * i}", StringComparison.Ordinal)));
        var values = string.Join(' ', Enumerable.Repeat("50.0", 31));
        var table = Assert.Single(
            Read($"CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID {fields}\nEND_DATA_FORMAT\nBEGIN_DATA\n1 {values}\nEND_DATA\n").Tables
        );
        Data.Close(WhitePoint.D65 * 0.5, table.ColourOf(0)!.Value, 1e-9);
    }

    [Fact]
    public void A_table_that_names_D65_is_not_adapted()
    {
        var table = Read(
            "CGATS.17\nWEIGHTING_FUNCTION \"ILLUMINANT, D65\"\nBEGIN_DATA_FORMAT\nXYZ_X XYZ_Y "
                + "XYZ_Z\nEND_DATA_FORMAT\nBEGIN_DATA\n20 30 40\nEND_DATA\n"
        ).Tables[0];
        Assert.Equal(new Xyz(20, 30, 40), table.ColourOf(0));
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("hello", "no data")]
    [InlineData("CGATS.17\nBEGIN_DATA\n1\nEND_DATA", "before any list")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA B", "never ends")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nEND_DATA_FORMAT\n", "empty list")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA a\nEND_DATA_FORMAT\n", "twice")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2\n3\nEND_DATA", "Line 7 has 1 values")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA LAB_L\nEND_DATA_FORMAT\nBEGIN_DATA\n1 x\nEND_DATA", "Line 6 has “x” in LAB_L")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA LAB_L\nEND_DATA_FORMAT\nBEGIN_DATA\n1 NaN\nEND_DATA", "Line 6 has “NaN”")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA LAB_L\nEND_DATA_FORMAT\nBEGIN_DATA\n1 2\n", "never end")]
    [InlineData("CGATS.17\nBEGIN_DATA_FORMAT\nA\nEND_DATA_FORMAT\nBEGIN_DATA\nEND_DATA", "there are none")]
    [InlineData("PK\0\0", "no text file")]
    public void What_is_wrong_is_said_with_its_line(string text, string reason)
    {
        var outcome = Cgats.Parse("file", text);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(reason, Assert.Single(outcome.Problems).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_written_reads_back() =>
        Gen.Select(Gen.String[Gen.Char["abc \"#;,1"], 1, 12], Gen.Double[5, 95], Gen.Double[-60, 60], Gen.Double[-60, 60])
            .Array[1, 8]
            .Sample(
                rows =>
                {
                    var written = Cgats
                        .OfColours(rows.Select(row => (row.Item1, new Lab(row.Item2, row.Item3, row.Item4).ToXyz())), "test \"of\" writing")
                        .Write();
                    var table = Assert.Single(Read(written).Tables);
                    Assert.Equal("test \"of\" writing", table.Property("DESCRIPTOR"));
                    for (var i = 0; i < rows.Length; i++)
                    {
                        Assert.Equal(rows[i].Item1, table.IdOf(i));
                        Assert.InRange(
                            Difference.Ciede2000(new(rows[i].Item2, rows[i].Item3, rows[i].Item4), Lab.FromXyz(table.ColourOf(i)!.Value)),
                            0,
                            0.001
                        );
                    }
                },
                iter: 300
            );

    [Fact]
    public void Garbage_never_throws() =>
        Gen.String[Gen.Char["BEGIN_DATFORM \n\t\"#01.,;LAB"], 0, 200]
            .Sample(text => Cgats.Parse("file", text).Problems.Count >= 0, iter: 3000);
}
