using Dyewort.Chemistry;
using Dyewort.Colour;
using Dyewort.Making;
using UglyToad.PdfPig;
using Xunit;

namespace Dyewort.Print.Tests;

public sealed class LabelsPdfTests
{
    private static readonly DateOnly Day = new(2026, 3, 14);

    private static LabelText Label(int bottle, string name = "Dusk Elder", params string[] contents) =>
        LabelText.Of(
            new LabelFacts
            {
                Name = name,
                Code = BottleCode.ForBottle(3, bottle),
                Recipe = "elderberry EB25-1 with alum 2 g and clove oil 2 drops to 100 ml",
                ChartPosition = "C1 D3",
                Colour = new Lab(35, 14, -21).ToXyz(),
                MadeOn = new DateOnly(2025, 10, 18),
                KeepBy = new DateOnly(2026, 10, 18),
                Volume = "29 ml",
                Link = $"http://192.168.1.20:5077/bottles/{BottleCode.ForBottle(3, bottle)}",
                Contents =
                [
                    .. contents.Select(content =>
                    {
                        Assert.True(SubstanceCatalogue.Standard.Find("name", content).TryGet(out var found));
                        return new LabelContent(content, found.Substance.Hazard);
                    }),
                ],
            }
        );

    private static byte[] Draw(IReadOnlyList<LabelText> labels, LabelSheet? front, LabelSheet? cap, int used = 0)
    {
        var outcome = LabelsPdf.Draw(labels, front, cap, used, Day);
        Assert.True(outcome.TryGet(out var pdf), string.Join(" ", outcome.Problems));
        return pdf;
    }

    [Fact]
    public void Every_label_s_square_code_opens_its_own_bottle()
    {
        var labels = Enumerable.Range(1, 23).Select(bottle => Label(bottle)).ToList();
        var pdf = Draw(labels, LabelSheet.UsualFront, null);
        using var document = PdfDocument.Open(pdf);
        Assert.Equal(2, document.NumberOfPages);
        var places = LabelSheet.UsualFront.Places;
        var pages = new[] { Raster.Of(pdf, 1), Raster.Of(pdf, 2) };
        for (var index = 0; index < labels.Count; index++)
        {
            var box = places[index % 21];
            Assert.Equal(
                labels[index].Square,
                pages[index / 21].QrCode(box.X + (box.Width / 2), box.Y + (box.Height / 3), box.Width / 2, box.Height * 2 / 3)
            );
        }
    }

    [Fact]
    public void A_label_says_everything_it_must()
    {
        var label = Label(7, "Marsh Gall", "copperas", "copper sulphate", "clove oil");
        var pdf = Draw([label], LabelSheet.UsualFront, LabelSheet.UsualCap);
        using var document = PdfDocument.Open(pdf);
        var front = string.Join(" ", document.GetPage(1).GetWords().Select(word => word.Text));
        foreach (
            var words in new[] { label.Name, label.Code, label.Recipe, LabelText.ChipIsNotExact }.Concat(label.Facts).Concat(label.Warnings)
        )
        {
            foreach (var word in words.Split(' '))
                Assert.Contains(word, front, StringComparison.Ordinal);
        }

        var cap = string.Join(" ", document.GetPage(2).GetWords().Select(word => word.Text));
        Assert.Contains(label.Code, cap, StringComparison.Ordinal);
        Assert.Contains("Marsh Gall", cap, StringComparison.Ordinal);
        Assert.Contains("by 2026-10-18", cap, StringComparison.Ordinal);
        Assert.All(
            document.GetPage(1).Letters,
            letter => Assert.True(letter.PointSize >= LabelsPdf.SmallestPoints - 0.01, $"“{letter.Value}” is only {letter.PointSize} pt.")
        );
    }

    [Fact]
    public void Nothing_is_printed_outside_the_labels()
    {
        var labels = Enumerable.Range(1, 21).Select(bottle => Label(bottle, contents: ["alum", "copperas"])).ToList();
        var raster = Raster.Of(Draw(labels, LabelSheet.UsualFront, null));
        var places = LabelSheet.UsualFront.Places;
        var outside = 0;
        for (var row = 0; row < raster.Height; row += 2)
        {
            for (var column = 0; column < raster.Width; column += 2)
            {
                if (raster.Pixels[(row * raster.Width) + column] == 255)
                    continue;
                var (x, y) = (column / Raster.PixelsPerMm, row / Raster.PixelsPerMm);
                if (!places.Any(place => x >= place.X + 0.9 && x <= place.Right - 0.9 && y >= place.Y + 0.9 && y <= place.Bottom - 0.9))
                    outside++;
            }
        }

        Assert.Equal(0, outside);
    }

    [Fact]
    public void A_begun_sheet_is_continued()
    {
        var raster = Raster.Of(Draw([Label(1)], LabelSheet.UsualFront, null, used: 5));
        var places = LabelSheet.UsualFront.Places;
        Assert.Equal(255, raster.At(places[0].X + 4, places[0].Y + 4));
        Assert.True(raster.At(places[5].X + 4, places[5].Y + 4) < 200);
    }

    [Fact]
    public void Words_that_do_not_fit_are_refused_rather_than_left_out()
    {
        var small = LabelSheet.UsualFront with { WidthMm = 30, HeightMm = 15 };
        var problem = Assert.Single(LabelsPdf.Draw([Label(1, contents: ["copperas", "clove oil"])], small, null, 0, Day).Problems);
        Assert.Equal("front", problem.Field);
        Assert.Contains("Dusk Elder", problem.What, StringComparison.Ordinal);
        Assert.Equal(
            "cap",
            Assert.Single(LabelsPdf.Draw([Label(1)], null, LabelSheet.UsualCap with { WidthMm = 8, HeightMm = 8 }, 0, Day).Problems).Field
        );
    }

    [Fact]
    public void Nothing_to_print_is_refused()
    {
        Assert.Equal("bottles", Assert.Single(LabelsPdf.Draw([], LabelSheet.UsualFront, null, 0, Day).Problems).Field);
        Assert.Equal("front", Assert.Single(LabelsPdf.Draw([Label(1)], null, null, 0, Day).Problems).Field);
        Assert.Equal("used", Assert.Single(LabelsPdf.Draw([Label(1)], LabelSheet.UsualFront, null, 21, Day).Problems).Field);
        Assert.Equal("used", Assert.Single(LabelsPdf.Draw([Label(1)], LabelSheet.UsualFront, null, -1, Day).Problems).Field);
    }

    [Fact]
    public void The_chip_has_the_measured_colour()
    {
        using var document = PdfDocument.Open(Draw([Label(1)], LabelSheet.UsualFront, null));
        var expected = SrgbChip.Of(new Lab(35, 14, -21).ToXyz()).Bytes;
        Assert.Contains(
            document.GetPage(1).Paths,
            path =>
                path.IsFilled
                && path.FillColor?.ToRGBValues() is { } rgb
                && Math.Abs((rgb.r * 255) - expected.R) < 1
                && Math.Abs((rgb.g * 255) - expected.G) < 1
                && Math.Abs((rgb.b * 255) - expected.B) < 1
        );
    }

    [Fact]
    public void The_same_labels_give_the_same_bytes() =>
        Assert.Equal(
            Draw([Label(1), Label(2)], LabelSheet.UsualFront, LabelSheet.UsualCap),
            Draw([Label(1), Label(2)], LabelSheet.UsualFront, LabelSheet.UsualCap)
        );
}
