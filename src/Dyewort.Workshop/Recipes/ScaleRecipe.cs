using Dyewort.Making;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Recipes;

/// <summary>Carries a recipe to another volume, one of the notebook or one that was typed.</summary>
public sealed class ScaleRecipe : IUseCase
{
    public Outcome<ScaleRecipeAnswer> Handle(ScaleRecipeForm form)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (Caution.WhyNever(form.Card.Lines.Select(line => line.Name)) is { } never)
            return Outcome.Refused<ScaleRecipeAnswer>(
                "recipe",
                $"That is not carried to another volume. {never}",
                "Choose another recipe."
            );
        var scaled = ScaledRecipe.Make(KnownMaterials.Weigh(form.Card), form.To, form.Teaspoon);
        return scaled.TryGet(out var answer)
            ? Outcome.Of(new ScaleRecipeAnswer(answer, Caution.Lines(form.Card.Lines.Select(line => line.Name)), form.ScaleStep))
            : Outcome.Refused<ScaleRecipeAnswer>(scaled.Problems);
    }
}

/// <param name="Scaled">The recipe at the new volume.</param>
/// <param name="Cautions">What to be careful of with what goes in, one sentence each.</param>
/// <param name="ScaleStep">The smallest step of the maker's scale; null when it was not given.</param>
public sealed record ScaleRecipeAnswer(ScaledRecipe Scaled, IReadOnlyList<string> Cautions, Mass? ScaleStep);

public sealed record ScaleRecipeForm
{
    public required RecipeCard Card { get; init; }

    /// <summary>The new volume of liquor.</summary>
    public required Volume To { get; init; }

    /// <summary>Which teaspoon is meant.</summary>
    public Teaspoon Teaspoon { get; init; }

    /// <summary>The smallest step of the maker's scale, such as 1 g; null when it does not matter.</summary>
    public Mass? ScaleStep { get; init; }

    /// <summary>A recipe of the notebook, carried to a volume as people say it: "1.5 L".</summary>
    public static Outcome<ScaleRecipeForm> Of(RecipeView view, string? to, Teaspoon teaspoon, string? scaleStep = null)
    {
        ArgumentNullException.ThrowIfNull(view);
        return Of(Outcome.Of(view.Card()), to, teaspoon, scaleStep);
    }

    /// <summary>The same of a card.</summary>
    public static Outcome<ScaleRecipeForm> Of(RecipeCard card, string? to, Teaspoon teaspoon) =>
        Of(Outcome.Of(card), to, teaspoon, scaleStep: null);

    /// <summary>A card in one line or as JSON.</summary>
    /// <param name="teaspoon">metric, US or imperial; metric when empty.</param>
    public static Outcome<ScaleRecipeForm> Parse(string? recipe, string? to, string? teaspoon = null, string? scaleStep = null)
    {
        var kind = TeaspoonWords.Parse(teaspoon);
        return kind.TryGet(out var meant)
            ? Of(RecipeCard.Parse("recipe", recipe, meant), to, meant, scaleStep)
            : Outcome.Refused<ScaleRecipeForm>(kind.Problems);
    }

    private static Outcome<ScaleRecipeForm> Of(Outcome<RecipeCard> card, string? to, Teaspoon teaspoon, string? scaleStep)
    {
        var volume = Volume.Parse("to", to, teaspoon);
        var entered = new Entered();
        var step = string.IsNullOrWhiteSpace(scaleStep) ? (Mass?)null : entered.Take(Mass.Parse("scale", scaleStep));
        if (step is { Grams: <= 0 } && entered.Sound)
            entered.Refuse("scale", "A scale cannot show steps of nothing.", "Type what its last figure counts, such as 1 g or 0.01 g.");
        return volume.TryGet(out var liquor) && card.TryGet(out var recipe) && entered.Sound
            ? Outcome.Of(
                new ScaleRecipeForm
                {
                    Card = recipe,
                    To = liquor,
                    Teaspoon = teaspoon,
                    ScaleStep = step,
                }
            )
            : Outcome.Refused<ScaleRecipeForm>([.. card.Problems, .. volume.Problems, .. entered.Problems]);
    }
}
