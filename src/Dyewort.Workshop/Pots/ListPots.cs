using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Every pot, newest first.</summary>
public sealed class ListPots(NotebookDb db) : IUseCase
{
    public async Task<IReadOnlyList<ListPotsLine>> HandleAsync(CancellationToken cancel)
    {
        var pots = await (
            from pot in db.Pots.AsNoTracking().Counting()
            join lot in db.PlantLots on pot.LotId equals lot.Id
            join plant in db.Materials on lot.PlantId equals plant.Id
            orderby pot.MadeOn descending, pot.Id descending
            select new { pot, plant.Name }
        ).ToListAsync(cancel);
        var log = (await db.PotLog.AsNoTracking().ToListAsync(cancel)).ToLookup(entry => entry.PotId);
        var trials = (await db.Trials.AsNoTracking().Counting().Select(trial => trial.PotId).ToListAsync(cancel))
            .CountBy(id => id)
            .ToDictionary();
        var jars = (await db.Samples.AsNoTracking().Counting().Select(sample => sample.PotId).ToListAsync(cancel))
            .CountBy(id => id)
            .ToDictionary();
        return
        [
            .. pots.Select(one => new ListPotsLine(
                one.pot,
                one.Name,
                LiquorSum.MeasuredMl(log[one.pot.Id]),
                trials.GetValueOrDefault(one.pot.Id),
                jars.GetValueOrDefault(one.pot.Id)
            )),
        ];
    }
}

public sealed record ListPotsLine(Pot Pot, string Plant, double? MeasuredMl, int Trials, int Jars);
