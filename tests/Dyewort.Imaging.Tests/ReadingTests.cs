using Dyewort.Colour;
using Dyewort.Readings;
using Dyewort.Testing.Photos;
using Xunit;

namespace Dyewort.Imaging.Tests;

/// <summary>A painted sheet with known colours, in perspective, on a cluttered table, under light that falls off two to one.</summary>
public sealed class ReadingTests
{
    [Theory, InlineData(0), InlineData(90), InlineData(180), InlineData(270), InlineData(33)]
    public void Every_cell_is_read_right_at_any_turn(double turn) => Check(Photo() with { Turn = turn }, 1);

    [Theory, InlineData(2), InlineData(3), InlineData(4), InlineData(5), InlineData(6), InlineData(7), InlineData(8)]
    public void Every_cell_is_read_right_with_every_orientation_tag(int orientation) => Check(Photo(), orientation);

    [Fact]
    public void A_wide_colour_space_is_honoured() => Check(Photo() with { DisplayP3 = true }, 1);

    [Theory, InlineData(0), InlineData(1), InlineData(2), InlineData(3)]
    public void Three_of_four_markers_suffice(int hidden) => Check(Photo() with { HiddenMarkers = new HashSet<int> { hidden } }, 1);

    [Fact]
    public void With_edge_markers_any_three_not_in_a_line_suffice()
    {
        var sheet = TestSheets.Small(edges: true);
        Check(
            new()
            {
                Layout = sheet,
                Paint = TestSheets.Paint(sheet),
                HiddenMarkers = new HashSet<int> { 0, 1, 2, 560, 562 },
            },
            1
        );
    }

    [Fact]
    public void The_page_of_another_chart_is_refused()
    {
        var outcome = Page(
            Photo() with
            {
                Layout = TestSheets.Small(chart: 5),
                Paint = TestSheets.Paint(TestSheets.Small(5)),
            },
            TestSheets.Small()
        );
        Assert.Contains("another chart", outcome);
    }

    [Fact]
    public void A_photo_without_a_page_is_refused()
    {
        var sheet = TestSheets.Small();
        Assert.Contains(
            "No page was found",
            Page(
                Photo() with
                {
                    HiddenMarkers = new HashSet<int> { 0, 1, 2, 3 },
                },
                sheet
            )
        );
    }

    [Theory, InlineData(255, "overexposed"), InlineData(3, "too dark")]
    public void A_photo_that_is_white_or_black_all_over_says_so(byte level, string says)
    {
        using var bitmap = new SkiaSharp.SKBitmap(
            new SkiaSharp.SKImageInfo(800, 600, SkiaSharp.SKColorType.Rgba8888, SkiaSharp.SKAlphaType.Opaque)
        );
        bitmap.Erase(new SkiaSharp.SKColor(level, level, level));
        using var data = bitmap.Encode(SkiaSharp.SKEncodedImageFormat.Jpeg, 90);
        Assert.True(PhotoFile.Open("photo", data.ToArray()).TryGet(out var photo));
        using (photo)
        {
            var problem = Assert.Single(FindPage.ByMarkers("photo", photo, TestSheets.Small()).Problems);
            Assert.Contains(says, problem.What);
            Assert.NotEmpty(problem.Remedy);
        }
    }

    [Fact]
    public void The_same_markers_on_another_sheet_are_refused()
    {
        var other = TestSheets.Small() with { WidthMm = 210, HeightMm = 148 };
        var turned = other with
        {
            Markers = [.. other.Markers.Select(m => m with { CornersMm = [.. m.CornersMm.Select(p => new PointMm(p.Y, p.X))] })],
        };
        Assert.NotEmpty(Page(Photo(), turned));
    }

    [Fact]
    public void Bare_cells_are_told_from_painted_ones()
    {
        var sheet = TestSheets.Small();
        var paint = TestSheets.Paint(sheet).Where(pair => pair.Key[0] != 'B').ToDictionary();
        using var photo = Open(Photo() with { Paint = paint });
        FindPage.ByMarkers("photo", photo, sheet).TryGet(out var page);
        foreach (var cell in SampleCells.OnPage(photo, sheet, page!.Pose, page.Markers).Cells)
            Assert.Equal(cell.Id[0] == 'B', cell.Coverage == 0);
    }

    [Theory, InlineData(0.25, 0.003), InlineData(0.45, 0.003), InlineData(0.55, 0.003), InlineData(0.25, 0.012), InlineData(0.45, 0.012)]
    public void A_cell_is_read_by_its_paint_though_less_than_half_of_it_is_painted(double share, double noise)
    {
        // What is read are the middle 54 % of a cell's width. The light blue of cell B3 is lighter than its paper in one channel, as no
        // film of ink is.
        var sheet = DrawnPhoto.OfSmallSheet();
        var drawn = sheet with
        {
            Filled = 0.23 + (0.54 * share),
            Noise = noise,
            Paint = sheet.Paint.Where(pair => pair.Key != "B3").ToDictionary(),
        };
        Assert.True(PhotoFile.Open("photo", drawn.Jpeg()).TryGet(out var photo));
        using (photo)
        {
            Assert.True(FindPage.ByMarkers("photo", photo, drawn.Layout).TryGet(out var page));
            var samples = SampleCells.OnPage(photo, drawn.Layout, page.Pose, page.Markers);
            var mean = SampleCells.PictureMean(photo);
            var measured = new Measured(samples.Cells, samples.Markers, photo.Colour, mean, false, samples.Light!.Residual);
            var (swatches, _, _) = ReadPage.Of(measured, new Lab(95, -0.5, 3), null);
            foreach (var (swatch, i) in swatches.Select((swatch, i) => (swatch, i)))
            {
                if (swatch.Id == "B3")
                {
                    Assert.Equal(0, swatch.Coverage);
                    continue;
                }

                var colour = DrawnPhoto.PlantColour(i);
                var off = Difference.Ciede2000(swatch.Lab, new Lab(colour[0], colour[1], colour[2]));
                Assert.True(off <= 1.5 && off <= swatch.UncertaintyDe00, $"{swatch.Id}: ΔE00 {off:0.00} ± {swatch.UncertaintyDe00:0.0}");

                // Beside two deep blues the bare part is taken for shine; it is left out all the same.
                if (samples.Cells[i].Glare < 0.01)
                    Assert.Equal(share, swatch.Coverage, 0.02);
            }

            Assert.True(samples.Cells.Count(cell => cell.Glare < 0.01) >= 22);
        }
    }

