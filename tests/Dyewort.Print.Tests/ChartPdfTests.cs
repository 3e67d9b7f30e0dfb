using Dyewort.Colour;
using Dyewort.Readings;
using UglyToad.PdfPig;
using Xunit;

namespace Dyewort.Print.Tests;

public sealed class ChartPdfTests
{
    private const double PointsPerMm = 72 / 25.4;
    private static readonly DateOnly Day = new(2026, 3, 14);
    private static readonly ChartWords Words = new()
    {
        Title = "Elder by dose",
        Code = "C3",
        About = "pot EB25-1 · seven days dry",
    };

    private static List<ChartChip> Grid(int columns, int rows) =>
        [
            .. from row in Enumerable.Range(0, rows)
            from column in Enumerable.Range(0, columns)
            select new ChartChip(
                SheetPlan.CellId(column, row),
                new Lab(25 + (60.0 * row / rows), (column * 9) - 20, 5).ToXyz(),
                1.2,
                "alum 2 g"
            ),
        ];

    [Fact]
    public void Chips_lie_as_on_their_sheet_in_their_measured_colours()
    {
        using var document = PdfDocument.Open(ChartPdf.Draw(PageSize.A4, Grid(4, 6), Words, Day));
        var page = document.GetPage(1);
        var fills = page
            .Paths.Where(path => path.IsFilled && path.GetBoundingRectangle() is { } box && box.Width > 20 * PointsPerMm)
            .Select(path => (Box: path.GetBoundingRectangle()!.Value, Colour: path.FillColor!.ToRGBValues()))
            .ToList();
        Assert.Equal(24, fills.Count);
        foreach (var chip in Grid(4, 6))
        {
            var word = page.GetWords().Last(one => one.Text == chip.Id);
            // The chip stands on its code.
            var (box, colour) = fills.MinBy(fill =>
                Math.Abs(fill.Box.Left - word.BoundingBox.Left) + Math.Abs(fill.Box.Bottom - word.BoundingBox.Top)
            );
            var expected = SrgbChip.Of(chip.Colour!.Value).Bytes;
            Assert.Equal(expected.R, (double)colour.r * 255, 1.0);
            Assert.Equal(expected.G, (double)colour.g * 255, 1.0);
            Assert.Equal(expected.B, (double)colour.b * 255, 1.0);
        }
    }

    [Theory]
    [InlineData("A4", 6, 8)]
    [InlineData("A5", 4, 6)]
    [InlineData("A6", 4, 6)]
    [InlineData("Letter", 12, 14)]
    public void A_chart_stays_on_its_page_and_its_square_code_reads(string size, int columns, int rows)
    {
        Assert.True(PageSize.Parse("page", size).TryGet(out var page));
        var pdf = ChartPdf.Draw(page, Grid(columns, rows), Words with { Link = "http://localhost:5077/charts/C3" }, Day);
        using var document = PdfDocument.Open(pdf);
        Assert.Equal(1, document.NumberOfPages);
        Assert.All(
            document.GetPage(1).Letters,
            letter =>
            {
                Assert.InRange(letter.BoundingBox.Left / PointsPerMm, 5, page.WidthMm);
                Assert.InRange(letter.BoundingBox.Right / PointsPerMm, 0, page.WidthMm - 5);
                Assert.InRange(letter.BoundingBox.Bottom / PointsPerMm, 5, page.HeightMm - 5);
            }
        );
        Assert.Equal("http://localhost:5077/charts/C3", Raster.Of(pdf).QrCode(page.WidthMm - 35, 0, 35, 35));
    }

    [Fact]
    public void Figures_names_and_gaps_are_said()
    {
        var chips = new List<ChartChip>
        {
            new("A1", new Lab(35, 14, -21).ToXyz(), 1.2, "alum 2 g"),
            new("B1", null, null, ""),
            new("C1", new Lab(82, -7, 130).ToXyz(), null, ""),
        };
        using var document = PdfDocument.Open(ChartPdf.Draw(PageSize.A5, chips, Words, Day));
        var text = string.Join(" ", document.GetPage(1).GetWords().Select(word => word.Text));
        foreach (
            var part in new[]
            {
                "35.0",
                "14.0",
                "−21.0",
                "±1.2",
                "moderate violet",
                "alum 2 g",
                "not read",
                "C1*",
                "more vivid",
                "Elder by dose",
                "chart C3",
            }
        )
            Assert.Contains(part, text, StringComparison.Ordinal);
    }

    [Fact]
    public void Swatches_without_a_grid_are_set_in_reading_order()
    {
        var chips = Enumerable
            .Range(1, 7)
            .Select(number => new ChartChip($"spot {number}", new Lab(50, number, 0).ToXyz(), null, ""))
            .ToList();
        using var document = PdfDocument.Open(ChartPdf.Draw(PageSize.A5, chips, Words, Day));
        var text = string.Join(" ", document.GetPage(1).GetWords().Select(word => word.Text));
        for (var number = 1; number <= 7; number++)
            Assert.Contains($"spot {number}", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_jar_s_tag_says_its_code_and_its_steps_in_order()
    {
        var tags = Enumerable
            .Range(1, 25)
            .Select(number => new JarTag($"A{number}", "20 ml of EB25-1", ["alum 0.4 g", "bicarbonate of soda ⅛ tsp"]))
            .ToList();
        tags[0] = tags[0] with { Steps = [.. Enumerable.Range(1, 9).Select(step => $"step {step}")] };
        var pdf = JarTagsPdf.Draw(tags, JarTagsPdf.UsualSheet, Day);
        using var document = PdfDocument.Open(pdf);
        Assert.Equal(2, document.NumberOfPages);
        var words = document.GetPage(1).GetWords().ToList();
        for (var index = 0; index < 24; index++)
        {
            var box = JarTagsPdf.UsualSheet.Places[index];
            var inside = words
                .Where(word =>
                    word.BoundingBox.Left / PointsPerMm > box.X
                    && word.BoundingBox.Left / PointsPerMm < box.Right
                    && 297 - (word.BoundingBox.Bottom / PointsPerMm) > box.Y
                    && 297 - (word.BoundingBox.Bottom / PointsPerMm) < box.Bottom
                )
                .Select(word => word.Text)
                .ToList();
            Assert.Contains($"A{index + 1}", inside);
            if (index > 0)
                Assert.True(inside.IndexOf("alum") < inside.IndexOf("bicarbonate"));
            else
                Assert.Contains("more", inside);
        }

        Assert.Equal(pdf, JarTagsPdf.Draw(tags, JarTagsPdf.UsualSheet, Day));
    }
}
