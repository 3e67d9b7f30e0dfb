using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Photo = Dyewort.Notebook.Photo;

namespace Dyewort.Workshop.Charts;

/// <summary>Reads the photos of charts and writes what was read.</summary>
internal sealed class ChartReader(NotebookDb db, MadeShelf made, ReadPhoto reader, TimeProvider clock)
{
    /// <summary>Pixels along a crop's side.</summary>
    private const int CropSide = 192;

    /// <summary>A standing photo and its chart; null where the chart has no such photo.</summary>
    public static async Task<(Photo Photo, Chart Chart)?> FindAsync(NotebookDb db, int number, Guid photoId, CancellationToken cancel)
    {
        var found = await (
            from one in db.Photos.Counting()
            join chart in db.Charts on one.ChartId equals chart.Id
            where one.Id == photoId && chart.Number == number
            select new { Photo = one, Chart = chart }
        ).SingleOrDefaultAsync(cancel);
        return found is null ? null : (found.Photo, found.Chart);
    }

    /// <summary>Reads a picture with what the photo's entry says about it.</summary>
    /// <returns>The reading; its owner disposes of it. Refusals of pointing carry the fields "corners", "grid" or "spots".</returns>
    /// <param name="chart">The chart.</param>
    /// <param name="photo">The photo's entry.</param>
    /// <param name="picture">The picture file's bytes.</param>
    /// <param name="define">A strip in the picture whose colours this reading is to define.</param>
    public async Task<Outcome<ReadPhotoAnswer>> ReadAsync(
        Chart chart,
        Photo photo,
        byte[] picture,
        CancellationToken cancel,
        ReadPhoto.StripPlace? define = null
    )
    {
        var layout = ChartSheet.LayoutOf(chart);
        var cells = await db
            .Swatches.AsNoTracking()
            .Counting()
            .Where(swatch => swatch.ChartId == chart.Id)
            .OrderBy(swatch => swatch.Id)
            .Select(swatch => swatch.Cell)
            .ToListAsync(cancel);
        var paper = chart.PaperId is { } id ? await db.Materials.AsNoTracking().SingleAsync(one => one.Id == id, cancel) : null;
        var request = new ReadPhotoRequest
        {
            Picture = picture,
            Paper =
                photo.PaperColour is { } said ? Lab.FromXyz(said)
                : paper?.BareColour is { } bare ? Lab.FromXyz(bare)
                : null,
            PaperDoubt = photo.PaperColour is null && paper?.BareUncertaintyDe00 is { } u95 ? u95 / Uncertainty.TwoSided : null,
            PaperKind = paper?.PaperKind,
            Black = paper?.PrintedBlackPercent is { } percent ? PrintedBlack.OfPercent(percent) : null,
            IsScan = photo.Source == ReadingSource.Scan,
            Card = define is null ? await ReferenceAsync(photo, cancel) : null,
            DefineStrip = define,
        };
        if (Placing.FromJson(photo.PlacingJson) is { } placing)
        {
            if (placing.Outlines(cells, layout) is not { Count: > 0 } outlines)
                return Outcome.Refused<ReadPhotoAnswer>(
                    "corners",
                    "Those four corners do not make a page.",
                    "Give the four corners in order, clockwise from the top left."
                );
            request = request with
            {
                Spots = photo.Covered is not { } half
                    ? outlines
                    :
                    [
                        .. outlines.SelectMany(spot =>
                        {
                            var (covered, open) = Placing.Halves(spot.PolygonPx, half);
                            return (ReadPhoto.Spot[])[spot with { PolygonPx = open }, new(spot.Id, covered, IsCovered: true)];
                        }),
                    ],
            };
        }
        else
        {
            request = request with { Layout = photo.Covered is { } half ? Halved(layout, half) : layout };
        }

        return reader.Handle(request);
    }