    [Fact]
    public void Spots_outlined_on_the_photo_are_read_like_cells()
    {
        var painted = Photo();
        using var photo = Open(painted);
        var spots = painted
            .Layout.Cells.Select(cell => (cell.Id, (IReadOnlyList<PointPx>)[.. cell.PolygonMm.Select(painted.Project)], false))
            .ToList();
        var samples = SampleCells.OnPhoto(photo, spots);
        var errors = Errors(painted, photo, samples, []);

        // Without markers nothing tells that this picture was left as it was: the usual camera's curve is taken off, and that costs a
        // little.
        Assert.True(errors.Order().ElementAt(12) <= 2.2, $"median {errors.Order().ElementAt(12):0.00}");
    }

    [Fact]
    public void A_pencil_line_across_a_cell_is_left_out_and_said_on_pages_and_on_spots()
    {
        var painted = Photo();
        var cells = painted
            .Layout.Cells.Where(cell => painted.Paint[cell.Id].L > 60)
            .ToDictionary(cell => cell.Id, cell => cell.PolygonMm[0]);
        Assert.True(cells.Count > 6);

        // In every second of the paler cells a line of half a millimetre falls across.
        var marked = cells.Where((_, i) => i % 2 == 0).ToDictionary();
        painted = painted with
        {
            Pencil = mm =>
                marked.Values.Any(corner =>
                    mm.X > corner.X && mm.X < corner.X + 25 && Math.Abs(mm.Y - corner.Y - 7 - (0.15 * (mm.X - corner.X))) < 0.25
                ),
        };
        using var photo = Open(painted);
        Assert.True(FindPage.ByMarkers("photo", photo, painted.Layout).TryGet(out var page));
        var samples = SampleCells.OnPage(photo, painted.Layout, page.Pose, page.Markers);
        Assert.All(samples.Cells, cell => Assert.Equal(marked.ContainsKey(cell.Id), cell.Marked > 0));
        Assert.All(Errors(painted, photo, samples, samples.Markers), error => Assert.True(error <= 3, $"ΔE00 {error:0.00}"));
        var spots = painted
            .Layout.Cells.Select(cell => (cell.Id, (IReadOnlyList<PointPx>)[.. cell.PolygonMm.Select(painted.Project)], false))
            .ToList();
        Assert.All(SampleCells.OnPhoto(photo, spots).Cells, cell => Assert.Equal(marked.ContainsKey(cell.Id), cell.Marked > 0));
    }

    private static PaintedPhoto Photo()
    {
        var sheet = TestSheets.Small();
        return new() { Layout = sheet, Paint = TestSheets.Paint(sheet) };
    }

    private static void Check(PaintedPhoto painted, int orientation)
    {
        using var photo = Open(painted, orientation);
        var outcome = FindPage.ByMarkers("photo", photo, painted.Layout);
        Assert.True(outcome.TryGet(out var page), outcome.Problems.Count == 0 ? "" : outcome.Problems[0].What);
        foreach (var cell in painted.Layout.Cells)
        {
            foreach (var corner in cell.PolygonMm)
                Assert.True(page.Pose.Project(corner).DistanceTo(painted.Project(corner)) < 3, $"{cell.Id} is misplaced");
        }

        var samples = SampleCells.OnPage(photo, painted.Layout, page.Pose, page.Markers);
        Assert.All(samples.Cells, cell => Assert.Equal(0, cell.Marked));
        var errors = Errors(painted, photo, samples, samples.Markers);
        Assert.All(errors, error => Assert.True(error <= 3, $"ΔE00 {error:0.00}"));
        var median = errors.Order().ElementAt(errors.Count / 2);
        Assert.True(median <= 1.5, $"median ΔE00 {median:0.00}");
    }

    private static List<double> Errors(PaintedPhoto painted, OpenPhoto photo, PageSamples samples, IReadOnlyList<InkSample> markers)
    {
        var measured = new Measured(samples.Cells, markers, photo.Colour, SampleCells.PictureMean(photo), false, samples.Light!.Residual);
        var (swatches, _, _) = ReadPage.Of(measured, painted.Paper, null);
        Assert.Equal(painted.Layout.Cells.Select(cell => cell.Id), swatches.Select(swatch => swatch.Id));
        return [.. swatches.Select(swatch => Difference.Ciede2000(swatch.Lab, painted.Paint[swatch.Id]))];
    }

    private static OpenPhoto Open(PaintedPhoto painted, int orientation = 1)
    {
        var opened = PhotoFile.Open("photo", painted.Jpeg(orientation));
        Assert.True(opened.TryGet(out var photo), opened.Problems.Count == 0 ? "" : opened.Problems[0].What);
        Assert.Equal((painted.Width, painted.Height), (photo.Width, photo.Height));
        return photo;
    }

    private static string Page(PaintedPhoto painted, SheetLayout expected)
    {
        using var photo = Open(painted);
        var outcome = FindPage.ByMarkers("photo", photo, expected);
        return outcome.TryGet(out _) ? "" : outcome.Problems[0].What;
    }
}
