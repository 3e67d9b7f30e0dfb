using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>The maker's own pots of a plant, as far as they teach what the next will give.</summary>
public sealed class PastPots(NotebookDb db) : IUseCase
{
    public async Task<IReadOnlyList<PastPot>> HandleAsync(string? plant, CancellationToken cancel)
    {
        var wanted = plant?.Trim() ?? "";
        var name = PlantGuide.Find(plant)?.Name;
        var pots = await (
            from pot in db.Pots.AsNoTracking().Counting()
            join lot in db.PlantLots on pot.LotId equals lot.Id
            join material in db.Materials on lot.PlantId equals material.Id
            where pot.PlantGrams > 0 && pot.LiquidMl > 0
            select new { pot, material.Name }
        ).ToListAsync(cancel);
        var own = pots.Where(one =>
                string.Equals(one.Name, wanted, StringComparison.OrdinalIgnoreCase)
                || (name is not null && PlantGuide.Find(one.Name)?.Name == name)
            )
            .Select(one => one.pot)
            .ToList();
        var ids = own.Select(pot => pot.Id).ToList();
        var strained = (
            await db
                .PotLog.AsNoTracking()
                .Counting()
                .Where(entry => ids.Contains(entry.PotId) && entry.Kind == LogKind.Strained && entry.Ml > 0)
                .ToListAsync(cancel)
        )
            .GroupBy(entry => entry.PotId)
            .ToDictionary(group => group.Key, group => group.OrderBy(entry => entry.At).First().Ml!.Value);
        var strengths = await db
            .PotSheets.AsNoTracking()
            .Where(sheet => ids.Contains(sheet.PotId))
            .ToDictionaryAsync(sheet => sheet.PotId, sheet => sheet.Strength, cancel);
        return
        [
            .. own.Where(pot => strained.ContainsKey(pot.Id))
                .Select(pot => new PastPot(
                    pot.Code,
                    pot.PlantGrams!.Value,
                    pot.LiquidMl!.Value,
                    strained[pot.Id],
                    strengths.GetValueOrDefault(pot.Id)
                )),
        ];
    }
}
