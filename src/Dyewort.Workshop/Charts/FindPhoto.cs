using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>A photo as it came.</summary>
public sealed class FindPhoto(NotebookDb db, PhotoShelf shelf) : IUseCase
{
    public async Task<FindPhotoAnswer?> HandleAsync(Guid id, CancellationToken cancel) =>
        await db.Photos.AsNoTracking().SingleOrDefaultAsync(photo => photo.Id == id, cancel) is { } photo
        && shelf.Open(photo.Sha256, photo.Extension) is { } content
            ? new(content, photo.Extension == "jpg" ? "image/jpeg" : $"image/{photo.Extension}")
            : null;
}

public sealed record FindPhotoAnswer(Stream Content, string MediaType);
