using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Batches;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bottles;

/// <summary>Puts a bottle right: what is in it, its days, where it stands; takes back one that was never filled, so that its ink is in the
/// batch again. Its code stays: it is printed on its label.</summary>
public sealed class ChangeBottle(NotebookDb db, TimeProvider clock) : EntryChange<Bottle, ChangeBottleForm>(db, clock), IUseCase
{
    protected override async Task<Bottle?> FindAsync(Thing thing, CancellationToken cancel)
    {
        if (!BottleCode.Parse("code", thing.Code).TryGet(out var read))
            return null;
        var written = BottleCode.ForBottle(read.Batch, read.Bottle);
        return await Db.Bottles.SingleOrDefaultAsync(one => one.Code == written, cancel);
    }

    protected override async Task<Action> ReadAsync(Entered entered, Bottle entry, ChangeBottleForm form, CancellationToken cancel)
    {
        var today = DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);
        var fill = entered.Volume(nameof(form.FillMl), form.FillMl, 0.5, 100_000, "How much is in it") ?? entry.FillMl;
        var filledOn = entered.PastDay(nameof(form.FilledOn), form.FilledOn, entry.FilledOn, today);
        DateOnly? keepBy = string.IsNullOrWhiteSpace(form.KeepBy) ? null : entered.Day(nameof(form.KeepBy), form.KeepBy, filledOn);
        var place = entered.OptionalWords(nameof(form.Place), form.Place, 80);
        var view = await BatchView.LoadAsync(
            Db,
            await Db.Batches.AsNoTracking().SingleAsync(one => one.Id == entry.BatchId, cancel),
            cancel
        );
        if (filledOn < view.Batch.MadeOn)
            entered.Refuse(nameof(form.FilledOn), "The bottle was filled before the batch was made.", "Check the two days.");
        if (entry.GoneOn < filledOn)
            entered.Refuse(nameof(form.FilledOn), "The bottle left the shelf before that day.", "Check the two days.");
        if (keepBy < filledOn)
            entered.Refuse(nameof(form.KeepBy), "The last day is before the day of filling.", "Check the day.");
        var filled = view.FilledMl - entry.FillMl + fill;
        if (fill > entry.FillMl && !LiquorLeft.Holds(view.Ready.Ml, filled))
            entered.Doubt(
                $"The bottles of batch {view.Batch.Code} would hold {Volume.Say(filled)}; {Volume.Say(view.Ready.Ml)} were made."
            );
        return () => (entry.FillMl, entry.FilledOn, entry.KeepBy, entry.Place) = (fill, filledOn, keepBy, place);
    }

    protected override Task<IReadOnlyList<InTheWay>> InTheWayAsync(Bottle entry, CancellationToken cancel) =>
        Task.FromResult<IReadOnlyList<InTheWay>>(
            entry.GoneOn is null
                ? []
                :
                [
                    new(
                        $"It left the shelf: {entry.GoneWhy}.",
                        "Put it back on the shelf first, if it was never there.",
                        Thing.Bottle(entry.Code)
                    ),
                ]
        );

    protected override async Task<Problem?> NotBackAsync(Bottle entry, CancellationToken cancel)
    {
        var view = await BatchView.LoadAsync(
            Db,
            await Db.Batches.AsNoTracking().SingleAsync(one => one.Id == entry.BatchId, cancel),
            cancel
        );
        if (!view.Batch.Counts)
            return new(nameof(WithdrawForm.Why), "Its batch was taken back.", "Put the batch back first.");
        return LiquorLeft.Holds(view.Ready.Ml, view.FilledMl + entry.FillMl)
            ? null
            : new(
                nameof(WithdrawForm.Why),
                $"Other bottles hold {Volume.Say(view.FilledMl)} of the {Volume.Say(view.Ready.Ml)} that were made.",
                "Take one of those back first, or measure the batch again."
            );
    }
}

public sealed record ChangeBottleForm : IDoubtable
{
    public string? FillMl { get; init; }

    public string? FilledOn { get; init; }

    public string? KeepBy { get; init; }

    public string? Place { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
