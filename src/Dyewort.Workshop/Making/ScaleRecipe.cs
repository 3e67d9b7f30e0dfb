using Dyewort.Chemistry;
using Dyewort.Making;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Making;

/// <summary>Carries a recipe to another volume.</summary>
public sealed class ScaleRecipe : IUseCase
{
    /// <summary>What was typed.</summary>
    public sealed record Form
    {
        /// <summary>A card in one line or as JSON.</summary>
        public string? Recipe { get; init; }

        public string? To { get; init; }

        /// <summary>metric, US or imperial.</summary>
        public string? Teaspoon { get; init; }
    }

    /// <param name="Scaled">The recipe at the new volume.</param>
    /// <param name="Cautions">What to be careful of with what goes in, one sentence each.</param>
    public sealed record Answer(ScaledRecipe Scaled, IReadOnlyList<string> Cautions);

    public Outcome<Answer> Handle(Form form)
    {
        var kind = Kind(form.Teaspoon);
        if (!kind.TryGet(out var teaspoon)) return Outcome.Refused<Answer>(kind.Problems);
        var card = RecipeCard.Parse("recipe", form.Recipe, teaspoon);
        var to = Volume.Parse("to", form.To, teaspoon);
        if (!card.TryGet(out var recipe) || !to.TryGet(out var volume)) return Outcome.Refused<Answer>([.. card.Problems, .. to.Problems]);
        var scaled = ScaledRecipe.Make(KnownMaterials.Weigh(recipe), volume, teaspoon);
        return scaled.TryGet(out var answer) ? Outcome.Of(new Answer(answer, Cautions(recipe))) : Outcome.Refused<Answer>(scaled.Problems);
    }

    /// <summary>Which teaspoon a word means; metric when there is none.</summary>
    public static Outcome<Teaspoon> Kind(string? typed) => (typed ?? "").Trim().ToUpperInvariant() switch
    {
        "" or "METRIC" or "5 ML" or "5ML" => Outcome.Of(Teaspoon.Metric),
        "US" => Outcome.Of(Teaspoon.UsCustomary),
        "IMPERIAL" or "UK" => Outcome.Of(Teaspoon.Imperial),
        _ => Outcome.Refused<Teaspoon>("teaspoon", $"“{typed}” is not a teaspoon that is known here.", "Say metric (5 ml), US (4.929 ml) or imperial (5.919 ml)."),
    };

    private static List<string> Cautions(RecipeCard card)
    {
        var cautions = new List<string>();
        foreach (var line in card.Lines)
        {
            if (KnownMaterials.Find(line.Name)?.Hazard is { Caution.Length: > 0 } hazard)
                cautions.Add($"{line.Name}: {(hazard.SignalWord is "none" or "" ? "" : $"{hazard.SignalWord}. ")}{hazard.Caution}");
        }

        if (cautions.Count > 0) cautions.Add(Hazard.GoesFirst);
        return cautions;
    }
}
