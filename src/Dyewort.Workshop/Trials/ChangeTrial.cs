using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>Puts a trial right: its name, how it is laid out, its day. It is taken back with its jars and its empty sheets.</summary>
public sealed class ChangeTrial(NotebookDb db, TimeProvider clock) : EntryChange<Trial, ChangeTrialForm>(db, clock), IUseCase
{
    protected override Task<Trial?> FindAsync(Thing thing, CancellationToken cancel) =>
        (
            from trial in Db.Trials
            join pot in Db.Pots on trial.PotId equals pot.Id
            where pot.Code == thing.Code && trial.Letter == thing.Part
            select trial
        ).SingleOrDefaultAsync(cancel);

    protected override Task<Action> ReadAsync(Entered entered, Trial entry, ChangeTrialForm form, CancellationToken cancel)
    {
        var title = entered.Words(nameof(form.Title), form.Title, "The name", 80);
        var kind = entered.OneOf(nameof(form.Kind), form.Kind, entry.Kind);
        var today = DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);
        var day = entered.PastDay(nameof(form.SetOutOn), form.SetOutOn, entry.SetOutOn, today);
        return Task.FromResult<Action>(() => (entry.Title, entry.Kind, entry.SetOutOn) = (title, kind, day));
    }

    protected override async Task<IReadOnlyList<InTheWay>> InTheWayAsync(Trial entry, CancellationToken cancel)
    {
        var way = new List<InTheWay>();
        var jars = await Db
            .Samples.AsNoTracking()
            .Counting()
            .Where(one => one.TrialId == entry.Id)
            .OrderBy(one => one.Id)
            .ToListAsync(cancel);
        foreach (var jar in jars)
            way.AddRange(await ChangeJar.StandsOnAsync(Db, jar, cancel));
        var own = jars.ConvertAll(jar => jar.Jar);
        return [.. way.Where(one => one.Where is not { Kind: ThingKind.Jar } thing || !own.Contains(thing.Part)).Distinct()];
    }

    protected override async Task<IReadOnlyList<Entry>> WithAsync(Trial entry, CancellationToken cancel) =>
        [
            .. await Db.Samples.Where(one => one.TrialId == entry.Id).ToListAsync(cancel),
            .. await Db.Charts.Where(one => one.TrialId == entry.Id).ToListAsync(cancel),
        ];

    protected override async Task<Problem?> NotBackAsync(Trial entry, CancellationToken cancel) =>
        await Db.Pots.Counting().AnyAsync(one => one.Id == entry.PotId, cancel)
            ? null
            : new(nameof(WithdrawForm.Why), "Its pot was taken back.", "Put the pot back first.");
}

public sealed record ChangeTrialForm : IDoubtable
{
    public string? Title { get; init; }

    public string? Kind { get; init; }

    public string? SetOutOn { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
