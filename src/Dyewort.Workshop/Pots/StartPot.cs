using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Writes down a new pot, with its plant and lot when they are new too.</summary>
public sealed class StartPot(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <returns>The pot's code.</returns>
    public async Task<Outcome<string>> HandleAsync(StartPotForm form, CancellationToken cancel)
    {
        var entered = new Entered(await db.KitchenAsync(cancel), form);
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var plantName = entered.Words(nameof(form.Plant), form.Plant, "The plant", longest: 80);
        var madeOn = entered.PastDay(nameof(form.MadeOn), form.MadeOn, today, today);
        var gatheredOn = entered.OptionalPastDay(nameof(form.GatheredOn), form.GatheredOn, today);
        var amount = entered.Plant(nameof(form.PlantGrams), form.PlantGrams);
        var liquidMl = entered.Volume(nameof(form.LiquidMl), form.LiquidMl, 1);
        var place = entered.OptionalWords(nameof(form.Place), form.Place, 200);
        var leave = entered.OptionalWords(nameof(form.LeaveFrom), form.LeaveFrom, 200);
        var covers = string.IsNullOrWhiteSpace(form.Covers)
            ? (PlantUse?)null
            : entered.OneOf(nameof(form.Covers), form.Covers, PlantUse.Personal);
        var part = entered.OptionalWords(nameof(form.Part), form.Part, 80);
        var condition = entered.OptionalWords(nameof(form.Condition), form.Condition, 40);
        var liquid = entered.OptionalWords(nameof(form.Liquid), form.Liquid, 80);
        var vessel = entered.OptionalWords(nameof(form.Vessel), form.Vessel, 80);
        var how = entered.OptionalWords(nameof(form.How), form.How);
        var old = string.IsNullOrWhiteSpace(form.Again)
            ? null
            : await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == form.Again, cancel);
        if (old is null && !string.IsNullOrWhiteSpace(form.Again))
            entered.Refuse(
                nameof(form.Again),
                $"There is no pot {form.Again} to repeat.",
                "Start the pot from the page of the one you mean."
            );
        var had = await LotAsync(entered, form, plantName, madeOn, cancel);
        if (had is null && gatheredOn > madeOn)
            entered.Refuse(nameof(form.GatheredOn), "The plant was gathered after the pot was made.", "Check the two days.");
        entered.Doubt(Doubtful.InPot(amount?.Grams, liquidMl));
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);

        var now = clock.GetUtcNow();
        var plant = (await db.Materials.Counting().Where(material => material.Kind == MaterialKind.Plant).ToListAsync(cancel)).Find(
            material => string.Equals(material.Name, plantName, StringComparison.OrdinalIgnoreCase)
        );
        if (plant is null)
        {
            var letters = (
                await db.Materials.Where(material => material.Letters != null).Select(material => material.Letters!).ToListAsync(cancel)
            ).ToHashSet();
            plant = new Material
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Name = plantName,
                Kind = MaterialKind.Plant,
                Letters = Codes.LettersFor(plantName, letters),
            };
            db.Add(plant);
        }

        var lot =
            had
            ?? new PlantLot
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                PlantId = plant.Id,
                GatheredOn = gatheredOn,
                Place = place,
                Part = part,
                Condition = condition,
                Grams = amount?.Grams,
            };
        var codes = (await db.Pots.Select(pot => pot.Code).ToListAsync(cancel)).ToHashSet();
        var made = new Pot
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Code = Codes.Pot(plant.Letters ?? "XX", madeOn, codes),
            LotId = lot.Id,
            MadeOn = madeOn,
            PlantGrams = amount?.Grams,
            PlantSaid = Kept(amount?.Text),
            Liquid = liquid,
            LiquidMl = liquidMl,
            LiquidSaid = liquidMl is null ? null : Kept(form.LiquidMl),
            Vessel = vessel,
            How = how,
        };
        if (had is null)
            db.Add(lot);
        db.Add(made);
        if (old is not null)
            db.Add(RepeatPot.Carry(old, await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == old.Id, cancel), made));
        if (had is null && (leave is not null || covers is not null))
            db.Add(
                new LotSheet
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    LotId = lot.Id,
                    LeaveFrom = leave,
                    Covers = covers,
                }
            );
        await db.SaveChangesAsync(cancel);
        return entered.Made(made.Code);
    }

    private async Task<PlantLot?> LotAsync(Entered entered, StartPotForm form, string plant, DateOnly madeOn, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(form.Lot))
            return null;
        var found = Guid.TryParse(form.Lot, out var id)
            ? await (
                from lot in db.PlantLots.Counting()
                join material in db.Materials on lot.PlantId equals material.Id
                where lot.Id == id
                select new { lot, material.Name }
            ).SingleOrDefaultAsync(cancel)
            : null;
        if (found is null || !string.Equals(found.Name, plant, StringComparison.OrdinalIgnoreCase))
            entered.Refuse(nameof(form.Lot), $"That is no lot of {plant}.", "Choose one of those shown, or a new one.");
        else if (found.lot.GatheredOn > madeOn)
            entered.Refuse(nameof(form.Lot), "That lot was gathered after the pot was made.", "Check the day, or choose another lot.");
        return found?.lot;
    }

    /// <summary>What was typed, where it says more than its figure.</summary>
    internal static string? Kept(string? text) => Figures.Read(text) is null ? text?.Trim() : null;
}

public sealed record StartPotForm : IDoubtable
{
    public string? Plant { get; init; }

    public string? MadeOn { get; init; }

    public string? GatheredOn { get; init; }

    public string? Place { get; init; }

    /// <summary>Who allowed it, in the maker's words.</summary>
    public string? LeaveFrom { get; init; }

    /// <summary>What that covers: Personal or Sale.</summary>
    public string? Covers { get; init; }

    public string? Part { get; init; }

    public string? Condition { get; init; }

    public string? PlantGrams { get; init; }

    public string? Liquid { get; init; }

    public string? LiquidMl { get; init; }

    public string? Vessel { get; init; }

    public string? How { get; init; }

    /// <summary>The code of the pot that this one repeats; empty for none.</summary>
    public string? Again { get; init; }

    /// <summary>A lot of the plant that is there already; empty for one that is new.</summary>
    public string? Lot { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
