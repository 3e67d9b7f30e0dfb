using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Workshop.Batches;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>A batch that came out another colour than its recipe: what to stir in, or what to blend it with.</summary>
public sealed class PutBatchRight(NotebookDb db, NotebookTrials notebook, ModelShelf shelf, NotebookSettings settings) : IUseCase
{
    /// <param name="colour">The batch's colour, painted like the recipe's swatch and dry; empty for what is kept with the batch.</param>
    /// <param name="fromPhoto">True where it was taken from a loose photo.</param>
    /// <returns>Null where there is no such batch.</returns>
    public async Task<Outcome<PutBatchRightAnswer>?> HandleAsync(string code, string? colour, bool fromPhoto, CancellationToken cancel)
    {
        if (await BatchView.LoadAsync(db, code, cancel) is not { } view)
            return null;
        Xyz read;
        double doubt;
        if (!string.IsNullOrWhiteSpace(colour))
        {
            var typed = ColourText.Parse("c", colour);
            if (!typed.TryGet(out var text))
                return Outcome.Refused<PutBatchRightAnswer>(typed.Problems);
            (read, doubt) = (text.Colour, fromPhoto ? KeepBatchColour.PhotoDoubtDe00 : KeepBatchColour.TypedDoubtDe00);
        }
        else if (view.Colour is { } kept)
        {
            // Photos taken one way err one way, so more squares are not counted as more certainty.
            (read, doubt) = (kept, view.Readings.Average(one => one.UncertaintyDe00));
        }
        else
        {
            return Outcome.Of(new PutBatchRightAnswer(view, null, 0, "", [], null));
        }

        if (view.Recipe.Recipe.Colour is not { } goal)
            return Outcome.Of(
                new PutBatchRightAnswer(
                    view,
                    read,
                    0,
                    "",
                    [],
                    new("recipe", "The recipe has no colour to come back to.", "Keep it from a swatch that was read.")
                )
            );
        var (measured, wanted) = (Lab.FromXyz(read), Lab.FromXyz(goal));
        var off = Difference.Ciede2000(measured, wanted);
        PutBatchRightAnswer No(Problem problem) => new(view, read, off, "", [], problem);
        if (view.Pours.Count == 0)
            return Outcome.Of(No(new("batch", "Nobody said which pot its liquor came from.", "Write it into the batch.")));

        var trials = await notebook.HandleAsync(cancel);
        var plant = view.Pours[0].Origin.Plant.Name;
        if (await shelf.AskAsync(trials.Table, plant, cancel) is not { } fitted)
            return Outcome.Of(new PutBatchRightAnswer(view, read, off, "", [], null) { StillLearning = true });
        if (!fitted.TryGet(out var model))
            return Outcome.Of(No(fitted.Problems[0]));
        var liquorMl = view.Batch.MeasuredLiquorMl ?? view.Batch.PlannedLiquorMl;
        var doses = Doses.None;
        foreach (var line in view.Steps)
        {
            if (line.Material is not { } material || (line.Step.MeasuredGrams ?? line.Step.PlannedGrams) is not { } grams)
                continue;
            var name = trials.NameOf(material);
            if (name is not null)
                doses = doses.Plus(name, 1000 * grams / liquorMl);
        }

        var paper = view.Recipe.Swatch is { } swatch
            ? trials.Painted.FirstOrDefault(one => one.Swatch.Id == swatch.Id)?.Row.Point.Paper ?? ""
            : "";
        var setting = model.UsualSetting(paper);
        var wash = view.Recipe.Swatch?.Wash ?? 1;
        var spoonMl = await settings.TeaspoonMlAsync(cancel);
        var batch = new WrongBatch
        {
            Believed = setting with
            {
                Sample = "",
                Pot = view.Pours[0].Origin.Pot.Code,
                GramsPerLitre = doses,
                Ph = view.Batch.Ph,
                Wash = wash,
            },
            Measured = measured,
            MeasuredUncertaintyDe00 = doubt,
            Wanted = wanted,
            Millilitres = Math.Max(1, view.Ready.Ml),
            MostGramsPerLitre = SafeDoses.Of(trials.Materials, model),
            SmallestGrams = PlanTrial.SmallestOf(trials.Materials, spoonMl),
            Inks = await InksAsync(view, trials, plant, cancel),
        };
        var found = BatchCorrection.Find(model, batch);
        if (!found.TryGet(out var answer))
            return Outcome.Of(No(found.Problems[0]));
        return Outcome.Of(
            new PutBatchRightAnswer(
                view,
                read,
                off,
                answer.Advice,
                [
                    .. answer
                        .Ranked.Take(5)
                        .Select(one =>
                        {
                            var measuredDoses = one
                                .AddGrams.Select(added =>
                                    MeasuredDose.Of(
                                        trials.Materials[added.Name],
                                        1000 * added.Amount / batch.Millilitres,
                                        batch.Millilitres,
                                        spoonMl
                                    )
                                )
                                .ToList();
                            return new PutBatchRightWay(one, measuredDoses, Caution.For(measuredDoses.Select(dose => dose.Material), []));
                        }),
                ],
                null
            )
        );
    }

    /// <summary>Other recipes whose bottles or liquor are at hand, by the colour they were kept for.</summary>
    private async Task<IReadOnlyList<BlendInk>> InksAsync(
        BatchView view,
        NotebookTrialsAnswer trials,
        string plant,
        CancellationToken cancel
    )
    {
        var recipes = await db
            .Recipes.AsNoTracking()
            .Where(one => one.WithdrawnAt == null && one.Id != view.Recipe.Recipe.Id && one.SwatchId != null)
            .ToListAsync(cancel);
        return
        [
            .. recipes
                .Where(one => one.Colour is not null)
                .Select(one => (Recipe: one, Painted: trials.Painted.FirstOrDefault(painted => painted.Swatch.Id == one.SwatchId)))
                .Where(one => one.Painted is { Swatch.Wash: 1 })
                .Select(one => new BlendInk(
                    $"{one.Recipe.Name} ({one.Recipe.Code})",
                    Lab.FromXyz(one.Recipe.Colour!.Value),
                    string.Equals(one.Painted!.Row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase) ? one.Painted.Row.Point : null
                )),
        ];
    }
}

/// <param name="Doses">What to stir in, for the whole batch.</param>
public sealed record PutBatchRightWay(
    Dyewort.Response.RankedCorrection Correction,
    IReadOnlyList<MeasuredDose> Doses,
    IReadOnlyList<Caution> Cautions
);

/// <param name="Measured">What the batch gave.</param>
/// <param name="De00">How far that is from the recipe.</param>
/// <param name="Ways">Best first.</param>
/// <param name="NotYet">Why nothing can be proposed; null when it can.</param>
public sealed record PutBatchRightAnswer(
    BatchView View,
    Xyz? Measured,
    double De00,
    string Advice,
    IReadOnlyList<PutBatchRightWay> Ways,
    Problem? NotYet
)
{
    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning { get; init; }
}
