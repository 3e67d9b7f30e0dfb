using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>Puts a batch right: its day, what was measured of it, its words; takes it back while it fills no bottle, so that its liquor is
/// in the pot again.</summary>
public sealed class ChangeBatch(NotebookDb db, TimeProvider clock, DoubtBatch doubt, LiquorLeft left)
    : EntryChange<Batch, ChangeBatchForm>(db, clock),
        IUseCase
{
    protected override Task<Batch?> FindAsync(Thing thing, CancellationToken cancel) =>
        Db.Batches.SingleOrDefaultAsync(one => one.Code == thing.Code, cancel);

    protected override async Task<Action> ReadAsync(Entered entered, Batch entry, ChangeBatchForm form, CancellationToken cancel)
    {
        double? Ml(string field, string? text) => entered.Volume(field, text, 0.1);
        var today = DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);
        var madeOn = entered.PastDay(nameof(form.MadeOn), form.MadeOn, entry.MadeOn, today);
        var liquor = Ml(nameof(form.LiquorMl), form.LiquorMl);
        var made = Ml(nameof(form.MadeMl), form.MadeMl);
        var filtered = Ml(nameof(form.FilteredMl), form.FilteredMl);
        var kept = entered.Volume(nameof(form.KeptBackMl), form.KeptBackMl);
        var ph = entered.Ph(nameof(form.Ph), form.Ph);
        DateOnly? keepBy = string.IsNullOrWhiteSpace(form.KeepBy) ? null : entered.Day(nameof(form.KeepBy), form.KeepBy, default);
        var place = entered.OptionalWords(nameof(form.Place), form.Place, 60);
        var note = entered.OptionalWords(nameof(form.Note), form.Note);
        await doubt.HandleAsync(entered, entry, liquor, made, filtered, cancel);
        if (keepBy < madeOn)
            entered.Refuse(nameof(form.KeepBy), "The last day is before the day it was made.", "Check the two days.");
        if (filtered > made * 1.02)
            entered.Refuse(nameof(form.FilteredMl), "After filtering there is more than before.", "Check the two volumes.");
        if (kept > (filtered ?? made))
            entered.Refuse(nameof(form.KeptBackMl), "More is kept back than there is.", "Check the two volumes.");
        var pours = await Db.BatchLiquors.Counting().Where(one => one.BatchId == entry.Id).ToListAsync(cancel);
        var steps = await Db.BatchSteps.Counting().Where(one => one.BatchId == entry.Id).ToListAsync(cancel);
        var planned = string.IsNullOrWhiteSpace(form.PlannedMl)
            ? entry.PlannedLiquorMl
            : Ml(nameof(form.PlannedMl), form.PlannedMl) ?? entry.PlannedLiquorMl;

        // The form's field shows six decimals.
        if (Math.Abs(planned - entry.PlannedLiquorMl) < 1e-5)
            planned = entry.PlannedLiquorMl;
        var times = planned / entry.PlannedLiquorMl;
        if (!times.Equals(1))
        {
            if (steps.Exists(step => !step.Planned.Fits(times)))
                entered.Refuse(nameof(form.PlannedMl), "That is more than any pot holds.", "Check the number and its unit.");
            if (entered.Sound && entry.MeasuredLiquorMl is null && liquor is null)
                await CheckLiquorAsync(entered, pours, times - 1, form.MoreThanWritten, cancel);
        }

        return () =>
        {
            foreach (var step in steps)
                step.Planned = step.Planned.Times(times);
            if (pours.Count > 1 || liquor is null)
                foreach (var pour in pours)
                    pour.Ml *= times;
            entry.PlannedLiquorMl = planned;
            (entry.MadeOn, entry.MeasuredLiquorMl, entry.MadeMl, entry.FilteredMl) = (madeOn, liquor, made, filtered);
            (entry.KeptBackMl, entry.Ph, entry.KeepBy, entry.Place, entry.Note) = (kept, ph, keepBy, place, note);

            // With one pot, what was measured is what was drawn from it.
            if (pours is [var only])
                only.Ml = liquor ?? entry.PlannedLiquorMl;
        };
    }

    /// <summary>Steps and liquor follow the volume.</summary>
    protected override async Task<IReadOnlyList<Entry>> AlongAsync(Batch entry, CancellationToken cancel) =>
        [
            .. await Db.BatchLiquors.Where(one => one.BatchId == entry.Id).ToListAsync(cancel),
            .. await Db.BatchSteps.Where(one => one.BatchId == entry.Id).ToListAsync(cancel),
        ];

    private async Task CheckLiquorAsync(
        Entered entered,
        List<BatchLiquor> pours,
        double more,
        string? moreThanWritten,
        CancellationToken cancel
    )
    {
        foreach (var pour in pours.Where(_ => more > 0))
        {
            var pot = await Db.Pots.AsNoTracking().SingleAsync(one => one.Id == pour.PotId, cancel);
            await left.CheckAsync(entered, nameof(ChangeBatchForm.PlannedMl), pot, pour.Ml * more, moreThanWritten, cancel);
        }
    }

    protected override async Task<IReadOnlyList<InTheWay>> InTheWayAsync(Batch entry, CancellationToken cancel) =>
        await Db.Bottles.Counting().CountAsync(one => one.BatchId == entry.Id, cancel) is > 0 and var bottles
            ?
            [
                new(
                    $"It filled {bottles} {(bottles == 1 ? "bottle" : "bottles")}.",
                    "If they were never filled, say so on each bottle's page; if it went bad, take the bottles off the shelf instead.",
                    new(ThingKind.Bottles, entry.Code)
                ),
            ]
            : [];

    protected override async Task<Problem?> NotBackAsync(Batch entry, CancellationToken cancel)
    {
        if (!await Db.Recipes.Counting().AnyAsync(one => one.Id == entry.RecipeId, cancel))
            return new(nameof(WithdrawForm.Why), "Its recipe was taken back.", "Put the recipe back first.");
        var pots = await (
            from liquor in Db.BatchLiquors.Counting()
            join pot in Db.Pots on liquor.PotId equals pot.Id
            where liquor.BatchId == entry.Id
            select pot
        ).ToListAsync(cancel);
        return pots.Find(pot => !pot.Counts) is { } gone
            ? new(nameof(WithdrawForm.Why), $"Pot {gone.Code}, whose liquor it took, was taken back.", "Put the pot back first.")
            : null;
    }
}

public sealed record ChangeBatchForm : IDoubtable
{
    public string? MadeOn { get; init; }

    /// <summary>The liquor it was planned for; as it was when empty.</summary>
    public string? PlannedMl { get; init; }

    public string? LiquorMl { get; init; }

    /// <summary>Anything where there is more liquor than is written down.</summary>
    public string? MoreThanWritten { get; init; }

    public string? MadeMl { get; init; }

    public string? FilteredMl { get; init; }

    public string? KeptBackMl { get; init; }

    public string? Ph { get; init; }

    public string? KeepBy { get; init; }

    public string? Place { get; init; }

    public string? Note { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
