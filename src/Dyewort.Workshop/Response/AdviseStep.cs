using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Trials;

namespace Dyewort.Workshop.Response;

/// <summary>What one more measure of a material is expected to do to a jar of the notebook.</summary>
public sealed class AdviseStep(NotebookTrials notebook, ModelShelf shelf, NotebookSettings settings) : IUseCase
{
    /// <summary>Steps that a page offers, the usual one in the middle.</summary>
    public static IReadOnlyList<string> Steps { get; } = ["1 pinch", "⅛ tsp", "¼ tsp", "½ tsp", "1 tsp"];

    /// <param name="jar">The jar as it stands.</param>
    /// <param name="material">What may go in next.</param>
    /// <param name="step">How much of it, as people say it; ¼ teaspoon when empty.</param>
    /// <param name="holds">What the sums of chemistry say is in the jar; null when they say nothing.</param>
    /// <returns>Null where the jar's own contents cannot be told.</returns>
    public async Task<AdviseStepAnswer?> HandleAsync(
        JarView jar,
        Material material,
        string? step,
        JarChemistryAnswer? holds,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(jar);
        ArgumentNullException.ThrowIfNull(material);
        if (await notebook.PointAsync(jar.Sample.Id, cancel) is not { } point)
            return null;
        var text = string.IsNullOrWhiteSpace(step) ? "¼ tsp" : step.Trim();
        var trials = await notebook.HandleAsync(cancel);
        AdviseStepAnswer No(Problem problem) => new(material, text, null, null, problem) { Plant = point.Plant };
        if (!trials.Plants.Contains(point.Plant, StringComparer.OrdinalIgnoreCase))
            return No(
                new(
                    "trials",
                    $"Not enough trials yet: no swatch of {point.Plant} was read.",
                    $"Paint and read at least {ResponseModel.FewestSamples}, then every step can be foretold."
                )
            );
        if (await shelf.AskAsync(trials.Table, point.Plant, cancel) is not { } fitted)
            return new(material, text, null, null, null) { Plant = point.Plant, StillLearning = true };
        if (!fitted.TryGet(out var model))
            return No(fitted.Problems[0]);
        var parsed = Amount.Parse("step", text);
        if (!parsed.TryGet(out var amount))
            return No(parsed.Problems[0]);
        var preferences = await settings.ReadAsync(cancel);
        var grams = KnownMaterials.Measured(material).Weigh(amount, preferences.Teaspoon).Grams;
        if (grams is not > 0 || jar.Sample.VolumeMl <= 0)
            return No(
                new(
                    "step",
                    $"Nobody said what {text} of {material.Name} weighs.",
                    "Weigh a level spoon of it and write that into the pantry."
                )
            );
        var name = trials.NameOf(material) ?? material.Name;
        var settled =
            holds is not null && KnownMaterials.Of(material) is { } substance
                ? StepChemistry.NothingMore(holds.Contents, Portion.OfGrams(substance, grams.Value), material.Name)
                : "";
        var outcome = BenchAdvice.Next(model, point, name, grams.Value / jar.Sample.VolumeMl * 1000, settled);
        if (!outcome.TryGet(out var next))
            return No(outcome.Problems[0]);
        var justSeen = next.JustSeenGramsPerLitre is { } dose
            ? MeasuredDose.Of(material, dose, jar.Sample.VolumeMl, KitchenMeasures.TeaspoonMillilitres(preferences.Teaspoon))
            : null;
        return new(material, text, next, justSeen, null) { Plant = point.Plant };
    }
}

/// <param name="Step">The step as it was chosen.</param>
/// <param name="Next">What it is expected to do; null where that cannot be said.</param>
/// <param name="JustSeen">The amount for this jar that would be seen every second time.</param>
/// <param name="Problem">Why nothing can be said.</param>
public sealed record AdviseStepAnswer(Material Material, string Step, NextStep? Next, MeasuredDose? JustSeen, Problem? Problem)
{
    /// <summary>The plant, for the page of what its trials teach.</summary>
    public required string Plant { get; init; }

    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning { get; init; }
}
