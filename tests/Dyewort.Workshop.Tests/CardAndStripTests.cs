using System.Runtime.InteropServices;
using Dyewort.Colour;
using Dyewort.Imaging.Tests;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Workshop.Readings;
using SkiaSharp;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>A card or a strip that lies beside the page, and is found there without being told where.</summary>
public sealed class CardAndStripTests
{
    private const double Pitch = 13;

    /// <summary>Where the page's top left lies on the board, millimetres.</summary>
    private const double PageX = 40;
    private const double PageY = 25;
    private static readonly SheetLayout Sheet = TestSheets.Small();

    [Theory, InlineData(0), InlineData(1), InlineData(2)]
    public void A_card_is_found_beside_the_page_whichever_way_round_it_lies(int quarter)
    {
        var scene = Scene([new(162, 40, 6, 4, quarter)]);
        using var answer = Read(
            new()
            {
                Picture = scene.Jpeg(),
                Layout = Sheet,
                Paper = scene.Paper,
                Card = new(Card(24), [], 6, 4),
            }
        );
        var expected = Corners(new(162, 40, 6, 4, quarter)).Select(scene.Project).ToList();
        foreach (var (corner, found) in expected.Zip(answer.Result.CardCornersPx))
            Assert.True(corner.DistanceTo(found) < 4, $"{corner} but found {found}");
        Assert.Equal("card", answer.Result.Calibration.Method);
        Assert.True(answer.Result.Calibration.LeaveOneOutDe00 < 2.5, $"leave-one-out {answer.Result.Calibration.LeaveOneOutDe00}");
    }

    [Fact]
    public void A_card_with_some_patches_unknown_is_found_too()
    {
        var scene = Scene([new(162, 40, 6, 4, 1)]);
        using var answer = Read(
            new()
            {
                Picture = scene.Jpeg(),
                Layout = Sheet,
                Card = new([.. Card(24).Where((_, i) => i % 3 != 1)], [], 6, 4),
            }
        );
        Assert.True(answer.Result.CardCornersPx[0].DistanceTo(scene.Project(Corners(new(162, 40, 6, 4, 1))[0])) < 4);
    }

    [Fact]
    public void A_card_that_is_missing_strange_or_there_twice_is_refused()
    {
        Assert.Contains(
            "No grid of 6 x 4",
            Refusal(
                new()
                {
                    Picture = Scene([]).Jpeg(),
                    Layout = Sheet,
                    Card = new(Card(24), [], 6, 4),
                }
            ).What
        );
        var one = Scene([new(162, 40, 6, 4, 0)]).Jpeg();
        CardPatch[] other = [.. Card(24).Select((patch, i) => new CardPatch(patch.Id, Colour((i * 11) + 5)))];
        Assert.Contains(
            "not the card's",
            Refusal(
                new()
                {
                    Picture = one,
                    Layout = Sheet,
                    Card = new(other, [], 6, 4),
                }
            ).What
        );
        var two = Scene([new(160, 20, 6, 4, 1), new(160, 110, 6, 4, 1)]);
        Assert.Contains(
            "two ways",
            Refusal(
                new()
                {
                    Picture = two.Jpeg(),
                    Layout = Sheet,
                    Card = new(Card(24), [], 6, 4),
                }
            ).What
        );
    }

    [Theory, InlineData(6, 4, true), InlineData(1, 8, false)]
    public void A_strip_brings_another_lamp_and_camera_back_to_its_first_day(int columns, int rows, bool tapped)
    {
        var scene = Scene([new(162, 40, columns, rows, 0)]);
        IReadOnlyList<PointPx> corners = tapped ? [.. Corners(new(162, 40, columns, rows, 0)).Select(scene.Project)] : [];
        using var first = Read(
            new()
            {
                Picture = scene.Jpeg(),
                Layout = Sheet,
                DefineStrip = new(corners, columns, rows),
            }
        );
        Assert.NotNull(first.Strip);
        Assert.Equal((columns * rows) + 1, first.Strip.Count);
        Assert.All(first.Strip, patch => Assert.InRange(patch.UncertaintyDe00!.Value, 0.3, 12));
        Assert.Equal(0, Difference.Ciede2000(first.Strip[^1].Lab, first.Result.Calibration.Paper), 0.1);

        // What was read of the strip is what was painted, as far as the sheet's own cells are.
        var worst = first
            .Strip.Take(columns * rows)
            .Zip(Card(columns * rows))
            .Max(pair => Difference.Ciede2000(pair.First.Lab, pair.Second.Lab));
        Assert.True(worst < 6, $"a strip patch is off by {worst:0.0}");

        Assert.True(CardFile.Parse("strip", CardFile.Write(first.Strip, "strip")).TryGet(out var file));
        var other = OtherCamera(scene);
        using var alone = Read(new() { Picture = other, Layout = Sheet });
        using var brought = Read(
            new()
            {
                Picture = other,
                Layout = Sheet,
                Card = new(file, corners, columns, rows, IsStrip: true),
            }
        );
        Assert.Equal("strip", brought.Result.Calibration.Method);
        Assert.DoesNotContain(brought.Result.Warnings, warning => warning.Code == "strip paper");
        var (apart, together) = (Apart(first, alone), Apart(first, brought));

        // Eight patches tell less of a camera than twenty-four: half of the difference must go.
        Assert.True(
            together <= (columns * rows >= 24 ? 1 : 0.5 * apart) && together < apart,
            $"median ΔE00 {together:0.00} with the strip, {apart:0.00} without"
        );
    }

