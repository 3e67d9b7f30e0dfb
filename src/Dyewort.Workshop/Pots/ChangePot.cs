using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Puts a pot right. Its code stays: it stands on sheets, tags and labels.</summary>
public sealed class ChangePot(NotebookDb db, TimeProvider clock) : EntryChange<Pot, ChangePotForm>(db, clock), IUseCase
{
    protected override Task<Pot?> FindAsync(Thing thing, CancellationToken cancel) =>
        Db.Pots.SingleOrDefaultAsync(one => one.Code == thing.Code, cancel);

    protected override async Task<Action> ReadAsync(Entered entered, Pot entry, ChangePotForm form, CancellationToken cancel)
    {
        var today = DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);
        var madeOn = entered.PastDay(nameof(form.MadeOn), form.MadeOn, entry.MadeOn, today);
        var (grams, plantSaid) = Plant(entered, entry, form.PlantGrams);
        var liquid = entered.OptionalWords(nameof(form.Liquid), form.Liquid, 80);
        var (liquidMl, liquidSaid) = LiquidOf(entered, entry, form.LiquidMl);
        if ((grams, liquidMl) != (entry.PlantGrams, entry.LiquidMl))
            entered.Doubt(Doubtful.InPot(grams, liquidMl));
        var vessel = entered.OptionalWords(nameof(form.Vessel), form.Vessel, 80);
        var how = entered.OptionalWords(nameof(form.How), form.How);
        var lots = await LotsAsync(entry, cancel);
        var lot = lots.First(one => one.Id == entry.LotId);
        if (!string.IsNullOrWhiteSpace(form.Lot) && form.Lot != entry.LotId.ToString())
        {
            if (lots.FirstOrDefault(one => one.Id.ToString() == form.Lot) is { } other)
                lot = other;
            else
                entered.Refuse(nameof(form.Lot), "That is no lot of this pot's plant.", "Choose one of those shown.");
        }

        if (madeOn < lot.GatheredOn)
            entered.Refuse(
                nameof(form.MadeOn),
                "The plant was gathered after the pot was made.",
                "Check the day, or put the lot's own day right first."
            );
        return () =>
        {
            (entry.MadeOn, entry.PlantGrams, entry.PlantSaid) = (madeOn, grams, plantSaid);
            (entry.Liquid, entry.LiquidMl, entry.LiquidSaid) = (liquid, liquidMl, liquidSaid);
            (entry.Vessel, entry.How, entry.LotId) = (vessel, how, lot.Id);
        };
    }

    /// <summary>The lots it can have been made of: those of its plant, its own with them.</summary>
    public async Task<IReadOnlyList<PlantLot>> LotsAsync(Pot pot, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        var own = await Db.PlantLots.AsNoTracking().SingleAsync(one => one.Id == pot.LotId, cancel);
        var lots = await Db.PlantLots.AsNoTracking().Counting().Where(one => one.PlantId == own.PlantId).ToListAsync(cancel);
        return [.. lots.Append(own).DistinctBy(one => one.Id).OrderBy(one => one.Id)];
    }

    // What is left as it was said stays what it was: “6 cups” of another kitchen is not measured again.
    private static (double? Grams, string? Said) Plant(Entered entered, Pot entry, string? text) =>
        entry.PlantSaid is { } said && text?.Trim() == said ? (entry.PlantGrams, said)
        : entered.Plant(nameof(ChangePotForm.PlantGrams), text) is var plant ? (plant?.Grams, StartPot.Kept(plant?.Text))
        : default;

    private static (double? Ml, string? Said) LiquidOf(Entered entered, Pot entry, string? text) =>
        entry.LiquidSaid is { } said && text?.Trim() == said ? (entry.LiquidMl, said)
        : entered.Volume(nameof(ChangePotForm.LiquidMl), text, 1) is var ml ? (ml, ml is null ? null : StartPot.Kept(text))
        : default;

    protected override async Task<IReadOnlyList<InTheWay>> InTheWayAsync(Pot entry, CancellationToken cancel)
    {
        var trials = await Db
            .Trials.AsNoTracking()
            .Counting()
            .Where(one => one.PotId == entry.Id)
            .OrderBy(one => one.Id)
            .ToListAsync(cancel);
        var recipes = await Db
            .Recipes.AsNoTracking()
            .Counting()
            .Where(one => one.PotId == entry.Id)
            .OrderBy(one => one.Id)
            .ToListAsync(cancel);
        var batches = await (
            from liquor in Db.BatchLiquors.AsNoTracking().Counting()
            join batch in Db.Batches.Counting() on liquor.BatchId equals batch.Id
            where liquor.PotId == entry.Id
            orderby batch.Number
            select new { batch.Code, liquor.Ml }
        ).ToListAsync(cancel);
        return
        [
            .. trials.Select(one => new InTheWay(
                $"Trial {one.Letter}, “{one.Title}”, was poured from it.",
                "Take the trial back first.",
                Thing.Trial(entry.Code, one.Letter)
            )),
            .. recipes.Select(one => new InTheWay(
                $"Recipe {one.Code}, “{one.Name}”, was kept from it.",
                "Take the recipe back first.",
                Thing.Recipe(one.Code)
            )),
            .. batches.Select(one => new InTheWay(
                $"Batch {one.Code} took {Volume.FromMillilitres(one.Ml)} of it.",
                "Take the batch back first.",
                Thing.Batch(one.Code)
            )),
        ];
    }

    protected override async Task<Problem?> NotBackAsync(Pot entry, CancellationToken cancel) =>
        await Db.PlantLots.Counting().AnyAsync(one => one.Id == entry.LotId, cancel)
            ? null
            : new(nameof(WithdrawForm.Why), "Its lot of plant was taken back.", "Put the lot back first.");
}

public sealed record ChangePotForm : IDoubtable
{
    /// <summary>The key of the lot it was made of; as it was when empty.</summary>
    public string? Lot { get; init; }

    public string? MadeOn { get; init; }

    public string? PlantGrams { get; init; }

    public string? Liquid { get; init; }

    public string? LiquidMl { get; init; }

    public string? Vessel { get; init; }

    public string? How { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
