using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Pots;

namespace Dyewort.Workshop.Response;

/// <summary>Says what one more measure would do to a jar, from a table of trials.</summary>
public sealed class ForetellStep(ModelShelf shelf) : IUseCase
{
    public Outcome<ForetellStepAnswer> Handle(ForetellStepForm form, TrialSource trials)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        var entered = new Entered();
        var volume = entered.Millilitres("--volume", form.Volume);
        if (volume is not > 0 && entered.Sound)
            entered.Refuse("--volume", "The jar's volume is missing.", "Add --volume 90ml.");
        var step = entered.Addition("STEP", form.Step, trials);
        var jar = entered.Jar(trials, form.Plant, form.Jar, form.InJar, volume, form.Ph);
        if (!entered.Sound || step is not { } measure || jar is null)
            return Outcome.Refused<ForetellStepAnswer>(entered.Problems);
        var fitted = shelf.Of(trials.Table, jar.Plant);
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<ForetellStepAnswer>(fitted.Problems);
        var perLitre = 1000 * measure.Grams / volume!.Value;
        var next = BenchAdvice.Next(
            model,
            jar,
            measure.Name,
            perLitre,
            StepChemistry.NothingMore(jar, volume.Value, model.Ph, measure.Name, measure.Grams)
        );
        return next.TryGet(out var answer)
            ? Outcome.Of(new ForetellStepAnswer(answer, perLitre, Caution.Lines([answer.Addition]), trials.Table.Warnings))
            : Outcome.Refused<ForetellStepAnswer>(next.Problems);
    }
}

public sealed record ForetellStepAnswer(
    NextStep Step,
    double GramsPerLitrePerMeasure,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Warnings
);

public sealed record ForetellStepForm
{
    /// <summary>"alum=1/4 tsp".</summary>
    public string? Step { get; init; }

    public string? Volume { get; init; }

    /// <summary>A sample of the trials the jar equals; empty for the plain liquor.</summary>
    public string? Jar { get; init; }

    /// <summary>What is in the jar already.</summary>
    public IReadOnlyList<string> InJar { get; init; } = [];

    public string? Ph { get; init; }

    public string Plant { get; init; } = "";
}
