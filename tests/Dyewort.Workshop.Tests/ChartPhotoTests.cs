using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Photos of charts in the notebook: found by markers, pointed to by hand, read again, taken back.</summary>
public sealed class ChartPhotoTests
{
    private static readonly Xyz White = Paper.DrawingPaperGuess.Colour;

    private static readonly Dictionary<string, Lab> Painted = new()
    {
        ["A1"] = new(48, 24, -12),
        ["A2"] = new(66, 6, 40),
        ["A3"] = new(38, -6, -18),
    };

    [Fact]
    public async Task A_photo_without_its_markers_is_kept_and_read_where_the_maker_points()
    {
        await using var bench = await Bench.SetUpAsync();
        var (number, layout) = await ChartAsync(bench, new() { Page = "A5", Columns = "2" });
        var picture = SheetPicture.Draw(layout with { Markers = [] }, Shot(Painted));
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(number, picture, new() { State = "Dry", TakenOn = "2025-09-07" }, default)
        );
        Assert.False(sent.IsRead);
        await using (var db = bench.Read())
        {
            var kept = await db.Photos.SingleAsync();
            Assert.Contains("marker", kept.WhyNotRead, StringComparison.Ordinal);
            Assert.Equal((1200, 1600, SwatchState.Dry), (kept.WidthPx!.Value, kept.HeightPx!.Value, kept.State!.Value));
            Assert.Empty(await db.Readings.Where(reading => reading.PhotoId == kept.Id).ToListAsync());
        }

