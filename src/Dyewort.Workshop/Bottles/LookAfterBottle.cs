using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bottles;

/// <summary>What happens to a bottle after it was filled: it is looked at, and one day it leaves the shelf.</summary>
public sealed class LookAfterBottle(NotebookDb db, TimeProvider clock) : IUseCase
{
    public sealed record Look
    {
        /// <summary>"yes" when it may stay, "no" when it may not.</summary>
        public string? Passed { get; init; }

        public string? Seen { get; init; }

        public string? Ph { get; init; }

        public string? On { get; init; }
    }

    public sealed record Leaving
    {
        /// <summary>"sold", "used up", "given away", "spoiled", or the maker's words.</summary>
        public string? Why { get; init; }

        public string? On { get; init; }
    }

    /// <summary>Writes down a look.</summary>
    /// <returns>The bottle's code.</returns>
    public async Task<Outcome<string>> LookAsync(string code, Look form, CancellationToken cancel)
    {
        if (await FindAsync(code, cancel) is not { } bottle)
            return Missing(code, nameof(form.Passed));
        var entered = new Entered();
        var on = entered.PastDay(nameof(form.On), form.On, Today(), Today());
        var passed = form.Passed?.Trim().ToUpperInvariant();
        if (passed is not ("YES" or "NO"))
            entered.Refuse(nameof(form.Passed), "Whether it may stay was not said.", "Choose one of the two.");
        var seen = entered.OptionalWords(nameof(form.Seen), form.Seen, 200);
        var ph = entered.Ph(nameof(form.Ph), form.Ph);
        if (passed == "NO" && seen is null)
            entered.Refuse(nameof(form.Seen), "What is wrong with it was not said.", "Say what you see or smell.");
        if (on < bottle.FilledOn || on > Today())
            entered.Refuse(nameof(form.On), "That day is before the filling, or still to come.", "Check the day.");
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        var now = clock.GetUtcNow();
        db.Add(
            new BottleCheck
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                BottleId = bottle.Id,
                On = on,
                Passed = passed == "YES",
                Seen = seen,
                Ph = ph,
            }
        );
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(bottle.Code);
    }

    /// <summary>Writes down that every bottle of a batch on the shelf was looked at and may stay; those that failed a look are left
    /// out.</summary>
    /// <returns>How many.</returns>
    public async Task<Outcome<int>> LookAtBatchAsync(string batchCode, CancellationToken cancel)
    {
        var standing = await (
            from bottle in db.Bottles.AsNoTracking().Counting()
            join batch in db.Batches on bottle.BatchId equals batch.Id
            where batch.Code == batchCode && bottle.GoneOn == null
            select bottle.Id
        ).ToListAsync(cancel);
        var last = (
            await db.BottleChecks.AsNoTracking().Counting().Where(check => standing.Contains(check.BottleId)).ToListAsync(cancel)
        ).ToLookup(check => check.BottleId);
        var passed = standing
            .Where(id => last[id].OrderBy(check => check.On).ThenBy(check => check.Id).LastOrDefault() is not { Passed: false })
            .ToList();
        if (passed.Count == 0)
            return Outcome.Refused<int>(
                nameof(Look.Passed),
                $"No bottle of batch {batchCode} is there to be passed.",
                "Look at each one, and say what you see."
            );
        var now = clock.GetUtcNow();
        db.AddRange(
            passed.Select(id => new BottleCheck
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                BottleId = id,
                On = Today(),
                Passed = true,
            })
        );
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(passed.Count);
    }

    /// <summary>Takes it off the shelf.</summary>
    public async Task<Outcome<string>> LeaveAsync(string code, Leaving form, CancellationToken cancel)
    {
        if (await FindAsync(code, cancel) is not { } bottle)
            return Missing(code, nameof(form.Why));
        var entered = new Entered();
        var (why, on) = Read(entered, form, bottle.FilledOn);
        if (bottle.GoneOn is not null)
            entered.Refuse(nameof(form.Why), $"It left the shelf already: {bottle.GoneWhy}.", "Put it back first if that is wrong.");
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        (bottle.GoneOn, bottle.GoneWhy) = (on, why);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(bottle.Code);
    }

    /// <summary>Puts back what was taken off the shelf by mistake.</summary>
    public async Task<Outcome<string>> ReturnAsync(string code, CancellationToken cancel)
    {
        if (await FindAsync(code, cancel) is not { } bottle)
            return Missing(code, nameof(Leaving.Why));
        (bottle.GoneOn, bottle.GoneWhy) = (null, null);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(bottle.Code);
    }

    /// <summary>Withdraws every bottle of a batch that still stands on the shelf.</summary>
    /// <returns>How many were withdrawn.</returns>
    public async Task<Outcome<int>> WithdrawBatchAsync(string batchCode, Leaving form, CancellationToken cancel)
    {
        if (await db.Batches.AsNoTracking().SingleOrDefaultAsync(one => one.Code == batchCode, cancel) is not { } batch)
            return Outcome.Refused<int>(nameof(form.Why), $"There is no batch {batchCode} in this notebook.", "Go back to the batches.");
        var standing = await db.Bottles.Counting().Where(bottle => bottle.BatchId == batch.Id && bottle.GoneOn == null).ToListAsync(cancel);
        var entered = new Entered();
        var (why, on) = Read(entered, form, batch.MadeOn);
        if (standing.Count == 0)
            entered.Refuse(nameof(form.Why), "No bottle of this batch stands on the shelf.", "There is nothing to withdraw.");
        if (!entered.Sound)
            return Outcome.Refused<int>(entered.Problems);
        foreach (var bottle in standing)
            (bottle.GoneOn, bottle.GoneWhy) = (on, why);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(standing.Count);
    }

    private static Outcome<string> Missing(string code, string field) =>
        Outcome.Refused<string>(field, $"There is no bottle {code} in this notebook.", "Look at the label again.");

    private (string Why, DateOnly On) Read(Entered entered, Leaving form, DateOnly earliest)
    {
        var why = entered.Words(nameof(form.Why), form.Why, "Why it leaves the shelf", 120);
        var on = entered.PastDay(nameof(form.On), form.On, Today(), Today());
        if (on < earliest || on > Today())
            entered.Refuse(nameof(form.On), "That day is before the filling, or still to come.", "Check the day.");
        return (why, on);
    }

    private DateOnly Today() => DateOnly.FromDateTime(clock.GetLocalNow().DateTime);

    private async Task<Bottle?> FindAsync(string code, CancellationToken cancel)
    {
        if (!BottleCode.Parse("code", code).TryGet(out var read))
            return null;
        var written = BottleCode.ForBottle(read.Batch, read.Bottle);
        return await db.Bottles.Counting().SingleOrDefaultAsync(one => one.Code == written, cancel);
    }
}
