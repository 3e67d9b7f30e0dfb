using Dyewort.Making;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>Every batch, newest first.</summary>
public sealed class ListBatches(NotebookDb db) : IUseCase
{
    public async Task<IReadOnlyList<ListBatchesLine>> HandleAsync(CancellationToken cancel)
    {
        var batches = await (
            from batch in db.Batches.AsNoTracking().Counting()
            join recipe in db.Recipes on batch.RecipeId equals recipe.Id
            orderby batch.Number descending
            select new { batch, recipe }
        ).ToListAsync(cancel);
        var bottles = (
            await db.Bottles.AsNoTracking().Counting().Select(bottle => new { bottle.BatchId, bottle.GoneOn }).ToListAsync(cancel)
        ).ToLookup(bottle => bottle.BatchId);
        return
        [
            .. batches.Select(one => new ListBatchesLine(
                one.batch,
                one.recipe,
                bottles[one.batch.Id].Count(),
                bottles[one.batch.Id].Count(bottle => bottle.GoneOn is null)
            )),
        ];
    }
}

/// <param name="Batch">The batch.</param>
/// <param name="Recipe">Its recipe.</param>
/// <param name="Bottles">Bottles it filled.</param>
/// <param name="Standing">Those of them that stand on the shelf.</param>
public sealed record ListBatchesLine(Batch Batch, Recipe Recipe, int Bottles, int Standing);
