using System.Globalization;
using Dyewort.Readings;
using UglyToad.PdfPig;
using Xunit;

namespace Dyewort.Print.Tests;

public sealed class SheetPdfTests
{
    private static readonly DateOnly Day = new(2026, 3, 14);

    private static SheetPlan Plan(PageSize page, int columns, int rows, bool frame = false, int number = 3, params string[] blank)
    {
        var outcome = SheetPlan.Make(
            new SheetWish
            {
                Page = page,
                Columns = columns,
                Rows = rows,
                Frame = frame,
                Code = $"EB25-1/{number}",
                Number = number,
                Blank = blank,
            }
        );
        Assert.True(outcome.TryGet(out var plan), string.Join(" ", outcome.Problems));
        return plan;
    }

    public static TheoryData<string, int, int> Pages() =>
        new()
        {
            { "A4", 4, 6 },
            { "A5", 4, 6 },
            { "A6", 3, 4 },
            { "Letter", 6, 8 },
            { "120x180", 2, 3 },
            { "A5 landscape", 6, 3 },
            { "A6", 1, 1 },
            { "420x594", 12, 16 },
        };

    private static SheetPlan Plan(string page, int columns, int rows)
    {
        Assert.True(PageSize.Parse("page", page).TryGet(out var size));
        return Plan(size, columns, rows);
    }

    [Theory, MemberData(nameof(Pages))]
    public void Markers_are_printed_where_the_layout_says_to_a_tenth_of_a_millimetre(string page, int columns, int rows)
    {
        var plan = Plan(page, columns, rows);
        var raster = Raster.Of(SheetPdf.Draw(plan, new SheetWords(), Day));
        Assert.Equal(plan.Layout.WidthMm, raster.Width / Raster.PixelsPerMm, 0.2);
        Assert.Equal(plan.Layout.HeightMm, raster.Height / Raster.PixelsPerMm, 0.2);
        foreach (var marker in plan.Layout.Markers)
        {
            var (left, top) = (marker.CornersMm[0].X, marker.CornersMm[0].Y);
            var (right, bottom) = (marker.CornersMm[2].X, marker.CornersMm[2].Y);
            var step = (right - left) / Tag36h11.Side;
            var (middleX, middleY) = (left + (step / 2), top + (step / 2));
            // From white paper inwards along the black border: where does it turn dark?
            Assert.Equal(left, Edge(raster, left - 1.5, middleY, 1, 0), 0.1);
            Assert.Equal(top, Edge(raster, middleX, top - 1.5, 0, 1), 0.1);
            Assert.Equal(right, Edge(raster, right + 1.5, middleY, -1, 0), 0.1);
            Assert.Equal(bottom, Edge(raster, middleX, bottom + 1.5, 0, -1), 0.1);
            var cells = Tag36h11.Cells(marker.Id);
            for (var row = 0; row < Tag36h11.Side; row++)
            {
                for (var column = 0; column < Tag36h11.Side; column++)
                    Assert.Equal(cells[row, column] ? 255 : 0, raster.At(left + ((column + 0.5) * step), top + ((row + 0.5) * step)));
            }
        }
    }

    [Theory, MemberData(nameof(Pages))]
    public void The_paper_round_every_marker_and_in_every_cell_is_bare(string page, int columns, int rows)
    {
        var plan = Plan(page, columns, rows);
        var raster = Raster.Of(
            SheetPdf.Draw(plan, new SheetWords { Title = "A title that is rather long and says what the trial is about" }, Day)
        );
        foreach (var (id, box) in plan.Markers)
        {
            var quiet = box.Width / Tag36h11.Side;
            for (var along = -quiet; along <= box.Width + quiet; along += 0.1)
            {
                foreach (var (x, y) in new[] { (along, -quiet), (along, box.Width + quiet), (-quiet, along), (box.Width + quiet, along) })
                    Assert.True(raster.At(box.X + x, box.Y + y) == 255, $"Print touches the white around marker {id}.");
            }
        }

        foreach (var (id, box, _) in plan.Cells)
        {
            for (var y = box.Y + 0.5; y < box.Bottom - 0.5; y += 0.5)
            {
                for (var x = box.X + 0.5; x < box.Right - 0.5; x += 0.5)
                    Assert.True(raster.At(x, y) == 255, $"Print lies inside cell {id}.");
            }
        }
    }

