using Dyewort.Imaging;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>The crop of a reading; cut again from the photo when the made one is gone.</summary>
public sealed class FindCrop(NotebookDb db, PhotoShelf shelf, MadeShelf made) : IUseCase
{
    public async Task<byte[]?> HandleAsync(Guid readingId, CancellationToken cancel)
    {
        var name = $"{readingId}.jpg";
        if (await made.FindAsync(name, cancel) is { } kept)
            return kept;
        var found = await (
            from reading in db.Readings.AsNoTracking()
            join photo in db.Photos on reading.PhotoId equals photo.Id
            where reading.Id == readingId
            select new { reading, photo }
        ).SingleOrDefaultAsync(cancel);
        if (found?.reading.PolygonJson is not { } polygon || !File.Exists(shelf.PathOf(found.photo.Sha256, found.photo.Extension)))
            return null;
        if (!PhotoFile.OpenFile("photo", shelf.PathOf(found.photo.Sha256, found.photo.Extension)).TryGet(out var picture))
            return null;
        using (picture)
        {
            var outline = Placing.PointsOf(polygon);
            if (CellCrop.Cut(picture, Placing.Quad(outline), PhotoPicture.Inner(outline), found.reading.Colour, 192) is not { } crop)
                return null;
            await made.KeepAsync(name, crop, cancel);
            return crop;
        }
    }
}
