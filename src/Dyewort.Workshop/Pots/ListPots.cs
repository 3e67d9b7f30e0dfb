using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Every pot, newest first.</summary>
public sealed class ListPots(NotebookDb db, LiquorLeft liquor) : IUseCase
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
        var left = await liquor.OfAllAsync(cancel);
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
                left.GetValueOrDefault(one.pot.Id),
                trials.GetValueOrDefault(one.pot.Id),
                jars.GetValueOrDefault(one.pot.Id)
            )),
        ];
    }
}

/// <param name="Pot">The pot.</param>
/// <param name="Plant">What was in it.</param>
/// <param name="LeftMl">Liquor left, millilitres; null while nobody measured it; below zero where more was drawn than was measured.</param>
/// <param name="Trials">Trials poured from it.</param>
/// <param name="Jars">Jars in those.</param>
public sealed record ListPotsLine(Pot Pot, string Plant, double? LeftMl, int Trials, int Jars);
