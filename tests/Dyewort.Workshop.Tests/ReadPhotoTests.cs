using System.Globalization;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Imaging.Tests;
using Dyewort.Readings;
using Dyewort.Testing;
using Dyewort.Testing.Photos;
using Dyewort.Workshop.Readings;
using SkiaSharp;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class ReadPhotoTests
{
    [Theory, InlineData(0, 1, false), InlineData(90, 6, false), InlineData(180, 3, true), InlineData(270, 8, false)]
    public void The_printed_sheet_rendered_by_another_program_and_photographed_is_read(double turn, int orientation, bool wide)
    {
        Assert.SkipWhen(Tool.Find("pdftoppm") is null, "pdftoppm (Debian: poppler-utils) is not on this machine.");
        Assert.True(
            new PrintSheet(TimeProvider.System)
                .Handle(
                    new()
                    {
                        Cells = "4x6",
                        Page = "A5",
                        Chart = "EB25-1/3",
                    }
                )
                .TryGet(out var sheet)
        );
        var folder = Directory.CreateTempSubdirectory("dyewort-read");
        try
        {
            File.WriteAllBytes(Path.Combine(folder.FullName, "sheet.pdf"), sheet.Pdf);
            var (exit, _, error) = Tool.Run(
                "pdftoppm",
                ["-r", "200", "-png", "-gray", "-singlefile", "sheet.pdf", "sheet"],
                TimeSpan.FromSeconds(60),
                folder.FullName
            );
            Assert.True(exit == 0, error);
            using var print = SKBitmap.Decode(Path.Combine(folder.FullName, "sheet.png"));
            var levels = Levels(print);
            var (width, height, perMm) = (print.Width, print.Height, 200 / 25.4);
            var painted = new PaintedPhoto
            {
                Layout = sheet.Layout,
                Paint = TestSheets.Paint(sheet.Layout),
                Turn = turn,
                DisplayP3 = wide,
                Print = (x, y) =>
                    levels[(Math.Clamp((int)(y * perMm), 0, height - 1) * width) + Math.Clamp((int)(x * perMm), 0, width - 1)],
            };
            var outcome = new ReadPhoto().Handle(
                new()
                {
                    Picture = painted.Jpeg(orientation),
                    Layout = sheet.Layout,
                    Paper = painted.Paper,
                }
            );
            Assert.True(outcome.TryGet(out var answer), outcome.Problems.Count == 0 ? "" : outcome.Problems[0].What);
            using (answer)
            {
                var swatches = answer.Result.Swatches;
                Assert.Equal(sheet.Layout.Cells.Select(cell => cell.Id), swatches.Select(swatch => swatch.Id));
                var errors = swatches.Select(swatch => Difference.Ciede2000(swatch.Lab, painted.Paint[swatch.Id])).ToList();
                Assert.All(errors, e => Assert.True(e <= 3, $"ΔE00 {e:0.00}"));
                Assert.True(errors.Order().ElementAt(12) <= 1.5, $"median ΔE00 {errors.Order().ElementAt(12):0.00}");
                foreach (
                    var (corner, seen) in new PointMm[] { new(0, 0), new(148, 0), new(148, 210), new(0, 210) }.Zip(
                        answer.Result.PageCornersPx
                    )
                )
                    Assert.True(painted.Project(corner).DistanceTo(seen) < 4);
                using var marked = SKBitmap.Decode(answer.MarkedPicture(800));
                Assert.Equal(800, Math.Max(marked.Width, marked.Height));
                using var crop = SKBitmap.Decode(answer.Crop(swatches[5]));
                Assert.InRange(crop.Width, 60, 320);
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Corners_tapped_by_hand_do_for_hidden_markers_and_for_sheets_never_printed()
    {
        var painted = Painted() with
        {
            HiddenMarkers = new HashSet<int> { 0, 1, 2, 3 },
        };
        var picture = painted.Jpeg();
        PointMm[] page = [new(0, 0), new(148, 0), new(148, 210), new(0, 210)];
        using var withSheet = Read(
            new()
            {
                Picture = picture,
                Layout = painted.Layout,
                Corners = [.. page.Select(painted.Project)],
                Paper = painted.Paper,
            }
        );
        Check(withSheet, painted, 2.5);

        var cells = painted.Layout.Cells;
        double Left(int i) => cells[i].PolygonMm.Min(p => p.X);
        var top = cells[0].PolygonMm[0].Y;
        var (pitchX, pitchY) = (Left(1) - Left(0), cells[4].PolygonMm[0].Y - cells[0].PolygonMm[0].Y);
        var (w, h) = (cells[0].PolygonMm[1].X - Left(0), cells[0].PolygonMm[2].Y - top);
        var (x0, y0) = (Left(0) - ((pitchX - w) / 2), top - ((pitchY - h) / 2));
        PointMm[] grid = [new(x0, y0), new(x0 + (4 * pitchX), y0), new(x0 + (4 * pitchX), y0 + (6 * pitchY)), new(x0, y0 + (6 * pitchY))];
        using var byGrid = Read(
            new()
            {
                Picture = picture,
                Corners = [.. grid.Select(painted.Project)],
                Grid = (4, 6),
                Paper = painted.Paper,
            }
        );
        Check(byGrid, painted, 3);
    }

    [Fact]
    public void What_is_missing_or_impossible_is_refused()
    {
        var painted = Painted();
        Assert.Equal("layout", Problem(new() { Picture = [1, 2, 3] }).Field);
        Assert.Equal("photo", Problem(new() { Picture = [], Layout = painted.Layout }).Field);
        Assert.Equal(
            "corners",
            Problem(
                new()
                {
                    Picture = painted.Jpeg(),
                    Layout = painted.Layout,
                    Corners = [new(1, 1)],
                }
            ).Field
        );
        Assert.Equal(
            "grid",
            Problem(
                new()
                {
                    Picture = painted.Jpeg(),
                    Corners = [new(1, 1), new(9, 1), new(9, 9), new(1, 9)],
                    Grid = (0, 3),
                }
            ).Field
        );
    }

    [Fact]
    public void The_answer_for_machines_has_the_shape_that_was_agreed()
    {
        var painted = Painted();
        using var answer = Read(new() { Picture = painted.Jpeg(), Layout = painted.Layout });
        using var json = JsonDocument.Parse(ReadingJson.Write(answer.Result));
        var first = json.RootElement.GetProperty("swatches")[0];
        Assert.Equal("A1", first.GetProperty("id").GetString());
        Assert.Equal(3, first.GetProperty("lab").GetArrayLength());
        Assert.True(first.GetProperty("uncertaintyDe00").GetDouble() > 0);
        Assert.InRange(first.GetProperty("evenness").GetDouble(), 0, 1);
        Assert.InRange(first.GetProperty("coverage").GetDouble(), 0, 1);
        Assert.Equal("paper", json.RootElement.GetProperty("calibration").GetProperty("method").GetString());
        Assert.Equal(4, json.RootElement.GetProperty("page").GetProperty("cornersPx").GetArrayLength());
        Assert.Contains(
            json.RootElement.GetProperty("warnings").EnumerateArray(),
            one => one.GetString()!.Contains("guess", StringComparison.Ordinal)
        );
    }

    [Theory, InlineData(0, 12, 0.75), InlineData(90, 16, 0.6), InlineData(200, 22, 0.5)]
    public void A_sheet_drawn_by_a_camera_of_its_own_is_read(double turn, double tilt, double falloff)
    {
        var drawn = DrawnPhoto.OfSmallSheet() with { Turn = turn, Tilt = tilt, Falloff = falloff, Seed = (int)turn };
        using var answer = Read(
            new()
            {
                Picture = drawn.Jpeg(),
                Layout = drawn.Layout,
                Paper = new Lab(95, -0.5, 3),
            }
        );
        var swatches = answer.Result.Swatches;
        Assert.Equal(drawn.Layout.Cells.Select(cell => cell.Id), swatches.Select(swatch => swatch.Id));
        var errors = swatches
            .Select(
                (swatch, i) =>
                    (
                        De00: Difference.Ciede2000(
                            swatch.Lab,
                            DrawnPhoto.PlantColour(i) is var lab ? new Lab(lab[0], lab[1], lab[2]) : default
                        ),
                        Stated: swatch.UncertaintyDe00
                    )
            )
            .ToList();
        var said = string.Join(' ', errors.Select(e => string.Create(CultureInfo.InvariantCulture, $"{e.De00:0.00}±{e.Stated:0.0}")));
        TestContext.Current.TestOutputHelper?.WriteLine(said);
        Assert.True(errors.Select(e => e.De00).Order().ElementAt(12) <= 0.6, said);
        Assert.All(errors, e => Assert.True(e.De00 <= 1 && e.De00 <= e.Stated, said));
    }

    /// <summary>The photos that the project carries, and those of the folder beside the checkout where it is there.</summary>
    public static TheoryData<string> Cards()
    {
        var data = new TheoryData<string> { "card-on-carpet", "card-with-veil", "card-turned", "scan-soiled", "scan-clean" };
        string[] others =
        [
            "01_mat_a3_straight",
            "03_mat_a3_desk_glare",
            "05_mat_a3_desk_rotated",
            "12_scanner_herbarium_soiled_card",
            "13_scanner_herbarium_clean_card",
            "18_outdoor_two_page_card",
        ];
        foreach (var name in others.Where(name => Repository.Shared("photos", "set", name + ".json") is not null))
            data.Add(name);
        return data;
    }

    /// <summary>Real photos of a published card: every other patch is the card, the rest is read.</summary>
    [Theory, MemberData(nameof(Cards))]
    public void Half_of_a_real_card_reads_the_other_half(string name)
    {
        var (file, patches) = Card(name);
        Assert.Equal(24, patches.Count);
        Assert.True(Dyewort.Imaging.PhotoFile.OpenFile("photo", file).TryGet(out var photo));
        using (photo)
        {
            var all = patches
                .Select(patch =>
                {
                    var (mean, _, clipped) = Dyewort.Imaging.SampleCells.Patch(photo, patch.Quad, 0.8);
                    return new ReferencePatch(
                        patch.Number.ToString(CultureInfo.InvariantCulture),
                        mean,
                        patch.Lab.ToXyz(),
                        ((patch.Number - 1) % 6 / 6.0) + 0.08,
                        ((patch.Number - 1) / 6 / 4.0) + 0.12,
                        clipped
                    );
                })
                .ToList();
            double sum = 0,
                plain = 0;
            for (var half = 0; half < 2; half++)
            {
                var card = all.Where((_, i) => (i + (i / 6)) % 2 == half).ToList();
                var fit = CardFit.Best(
                    card,
                    photo.Colour,
                    CameraLook.Estimate(
                        [],
                        card.MaxBy(patch => patch.Light.G)!.Light,
                        0.5,
                        scan: name.Contains("scan", StringComparison.Ordinal)
                    )
                )!;
                var white = card.MaxBy(patch => patch.Colour.Y)!;
                var target = photo.Colour.FromXyz(white.Colour);
                foreach (var patch in all.Except(card))
                {
                    var slope = new FileRgb(fit.White.R, fit.White.G, fit.White.B);
                    var light = fit.Look.Undo(patch.Light);
                    var seen = Lab.FromXyz(photo.Colour.ToXyz(fit.Map.Map(new(light.R / slope.R, light.G / slope.G, light.B / slope.B))));
                    var raw = Lab.FromXyz(
                        photo.Colour.ToXyz(
                            new(
                                patch.Light.R / white.Light.R * target.R,
                                patch.Light.G / white.Light.G * target.G,
                                patch.Light.B / white.Light.B * target.B
                            )
                        )
                    );
                    sum += Difference.Ciede2000(seen, Lab.FromXyz(patch.Colour)) / all.Count;
                    plain += Difference.Ciede2000(raw, Lab.FromXyz(patch.Colour)) / all.Count;
                }
            }

            TestContext.Current.SendDiagnosticMessage($"{name}: half card {sum:0.00}, white patch alone {plain:0.00} mean ΔE00");
            var report = Repository.PathOf("artifacts", "accuracy");
            Directory.CreateDirectory(report);
            File.WriteAllText(
                Path.Combine(report, $"half-card-{name}.txt"),
                string.Create(CultureInfo.InvariantCulture, $"| {name} | {sum:0.00} | {plain:0.00} |\n")
            );
            Assert.True(sum < plain, $"half a card {sum:0.00}, white alone {plain:0.00}");
        }
    }

    private static (string File, List<(int Number, IReadOnlyList<PointPx> Quad, Lab Lab)> Patches) Card(string name)
    {
        if (!char.IsAsciiDigit(name[0]))
        {
            var carried = CarriedPhoto.Of(name);
            return (
                carried.Path,
                [
                    .. carried.Patches.Select(
                        (patch, i) =>
                            (
                                i + 1,
                                (IReadOnlyList<PointPx>)[.. patch.Corners.Select(p => new PointPx(p.X, p.Y))],
                                Adaptation.LabFromD50(new(patch.LabD50[0], patch.LabD50[1], patch.LabD50[2]))
                            )
                    ),
                ]
            );
        }

        var truthFile = Repository.Shared("photos", "set", name + ".json")!;
        using var truth = JsonDocument.Parse(File.ReadAllText(truthFile));
        return (
            Path.Combine(Path.GetDirectoryName(truthFile)!, truth.RootElement.GetProperty("file").GetString()!),
            [
                .. truth
                    .RootElement.GetProperty("grids")[0]
                    .GetProperty("patches")
                    .EnumerateArray()
                    .Select(patch =>
                        (
                            patch.GetProperty("nr").GetInt32(),
                            (IReadOnlyList<PointPx>)
                                [
                                    .. patch
                                        .GetProperty("sample_quad")
                                        .EnumerateArray()
                                        .Select(p => new PointPx(p[0].GetDouble(), p[1].GetDouble())),
                                ],
                            Adaptation.LabFromD50(Three(patch.GetProperty("lab_d50_ref")))
                        )
                    ),
            ]
        );
    }

    private static Lab Three(JsonElement e) => new(e[0].GetDouble(), e[1].GetDouble(), e[2].GetDouble());

    private static PaintedPhoto Painted()
    {
        var sheet = TestSheets.Small();
        return new()
        {
            Layout = sheet,
            Paint = TestSheets.Paint(sheet),
            Perspective = 0.05,
        };
    }

    private static ReadPhotoAnswer Read(ReadPhotoRequest request)
    {
        var outcome = new ReadPhoto().Handle(request);
        return outcome.TryGet(out var answer) ? answer : throw new InvalidOperationException(outcome.Problems[0].What);
    }

    private static Quantities.Problem Problem(ReadPhotoRequest request) => Assert.Single(new ReadPhoto().Handle(request).Problems);

    private static void Check(ReadPhotoAnswer answer, PaintedPhoto painted, double median)
    {
        var errors = answer.Result.Swatches.Select(swatch => Difference.Ciede2000(swatch.Lab, painted.Paint[swatch.Id])).Order().ToList();
        Assert.Equal(24, errors.Count);
        Assert.True(errors[12] <= median, $"median ΔE00 {errors[12]:0.00}");
    }

    private static double[] Levels(SKBitmap print)
    {
        var levels = new double[print.Width * print.Height];
        for (var y = 0; y < print.Height; y++)
        {
            for (var x = 0; x < print.Width; x++)
                levels[(y * print.Width) + x] = print.GetPixel(x, y).Green / 255.0;
        }

        return levels;
    }
}