        // The page's corners as the picture was drawn; the first try is a corner off and is corrected, not lost.
        string[] corners = ["108, 112", "1080, 144", "1116, 1488", "72, 1520"];
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(number, sent.Id, new() { Way = "Sheet", Corner = ["300, 300", .. corners[1..]] }, default)
        );
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(number, sent.Id, new() { Way = "Sheet", Corner = corners }, default)
        );
        await HoldsAsync(bench, sent.Id, SwatchState.Dry, Painted);
        await using (var db = bench.Read())
        {
            var readings = await db.Readings.Where(reading => reading.PhotoId == sent.Id).ToListAsync();
            Assert.Equal(6, readings.Count);
            Assert.Equal(3, readings.Count(reading => reading.CorrectsId is { } before && readings.Exists(one => one.Id == before)));
            Assert.Null((await db.Photos.SingleAsync()).WhyNotRead);
        }

        // The same by the block's corners: the cells' outer edges on the page, taken through the same projection.
        var block = Block(layout, [.. corners.Select(corner => Placing.Parse(corner)![0])]);
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(
                number,
                sent.Id,
                new()
                {
                    Way = "Grid",
                    Corner = block,
                    Columns = "2",
                    Rows = "2",
                },
                default
            )
        );
        await HoldsAsync(bench, sent.Id, SwatchState.Dry, Painted);
        var shown = await bench.DoAsync<ShowPhoto, ShowPhotoAnswer?>(show => show.HandleAsync(number, sent.Id, default));
        Assert.Equal(3, shown!.Swatches.Count);
        Assert.Equal(PlacingWay.Grid, shown.Placing!.Way);
        var marked = await bench.DoAsync<PhotoPicture, byte[]?>(picture => picture.MarkedAsync(sent.Id, default));
        Assert.NotNull(marked);
    }

    [Fact]
    public async Task Swatches_painted_without_a_sheet_are_read_one_by_one()
    {
        await using var bench = await Bench.SetUpAsync();
        var (number, layout) = await ChartAsync(bench, new() { Columns = "2", Free = "yes" });
        Assert.Empty(layout.Markers);
        Assert.Null(
            await bench.DoAsync<ChartSheet, byte[]?>(sheet => sheet.HandleAsync(number, new Uri("http://localhost/charts/C4"), default))
        );
        // On a sheet of 100 mm, 25 mm in from its edges, 7.2 pixels to a millimetre, 40 pixels of table around it.
        var paper = new SheetLayout(
            100,
            100,
            [],
            [
                .. layout.Cells.Select(cell =>
                    cell with
                    {
                        PolygonMm = [.. cell.PolygonMm.Select(point => new PointMm(point.X + 25, point.Y + 25))],
                    }
                ),
            ]
        );
        (double X, double Y)[] square = [(0.05, 0.05), (0.95, 0.05), (0.95, 0.95), (0.05, 0.95)];
        var picture = SheetPicture.Draw(paper, Shot(Painted) with { Corners = square, Width = 800, Height = 800 });
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(number, picture, new() { State = "Dry", Source = "Scan" }, default)
        );
        Assert.False(sent.IsRead);

        // Cells are 20 mm wide and 25 mm apart, the first from 27.5 mm.
        var spots = new Dictionary<string, string>
        {
            ["A1"] = "310, 310",
            ["A2"] = "490, 310",
            ["A3"] = "238, 418  382, 418  382, 562  238, 562",
        };
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(
                number,
                sent.Id,
                new()
                {
                    Way = "Spots",
                    Spots = spots,
                    Side = "140",
                },
                default
            )
        );
        await HoldsAsync(bench, sent.Id, SwatchState.Dry, Painted);
        await using var db = bench.Read();
        Assert.All(
            await db.Readings.Where(reading => reading.PhotoId == sent.Id).ToListAsync(),
            reading => Assert.Equal(ReadingSource.Scan, reading.Source)
        );
    }

    [Theory]
    [InlineData("Sheet", "12, 40", "Four corners")]
    [InlineData("Grid", "", "Four corners")]
    [InlineData("Spots", "", "No swatch")]
    public async Task Pointing_that_cannot_be_used_is_refused_and_the_photo_stays(string way, string corner, string says)
    {
        await using var bench = await Bench.SetUpAsync();
        var (number, layout) = await ChartAsync(bench, new() { Page = "A5", Columns = "2" });
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(number, SheetPicture.Draw(layout, Shot(Painted)), new() { Point = "yes" }, default)
        );
        Assert.False(sent.IsRead);
        var outcome = await bench.DoAsync<PlaceSwatches, Outcome<Guid>>(place =>
            place.HandleAsync(
                number,
                sent.Id,
                new()
                {
                    Way = way,
                    Corner = [corner],
                    Columns = "2",
                    Rows = "2",
                },
                default
            )
        );
        Assert.Contains(outcome.Problems, problem => problem.What.Contains(says, StringComparison.Ordinal));
        await using var db = bench.Read();
        Assert.True((await db.Photos.SingleAsync()).Counts);
        Assert.Empty(await db.Readings.Where(reading => reading.PhotoId == sent.Id).ToListAsync());
    }

    [Theory, InlineData(CoveredHalf.Left), InlineData(CoveredHalf.Lower)]
    public async Task A_covered_and_an_open_half_are_read_apart(CoveredHalf half)
    {
        await using var bench = await Bench.SetUpAsync();
        var (number, layout) = await ChartAsync(bench, new() { Page = "A5", Columns = "2" });
        var faded = Painted.ToDictionary(pair => pair.Key, pair => new Lab(pair.Value.L + 12, pair.Value.A * 0.6, pair.Value.B * 0.6));
        var halves = layout with
        {
            Cells =
            [
                .. layout.Cells.SelectMany(cell =>
                {
                    double left = cell.PolygonMm[0].X,
                        top = cell.PolygonMm[0].Y,
                        right = cell.PolygonMm[2].X,
                        bottom = cell.PolygonMm[2].Y,
                        x = (left + right) / 2,
                        y = (top + bottom) / 2;
                    SheetCell Part(string id, double x0, double y0, double x1, double y1) =>
                        new(id, [new(x0, y0), new(x1, y0), new(x1, y1), new(x0, y1)]);
                    return (SheetCell[])(
                        half == CoveredHalf.Left
                            ? [Part(cell.Id + " covered", left, top, x, bottom), Part(cell.Id, x, top, right, bottom)]
                            : [Part(cell.Id, left, top, right, y), Part(cell.Id + " covered", left, y, right, bottom)]
                    );
                }),
            ],
        };
        var paint = faded.Concat(Painted.Select(pair => KeyValuePair.Create(pair.Key + " covered", pair.Value))).ToDictionary();
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(
                number,
                SheetPicture.Draw(halves, Shot(paint)),
                new()
                {
                    State = "Exposed",
                    Covered = half.ToString(),
                    ExposedHours = "40",
                    ExposedTo = "south window",
                },
                default
            )
        );
        Assert.True(sent.IsRead);
        await HoldsAsync(bench, sent.Id, SwatchState.Exposed, faded);
        await HoldsAsync(bench, sent.Id, SwatchState.Aged, Painted);
        await using var db = bench.Read();
        Assert.All(
            await db.Readings.Where(reading => reading.PhotoId == sent.Id).ToListAsync(),
            reading => Assert.Equal(reading.State == SwatchState.Exposed ? 40 : null, reading.ExposedHours)
        );
    }

    [Fact]
    public async Task A_photo_sent_by_mistake_is_taken_back_with_its_readings_and_a_chart_is_corrected()
    {
        await using var bench = await Bench.SetUpAsync();
        var (number, layout) = await ChartAsync(bench, new() { Page = "A5", Columns = "2" });
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(number, SheetPicture.Draw(layout, Shot(Painted)), new() { State = "Wet" }, default)
        );
        Assert.True(sent.IsRead);
        await HoldsAsync(bench, sent.Id, SwatchState.Wet, Painted);
        await bench.DoneAsync<WithdrawPhoto, string>(withdraw => withdraw.HandleAsync(number, sent.Id, "another chart", default));
        var outcome = await bench.DoAsync<WithdrawPhoto, Outcome<string>>(withdraw => withdraw.HandleAsync(number, sent.Id, null, default));
        Assert.NotEmpty(outcome.Problems);
        var shown = await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(number, default));
        Assert.False(shown!.IsRead);
        Assert.Empty(shown.Photos);
        await using (var db = bench.Read())
            Assert.Equal(3, await db.Readings.CountAsync(reading => reading.WithdrawnWhy == "another chart"));

        await bench.DoneAsync<ChangeChart, Thing>(change =>
            change.CorrectAsync(Thing.Chart($"C{number}"), new() { Title = "three jars", PaintedOn = "2025-09-06" }, default)
        );
        shown = await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(number, default));
        Assert.Equal(("three jars", new DateOnly(2025, 9, 6)), (shown!.Chart.Title, shown.Chart.PaintedOn!.Value));
        Assert.Contains(shown.Corrections, one => one.Field == "Title");
    }

    private static SheetShot Shot(IReadOnlyDictionary<string, Lab> paint) =>
        new() { Paint = paint.ToDictionary(pair => pair.Key, pair => pair.Value.ToXyz()), Paper = White };

    private static async Task<(int Number, SheetLayout Layout)> ChartAsync(Bench bench, StartChartForm form)
    {
        var code = await bench.DoneAsync<StartChart, string>(start => start.HandleAsync(bench.Pot, "A", form, default));
        await using var db = bench.Read();
        var chart = await db.Charts.SingleAsync(one => one.Number == int.Parse(code.Substring(1)));
        Assert.True(SheetLayout.Parse("layout", chart.LayoutJson).TryGet(out var layout));
        return (chart.Number, layout);
    }

    private static async Task HoldsAsync(Bench bench, Guid photo, SwatchState state, IReadOnlyDictionary<string, Lab> painted)
    {
        await using var db = bench.Read();
        var readings = await (
            from reading in db.Readings
            join swatch in db.Swatches on reading.SwatchId equals swatch.Id
            where reading.PhotoId == photo && reading.State == state
            select new { reading, swatch.Cell }
        ).ToListAsync();
        var corrected = await db
            .Readings.Where(reading => reading.CorrectsId != null)
            .Select(reading => reading.CorrectsId!.Value)
            .ToListAsync();
        var standing = readings.Where(one => !corrected.Contains(one.reading.Id)).ToList();
        Assert.Equal(painted.Count, standing.Count);
        foreach (var one in standing)
        {
            var off = Difference.Ciede2000(Lab.FromXyz(one.reading.Colour), painted[one.Cell]);
            Assert.True(
                off <= one.reading.UncertaintyDe00 && off < 4,
                $"{one.Cell} {state} was read {off:0.0} off and said ± {one.reading.UncertaintyDe00:0.0}."
            );
        }
    }

    // Swatches fill the middle four fifths of their place in a grid, so the block reaches an eighth of a cell over its outer cells.
    private static string[] Block(SheetLayout layout, IReadOnlyList<PointPx> page)
    {
        var (left, right) = (layout.Cells.Min(cell => cell.PolygonMm[0].X), layout.Cells.Max(cell => cell.PolygonMm[2].X));
        var (top, bottom) = (layout.Cells.Min(cell => cell.PolygonMm[0].Y), layout.Cells.Max(cell => cell.PolygonMm[2].Y));
        var pose = PagePose.FromPoints(
            [new(0, 0), new(layout.WidthMm, 0), new(layout.WidthMm, layout.HeightMm), new(0, layout.HeightMm)],
            page
        )!;
        return [.. pose.Project([new(left, top), new(right, top), new(right, bottom), new(left, bottom)]).Select(Placing.Say)];
    }
}
