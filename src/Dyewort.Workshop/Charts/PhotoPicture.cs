using Dyewort.Imaging;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Pictures made from a kept photo, upright, smaller, and without the camera's notes.</summary>
public sealed class PhotoPicture(NotebookDb db, PhotoShelf shelf, MadeShelf made) : IUseCase
{
    private const int LongSide = 1600;
    private const int PartSide = 680;

    /// <summary>The whole photo, JPEG.</summary>
    public Task<byte[]?> SmallAsync(Guid id, CancellationToken cancel) =>
        MadeAsync(id, $"{id}-small.jpg", picture => PhotoPictures.Small(picture, LongSide), cancel);

    /// <summary>A square part of the photo, JPEG; what reaches over the edge is left out.</summary>
    /// <param name="id">The photo.</param>
    /// <param name="x">Left edge of the part, pixels.</param>
    /// <param name="y">Top edge.</param>
    /// <param name="side">Its side, pixels.</param>
    public Task<byte[]?> PartAsync(Guid id, int x, int y, int side, CancellationToken cancel) =>
        side is < 16 or > 20_000
            ? Task.FromResult<byte[]?>(null)
            : OpenAsync(
                id,
                picture => PhotoPictures.Crop(picture, Placing.Square(new(x + (side / 2.0), y + (side / 2.0)), side), PartSide, margin: 0),
                cancel
            );

    /// <summary>The photo with the outline of all that was read from it, PNG; null where nothing was.</summary>
    public async Task<byte[]?> MarkedAsync(Guid id, CancellationToken cancel)
    {
        var readings = await db
            .Readings.AsNoTracking()
            .Counting()
            .Where(reading => reading.PhotoId == id && reading.PolygonJson != null)
            .OrderBy(reading => reading.Id)
            .ToListAsync(cancel);
        var corrected = readings.Select(reading => reading.CorrectsId).OfType<Guid>().ToHashSet();
        var standing = readings.Where(reading => !corrected.Contains(reading.Id)).ToList();
        if (standing.Count == 0)
            return null;
        var swatches = standing
            .Select(reading =>
            {
                var outline = Placing.PointsOf(reading.PolygonJson);
                return new SwatchReading(
                    reading.Id.ToString(),
                    reading.Colour,
                    reading.UncertaintyDe00,
                    1,
                    1,
                    reading.Warnings is null ? [] : [new ReadingWarning("see", reading.Warnings)]
                )
                {
                    OutlinePx = outline,
                    SampledPx = Inner(outline),
                };
            })
            .ToList();
        return await MadeAsync(
            id,
            $"{id}-marked-{standing[^1].Id}.png",
            picture => PhotoPictures.Marked(picture, new(swatches, new("paper", 0, null), [], []), LongSide),
            cancel
        );
    }

    /// <summary>The part of an outline that is read.</summary>
    internal static IReadOnlyList<PointPx> Inner(IReadOnlyList<PointPx> outline)
    {
        var (x, y) = (outline.Average(point => point.X), outline.Average(point => point.Y));
        return
        [
            .. outline.Select(point => new PointPx(
                x + ((point.X - x) * SampleCells.ReadShare),
                y + ((point.Y - y) * SampleCells.ReadShare)
            )),
        ];
    }

    private async Task<byte[]?> MadeAsync(Guid id, string name, Func<OpenPhoto, byte[]> make, CancellationToken cancel)
    {
        if (await made.FindAsync(name, cancel) is { } kept)
            return kept;
        if (await OpenAsync(id, make, cancel) is not { } picture)
            return null;
        await made.KeepAsync(name, picture, cancel);
        return picture;
    }

    private async Task<byte[]?> OpenAsync(Guid id, Func<OpenPhoto, byte[]> make, CancellationToken cancel)
    {
        if (await db.Photos.AsNoTracking().SingleOrDefaultAsync(photo => photo.Id == id, cancel) is not { } photo)
            return null;
        var path = shelf.PathOf(photo.Sha256, photo.Extension);
        if (!File.Exists(path) || !PhotoFile.OpenFile("photo", path).TryGet(out var picture))
            return null;
        using (picture)
            return make(picture) is { Length: > 0 } bytes ? bytes : null;
    }
}
