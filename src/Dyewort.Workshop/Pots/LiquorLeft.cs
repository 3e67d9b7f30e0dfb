using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>How much liquor of a pot is left after all that was drawn from it.</summary>
public sealed class LiquorLeft(NotebookDb db) : IUseCase
{
    /// <returns>Millilitres; null while nobody measured the liquor; below zero when more was drawn than was measured.</returns>
    public async Task<double?> HandleAsync(Guid potId, CancellationToken cancel)
    {
        var log = await db.PotLog.AsNoTracking().Where(entry => entry.PotId == potId).ToListAsync(cancel);
        var samples = await db
            .Samples.AsNoTracking()
            .Counting()
            .Where(sample => sample.PotId == potId && sample.ParentId == null)
            .ToListAsync(cancel);
        var batches = await (
            from liquor in db.BatchLiquors.AsNoTracking().Counting()
            join batch in db.Batches.Counting() on liquor.BatchId equals batch.Id
            where liquor.PotId == potId
            select liquor
        ).ToListAsync(cancel);
        return LiquorSum.LeftMl(
            log,
            samples.Select(sample => (sample.PouredAt, sample.VolumeMl)).Concat(batches.Select(liquor => (liquor.WrittenAt, liquor.Ml)))
        );
    }
}
