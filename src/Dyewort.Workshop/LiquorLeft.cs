using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop;

/// <summary>How much liquor of a pot is left after all that was drawn from it.</summary>
public sealed class LiquorLeft(NotebookDb db) : IUseCase
{
    /// <returns>Millilitres; null while nobody measured the liquor; below zero when more was drawn than was measured.</returns>
    public async Task<double?> HandleAsync(Guid potId, CancellationToken cancel) => (await OfAsync(potId, cancel)).GetValueOrDefault(potId);

    /// <summary>The same of every pot that was measured, by its key.</summary>
    public Task<IReadOnlyDictionary<Guid, double?>> OfAllAsync(CancellationToken cancel) => OfAsync(null, cancel);

    /// <summary>Refuses what a pot does not hold, before anything is started.</summary>
    /// <param name="entered">Where the refusal goes.</param>
    /// <param name="field">The field of the volume.</param>
    /// <param name="pot">The pot.</param>
    /// <param name="ml">What is wanted of it, millilitres.</param>
    /// <param name="more">Anything where the maker has more liquor than is written down: lets it through.</param>
    /// <param name="cancel">Ends the reading early.</param>
    public async Task CheckAsync(Entered entered, string field, Pot pot, double ml, string? more, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(entered);
        ArgumentNullException.ThrowIfNull(pot);
        if (!string.IsNullOrEmpty(more) || await AtMostAsync(pot, cancel) is not { } left || Holds(left, ml))
            return;
        var there = Volume.Say(Math.Max(0, left));
        entered.Refuse(
            field,
            $"{Volume.Say(ml)} are wanted of pot {pot.Code}; {there} are left.",
            (left > 0 ? $"At most {there} fit. " : "") + MoreThanWritten
        );
    }

    /// <summary>Millilitres that can be drawn: what is left of what was measured; while nobody measured it, what went into the pot, less
    /// all that was drawn.</summary>
    /// <returns>Null where neither is known; may be below zero.</returns>
    public async Task<double?> AtMostAsync(Pot pot, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        if (await HandleAsync(pot.Id, cancel) is { } left)
            return left;
        var log = await db.PotLog.AsNoTracking().Counting().Where(entry => entry.PotId == pot.Id).ToListAsync(cancel);
        double Poured(LogKind kind) => log.Where(entry => entry.Kind == kind).Sum(entry => entry.Ml ?? 0);
        return LiquorSum.WentInMl(pot)
            + Poured(LogKind.ToppedUp)
            - Poured(LogKind.PouredAway)
            - (await DrawnAsync(pot.Id, cancel)).Sum(one => one.Ml);
    }

    /// <summary>What is doubtful about a volume in a line of a pot's log; null where it may well be meant.</summary>
    /// <param name="pot">The pot.</param>
    /// <param name="kind">What the line says.</param>
    /// <param name="ml">The volume, millilitres.</param>
    /// <param name="own">The line itself, where it stands there already; null where it is new.</param>
    /// <param name="cancel">Ends the reading early.</param>
    public async Task<string?> DoubtAsync(Pot pot, LogKind kind, double ml, PotLogEntry? own, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        if (kind == LogKind.PouredAway)
        {
            var left = await AtMostAsync(pot, cancel) + (own is { Kind: LogKind.PouredAway, Ml: { } before } ? before : 0);
            return left is { } there && !Holds(there, ml)
                ? $"{Volume.Say(ml)} are poured away; {Volume.Say(Math.Max(0, there))} are left."
                : null;
        }

        if (kind is not (LogKind.Strained or LogKind.Reduced))
            return Doubtful.InPot(null, ml);
        var toppedUp = await db
            .PotLog.AsNoTracking()
            .Counting()
            .Where(entry => entry.PotId == pot.Id && entry.Kind == LogKind.ToppedUp)
            .SumAsync(entry => entry.Ml ?? 0, cancel);
        return Doubtful.OutOfPot(ml, pot, toppedUp);
    }

    /// <summary>What is doubtful about liquor that was measured for a batch; null where its pot holds it.</summary>
    /// <param name="drawn">What the notebook says was drawn for it.</param>
    /// <param name="ml">What was measured, millilitres.</param>
    /// <param name="cancel">Ends the reading early.</param>
    public async Task<string?> DoubtAsync(BatchLiquor drawn, double ml, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        var pot = await db.Pots.AsNoTracking().SingleAsync(one => one.Id == drawn.PotId, cancel);
        return ml > drawn.Ml && await AtMostAsync(pot, cancel) + drawn.Ml is { } there && !Holds(there, ml)
            ? $"{Volume.Say(ml)} were measured; pot {pot.Code} had {Volume.Say(Math.Max(0, there))}."
            : null;
    }

    /// <summary>What to do where the notebook says that there is too little.</summary>
    public const string MoreThanWritten =
        "Take less, measure the liquor again in the pot's log, or tick that you have more liquor than is written down.";

    /// <summary>True where so much can be drawn, as jugs are read.</summary>
    public static bool Holds(double leftMl, double ml) => ml <= leftMl * LiquorSum.JugReads;

    private async Task<IReadOnlyDictionary<Guid, double?>> OfAsync(Guid? potId, CancellationToken cancel)
    {
        var log = await db.PotLog.AsNoTracking().Where(entry => potId == null || entry.PotId == potId).ToListAsync(cancel);
        var drawn = (await DrawnAsync(potId, cancel)).ToLookup(one => one.PotId, one => (one.At, one.Ml));
        return log.GroupBy(entry => entry.PotId).ToDictionary(group => group.Key, group => LiquorSum.LeftMl(group, drawn[group.Key]));
    }

    private async Task<List<(Guid PotId, DateTimeOffset At, double Ml)>> DrawnAsync(Guid? potId, CancellationToken cancel)
    {
        var samples = await db
            .Samples.AsNoTracking()
            .Counting()
            .Where(sample => (potId == null || sample.PotId == potId) && sample.ParentId == null)
            .Select(sample => new
            {
                sample.PotId,
                At = sample.PouredAt,
                Ml = sample.VolumeMl,
            })
            .ToListAsync(cancel);
        var batches = await (
            from liquor in db.BatchLiquors.AsNoTracking().Counting()
            join batch in db.Batches.Counting() on liquor.BatchId equals batch.Id
            where potId == null || liquor.PotId == potId
            select new
            {
                liquor.PotId,
                At = liquor.WrittenAt,
                liquor.Ml,
            }
        ).ToListAsync(cancel);
        return [.. samples.Concat(batches).Select(one => (one.PotId, one.At, one.Ml))];
    }
}
