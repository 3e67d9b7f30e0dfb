using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;

namespace Dyewort.Workshop;

/// <summary>Puts an entry of the notebook right: corrects it, takes it back where nothing stands on it, puts it back, undoes the last of
/// these. What it said before stays readable.</summary>
/// <typeparam name="TEntry">The kind of entry.</typeparam>
/// <typeparam name="TForm">What can be corrected of it, as it was typed.</typeparam>
public abstract class EntryChange<TEntry, TForm>(NotebookDb db, TimeProvider clock)
    where TEntry : Entry
    where TForm : class, new()
{
    /// <summary>The notebook.</summary>
    protected NotebookDb Db => db;

    /// <summary>The clock.</summary>
    protected TimeProvider Clock => clock;

    /// <summary>The entry with its history and with what stands in the way of taking it back; null where there is none.</summary>
    public async Task<ChangeAnswer<TEntry>?> ShowAsync(Thing thing, CancellationToken cancel) =>
        await FindAsync(thing, cancel) is { } entry
            ? new(
                entry,
                thing,
                entry.Counts ? await InTheWayAsync(entry, cancel) : [],
                entry.Counts ? null : await NotBackAsync(entry, cancel),
                await LastChange.HistoryAsync(db, entry.Id, cancel)
            )
            : null;

    /// <summary>Corrects what was typed; an empty field says nothing any more.</summary>
    public async Task<Outcome<Thing>> CorrectAsync(Thing thing, TForm form, CancellationToken cancel)
    {
        if (await FindAsync(thing, cancel) is not { } entry)
            return Missing();
        if (!entry.Counts)
            return Outcome.Refused<Thing>(nameof(WithdrawForm.Why), "This was taken back.", "Put it back first.");
        var entered = new Entered(await db.KitchenAsync(cancel), form as IDoubtable);
        var apply = await ReadAsync(entered, entry, form, cancel);
        if (!entered.Sound)
            return Outcome.Refused<Thing>(entered.Problems);
        apply();
        await db.SaveChangesAsync(cancel);
        return entered.Made(thing);
    }

    /// <summary>Takes it back with a reason; refused while something that counts stands on it.</summary>
    public async Task<Outcome<Thing>> WithdrawAsync(Thing thing, WithdrawForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (await FindAsync(thing, cancel) is not { } entry)
            return Missing();
        var entered = new Entered();
        var why = form.Read(entered);
        if (!entry.Counts)
            entered.Refuse(nameof(form.Why), "This was taken back already.", "Load the page again.");
        if (!entered.Sound)
            return Outcome.Refused<Thing>(entered.Problems);
        return await TakeAsync(thing, entry, why, cancel);
    }

    /// <summary>Lets it count again, with what was taken back with it.</summary>
    public async Task<Outcome<Thing>> PutBackAsync(Thing thing, CancellationToken cancel)
    {
        if (await FindAsync(thing, cancel) is not { } entry)
            return Missing();
        if (entry.Counts)
            return Outcome.Refused<Thing>(nameof(WithdrawForm.Why), "This counts; it was not taken back.", "Load the page again.");
        if (await NotBackAsync(entry, cancel) is { } problem)
            return Outcome.Refused<Thing>([problem]);
        foreach (var with in await WithAsync(entry, cancel))
        {
            if (Equals(with.WithdrawnAt, entry.WithdrawnAt))
                with.PutBack();
        }

        entry.PutBack();
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(thing);
    }

    /// <summary>Undoes the last change, whatever it was; undone twice, it stands again.</summary>
    public async Task<Outcome<Thing>> UndoAsync(Thing thing, CancellationToken cancel)
    {
        if (await FindAsync(thing, cancel) is not { } entry)
            return Missing();
        var last = await LastChange.OfAsync(db, entry.Id, cancel);
        if (last.Count == 0)
            return Outcome.Refused<Thing>(nameof(WithdrawForm.Why), "Nothing was changed here.", "There is nothing to undo.");
        if (LastChange.IsWithdrawal(last))
            return entry.Counts ? await TakeAsync(thing, entry, WithdrawForm.UsualWhy, cancel) : await PutBackAsync(thing, cancel);
        LastChange.Undo(db, entry, last);
        foreach (var along in await AlongAsync(entry, cancel))
        {
            var then = await LastChange.OfAsync(db, along.Id, cancel);
            if (then.Count > 0 && then[0].CorrectedAt == last[0].CorrectedAt)
                LastChange.Undo(db, along, then);
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(thing);
    }

    /// <summary>The entry, held for changing, withdrawn or not.</summary>
    protected abstract Task<TEntry?> FindAsync(Thing thing, CancellationToken cancel);

    /// <summary>Reads what was typed and says what it changes; done only when nothing was refused.</summary>
    protected abstract Task<Action> ReadAsync(Entered entered, TEntry entry, TForm form, CancellationToken cancel);

    /// <summary>What counts and stands on it; empty where it may be taken back.</summary>
    protected virtual Task<IReadOnlyList<InTheWay>> InTheWayAsync(TEntry entry, CancellationToken cancel) =>
        Task.FromResult<IReadOnlyList<InTheWay>>([]);

    /// <summary>Entries that are taken back and put back with it.</summary>
    protected virtual Task<IReadOnlyList<Entry>> WithAsync(TEntry entry, CancellationToken cancel) =>
        Task.FromResult<IReadOnlyList<Entry>>([]);

    /// <summary>Entries that a correction of it may have changed in the same moment; undoing it undoes that too.</summary>
    protected virtual Task<IReadOnlyList<Entry>> AlongAsync(TEntry entry, CancellationToken cancel) =>
        Task.FromResult<IReadOnlyList<Entry>>([]);

    /// <summary>Why it cannot be put back; null where it can.</summary>
    protected virtual Task<Problem?> NotBackAsync(TEntry entry, CancellationToken cancel) => Task.FromResult<Problem?>(null);

    private static Outcome<Thing> Missing() =>
        Outcome.Refused<Thing>(nameof(WithdrawForm.Why), "This is not in the notebook.", "Go back and load the page again.");

    private async Task<Outcome<Thing>> TakeAsync(Thing thing, TEntry entry, string why, CancellationToken cancel)
    {
        var way = await InTheWayAsync(entry, cancel);
        if (way.Count > 0)
            return Outcome.Refused<Thing>([.. way.Select(one => new Problem(nameof(WithdrawForm.Why), one.What, one.How))]);
        var now = clock.GetUtcNow();
        foreach (var with in (await WithAsync(entry, cancel)).Where(one => one.Counts))
            with.Withdraw(now, why);
        entry.Withdraw(now, why);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(thing);
    }
}

/// <summary>Something that counts and stands on an entry that is to be taken back.</summary>
/// <param name="What">In a sentence.</param>
/// <param name="How">What to do about it.</param>
/// <param name="Where">Where that is done; null where it is said already.</param>
public sealed record InTheWay(string What, string How, Thing? Where = null);

/// <param name="Entry">The entry, withdrawn or not.</param>
/// <param name="Thing">Its place.</param>
/// <param name="InTheWay">What stands on it.</param>
/// <param name="NotBack">Why it cannot be put back; null where it can, and where it counts.</param>
/// <param name="Corrections">What was corrected of it, newest first.</param>
public sealed record ChangeAnswer<TEntry>(
    TEntry Entry,
    Thing Thing,
    IReadOnlyList<InTheWay> InTheWay,
    Problem? NotBack,
    IReadOnlyList<Correction> Corrections
)
    where TEntry : Entry;
