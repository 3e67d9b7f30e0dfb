using Dyewort.Readings;
using Dyewort.Workshop.Readings;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class PrintSheetTests
{
    private static readonly PrintSheet Print = new(TimeProvider.System);

    [Fact]
    public void A_sheet_and_its_layout_come_together()
    {
        Assert.True(
            Print
                .Handle(
                    new()
                    {
                        Cells = "4x6",
                        Page = "A5",
                        Chart = "EB25-1/3",
                        Margin = "10 mm",
                        Blank = "A1, B2",
                    }
                )
                .TryGet(out var answer)
        );
        Assert.Equal("%PDF"u8.ToArray(), answer.Pdf[..4]);
        Assert.Equal(22, answer.Layout.Cells.Count);
        Assert.Equal("EB25-1/3", answer.Layout.Code);
        Assert.Equal([12, 13, 14, 15], answer.Layout.Markers.Select(marker => marker.Id));
        Assert.Equal(new PointMm(10, 10), answer.Layout.Markers[0].CornersMm[0]);
    }

    [Theory]
    [InlineData(null, "A5", "", "", "cells")]
    [InlineData("4", "A5", "", "", "cells")]
    [InlineData("-4x6", "A5", "", "", "cells")]
    [InlineData("4x6", "B5", "", "", "page")]
    [InlineData("4x6", "A5", "EB25-1", "", "chart")]
    [InlineData("4x6", "A5", "../../x/1", "", "chart")]
    [InlineData("4x6", "A5", "", "wide", "margin")]
    [InlineData("4x6", "A5", "", "1", "margin")]
    [InlineData("9x40", "A5", "", "", "cells")]
    public void What_cannot_be_printed_is_refused_by_field(string? cells, string page, string chart, string margin, string field)
    {
        var problem = Assert.Single(
            Print
                .Handle(
                    new()
                    {
                        Cells = cells,
                        Page = page,
                        Chart = chart,
                        Margin = margin,
                    }
                )
                .Problems
        );
        Assert.Equal(field, problem.Field);
    }

    [Fact]
    public void All_problems_are_told_at_once() =>
        Assert.Equal(
            3,
            Print
                .Handle(
                    new()
                    {
                        Cells = "?",
                        Page = "?",
                        Chart = "?",
                    }
                )
                .Problems.Count
        );

    [Theory]
    [InlineData("C7", "C7", 28)]
    [InlineData("EB25-1/140", "EB25-1/140", 0)]
    [InlineData("5", "chart 5", 20)]
    [InlineData("", "chart 0", 0)]
    public void A_chart_s_number_chooses_its_markers(string chart, string code, int firstMarker)
    {
        Assert.True(
            Print
                .Handle(
                    new()
                    {
                        Cells = "2x2",
                        Page = "A6",
                        Chart = chart,
                    }
                )
                .TryGet(out var answer)
        );
        Assert.Equal(code, answer.Layout.Code);
        Assert.Equal(firstMarker, answer.Layout.Markers[0].Id);
    }
}
