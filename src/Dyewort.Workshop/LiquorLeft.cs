using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop;

/// <summary>How much liquor of a pot is left after all that was drawn from it.</summary>
public sealed class LiquorLeft(NotebookDb db) : IUseCase
{
    // A measuring jug is read to about one part in fifty (common practice, no source).
    private const double JugReads = 1.02;

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
        if (!string.IsNullOrEmpty(more) || await HandleAsync(pot.Id, cancel) is not { } left || Holds(left, ml))
            return;
        var there = Volume.Say(Math.Max(0, left));
        entered.Refuse(
            field,
            $"{Volume.Say(ml)} are wanted of pot {pot.Code}; {there} are left.",
            (left > 0 ? $"At most {there} fit. " : "") + MoreThanWritten
        );
    }

    /// <summary>What to do where the notebook says that there is too little.</summary>
    public const string MoreThanWritten =
        "Take less, measure the liquor again in the pot's log, or tick that you have more liquor than is written down.";

    /// <summary>True where so much can be drawn, as jugs are read.</summary>
    public static bool Holds(double leftMl, double ml) => ml <= leftMl * JugReads;

    private async Task<IReadOnlyDictionary<Guid, double?>> OfAsync(Guid? potId, CancellationToken cancel)
    {
        var log = await db.PotLog.AsNoTracking().Where(entry => potId == null || entry.PotId == potId).ToListAsync(cancel);
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
        var drawn = samples.Concat(batches).ToLookup(one => one.PotId, one => (one.At, one.Ml));
        return log.GroupBy(entry => entry.PotId).ToDictionary(group => group.Key, group => LiquorSum.LeftMl(group, drawn[group.Key]));
    }
}