    /// <summary>Writes a reading for every swatch; those that stood for this photo before are corrected, not lost.</summary>
    public async Task WriteAsync(Chart chart, Photo photo, ReadPhotoAnswer answer, CancellationToken cancel)
    {
        var now = clock.GetUtcNow();
        photo.ReadingJson = ReadingJson.Write(answer.Result);
        photo.WhyNotRead = null;
        if (photo.StripId is not null && answer.Result.CardCornersPx is { Count: 4 } strip)
            photo.StripCornersJson = Placing.PointsJson(strip);
        photo.WidthPx = answer.Photo.Width;
        photo.HeightPx = answer.Photo.Height;
        await LearnBlackAsync(chart, answer.Result.Calibration, cancel);
        chart.PaintedOn ??= DateOnly.FromDateTime(photo.TakenAt.UtcDateTime);
        var swatches = await db.Swatches.Counting().Where(swatch => swatch.ChartId == chart.Id).ToListAsync(cancel);
        var painted = new List<Swatch>();
        var before = await db
            .Readings.AsNoTracking()
            .Counting()
            .Where(reading => reading.PhotoId == photo.Id)
            .OrderBy(reading => reading.Id)
            .ToListAsync(cancel);
        var corrected = before.Select(reading => reading.CorrectsId).OfType<Guid>().ToHashSet();
        foreach (var read in answer.Result.Swatches)
        {
            if (swatches.Find(swatch => swatch.Cell == read.Id) is not { } swatch || !double.IsFinite(read.Colour.Y))
                continue;

            // A cell that waits for a later stage of its jar is bare paper, and no reading.
            if (
                swatch.AfterStep is null
                && read.Warnings.Any(warning => warning.Code == "empty")
                && (
                    swatches.Exists(one => one.AfterStep is not null)
                    || swatches.Exists(one => one.Id != swatch.Id && one.SampleId == swatch.SampleId && one.Wash.Equals(swatch.Wash))
                )
            )
                continue;
            painted.Add(swatch);
            var state = read.IsCovered ? SwatchState.Aged : photo.State ?? SwatchState.Dry;
            var exposed = state == SwatchState.Exposed;
            var reading = new Notebook.Reading
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                SwatchId = swatch.Id,
                At = photo.TakenAt,
                State = state,
                Colour = read.Colour,
                UncertaintyDe00 = read.UncertaintyDe00,
                Source = photo.Source,
                PhotoId = photo.Id,
                PolygonJson = Placing.PointsJson(read.OutlinePx),
                Method = answer.Result.Calibration.Method,
                Warnings = read.Warnings.Count == 0 ? null : string.Join(' ', read.Warnings.Select(warning => warning.Code)),
                CorrectsId = before
                    .LastOrDefault(one => one.SwatchId == swatch.Id && one.State == state && !corrected.Contains(one.Id))
                    ?.Id,
                ExposedHours = exposed ? photo.ExposedHours : null,
                ExposedTo = exposed ? photo.ExposedTo : null,
            };
            db.Add(reading);
            if (CellCrop.Cut(answer.Photo, Placing.Quad(read.OutlinePx), read.SampledPx, read.Colour, CropSide) is { } crop)
                await made.KeepAsync($"{reading.Id}.jpg", crop, cancel);
        }

        await Painting.FixAsync(db, painted, cancel);
    }

    /// <summary>Keeps how black the sheet is printed where a card measured it. A strip was itself read by some black, so it tells nothing
    /// new.</summary>
    private async Task LearnBlackAsync(Chart chart, Calibration calibration, CancellationToken cancel)
    {
        if (chart.PaperId is not { } id || calibration is not { Method: "card", Black: { } black })
            return;
        var percent = Math.Round(100 * black, 1);
        if (percent is < PrintedBlack.LeastPercent or > PrintedBlack.MostPercent)
            return;
        var paper = await db.Materials.SingleAsync(one => one.Id == id, cancel);
        if (paper.PrintedBlackMethod != "typed")
            (paper.PrintedBlackPercent, paper.PrintedBlackMethod) = (percent, "card");
    }

    private async Task<ReadPhotoCard?> ReferenceAsync(Photo photo, CancellationToken cancel)
    {
        if (photo.StripId is not { } id)
            return null;
        var strip = await db.HouseStrips.AsNoTracking().SingleAsync(one => one.Id == id, cancel);
        return CardFile.Parse("strip", strip.Patches).TryGet(out var patches)
            ? new(patches, Placing.PointsOf(photo.StripCornersJson), strip.Columns, strip.Rows, IsStrip: !strip.IsCard)
            : throw new InvalidOperationException($"The patches of {strip.Name} are damaged.");
    }

    private static SheetLayout Halved(SheetLayout layout, CoveredHalf half) =>
        layout with
        {
            Cells =
            [
                .. layout.Cells.SelectMany(cell =>
                {
                    var (covered, open) = Placing.Halves([.. cell.PolygonMm.Select(point => new PointPx(point.X, point.Y))], half);
                    return (SheetCell[])
                        [
                            cell with
                            {
                                PolygonMm = [.. open.Select(point => new PointMm(point.X, point.Y))],
                            },
                            new(cell.Id, [.. covered.Select(point => new PointMm(point.X, point.Y))]) { IsCovered = true },
                        ];
                }),
            ],
        };
}
