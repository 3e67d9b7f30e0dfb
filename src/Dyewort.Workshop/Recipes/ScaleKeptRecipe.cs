using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Store;

namespace Dyewort.Workshop.Recipes;

/// <summary>Carries a recipe of the notebook to another volume.</summary>
public sealed class ScaleKeptRecipe(NotebookDb db, NotebookSettings settings) : IUseCase
{
    /// <param name="code">The recipe's code, "R7"; small letters do.</param>
    /// <param name="to">The new volume of liquor as people say it: "1.5 L".</param>
    public async Task<Outcome<ScaledRecipe>> HandleAsync(string code, string? to, CancellationToken cancel)
    {
        if (await RecipeView.LoadAsync(db, code.Trim().ToUpperInvariant(), cancel) is not { } view)
            return Outcome.Refused<ScaledRecipe>(
                "recipe",
                $"There is no recipe {code} in this notebook.",
                "Look the code up on the recipes page."
            );
        return Scale(view, to, (await settings.ReadAsync(cancel)).Teaspoon);
    }

    /// <summary>The same for a recipe that was read already.</summary>
    public static Outcome<ScaledRecipe> Scale(RecipeView view, string? to, Teaspoon teaspoon)
    {
        var (volume, card) = (Volume.Parse("to", to, teaspoon), view.Card());
        return volume.TryGet(out var liquor) && card.TryGet(out var recipe)
            ? ScaledRecipe.Make(recipe, liquor, teaspoon)
            : Outcome.Refused<ScaledRecipe>([.. volume.Problems, .. card.Problems]);
    }
}
