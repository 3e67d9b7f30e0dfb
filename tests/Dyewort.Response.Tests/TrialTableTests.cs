namespace Dyewort.Response.Tests;

public sealed class TrialTableTests
{
    [Fact]
    public void Reads_the_columns_makers_keep()
    {
        const string Text =
            "\uFEFFsample,plant,Alum g/L,\"copper sulphate g/L\",pH,wash,paper,state,mood,L,a,b\r\nE1,elder,20,,3.5,,\"P1, "
            + "cotton\",dry,good,35,14,-21\r\nE2,elder,0,1.5,,0.5,P1,wet,,36,8,-14\r\n";
        Assert.True(TrialTable.Parse("trials", Text, needColours: true).TryGet(out var table));
        Assert.Equal(["Alum", "copper sulphate"], table.Additions);
        Assert.Equal(2, table.Rows.Count);
        Assert.Equal("P1, cotton", table.Rows[0].Point.Paper);
        Assert.Equal(20, table.Rows[0].Point.Dose("alum"));
        Assert.Equal(0, table.Rows[0].Point.Dose("copper sulphate"));
        Assert.Equal(3.5, table.Rows[0].Point.Ph);
        Assert.Null(table.Rows[1].Point.Ph);
        Assert.Equal(0.5, table.Rows[1].Point.Wash);
        Assert.Equal(1, table.Rows[0].Point.Wash);
        Assert.Contains(table.Warnings, warning => warning.Contains("mood", StringComparison.Ordinal));
    }

    [Theory, InlineData("u95"), InlineData("U95"), InlineData("uncertaintyDe00")]
    public void A_readings_own_radius_is_read_by_either_of_its_names(string heading)
    {
        Assert.True(
            TrialTable.Parse("trials", $"sample,{heading},L,a,b\nx,1.2,50,0,0\ny,,50,0,0", needColours: true).TryGet(out var table)
        );
        Assert.Equal([1.2, null], table.Rows.Select(row => row.UncertaintyDe00));
        Assert.Empty(table.Warnings);
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("colour\nred", "No known column")]
    [InlineData("sample,L,a\nx,1,2", "L, a and b")]
    [InlineData("sample,alum g/L,alum g/l,L,a,b\nx,1,2,3,4,5", "twice")]
    [InlineData("sample,alum g/L,L,a,b\nx,lots,50,0,0", "lots")]
    [InlineData("sample,alum g/L,L,a,b\nx,-1,50,0,0", "-1")]
    [InlineData("sample,pH,L,a,b\nx,NaN,50,0,0", "NaN")]
    [InlineData("sample,wash,L,a,b\nx,1.5,50,0,0", "1.5")]
    [InlineData("sample,L,a,b\nx,50,0,0,7", "5 cells")]
    public void Refuses_with_what_was_typed(string text, string named)
    {
        var outcome = TrialTable.Parse("trials", text, needColours: true);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(outcome.Problems, problem => problem.What.Contains(named, StringComparison.Ordinal));
        Assert.All(outcome.Problems, problem => Assert.NotEmpty(problem.Remedy));
    }

    [Fact]
    public void A_line_without_a_colour_is_left_out_aloud()
    {
        Assert.True(TrialTable.Parse("trials", "sample,L,a,b\nx,50,0,0\ny,,,\n", needColours: true).TryGet(out var table));
        Assert.Single(table.Rows);
        Assert.Equal(2, table.Points.Count);
        Assert.Contains(table.Warnings, warning => warning.Contains("(y)", StringComparison.Ordinal));
    }
}