    [Fact]
    public void Another_paper_beside_the_strip_is_noticed()
    {
        var place = new Laid(166, 20, 6, 4, 0);
        using var first = Read(
            new()
            {
                Picture = Scene([place]).Jpeg(),
                Layout = Sheet,
                DefineStrip = new([], 6, 4),
            }
        );
        var cream = Scene([place]) with { Paper = new(90, 3, 20) };
        using var later = Read(
            new()
            {
                Picture = cream.Jpeg(),
                Layout = Sheet,
                Card = new(first.Strip!, [], 6, 4, IsStrip: true),
            }
        );
        Assert.Contains(later.Result.Warnings, warning => warning.Code == "strip paper");
    }

    [Fact]
    public void A_strip_is_defined_or_used_but_not_both()
    {
        var scene = Scene([]);
        Assert.Equal(
            "strip",
            Refusal(
                new()
                {
                    Picture = scene.Jpeg(),
                    Layout = Sheet,
                    Card = new(Card(6), [], 6, 1),
                    DefineStrip = new([], 6, 1),
                }
            ).Field
        );
        Assert.Contains(
            "No grid of 1 x 6",
            Refusal(
                new()
                {
                    Picture = scene.Jpeg(),
                    Layout = Sheet,
                    DefineStrip = new([], 1, 6),
                }
            ).What
        );
    }

    /// <summary>A card on the table: its top left corner in millimetres, its grid, and by how many quarters it is turned
    /// clockwise.</summary>
    private sealed record Laid(double X, double Y, int Columns, int Rows, int Quarter)
    {
        public int Across => Quarter % 2 == 0 ? Columns : Rows;

        public int Down => Quarter % 2 == 0 ? Rows : Columns;

        /// <summary>Which of the card's patches lies at a column and row as one looks at it.</summary>
        public int PatchAt(int column, int row) =>
            Quarter switch
            {
                0 => (row * Columns) + column,
                1 => ((Rows - 1 - column) * Columns) + row,
                2 => ((Rows - 1 - row) * Columns) + Columns - 1 - column,
                _ => (column * Columns) + Columns - 1 - row,
            };
    }

    /// <summary>The card's corners from the patch that comes first, clockwise.</summary>
    private static PointMm[] Corners(Laid card)
    {
        var (w, h) = (card.Across * Pitch, card.Down * Pitch);
        PointMm[] seen = [new(card.X, card.Y), new(card.X + w, card.Y), new(card.X + w, card.Y + h), new(card.X, card.Y + h)];
        return [.. Enumerable.Range(0, 4).Select(i => OnBoard(seen[(i + card.Quarter) % 4]))];
    }

    private static PointMm OnBoard(PointMm point) => new(point.X + PageX, point.Y + PageY);

