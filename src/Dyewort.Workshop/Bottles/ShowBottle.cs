using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bottles;

/// <summary>One bottle with the whole thread back to the plant.</summary>
public sealed class ShowBottle(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <param name="code">As it stands on the label, or as somebody typed it.</param>
    public async Task<ShowBottleAnswer?> HandleAsync(string code, CancellationToken cancel)
    {
        if (!BottleCode.Parse("code", code).TryGet(out var read))
            return null;
        var written = BottleCode.ForBottle(read.Batch, read.Bottle);
        if (await db.Bottles.AsNoTracking().SingleOrDefaultAsync(one => one.Code == written, cancel) is not { } bottle)
            return null;
        var view = await BatchView.LoadAsync(
            db,
            await db.Batches.AsNoTracking().SingleAsync(one => one.Id == bottle.BatchId, cancel),
            cancel
        );
        var ids = view.Bottles.Select(one => one.Id).ToList();
        var checks = (await db.BottleChecks.AsNoTracking().Counting().Where(check => ids.Contains(check.BottleId)).ToListAsync(cancel))
            .OrderByDescending(check => check.On)
            .ThenByDescending(check => check.Id)
            .ToLookup(check => check.BottleId);
        return new(
            bottle,
            view,
            bottle.ContainerId is { } id ? await db.Materials.AsNoTracking().SingleAsync(one => one.Id == id, cancel) : null,
            [.. checks[bottle.Id]],
            bottle is { Counts: true, GoneOn: null } ? LookAgain(bottle, checks[bottle.Id].FirstOrDefault()) : null,
            [.. view.Bottles.Where(one => one.Id != bottle.Id && checks[one.Id].FirstOrDefault() is { Passed: false })],
            DateOnly.FromDateTime(clock.GetLocalNow().DateTime),
            FindThread.OfBottle(bottle, view.Bottles.Count(one => one.Counts), view.Batch, view.Recipe.From, view.Origins),
            await db
                .Corrections.AsNoTracking()
                .Where(one => one.EntryId == bottle.Id && one.Before != "null")
                .OrderByDescending(one => one.CorrectedAt)
                .ToListAsync(cancel)
        );
    }

    /// <summary>The first day to look that comes after the last look.</summary>
    internal static DateOnly? LookAgain(Bottle bottle, BottleCheck? last)
    {
        var since = last?.On ?? bottle.FilledOn;
        foreach (var day in Keeping.LooksAgain(bottle.FilledOn, bottle.KeepBy ?? bottle.FilledOn.AddYears(1)))
        {
            if (day > since)
                return day;
        }

        return null;
    }
}

/// <param name="Bottle">The bottle.</param>
/// <param name="View">Its batch, with recipe, liquor, plants and the other bottles.</param>
/// <param name="Container">What it was filled into.</param>
/// <param name="Checks">What was found when it was looked at, newest first.</param>
/// <param name="LookAgainOn">The next day to look at it; null when there is none before its last day.</param>
/// <param name="FailedBeside">Other bottles of the batch that did not pass their last look.</param>
/// <param name="Today">The day it is shown.</param>
/// <param name="Thread">The way from the plant.</param>
/// <param name="Corrections">What was corrected on it.</param>
public sealed record ShowBottleAnswer(
    Bottle Bottle,
    BatchView View,
    Material? Container,
    IReadOnlyList<BottleCheck> Checks,
    DateOnly? LookAgainOn,
    IReadOnlyList<Bottle> FailedBeside,
    DateOnly Today,
    IReadOnlyList<ThreadStep> Thread,
    IReadOnlyList<Correction> Corrections
);
