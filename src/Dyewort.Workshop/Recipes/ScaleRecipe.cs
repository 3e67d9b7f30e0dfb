using Dyewort.Making;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Recipes;

/// <summary>Carries a recipe to another volume.</summary>
public sealed class ScaleRecipe : IUseCase
{
    public Outcome<ScaleRecipeAnswer> Handle(ScaleRecipeForm form)
    {
        var kind = TeaspoonWords.Parse(form.Teaspoon);
        if (!kind.TryGet(out var teaspoon))
            return Outcome.Refused<ScaleRecipeAnswer>(kind.Problems);
        var card = RecipeCard.Parse("recipe", form.Recipe, teaspoon);
        var to = Volume.Parse("to", form.To, teaspoon);
        var step = Step(form.ScaleStep);
        if (!card.TryGet(out var recipe) || !to.TryGet(out var volume) || !step.TryGet(out var smallest))
            return Outcome.Refused<ScaleRecipeAnswer>([.. card.Problems, .. to.Problems, .. step.Problems]);
        var scaled = ScaledRecipe.Make(KnownMaterials.Weigh(recipe), volume, teaspoon);
        return scaled.TryGet(out var answer)
            ? Outcome.Of(
                new ScaleRecipeAnswer(answer, Caution.Lines(recipe.Lines.Select(line => line.Name)), smallest.Grams > 0 ? smallest : null)
            )
            : Outcome.Refused<ScaleRecipeAnswer>(scaled.Problems);
    }

    /// <summary>The answer for a recipe that was scaled already, from the notebook.</summary>
    public static Outcome<ScaleRecipeAnswer> Describe(ScaledRecipe scaled, string? scaleStep)
    {
        var step = Step(scaleStep);
        return step.TryGet(out var smallest)
            ? Outcome.Of(
                new ScaleRecipeAnswer(scaled, Caution.Lines(scaled.Lines.Select(line => line.Name)), smallest.Grams > 0 ? smallest : null)
            )
            : Outcome.Refused<ScaleRecipeAnswer>(step.Problems);
    }

    private static Outcome<Mass> Step(string? typed)
    {
        if (string.IsNullOrWhiteSpace(typed))
            return Outcome.Of(default(Mass));
        var parsed = Mass.Parse("scale", typed);
        return parsed.TryGet(out var step) && step.Grams <= 0
            ? Outcome.Refused<Mass>(
                "scale",
                "A scale cannot show steps of nothing.",
                "Type what its last figure counts, such as 1 g or 0.01 g."
            )
            : parsed;
    }
}

/// <param name="Scaled">The recipe at the new volume.</param>
/// <param name="Cautions">What to be careful of with what goes in, one sentence each.</param>
/// <param name="ScaleStep">The smallest step of the maker's scale; null when it was not given.</param>
public sealed record ScaleRecipeAnswer(ScaledRecipe Scaled, IReadOnlyList<string> Cautions, Mass? ScaleStep);

/// <summary>What was typed.</summary>
public sealed record ScaleRecipeForm
{
    /// <summary>A card in one line or as JSON.</summary>
    public string? Recipe { get; init; }

    public string? To { get; init; }

    /// <summary>metric, US or imperial.</summary>
    public string? Teaspoon { get; init; }

    /// <summary>The smallest step of the maker's scale, such as 1 g; empty when it does not matter.</summary>
    public string? ScaleStep { get; init; }
}
