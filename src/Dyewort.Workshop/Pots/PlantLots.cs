using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>The plant lots: what is left of each, what it may be used for, what it weighs dry.</summary>
public sealed class PlantLots(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<IReadOnlyList<PlantLotsLine>> HandleAsync(CancellationToken cancel)
    {
        var lots = await (
            from lot in db.PlantLots.AsNoTracking().Counting()
            join plant in db.Materials on lot.PlantId equals plant.Id
            select new { lot, plant }
        ).ToListAsync(cancel);
        var sheets = (await db.LotSheets.AsNoTracking().ToListAsync(cancel)).ToDictionary(sheet => sheet.LotId);
        var pots = (await db.Pots.AsNoTracking().Counting().ToListAsync(cancel)).ToLookup(pot => pot.LotId);
        var drying = lots.Where(one =>
                sheets.TryGetValue(one.lot.Id, out var sheet) && sheet is { DriedFromGrams: not null, DriedToGrams: not null }
            )
            .ToLookup(
                one => one.plant.Id,
                one => new DryingRecord(sheets[one.lot.Id].DriedFromGrams!.Value, sheets[one.lot.Id].DriedToGrams!.Value)
            );
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        return
        [
            .. lots.OrderByDescending(one => one.lot.GatheredOn)
                .ThenBy(one => one.plant.Name, StringComparer.Ordinal)
                .Select(one =>
                {
                    var sheet = sheets.GetValueOrDefault(one.lot.Id);
                    var left = one.lot.Grams is { } grams
                        ? LotRules.Left(grams, [.. pots[one.lot.Id].Select(pot => new LotDraw(pot.Code, pot.PlantGrams ?? 0))])
                        : null;
                    IReadOnlyList<string> Against(PlantUse use) =>
                        LotRules.Against(sheet?.Bought ?? false, ShowPotWork.Leave(sheet), use, one.lot.GatheredOn, today);
                    return new PlantLotsLine(
                        one.lot,
                        one.plant,
                        sheet,
                        [.. pots[one.lot.Id].OrderBy(pot => pot.MadeOn)],
                        left is not null && left.TryGet(out var rest) ? rest : null,
                        left?.Problems ?? [],
                        Against(PlantUse.Personal),
                        Against(PlantUse.Sale),
                        LotRules.Dry([.. drying[one.plant.Id]]).TryGet(out var ratio) ? ratio : null
                    );
                }),
        ];
    }

    public async Task<Outcome<Guid>> SaveAsync(Guid lotId, PlantLotsForm form, CancellationToken cancel)
    {
        if (!await db.PlantLots.AnyAsync(lot => lot.Id == lotId, cancel))
            return Outcome.Refused<Guid>("Source", "This lot is not in the notebook.", "Go back to the lots.");
        var entered = new Entered(asked: form);
        var bought = string.Equals(form.Source, "bought", StringComparison.OrdinalIgnoreCase);
        var supplier = entered.OptionalWords(nameof(form.Supplier), form.Supplier, 120);
        var from = entered.OptionalWords(nameof(form.LeaveFrom), form.LeaveFrom, 200);
        var covers = string.IsNullOrWhiteSpace(form.Covers)
            ? (PlantUse?)null
            : entered.OneOf(nameof(form.Covers), form.Covers, PlantUse.Personal);
        var until = string.IsNullOrWhiteSpace(form.LeaveUntil)
            ? (DateOnly?)null
            : entered.Day(nameof(form.LeaveUntil), form.LeaveUntil, default);
        var fresh = entered.Mass(nameof(form.DriedFromGrams), form.DriedFromGrams, 0.1);
        var dry = entered.Mass(nameof(form.DriedToGrams), form.DriedToGrams, 0.01);
        entered.Doubt(Doubtful.Lot(fresh));
        if (fresh is null != dry is null && entered.Sound)
            entered.Refuse(nameof(form.DriedToGrams), "A drying has two weights.", "Give the weight fresh and the weight dry, or neither.");
        if (fresh < dry)
            entered.Refuse(nameof(form.DriedToGrams), "Dry weighs more than fresh.", "Check which is which.");
        if (covers is not null && from is null && !bought && entered.Sound)
            entered.Refuse(nameof(form.LeaveFrom), "It is not said who gave leave.", "Write who said yes; it is never printed.");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);

        var now = clock.GetUtcNow();
        var sheet = await db.LotSheets.SingleOrDefaultAsync(one => one.LotId == lotId, cancel);
        if (sheet is null)
        {
            sheet = new LotSheet
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                LotId = lotId,
            };
            db.Add(sheet);
        }

        (sheet.Bought, sheet.Supplier, sheet.LeaveFrom, sheet.Covers, sheet.LeaveUntil, sheet.LeaveWritten) = (
            bought,
            supplier,
            from,
            covers,
            until,
            form.LeaveWritten is not null
        );
        (sheet.DriedFromGrams, sheet.DriedToGrams) = (fresh, dry);
        await db.SaveChangesAsync(cancel);
        return entered.Made(lotId);
    }
}

public sealed record PlantLotsForm : IDoubtable
{
    public string? Source { get; init; }

    public string? Supplier { get; init; }

    public string? LeaveFrom { get; init; }

    public string? Covers { get; init; }

    public string? LeaveUntil { get; init; }

    public string? LeaveWritten { get; init; }

    public string? DriedFromGrams { get; init; }

    public string? DriedToGrams { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}

public sealed record PlantLotsLine(
    PlantLot Lot,
    Material Plant,
    LotSheet? Sheet,
    IReadOnlyList<Pot> Pots,
    double? LeftGrams,
    IReadOnlyList<Problem> Problems,
    IReadOnlyList<string> AgainstOwnUse,
    IReadOnlyList<string> AgainstSale,
    FreshToDry? Drying
);
