using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Proposes where a chart's swatches lie on a kept photo of unmarked paper, for the maker to correct.</summary>
public sealed class ProposePlaces(NotebookDb db, PhotoShelf shelf, ProposeSpots propose) : IUseCase
{
    /// <returns>Null where the photo is gone.</returns>
    public async Task<ProposePlacesAnswer?> HandleAsync(Guid photoId, CancellationToken cancel)
    {
        if (await db.Photos.AsNoTracking().SingleOrDefaultAsync(one => one.Id == photoId, cancel) is not { ChartId: { } chart } photo)
            return null;
        var path = shelf.PathOf(photo.Sha256, photo.Extension);
        if (!File.Exists(path) || !propose.Handle(new() { Picture = await File.ReadAllBytesAsync(path, cancel) }).TryGet(out var proposed))
            return null;
        var cells = await db
            .Swatches.AsNoTracking()
            .Counting()
            .Where(swatch => swatch.ChartId == chart)
            .OrderBy(swatch => swatch.Id)
            .Select(swatch => swatch.Cell)
            .ToListAsync(cancel);
        var surest = proposed.Spots.OrderByDescending(spot => spot.Confidence).Take(cells.Count).ToHashSet();
        return new(
            proposed.Spots.Count,
            proposed.Spots.Where(surest.Contains).Zip(cells).ToDictionary(pair => pair.Second, pair => pair.First.PolygonPx)
        );
    }
}

/// <param name="Found">How many swatches were found.</param>
/// <param name="Places">Outline by cell, in the order that one reads; the least sure are left out where more were found than the chart
/// has.</param>
public sealed record ProposePlacesAnswer(int Found, IReadOnlyDictionary<string, IReadOnlyList<PointPx>> Places);