    /// <summary>The page on a plain board that fills the picture; cards are placed by millimetres from the page's top left.</summary>
    private static PaintedPhoto Scene(IReadOnlyList<Laid> cards)
    {
        var paint = TestSheets.Paint(Sheet).ToDictionary();
        var cells = Sheet.Cells.Select(cell => cell with { PolygonMm = [.. cell.PolygonMm.Select(OnBoard)] }).ToList();
        foreach (var (card, number) in cards.Select((card, number) => (card, number)))
        {
            for (var i = 0; i < card.Across * card.Down; i++)
            {
                var (column, row) = (i % card.Across, i / card.Across);
                var (x, y) = (card.X + (column * Pitch) + 0.9, card.Y + (row * Pitch) + 0.9);
                var id = $"card{number}-{i}";
                cells.Add(
                    new(
                        id,
                        [
                            OnBoard(new(x, y)),
                            OnBoard(new(x + Pitch - 1.8, y)),
                            OnBoard(new(x + Pitch - 1.8, y + Pitch - 1.8)),
                            OnBoard(new(x, y + Pitch - 1.8)),
                        ]
                    )
                );
                paint[id] = Colour(card.PatchAt(column, row));
            }
        }

        bool OnCard(double x, double y) =>
            cards.Any(card =>
                x > card.X - 3 && y > card.Y - 3 && x < card.X + (card.Across * Pitch) + 3 && y < card.Y + (card.Down * Pitch) + 3
            );
        var markers = Sheet
            .Markers.Select(marker => (marker.CornersMm[0].X, marker.CornersMm[0].Y, Cells: Tag36h11.Cells(marker.Id)))
            .ToArray();
        return new()
        {
            Layout = Sheet with { WidthMm = 300, HeightMm = 260, Cells = cells },
            Paint = paint,
            Width = 1300,
            Height = 980,
            Fill = 1.12,
            Perspective = 0.08,
            LightRatio = 1.4,
            Print = (boardX, boardY) =>
            {
                var (x, y) = (boardX - PageX, boardY - PageY);
                if (OnCard(x, y))
                    return 0.02;
                if (x is < 0 or > 148 || y is < 0 or > 210)
                    return 0.3;
                foreach (var marker in markers)
                {
                    var (u, v) = ((x - marker.X) / 12 * 8, (y - marker.Y) / 12 * 8);
                    if (u >= 0 && v >= 0 && u < 8 && v < 8)
                        return marker.Cells[(int)v, (int)u] ? 1 : 0;
                }

                return 1;
            },
        };
    }

    private static IReadOnlyList<CardPatch> Card(int count) =>
        [.. Enumerable.Range(0, count).Select(i => new CardPatch($"{i + 1}", Colour(i)))];

    private static Lab Colour(int i)
    {
        var (sin, cos) = Math.SinCos(i * 97 % 360 * Math.PI / 180);
        var chroma = 8 + (i * 17 % 22);
        return new(40 + (i * 37 % 53), chroma * cos, chroma * sin);
    }

    /// <summary>The same scene as another camera in warmer light would write it: light through a matrix, then a bent curve.</summary>
    private static byte[] OtherCamera(PaintedPhoto scene)
    {
        using var bitmap = scene.Render();
        var pixels = bitmap.GetPixelSpan().ToArray();
        for (var at = 0; at < pixels.Length; at += 4)
        {
            var (r, g, b) = (
                FileColour.SrgbToLinear(pixels[at] / 255.0),
                FileColour.SrgbToLinear(pixels[at + 1] / 255.0),
                FileColour.SrgbToLinear(pixels[at + 2] / 255.0)
            );
            pixels[at] = Bent((0.94 * r) + (0.06 * g));
            pixels[at + 1] = Bent(0.95 * ((0.04 * r) + (0.92 * g) + (0.04 * b)));
            pixels[at + 2] = Bent(0.86 * ((0.07 * g) + (0.93 * b)));
        }

        Marshal.Copy(pixels, 0, bitmap.GetPixels(), pixels.Length);
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 93);
        return data.ToArray();

        static byte Bent(double light)
        {
            var encoded = FileColour.LinearToSrgb(Math.Clamp(light, 0, 1));
            return (byte)Math.Round(255 * ((0.75 * encoded) + (0.25 * encoded * encoded * (3 - (2 * encoded)))));
        }
    }

    private static double Apart(ReadPhotoAnswer first, ReadPhotoAnswer second) =>
        first
            .Result.Swatches.Zip(second.Result.Swatches)
            .Select(pair => Difference.Ciede2000(pair.First.Lab, pair.Second.Lab))
            .Order()
            .ElementAt(12);

    private static ReadPhotoAnswer Read(ReadPhotoRequest request)
    {
        var outcome = new ReadPhoto().Handle(request);
        return outcome.TryGet(out var answer) ? answer : throw new InvalidOperationException(outcome.Problems[0].ToString());
    }

    private static Problem Refusal(ReadPhotoRequest request) => Assert.Single(new ReadPhoto().Handle(request).Problems);
}
