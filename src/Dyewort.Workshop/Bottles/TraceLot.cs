using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bottles;

/// <summary>Forward from a lot of plant: every pot, recipe, batch and bottle that has some of it.</summary>
public sealed class TraceLot(NotebookDb db) : IUseCase
{
    public async Task<TraceLotAnswer?> HandleAsync(Guid lotId, CancellationToken cancel)
    {
        if (await db.PlantLots.AsNoTracking().SingleOrDefaultAsync(one => one.Id == lotId, cancel) is not { } lot)
            return null;
        var pots = await db.Pots.AsNoTracking().Counting().Where(pot => pot.LotId == lotId).OrderBy(pot => pot.MadeOn).ToListAsync(cancel);
        var potIds = pots.ConvertAll(pot => pot.Id);
        var liquors = await db.BatchLiquors.AsNoTracking().Counting().Where(liquor => potIds.Contains(liquor.PotId)).ToListAsync(cancel);
        var batchIds = liquors.Select(liquor => liquor.BatchId).Distinct().ToList();
        var batches = await (
            from batch in db.Batches.AsNoTracking().Counting()
            join recipe in db.Recipes on batch.RecipeId equals recipe.Id
            where batchIds.Contains(batch.Id)
            orderby batch.Number
            select new { batch, recipe }
        ).ToListAsync(cancel);
        var bottles = (
            await db
                .Bottles.AsNoTracking()
                .Counting()
                .Where(bottle => batchIds.Contains(bottle.BatchId))
                .OrderBy(bottle => bottle.Number)
                .ToListAsync(cancel)
        ).ToLookup(bottle => bottle.BatchId);
        return new(
            lot,
            await db.Materials.AsNoTracking().SingleAsync(one => one.Id == lot.PlantId, cancel),
            pots,
            await db
                .Recipes.AsNoTracking()
                .Counting()
                .Where(recipe => recipe.PotId != null && potIds.Contains(recipe.PotId.Value))
                .OrderBy(recipe => recipe.Id)
                .ToListAsync(cancel),
            [
                .. batches.Select(one => new TraceLotMade(
                    one.batch,
                    one.recipe,
                    [
                        .. liquors
                            .Where(liquor => liquor.BatchId == one.batch.Id)
                            .Select(liquor => pots.Single(pot => pot.Id == liquor.PotId).Code)
                            .Distinct(),
                    ],
                    [.. bottles[one.batch.Id]]
                )),
            ]
        )
        {
            LeaveWords = Pots.LeaveWords.Of(await db.LotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.LotId == lot.Id, cancel)),
        };
    }
}

public sealed record TraceLotAnswer(
    PlantLot Lot,
    Material Plant,
    IReadOnlyList<Pot> Pots,
    IReadOnlyList<Recipe> Recipes,
    IReadOnlyList<TraceLotMade> Batches
)
{
    /// <summary>The leave to gather it, in words; null where nothing is on file.</summary>
    public string? LeaveWords { get; init; }

    public int Standing => Batches.Sum(made => made.Bottles.Count(bottle => bottle.GoneOn is null));

    public int Gone => Batches.Sum(made => made.Bottles.Count(bottle => bottle.GoneOn is not null));
}

/// <param name="Batch">The batch.</param>
/// <param name="Recipe">Its recipe.</param>
/// <param name="Pots">Codes of the lot's pots that it holds.</param>
/// <param name="Bottles">What it filled.</param>
public sealed record TraceLotMade(Batch Batch, Recipe Recipe, IReadOnlyList<string> Pots, IReadOnlyList<Bottle> Bottles);
