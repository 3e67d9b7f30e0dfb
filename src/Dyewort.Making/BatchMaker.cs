using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Making;

/// <summary>Plans a batch of a recipe, fills its bottles and finds the facts of their labels.</summary>
public static class BatchMaker
{
    private static readonly StringComparer Names = StringComparer.OrdinalIgnoreCase;

    /// <summary>A batch with its planned amounts; nothing is measured yet.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="recipeSteps">Its steps; those of one addition may have come to one of <paramref name="scaled"/>'s lines.</param>
    /// <param name="scaled">The recipe at the batch's volume.</param>
    /// <param name="number">The batch's number in the notebook, from 1.</param>
    /// <param name="madeOn">The day.</param>
    /// <param name="newId">Gives a new key each time.</param>
    /// <param name="now">UTC.</param>
    /// <exception cref="ArgumentException">Steps and lines do not belong together: a fault of ours.</exception>
    public static (Batch Batch, IReadOnlyList<BatchStep> Steps) Plan(
        Recipe recipe,
        IReadOnlyList<RecipeStep> recipeSteps,
        ScaledRecipe scaled,
        int number,
        DateOnly madeOn,
        Func<Guid> newId,
        DateTimeOffset now
    )
    {
        var ordered = recipeSteps.Where(step => step.Counts).OrderBy(step => step.Step).ToList();
        if (!ordered.Select(step => step.Name).ToHashSet(Names).SetEquals(scaled.Lines.Select(line => line.Name)))
            throw new ArgumentException("Another recipe was scaled.", nameof(scaled));
        var batch = new Batch
        {
            Id = newId(),
            WrittenAt = now,
            Number = number,
            Code = BottleCode.ForBatch(number),
            RecipeId = recipe.Id,
            MadeOn = madeOn,
            PlannedLiquorMl = scaled.To.Millilitres,
            KeepBy = recipe.KeepMonths is { } months ? Keeping.KeepBy(madeOn, months) : null,
        };
        var steps = scaled
            .Lines.Select(
                (line, place) =>
                    new BatchStep
                    {
                        Id = newId(),
                        WrittenAt = now,
                        BatchId = batch.Id,
                        Step = place + 1,
                        MaterialId = ordered.Find(step => Names.Equals(step.Name, line.Name))!.MaterialId,
                        Name = line.Name,
                        Planned = MeasuredAmount.Of(
                            Bench(line),
                            line.Grams?.Grams,
                            line.GramsLow?.Grams,
                            line.GramsHigh?.Grams,
                            line.Millilitres?.Millilitres
                        ),
                    }
            )
            .ToList();
        return (batch, steps);
    }

    /// <summary>An amount as the bench measures it: what was poured, dropped or counted stays so, the rest is weighed where its grams are
    /// known.</summary>
    public static Amount Bench(ScaledLine line) =>
        line.Amount.IsPoured || line.Amount.Unit is AmountUnit.Piece || line.Grams is not { } grams ? line.Amount : grams.ToAmount();

    /// <summary>Bottles of a batch, numbered on from those it has.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="already">Bottles it has, withdrawn ones too.</param>
    /// <param name="count">How many more.</param>
    /// <param name="fill">In each.</param>
    /// <param name="containerId">The kind of bottle, or null.</param>
    /// <param name="filledOn">The day.</param>
    /// <param name="newId">Gives a new key each time.</param>
    /// <param name="now">UTC.</param>
    public static Outcome<IReadOnlyList<Bottle>> Fill(
        Batch batch,
        int already,
        int count,
        Volume fill,
        Guid? containerId,
        DateOnly filledOn,
        Func<Guid> newId,
        DateTimeOffset now
    )
    {
        if (count < 1 || already + count > BottleCode.LastBottle)
            return Outcome.Refused<IReadOnlyList<Bottle>>(
                "bottles",
                $"{count} more bottles do not go into a batch that has {already}.",
                $"A batch has 1 to {BottleCode.LastBottle} bottles."
            );
        if (fill.Millilitres <= 0)
            return Outcome.Refused<IReadOnlyList<Bottle>>(
                "fill",
                "Nothing would be filled into a bottle.",
                "Type millilitres, such as 29."
            );
        if (filledOn < batch.MadeOn)
            return Outcome.Refused<IReadOnlyList<Bottle>>(
                "filledOn",
                "The bottles were filled before the batch was made.",
                "Check the two days."
            );
        return Outcome.Of<IReadOnlyList<Bottle>>([
            .. Enumerable
                .Range(already + 1, count)
                .Select(number => new Bottle
                {
                    Id = newId(),
                    WrittenAt = now,
                    BatchId = batch.Id,
                    Number = number,
                    Code = BottleCode.ForBottle(batch.Number, number),
                    ContainerId = containerId,
                    FillMl = fill.Millilitres,
                    FilledOn = filledOn,
                    KeepBy = batch.KeepBy,
                }),
        ]);
    }

