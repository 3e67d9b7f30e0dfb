using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Puts a lot of plant right: when and where it was gathered, what of it, how much.</summary>
public sealed class ChangeLot(NotebookDb db, TimeProvider clock) : EntryChange<PlantLot, ChangeLotForm>(db, clock), IUseCase
{
    protected override async Task<PlantLot?> FindAsync(Thing thing, CancellationToken cancel) =>
        Guid.TryParse(thing.Code, out var id) ? await Db.PlantLots.SingleOrDefaultAsync(one => one.Id == id, cancel) : null;

    protected override async Task<Action> ReadAsync(Entered entered, PlantLot entry, ChangeLotForm form, CancellationToken cancel)
    {
        var gathered = entered.OptionalPastDay(
            nameof(form.GatheredOn),
            form.GatheredOn,
            DateOnly.FromDateTime(Clock.GetLocalNow().DateTime),
            entry.GatheredOn
        );
        var place = entered.OptionalWords(nameof(form.Place), form.Place, 200);
        var part = entered.OptionalWords(nameof(form.Part), form.Part, 80);
        var condition = entered.OptionalWords(nameof(form.Condition), form.Condition, 40);
        var grams = entered.Mass(nameof(form.Grams), form.Grams, 0.1);
        if (grams != entry.Grams)
            entered.Doubt(Doubtful.Lot(grams));
        var note = entered.OptionalWords(nameof(form.Note), form.Note);
        var first = await Db
            .Pots.AsNoTracking()
            .Counting()
            .Where(pot => pot.LotId == entry.Id && pot.MadeOn < gathered)
            .OrderBy(pot => pot.MadeOn)
            .Select(pot => pot.Code)
            .FirstOrDefaultAsync(cancel);
        if (first is not null)
            entered.Refuse(nameof(form.GatheredOn), $"Pot {first} was made of it before that day.", "Check the two days.");
        return () =>
            (entry.GatheredOn, entry.Place, entry.Part, entry.Condition, entry.Grams, entry.Note) = (
                gathered,
                place,
                part,
                condition,
                grams,
                note
            );
    }

    protected override async Task<IReadOnlyList<InTheWay>> InTheWayAsync(PlantLot entry, CancellationToken cancel) =>
        [
            .. (
                await Db.Pots.AsNoTracking().Counting().Where(pot => pot.LotId == entry.Id).OrderBy(pot => pot.Id).ToListAsync(cancel)
            ).Select(pot => new InTheWay($"Pot {pot.Code} was made of it.", "Take the pot back first.", Thing.Pot(pot.Code))),
        ];
}

public sealed record ChangeLotForm : IDoubtable
{
    public string? GatheredOn { get; init; }

    public string? Place { get; init; }

    public string? Part { get; init; }

    public string? Condition { get; init; }

    public string? Grams { get; init; }

    public string? Note { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
