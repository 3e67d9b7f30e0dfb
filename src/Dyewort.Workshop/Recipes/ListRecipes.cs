using Dyewort.Making;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Recipes;

/// <summary>Every recipe, newest first, with how many bottles of it stand on the shelf.</summary>
public sealed class ListRecipes(NotebookDb db) : IUseCase
{
    public async Task<IReadOnlyList<ListRecipesLine>> HandleAsync(CancellationToken cancel)
    {
        var recipes = await db.Recipes.AsNoTracking().Counting().OrderByDescending(recipe => recipe.Id).ToListAsync(cancel);
        var batches = await db.Batches.AsNoTracking().Counting().Select(batch => new { batch.Id, batch.RecipeId }).ToListAsync(cancel);
        var standing = (
            await db
                .Bottles.AsNoTracking()
                .Counting()
                .Where(bottle => bottle.GoneOn == null)
                .Select(bottle => bottle.BatchId)
                .ToListAsync(cancel)
        )
            .CountBy(id => id)
            .ToDictionary();
        return
        [
            .. recipes.Select(recipe =>
            {
                var of = batches.Where(batch => batch.RecipeId == recipe.Id).ToList();
                return new ListRecipesLine(recipe, of.Count, of.Sum(batch => standing.GetValueOrDefault(batch.Id)));
            }),
        ];
    }
}

public sealed record ListRecipesLine(Recipe Recipe, int Batches, int Bottles);