    /// <summary>What is known of a bottle for its label. What was measured goes before what was planned.</summary>
    /// <param name="bottle">The bottle.</param>
    /// <param name="batch">Its batch.</param>
    /// <param name="steps">The batch's steps.</param>
    /// <param name="recipe">Its recipe.</param>
    /// <param name="plants">The plants its liquor was drawn from.</param>
    /// <param name="pots">Those plants with their pots, as "elderberry EB25-1": a batch may take another pot's liquor than its recipe was
    /// found in. Empty where nobody wrote down what was drawn.</param>
    /// <param name="hazard">The usual hazard of an addition, by its name; null when the tables have none.</param>
    /// <param name="link">The address of the bottle's page; null when there is none.</param>
    public static LabelFacts Facts(
        Bottle bottle,
        Batch batch,
        IReadOnlyList<BatchStep> steps,
        Recipe recipe,
        IReadOnlyList<string> plants,
        IReadOnlyList<string> pots,
        Func<string, Hazard?> hazard,
        string? link
    )
    {
        var liquor = batch.MeasuredLiquorMl ?? batch.PlannedLiquorMl;
        var ordered = Summed(steps.Where(step => step.Counts).OrderBy(step => step.Step)).ToList();
        // Powders are taken to add nothing to the volume (common practice, no source).
        var inkMl = liquor + ordered.Where(step => step.Known.ToAmount().IsPoured).Sum(step => step.Known.Ml ?? 0);
        return new LabelFacts
        {
            Name = recipe.Name,
            Code = bottle.Code,
            Recipe = LabelText.RecipeWords(
                pots.Count > 0 ? string.Join(" + ", pots) : recipe.Liquor,
                [.. ordered.Select(step => (step.Name, Per100(step.Known, liquor)))],
                "100 ml"
            ),
            ChartPosition = recipe.ChartPosition,
            Colour = recipe.Colour,
            MadeOn = batch.MadeOn,
            KeepBy = bottle.KeepBy,
            Volume = Volume.FromMillilitres(bottle.FillMl).ToString(),
            Place = batch.Place,
            Link = link,
            Contents =
            [
                .. ordered.Select(step => new LabelContent(step.Name, hazard(step.Name))
                {
                    GramsPer100Ml = 100 * step.Known.Grams / inkMl,
                    MlPer100Ml = step.Known.ToAmount().IsPoured ? 100 * step.Known.Ml / inkMl : null,
                }),
            ],
            Plants = plants,
            Caution = recipe.Caution,
        };
    }

    /// <summary>Batches of earlier days hold the steps of one addition one by one; a label says what they come to.</summary>
    private static IEnumerable<(string Name, MeasuredAmount Known)> Summed(IEnumerable<BatchStep> steps) =>
        from step in steps
        group step.Known by step.Name into addition
        from amount in MeasuredAmount.Sum(addition) is { } sum ? [sum] : addition.ToArray()
        select (addition.Key, amount);

    private static string Per100(MeasuredAmount known, double liquorMl)
    {
        var amount = known.ToAmount();
        return known.Grams is { } mass && !amount.IsPoured && amount.Unit is not AmountUnit.Piece ? Mass.Say(mass * 100 / liquorMl)
            : amount.Fits(100 / liquorMl) ? Rounded(amount.Times(100 / liquorMl))
            : "more than can be measured";
    }

    private static string Rounded(Amount amount) =>
        amount.Unit is AmountUnit.Drop or AmountUnit.Piece
            ? amount.Number >= 1
                ? amount.ToString()
                : $"under {Amount.Written("", 1, amount.Unit, amount.Counted, amount.SaidKind)}"
            : amount.ToString();
}
