using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>Doubts volumes of a batch that hardly anybody means: far from what was planned, or more than its pot has.</summary>
public sealed class DoubtBatch(NotebookDb db, LiquorLeft left) : IUseCase
{
    /// <param name="entered">Where the questions go.</param>
    /// <param name="batch">The batch as it stands; what is unchanged is not doubted again.</param>
    /// <param name="liquorMl">The liquor measured, millilitres; null while nobody measured it.</param>
    /// <param name="madeMl">What was made of it, millilitres.</param>
    /// <param name="filteredMl">What was left after filtering, millilitres.</param>
    /// <param name="cancel">Ends the reading early.</param>
    public async Task HandleAsync(
        Entered entered,
        Batch batch,
        double? liquorMl,
        double? madeMl,
        double? filteredMl,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(entered);
        ArgumentNullException.ThrowIfNull(batch);
        if (liquorMl is { } ml && ml != batch.MeasuredLiquorMl)
        {
            entered.Doubt(Doubtful.Batch("The liquor", ml, batch.PlannedLiquorMl));
            if (await db.BatchLiquors.AsNoTracking().Counting().Where(one => one.BatchId == batch.Id).ToListAsync(cancel) is [var only])
                entered.Doubt(await left.DoubtAsync(only, ml, cancel));
        }

        var steps = await db.BatchSteps.AsNoTracking().Counting().Where(step => step.BatchId == batch.Id).ToListAsync(cancel);
        var computed =
            (liquorMl ?? batch.PlannedLiquorMl)
            + steps.Where(step => step.Planned.ToAmount().IsPoured).Sum(step => step.Measured?.Ml ?? step.Planned.Ml ?? 0);
        if (madeMl != batch.MadeMl)
            entered.Doubt(Doubtful.Batch("What was made", madeMl, computed));
        if (filteredMl != batch.FilteredMl)
            entered.Doubt(Doubtful.Batch("What was filtered", filteredMl, computed));
    }
}
