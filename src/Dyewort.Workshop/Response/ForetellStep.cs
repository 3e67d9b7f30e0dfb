using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>What one more measure of a material is expected to do to a jar.</summary>
public sealed class ForetellStep(ModelShelf shelf) : IUseCase
{
    /// <returns>Null while the trials are still being learned from.</returns>
    public async Task<Outcome<ForetellStepAnswer>?> HandleAsync(ForetellStepForm form, TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        var ml = form.Millilitres;
        if (ml is not > 0)
            return Outcome.Refused<ForetellStepAnswer>(nameof(form.Volume), "The jar's volume is missing.", "Give it, such as 90 ml.");
        if (
            trials.Plants.Count > 0
            && form.Jar.Plant.Length > 0
            && !trials.Plants.Contains(form.Jar.Plant, StringComparer.OrdinalIgnoreCase)
        )
            return Outcome.Refused<ForetellStepAnswer>(
                "trials",
                $"Not enough trials yet: no swatch of {form.Jar.Plant} was read.",
                $"Paint and read at least {ResponseModel.FewestSamples}, then every step can be foretold."
            );
        if (await shelf.AskAsync(trials.Table, form.Jar.Plant, cancel) is not { } fitted)
            return null;
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<ForetellStepAnswer>(fitted.Problems);
        if (Caution.WhyNot(form.Material, form.Jar.GramsPerLitre.Names.Select(trials.MaterialOf)) is { } why)
            return Outcome.Refused<ForetellStepAnswer>(nameof(form.Amount), $"That step is not foretold. {why}", "Leave it out.");
        var grams = KnownMaterials.Measured(form.Material).Weigh(form.Amount, trials.Teaspoon).Grams;
        if (grams is not > 0)
            return Outcome.Refused<ForetellStepAnswer>(
                nameof(form.Amount),
                $"Nobody said what {form.Amount.Text} of {form.Material.Name} weighs.",
                "Weigh a level spoon of it and write that into the pantry, or give grams."
            );
        var name = trials.NameOf(form.Material) ?? form.Material.Name;
        var settled =
            form.Holds is null ? StepChemistry.NothingMore(form.Jar, ml, model.Ph, name, grams.Value)
            : KnownMaterials.Of(form.Material) is { } known
                ? StepChemistry.NothingMore(form.Holds, Portion.OfGrams(known, grams.Value), form.Material.Name)
            : "";
        var perLitre = 1000 * grams.Value / ml;
        var next = BenchAdvice.Next(model, form.Jar, name, perLitre, settled);
        if (!next.TryGet(out var step))
            return Outcome.Refused<ForetellStepAnswer>(next.Problems);
        return Outcome.Of(
            new ForetellStepAnswer(
                step,
                perLitre,
                step.JustSeenGramsPerLitre is { } dose ? MeasuredDose.Of(form.Material, dose, ml, trials.TeaspoonMl) : null,
                Caution.For([form.Material]),
                trials.Table.Warnings
            )
        );
    }
}

public sealed record ForetellStepForm
{
    /// <summary>What is in the jar, as the trials name it.</summary>
    public required TrialPoint Jar { get; init; }

    /// <summary>The jar's volume.</summary>
    public Volume Volume { get; init; }

    internal double Millilitres => Volume.Millilitres;

    /// <summary>What goes in next.</summary>
    public required Material Material { get; init; }

    /// <summary>How much of it.</summary>
    public required Amount Amount { get; init; }

    /// <summary>What the sums of chemistry say is in the jar; null for what its composition alone says.</summary>
    public JarContents? Holds { get; init; }
}

/// <param name="Step">What the step is expected to do.</param>
/// <param name="GramsPerLitrePerMeasure">What one such measure makes in this jar.</param>
/// <param name="JustSeen">The amount for this jar that would be seen every second time; null where none would.</param>
/// <param name="Cautions">What to be careful of with it.</param>
/// <param name="Warnings">What was left out of the trials, a sentence each.</param>
public sealed record ForetellStepAnswer(
    NextStep Step,
    double GramsPerLitrePerMeasure,
    MeasuredDose? JustSeen,
    IReadOnlyList<Caution> Cautions,
    IReadOnlyList<string> Warnings
);
