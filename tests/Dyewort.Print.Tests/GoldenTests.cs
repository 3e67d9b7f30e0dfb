using System.Globalization;
using System.Text;
using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Readings;
using Dyewort.Testing;
using UglyToad.PdfPig;
using Xunit;

namespace Dyewort.Print.Tests;

/// <summary>Pinned: every word and every painted shape of a print, to half a millimetre, as an independent reader (PdfPig) finds
/// them.</summary>
/// <remarks>A difference is not wrong by itself: look at the print, then put the received file in the golden one's place.</remarks>
public sealed class GoldenTests
{
    private static readonly DateOnly Day = new(2026, 3, 14);

    [Fact]
    public void Sheet() =>
        Check(
            "sheet-a5",
            SheetPdf.Draw(
                Plan(),
                new SheetWords
                {
                    Title = "Elder by dose",
                    Pot = "EB25-1",
                    Captions = new Dictionary<string, string> { ["A1"] = "plain", ["B1"] = "alum 2 g" },
                },
                Day
            )
        );

    [Fact]
    public void Labels()
    {
        var label = LabelText.Of(
            new LabelFacts
            {
                Name = "Dusk Elder",
                Code = "AAC-AD7",
                Recipe = "elderberry EB25-1 with alum 2 g to 100 ml",
                ChartPosition = "C1 D3",
                Colour = new Lab(35, 14, -21).ToXyz(),
                MadeOn = new DateOnly(2025, 10, 18),
                KeepBy = new DateOnly(2026, 10, 18),
                Volume = "29 ml",
                Contents = [new("alum", null)],
            }
        );
        Assert.True(LabelsPdf.Draw([label], LabelSheet.UsualFront, LabelSheet.UsualCap, 0, Day).TryGet(out var pdf));
        Check("labels", pdf);
    }

    [Fact]
    public void Chart() =>
        Check(
            "chart-a5",
            ChartPdf.Draw(
                PageSize.A5,
                [
                    new("A1", new Lab(35, 14, -21).ToXyz(), 1.2, "alum 2 g"),
                    new("B1", null, null, ""),
                    new("A2", new Lab(82, -7, 95).ToXyz(), null, "weld"),
                ],
                new ChartWords
                {
                    Title = "Elder by dose",
                    Code = "C3",
                    About = "pot EB25-1",
                },
                Day
            )
        );

    [Fact]
    public void Tags() =>
        Check(
            "tags",
            JarTagsPdf.Draw([new("A3", "20 ml of EB25-1", ["alum 0.4 g", "bicarbonate of soda ⅛ tsp"])], JarTagsPdf.UsualSheet, Day)
        );

    private static SheetPlan Plan()
    {
        Assert.True(
            SheetPlan
                .Make(
                    new SheetWish
                    {
                        Page = PageSize.A5,
                        Columns = 3,
                        Rows = 4,
                        Code = "EB25-1/3",
                        Number = 3,
                        Blank = ["C4"],
                    }
                )
                .TryGet(out var plan)
        );
        return plan;
    }

    private static void Check(string name, byte[] pdf) =>
        Golden.Check(Describe(pdf), "tests", "Dyewort.Print.Tests", "Golden", $"{name}.txt");

    private static string Describe(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        var lines = new StringBuilder();
        foreach (var page in document.GetPages())
        {
            lines.Append(CultureInfo.InvariantCulture, $"page {page.Number}: {Mm(page.Width)} x {Mm(page.Height)}\n");
            foreach (var word in page.GetWords())
                lines.Append(
                    CultureInfo.InvariantCulture,
                    $"{Mm(word.BoundingBox.Left)} {Mm(page.Height - word.BoundingBox.Bottom)} {word.Letters[0].PointSize:0.#} pt "
                        + $"{word.Text}\n"
                );
            foreach (var path in page.Paths)
            {
                if (path.GetBoundingRectangle() is not { } box)
                    continue;
                lines.Append(
                    CultureInfo.InvariantCulture,
                    $"{Mm(box.Left)} {Mm(page.Height - box.Top)} {Mm(box.Width)} x "
                        + $"{Mm(box.Height)}{(path.IsFilled ? $" filled {Grey(path)}" : "")}{(path.IsStroked ? " line" : "")}\n"
                );
            }
        }

        return lines.ToString();
    }

    private static string Mm(double points) =>
        (Math.Round(points / 72 * 25.4 * 2, MidpointRounding.AwayFromZero) / 2).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Grey(UglyToad.PdfPig.Graphics.PdfPath path)
    {
        var (red, green, blue) = path.FillColor?.ToRGBValues() ?? default;
        return string.Create(CultureInfo.InvariantCulture, $"{red:0.00} {green:0.00} {blue:0.00}");
    }
}
