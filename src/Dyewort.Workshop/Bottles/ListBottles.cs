using Dyewort.Making;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bottles;

/// <summary>The shelf: every bottle that stands there, those that want looking at first; and what has gone.</summary>
public sealed class ListBottles(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<ListBottlesAnswer> HandleAsync(CancellationToken cancel)
    {
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var found = await (
            from bottle in db.Bottles.AsNoTracking().Counting()
            join batch in db.Batches on bottle.BatchId equals batch.Id
            join recipe in db.Recipes on batch.RecipeId equals recipe.Id
            orderby batch.Number descending, bottle.Number
            select new
            {
                bottle,
                batch,
                recipe,
            }
        ).ToListAsync(cancel);
        var checks = (await db.BottleChecks.AsNoTracking().Counting().ToListAsync(cancel)).ToLookup(check => check.BottleId);
        var lines = found.ConvertAll(one =>
        {
            var last = checks[one.bottle.Id].OrderBy(check => check.On).ThenBy(check => check.Id).LastOrDefault();
            return new ListBottlesLine(
                one.bottle,
                one.batch,
                one.recipe,
                ShowBottle.LookAgain(one.bottle, last),
                last is { Passed: false }
            );
        });
        bool IsDue(ListBottlesLine line) => line.Failed || line.LookAgainOn <= today || line.Bottle.KeepBy < today;
        return new(
            [.. lines.Where(line => line.Bottle.GoneOn is null && IsDue(line)).OrderByDescending(line => line.Failed)],
            [.. lines.Where(line => line.Bottle.GoneOn is null && !IsDue(line))],
            [.. lines.Where(line => line.Bottle.GoneOn is not null).OrderByDescending(line => line.Bottle.GoneOn)],
            today
        );
    }
}

/// <param name="Due">Bottles on the shelf whose day to look has come, that are past their last day, or that failed a look.</param>
/// <param name="Standing">The other bottles on the shelf.</param>
/// <param name="Gone">Bottles that left the shelf, newest first.</param>
/// <param name="Today">The day of the answer.</param>
public sealed record ListBottlesAnswer(
    IReadOnlyList<ListBottlesLine> Due,
    IReadOnlyList<ListBottlesLine> Standing,
    IReadOnlyList<ListBottlesLine> Gone,
    DateOnly Today
);

/// <param name="Bottle">The bottle.</param>
/// <param name="Batch">Its batch.</param>
/// <param name="Recipe">Its recipe.</param>
/// <param name="LookAgainOn">The next day to look at it.</param>
/// <param name="Failed">True when it did not pass its last look.</param>
public sealed record ListBottlesLine(Bottle Bottle, Batch Batch, Recipe Recipe, DateOnly? LookAgainOn, bool Failed);