    [Theory, MemberData(nameof(Pages))]
    public void The_square_code_and_the_words_say_which_chart_it_is(string page, int columns, int rows)
    {
        var plan = Plan(page, columns, rows);
        var pdf = SheetPdf.Draw(plan, new SheetWords(), Day);
        var raster = Raster.Of(pdf);
        var foot = plan.Foot[0];
        Assert.Equal("EB25-1/3", raster.QrCode(foot.X - 1, foot.Y - 4, Math.Min(foot.Width, 30), foot.Height + 8));
        using var document = PdfDocument.Open(pdf);
        var text = document.GetPage(1).Text;
        Assert.Contains("EB25-1/3", text, StringComparison.Ordinal);
        Assert.Contains("date", text, StringComparison.Ordinal);
        Assert.Contains("paper", text, StringComparison.Ordinal);
        Assert.Contains("pot", text, StringComparison.Ordinal);
        foreach (var cell in plan.Layout.Cells)
            Assert.Contains(cell.Id, text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_code_stands_under_its_own_cell()
    {
        var plan = Plan(PageSize.A5, 4, 6);
        using var document = PdfDocument.Open(SheetPdf.Draw(plan, new SheetWords(), Day));
        const double PointsPerMm = 72 / 25.4;
        foreach (var (id, box, _) in plan.Cells)
        {
            var word = Assert.Single(document.GetPage(1).GetWords(), word => word.Text == id);
            Assert.Equal(box.X, word.BoundingBox.Left / PointsPerMm, 0.5);
            var top = plan.Layout.HeightMm - (word.BoundingBox.Top / PointsPerMm);
            Assert.InRange(top, box.Bottom + 0.3, box.Bottom + 4);
        }
    }

    [Fact]
    public void A_frame_s_windows_are_dashed_and_a_blank_cell_carries_a_circle()
    {
        var frame = Plan(PageSize.A5, 3, 3, frame: true);
        Assert.True(frame.Layout.IsFrame);
        var raster = Raster.Of(SheetPdf.Draw(frame, new SheetWords(), Day));
        var box = frame.Cells[0].Box;
        var line = Enumerable.Range(0, (int)(box.Width * 10)).Select(step => raster.At(box.X + (step / 10.0), box.Y) < 250).ToList();
        Assert.InRange(line.Count(dark => dark), line.Count / 3, line.Count * 4 / 5);

        var plan = Plan(PageSize.A5, 3, 3, false, 3, "b2");
        Assert.Equal(8, plan.Layout.Cells.Count);
        Assert.DoesNotContain(plan.Layout.Cells, cell => cell.Id == "B2");
        var blank = plan.Cells.Single(cell => cell.Id == "B2").Box;
        var sheet = Raster.Of(SheetPdf.Draw(plan, new SheetWords(), Day));
        Assert.True(sheet.At(blank.X + (blank.Width / 2) - 1.5, blank.Y + (blank.Height / 2)) < 240);
        Assert.Equal(255, sheet.At(blank.X, blank.Y + (blank.Height / 2)));
    }

    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    [InlineData("ar-SA")]
    public void The_same_sheet_gives_the_same_bytes_in_every_language(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        var first = SheetPdf.Draw(Plan(PageSize.A5, 4, 6), new SheetWords { Title = "Elder by dose", Pot = "EB25-1" }, Day);
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            var second = SheetPdf.Draw(Plan(PageSize.A5, 4, 6), new SheetWords { Title = "Elder by dose", Pot = "EB25-1" }, Day);
            Assert.Equal(first, second);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Another_sheet_gives_other_bytes() =>
        Assert.NotEqual(
            SheetPdf.Draw(Plan(PageSize.A5, 4, 6, number: 3), new SheetWords(), Day),
            SheetPdf.Draw(Plan(PageSize.A5, 4, 6, number: 4), new SheetWords(), Day)
        );

    /// <summary>Where the grey along a line crosses half, in millimetres on the axis it moves along.</summary>
    private static double Edge(Raster raster, double x, double y, int stepX, int stepY)
    {
        for (var step = 0; step < 60; step++)
        {
            var (atX, atY) = (x + (stepX * step / Raster.PixelsPerMm), y + (stepY * step / Raster.PixelsPerMm));
            if (raster.At(atX, atY) >= 128)
                continue;
            var pixel = (int)((stepX != 0 ? atX : atY) * Raster.PixelsPerMm);
            return (stepX + stepY > 0 ? pixel : pixel + 1) / Raster.PixelsPerMm;
        }

        throw new Xunit.Sdk.XunitException($"No edge near {x}, {y} mm.");
    }
}
