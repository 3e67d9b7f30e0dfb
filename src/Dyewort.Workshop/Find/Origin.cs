using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Find;

/// <summary>A pot, and the lot of plant that went into it.</summary>
public sealed record Origin(Pot Pot, PlantLot Lot, Material Plant)
{
    internal static async Task<IReadOnlyList<Origin>> LoadAsync(NotebookDb db, IReadOnlyList<Guid> potIds, CancellationToken cancel)
    {
        var found = await (
            from pot in db.Pots.AsNoTracking()
            join lot in db.PlantLots on pot.LotId equals lot.Id
            join plant in db.Materials on lot.PlantId equals plant.Id
            where potIds.Contains(pot.Id)
            select new
            {
                pot,
                lot,
                plant,
            }
        ).ToListAsync(cancel);
        return
        [
            .. found
                .OrderBy(one => one.pot.MadeOn)
                .ThenBy(one => one.pot.Code, StringComparer.Ordinal)
                .Select(one => new Origin(one.pot, one.lot, one.plant)),
        ];
    }
}
