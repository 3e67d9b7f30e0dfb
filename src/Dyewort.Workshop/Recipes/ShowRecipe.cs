using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Recipes;

/// <summary>One recipe: what goes in, what it came from, and every batch and bottle made of it.</summary>
public sealed class ShowRecipe(NotebookDb db, FindThread thread, FindTakenBack taken) : IUseCase
{
    public async Task<ShowRecipeAnswer?> HandleAsync(string code, CancellationToken cancel)
    {
        if (await RecipeView.LoadAsync(db, code, cancel) is not { } view)
            return null;
        var batches = await db
            .Batches.AsNoTracking()
            .Counting()
            .Where(batch => batch.RecipeId == view.Recipe.Id)
            .OrderBy(batch => batch.Number)
            .ToListAsync(cancel);
        var ids = batches.Select(batch => batch.Id).ToList();
        var bottles = (
            await db
                .Bottles.AsNoTracking()
                .Counting()
                .Where(bottle => ids.Contains(bottle.BatchId))
                .OrderBy(bottle => bottle.Number)
                .ToListAsync(cancel)
        ).ToLookup(bottle => bottle.BatchId);
        var corrected = view.Lines.Select(line => line.Step.Id).Append(view.Recipe.Id).ToList();
        return new(
            view,
            [.. batches.Select(batch => new ShowRecipeMade(batch, [.. bottles[batch.Id]]))],
            await db
                .Materials.AsNoTracking()
                .Counting()
                .Where(material =>
                    material.Kind != MaterialKind.Plant && material.Kind != MaterialKind.Paper && material.Kind != MaterialKind.Container
                )
                .OrderBy(material => material.Name)
                .ToListAsync(cancel),
            await thread.OfRecipeAsync(view.From, cancel),
            await db
                .Corrections.AsNoTracking()
                .Where(one => corrected.Contains(one.EntryId))
                .OrderByDescending(one => one.CorrectedAt)
                .ToListAsync(cancel)
        )
        {
            TakenBack = await taken.BatchesAsync(view.Recipe.Id, cancel),
        };
    }
}

public sealed record ShowRecipeAnswer(
    RecipeView View,
    IReadOnlyList<ShowRecipeMade> Batches,
    IReadOnlyList<Material> Materials,
    IReadOnlyList<ThreadStep> Thread,
    IReadOnlyList<Correction> Corrections
)
{
    /// <summary>Batches of it that were taken back.</summary>
    public IReadOnlyList<TakenBackLine> TakenBack { get; init; } = [];
}

/// <param name="Batch">The batch.</param>
/// <param name="Bottles">Bottles it filled that were not written by mistake.</param>
public sealed record ShowRecipeMade(Batch Batch, IReadOnlyList<Bottle> Bottles);
