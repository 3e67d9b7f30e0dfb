using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Workshop.Batches;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>What the notebook knows of a batch that came out another colour than its recipe.</summary>
public sealed class FindWrongBatch(NotebookDb db) : IUseCase
{
    /// <param name="code">The batch.</param>
    /// <param name="colour">The batch's colour, painted like the recipe's swatch and dry; null for what is kept with the batch.</param>
    /// <param name="fromPhoto">True where it was taken from a loose photo.</param>
    /// <param name="trials">What was painted.</param>
    /// <returns>Null where there is no such batch.</returns>
    public async Task<FindWrongBatchAnswer?> HandleAsync(
        string code,
        Xyz? colour,
        bool fromPhoto,
        TrialSource trials,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(trials);
        if (await BatchView.LoadAsync(db, code, cancel) is not { } view)
            return null;

        // Photos taken one way err one way, so more squares are not counted as more certainty.
        var (read, doubt) =
            colour is not null ? (colour, fromPhoto ? KeepBatchColour.PhotoDoubtDe00 : KeepBatchColour.TypedDoubtDe00)
            : view.Colour is { } kept ? (kept, view.Readings.Average(one => one.UncertaintyDe00))
            : ((Xyz?)null, 0.0);
        if (read is not { } seen)
            return new(view, null, 0, null, null);
        if (view.Recipe.Recipe.Colour is not { } goal)
            return new(
                view,
                seen,
                0,
                null,
                new("recipe", "The recipe has no colour to come back to.", "Keep it from a swatch that was read.")
            );
        var (measured, wanted) = (Lab.FromXyz(seen), Lab.FromXyz(goal));
        var off = Difference.Ciede2000(measured, wanted);
        if (view.Pours.Count == 0)
            return new(view, seen, off, null, new("batch", "Nobody said which pot its liquor came from.", "Write it into the batch."));

        var plant = view.Pours[0].Origin.Plant.Name;
        var liquorMl = view.Batch.MeasuredLiquorMl ?? view.Batch.PlannedLiquorMl;
        var doses = Doses.None;
        foreach (var line in view.Steps)
        {
            if (line.Material is not { } material || (line.Step.Measured?.Grams ?? line.Step.Planned.Grams) is not { } grams)
                continue;
            if (trials.NameOf(material) is { } name)
                doses = doses.Plus(name, 1000 * grams / liquorMl);
        }

        var batch = new WrongBatch
        {
            Believed = new()
            {
                Sample = "",
                Plant = plant,
                Pot = view.Pours[0].Origin.Pot.Code,
                GramsPerLitre = doses,
                Ph = view.Batch.Ph,
                Wash = view.Recipe.Swatch?.Wash ?? 1,
                Paper = view.Recipe.Swatch is { } swatch
                    ? trials.Painted.FirstOrDefault(one => one.Swatch.Id == swatch.Id)?.Row.Point.Paper ?? ""
                    : "",
            },
            Measured = measured,
            MeasuredUncertaintyDe00 = doubt,
            Wanted = wanted,
            Millilitres = Math.Max(1, view.Ready.Ml),
            Inks = await InksAsync(view, trials, plant, cancel),
        };
        return new(view, seen, off, batch, null);
    }

    /// <summary>Other recipes whose bottles or liquor are at hand, by the colour they were kept for.</summary>
    private async Task<IReadOnlyList<BlendInk>> InksAsync(BatchView view, TrialSource trials, string plant, CancellationToken cancel)
    {
        var recipes = await db
            .Recipes.AsNoTracking()
            .Counting()
            .Where(one => one.Id != view.Recipe.Recipe.Id && one.SwatchId != null)
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

/// <param name="View">The batch.</param>
/// <param name="Measured">What the batch gave; null where nobody read it.</param>
/// <param name="De00">How far that is from the recipe.</param>
/// <param name="Batch">The batch as <see cref="CorrectBatch"/> takes it; null where something is missing.</param>
/// <param name="NotYet">What is missing; null when nothing is.</param>
public sealed record FindWrongBatchAnswer(BatchView View, Xyz? Measured, double De00, WrongBatch? Batch, Problem? NotYet);
