using CsCheck;
using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class SheetPlanTests
{
    private static SheetWish Wish(PageSize page, int columns, int rows, double margin = 8, int number = 0) =>
        new()
        {
            Page = page,
            Columns = columns,
            Rows = rows,
            MarginMm = margin,
            Code = "EB25-1/0",
            Number = number,
        };

    [Fact]
    public void Whatever_fits_keeps_its_distances()
    {
        var wishes = Gen.Select(
            Gen.Double[40, 900],
            Gen.Double[40, 900],
            Gen.Int[1, 26],
            Gen.Int[1, 40],
            Gen.Double[5, 20],
            Gen.Int[0, 139],
            Gen.Int[1, 3]
        );
        var fitted = 0;
        wishes.Sample(
            (width, height, columns, rows, margin, number, lines) =>
            {
                var outcome = SheetPlan.Make(
                    Wish(new PageSize("page", width, height), columns, rows, margin, number) with
                    {
                        CaptionLines = lines,
                    }
                );
                if (!outcome.TryGet(out var plan))
                {
                    Assert.Single(outcome.Problems);
                    return;
                }

                Interlocked.Increment(ref fitted);
                Assert.Equal(columns * rows, plan.Cells.Count);
                foreach (var (id, box, _) in plan.Cells)
                {
                    Assert.True(box.Width >= SheetPlan.SmallestCellMm - 0.01 && box.Height >= SheetPlan.SmallestCellMm - 0.01, id);
                    Assert.True(
                        box.X >= margin - 0.01
                            && box.Right <= width - margin + 0.01
                            && box.Y >= margin
                            && box.Bottom + (lines * SheetPlan.CodeLineMm) <= height - margin + 0.01,
                        id
                    );
                    foreach (var marker in plan.Markers)
                        Assert.True(Apart(box, marker.Box) >= 4.98, $"{id} lies too near to marker {marker.Id}.");
                }

                for (var first = 0; first < plan.Cells.Count; first++)
                {
                    // Only neighbours to the right and below can be near.
                    foreach (var second in new[] { first + 1, first + columns }.Where(index => index < plan.Cells.Count))
                        Assert.True(
                            Apart(plan.Cells[first].Box, plan.Cells[second].Box) >= SheetPlan.SmallestGapMm - 0.02,
                            $"{plan.Cells[first].Id} and {plan.Cells[second].Id} are too near."
                        );
                }

                for (var first = 0; first < plan.Markers.Count; first++)
                {
                    for (var second = first + 1; second < plan.Markers.Count; second++)
                        Assert.True(Apart(plan.Markers[first].Box, plan.Markers[second].Box) >= 4.98, "Two markers are too near.");
                }
            },
            iter: 400
        );
        Assert.True(fitted > 100, $"Only {fitted} of the random sheets fitted: the property was hardly tried.");
    }

    [Fact]
    public void Corner_markers_carry_the_chart_s_number_clockwise()
    {
        Assert.True(SheetPlan.Make(Wish(PageSize.A4, 4, 6, number: 7)).TryGet(out var plan));
        Assert.Equal([28, 29, 30, 31, 560, 561, 562, 563], plan.Layout.Markers.Select(marker => marker.Id));
        var middles = plan
            .Layout.Markers.Select(marker =>
                (X: marker.CornersMm.Average(corner => corner.X), Y: marker.CornersMm.Average(corner => corner.Y))
            )
            .ToList();
        Assert.True(
            middles[0].X < 105
                && middles[0].Y < 148
                && middles[1].X > 105
                && middles[1].Y < 148
                && middles[2].X > 105
                && middles[2].Y > 148
                && middles[3].X < 105
                && middles[3].Y > 148
        );
        Assert.Equal(105, middles[4].X, 0.01);
        Assert.True(middles[4].Y < 30 && middles[6].Y > 260 && middles[5].X > 190 && middles[7].X < 20);
        Assert.Equal(148.5, middles[5].Y, 0.01);
    }

    [Theory]
    [InlineData("A6", 4)]
    [InlineData("A5", 4)]
    [InlineData("A5 landscape", 4)]
    [InlineData("A4", 8)]
    [InlineData("Letter", 8)]
    public void Sheets_over_a5_have_edge_markers(string page, int markers)
    {
        Assert.True(PageSize.Parse("page", page).TryGet(out var size));
        Assert.True(SheetPlan.Make(Wish(size, 3, 3)).TryGet(out var plan));
        Assert.Equal(markers, plan.Layout.Markers.Count);
    }

    [Fact]
    public void Cells_are_named_by_column_letter_and_row_number()
    {
        Assert.True(SheetPlan.Make(Wish(PageSize.A4, 3, 2)).TryGet(out var plan));
        Assert.Equal(["A1", "B1", "C1", "A2", "B2", "C2"], plan.Layout.Cells.Select(cell => cell.Id));
        Assert.True(plan.Cells[1].Box.X > plan.Cells[0].Box.Right);
        Assert.True(plan.Cells[3].Box.Y > plan.Cells[0].Box.Bottom);
    }

    [Fact]
    public void Cells_bear_the_codes_of_their_jars_and_the_rest_of_the_grid_stays_empty()
    {
        var wish = Wish(PageSize.A5, 3, 2) with { Names = ["A1", "A1.2", "A1.2/4", "A2"], CaptionLines = 3 };
        Assert.True(SheetPlan.Make(wish).TryGet(out var plan));
        Assert.Equal(["A1", "A1.2", "A1.2/4", "A2"], plan.Layout.Cells.Select(cell => cell.Id));
        Assert.Equal([false, false, false, false, true, true], plan.Cells.Select(cell => cell.IsBlank));
        Assert.True(SheetLayout.Parse("layout", plan.Layout.ToJson()).TryGet(out var read));
        Assert.Equal((3, 2, 3), (read.Columns, read.Rows, read.CaptionLines));

        // What was printed once is laid out again to the same place.
        var again = wish with
        {
            Columns = read.Columns,
            Rows = read.Rows,
            CaptionLines = read.CaptionLines,
        };
        Assert.True(SheetPlan.Make(again).TryGet(out var second));
        Assert.Equal(plan.Cells, second.Cells);
    }

    [Theory]
    [InlineData(4, 6, 24)]
    [InlineData(4, 6, 21)]
    [InlineData(3, 2, 4)]
    [InlineData(1, 1, 1)]
    public void A_lettered_sheet_of_an_earlier_program_is_laid_out_again_from_its_layout_alone(int columns, int rows, int painted)
    {
        var wish = Wish(PageSize.A5, columns, rows);
        var ids = Enumerable.Range(0, columns * rows).Select(place => SheetPlan.CellId(place % columns, place / columns));
        Assert.True(SheetPlan.Make(wish with { Blank = [.. ids.Skip(painted)] }).TryGet(out var first));
        var kept = first.Layout;
        Assert.Equal((columns, rows), (kept.Columns, kept.Rows));
        var names = kept.Cells.Select(cell => cell.Id).ToList();
        Assert.True(
            SheetPlan
                .Make(wish with { Columns = kept.Columns, Rows = kept.Rows, Names = names, CaptionLines = kept.CaptionLines })
                .TryGet(out var again)
        );
        Assert.Equal(kept.ToJson(), again.Layout.ToJson());
        Assert.Equal(first.Cells.Count(cell => cell.IsBlank), again.Cells.Count(cell => cell.IsBlank));
    }

    [Theory]
    [InlineData("A1", "A1")]
    [InlineData("A1", " ")]
    [InlineData("A1", "A2", "A3", "A4", "A5", "A6", "A7")]
    public void Names_that_do_not_name_the_cells_are_refused(params string[] names) =>
        Assert.Single(SheetPlan.Make(Wish(PageSize.A5, 3, 2) with { Names = names }).Problems);

    [Fact]
    public void A_layout_survives_its_file()
    {
        Assert.True(SheetPlan.Make(Wish(PageSize.Letter, 5, 7, number: 139)).TryGet(out var plan));
        Assert.True(SheetLayout.Parse("layout", plan.Layout.ToJson()).TryGet(out var again));
        Assert.Equal(plan.Layout.ToJson(), again.ToJson());
        Assert.Equal(559, again.Markers[3].Id);
    }

    [Theory]
    [InlineData("A6", 9, 14, 8, "At most 7 columns and 6 rows fit on it; A4 holds 9x14.")]
    [InlineData("A4", 26, 40, 8, "share the samples")]
    [InlineData("40x40", 1, 1, 8, "larger page")]
    [InlineData("A4", 0, 3, 8, "1 to 26 columns")]
    [InlineData("A4", 27, 3, 8, "1 to 26 columns")]
    [InlineData("A4", 3, 3, 4, "Most printers")]
    [InlineData("A4", 3, 3, double.NaN, "Most printers")]
    public void What_does_not_fit_is_refused_with_what_would(string page, int columns, int rows, double margin, string remedy)
    {
        Assert.True(PageSize.Parse("page", page).TryGet(out var size));
        var problem = Assert.Single(SheetPlan.Make(Wish(size, columns, rows, margin)).Problems);
        Assert.Contains(remedy, problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_refusal_says_would_fit_does_fit()
    {
        Assert.True(SheetPlan.Make(Wish(PageSize.A6, 7, 6)).TryGet(out _));
        Assert.True(SheetPlan.Make(Wish(PageSize.A4, 9, 14)).TryGet(out _));
        Assert.False(SheetPlan.Make(Wish(PageSize.A6, 8, 6)).TryGet(out _));
        Assert.False(SheetPlan.Make(Wish(PageSize.A6, 7, 7)).TryGet(out _));
    }

    [Theory]
    [InlineData("D1")]
    [InlineData("A1,B1,C1,A2,B2,C2,A3,B3,C3")]
    public void Blank_cells_must_be_cells_and_not_all_of_them(string blank) =>
        Assert.Single(SheetPlan.Make(Wish(PageSize.A5, 3, 3) with { Blank = blank.Split(',') }).Problems);

    [Theory]
    [InlineData(-1)]
    [InlineData(140)]
    public void A_chart_number_without_markers_is_refused(int number) =>
        Assert.Single(SheetPlan.Make(Wish(PageSize.A5, 3, 3, number: number)).Problems);

    [Theory]
    [InlineData("A4", 210, 297)]
    [InlineData("a5", 148, 210)]
    [InlineData("A6", 105, 148)]
    [InlineData("letter", 215.9, 279.4)]
    [InlineData("120x180", 120, 180)]
    [InlineData("120.5 × 180 mm", 120.5, 180)]
    [InlineData("A5 landscape", 210, 148)]
    public void Page_sizes_are_read(string text, double width, double height)
    {
        Assert.True(PageSize.Parse("page", text).TryGet(out var page));
        Assert.Equal((width, height), (page.WidthMm, page.HeightMm));
    }

    [Theory]
    [InlineData("")]
    [InlineData(null)]
    [InlineData("A9")]
    [InlineData("120")]
    [InlineData("10x10")]
    [InlineData("9999x100")]
    [InlineData("-120x180")]
    public void What_is_no_page_size_is_refused(string? text) => Assert.Single(PageSize.Parse("page", text).Problems);

    /// <summary>Distance between two rectangles along the axis on which they are apart.</summary>
    private static double Apart(RectMm first, RectMm second) =>
        Math.Max(Math.Max(first.X - second.Right, second.X - first.Right), Math.Max(first.Y - second.Bottom, second.Y - first.Bottom));
}
