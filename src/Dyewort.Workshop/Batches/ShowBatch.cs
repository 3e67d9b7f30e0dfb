using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>One batch: what was planned, what was measured, what it filled.</summary>
public sealed class ShowBatch(NotebookDb db, FindThread thread, NotebookSettings settings) : IUseCase
{
    public async Task<ShowBatchAnswer?> HandleAsync(string code, CancellationToken cancel)
    {
        if (await BatchView.LoadAsync(db, code, cancel) is not { } view)
            return null;
        var ids = view.Steps.Select(line => line.Step.Id).Concat(view.Pours.Select(pour => pour.Liquor.Id)).Append(view.Batch.Id).ToList();
        return new(
            view,
            await db
                .Materials.AsNoTracking()
                .Counting()
                .Where(material => material.Kind == MaterialKind.Container)
                .OrderBy(material => material.Name)
                .ToListAsync(cancel),
            await settings.TeaspoonMlAsync(cancel),
            await thread.OfBatchAsync(view.Batch, view.Recipe.From, view.Origins, cancel),
            await db
                .Corrections.AsNoTracking()
                .Where(one => ids.Contains(one.EntryId) && one.Before != "null")
                .OrderByDescending(one => one.CorrectedAt)
                .ToListAsync(cancel)
        );
    }
}

public sealed record ShowBatchAnswer(
    BatchView View,
    IReadOnlyList<Material> Containers,
    double TeaspoonMl,
    IReadOnlyList<ThreadStep> Thread,
    IReadOnlyList<Correction> Corrections
);
