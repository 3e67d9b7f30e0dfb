using System.Text.Json;
using Dyewort.Imaging;
using Dyewort.Readings;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>The crop of a reading; cut again from the photo when the made one is gone.</summary>
public sealed class FindCrop(NotebookDb db, PhotoShelf shelf, MadeShelf made) : IUseCase
{
    public async Task<byte[]?> HandleAsync(Guid readingId, CancellationToken cancel)
    {
        var name = $"{readingId}.jpg";
        if (await made.FindAsync(name, cancel) is { } kept) return kept;
        var found = await (from reading in db.Readings.AsNoTracking()
                           join photo in db.Photos on reading.PhotoId equals photo.Id
                           where reading.Id == readingId
                           select new { reading, photo }).SingleOrDefaultAsync(cancel);
        if (found?.reading.PolygonJson is not { } polygon || !File.Exists(shelf.PathOf(found.photo.Sha256, found.photo.Extension))) return null;
        if (!PhotoFile.OpenFile("photo", shelf.PathOf(found.photo.Sha256, found.photo.Extension)).TryGet(out var picture)) return null;
        using (picture)
        {
            var outline = JsonSerializer.Deserialize<double[][]>(polygon)!.Select(point => new PointPx(point[0], point[1])).ToList();
            var (x, y) = (outline.Average(point => point.X), outline.Average(point => point.Y));
            var inner = outline.Select(point => new PointPx(x + ((point.X - x) * SampleCells.ReadShare), y + ((point.Y - y) * SampleCells.ReadShare))).ToList();
            if (CellCrop.Cut(picture, outline, inner, found.reading.Colour, 192) is not { } crop) return null;
            await made.KeepAsync(name, crop, cancel);
            return crop;
        }
    }
}
