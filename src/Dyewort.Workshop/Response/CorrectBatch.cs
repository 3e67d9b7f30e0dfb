using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Pots;

namespace Dyewort.Workshop.Response;

/// <summary>Finds what brings a wrong batch nearer to its recipe, from a table of trials.</summary>
public sealed class CorrectBatch(ModelShelf shelf) : IUseCase
{
    public Outcome<CorrectBatchAnswer> Handle(CorrectBatchForm form, TrialSource trials)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        var entered = new Entered();
        var wanted = entered.ColourOf("--recipe", form.Recipe, trials.Table, out var recipe);
        var measured = entered.ColourOf("--measured", form.Measured, trials.Table, out _);
        var volume = entered.Millilitres("--volume", form.Volume);
        if (volume is not > 0)
            entered.Refuse("--volume", "The batch's volume is missing.", "Add --volume 500ml.");
        var jar =
            form.InJar.Count > 0 || recipe is null
                ? entered.Jar(trials, recipe?.Plant ?? form.Plant, null, form.InJar, volume, form.Ph)
                : recipe with
                {
                    Wash = 1,
                    Coats = 1,
                    Ph = entered.OptionalNumber("--ph", form.Ph, "pH", -1, 15, "4.5"),
                };
        if (recipe is null && form.InJar.Count == 0)
            entered.Refuse("--in", "What is in the batch is not known.", "Name the recipe's sample, or add --in \"alum=5 g\".");
        var inks = new List<BlendInk>();
        foreach (var name in form.Inks)
        {
            if (entered.ColourOf("--ink", name, trials.Table, out var made) is { } colour)
                inks.Add(
                    new(
                        name.Trim(),
                        colour,
                        made is not null && jar is not null && string.Equals(made.Plant, jar.Plant, StringComparison.OrdinalIgnoreCase)
                            ? made
                            : null
                    )
                );
        }

        var limits = entered.Doses("--limit", form.Limits, trials, "copperas=4");

        if (!entered.Sound || jar is null)
            return Outcome.Refused<CorrectBatchAnswer>(entered.Problems);
        var fitted = shelf.Of(trials.Table, jar.Plant);
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<CorrectBatchAnswer>(fitted.Problems);
        var found = BatchCorrection.Find(
            model,
            new()
            {
                Believed = jar,
                Measured = measured!.Value,
                Wanted = wanted!.Value,
                Millilitres = volume!.Value,
                Inks = inks,
                MostGramsPerLitre = SafeDoses.Of(model.Additions, trials, model, limits),
            }
        );
        return found.TryGet(out var answer)
            ? Outcome.Of(
                new CorrectBatchAnswer(
                    answer,
                    wanted.Value,
                    measured.Value,
                    MatchColour.Cautions(answer.Ranked.SelectMany(one => one.AddGrams.Names)),
                    trials.Table.Warnings
                )
            )
            : Outcome.Refused<CorrectBatchAnswer>(found.Problems);
    }
}

public sealed record CorrectBatchAnswer(
    CorrectionAnswer Correction,
    Lab Wanted,
    Lab Measured,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Warnings
);

public sealed record CorrectBatchForm
{
    /// <summary>The recipe's sample in the trials, or its colour.</summary>
    public string? Recipe { get; init; }

    /// <summary>The colour the batch has.</summary>
    public string? Measured { get; init; }

    public string? Volume { get; init; }

    /// <summary>What is really in it, where that is not the recipe's composition.</summary>
    public IReadOnlyList<string> InJar { get; init; } = [];

    public string? Ph { get; init; }

    /// <summary>Samples at hand to blend with.</summary>
    public IReadOnlyList<string> Inks { get; init; } = [];

    /// <summary>Limits in g/L: "copperas=4".</summary>
    public IReadOnlyList<string> Limits { get; init; } = [];

    public string Plant { get; init; } = "";
}
