using Dyewort.Chemistry;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>Plans a batch: a recipe at a volume, with the liquor it takes and every amount worked out before anything is poured.</summary>
public sealed class StartBatch(NotebookDb db, NotebookSettings settings, LiquorLeft left, TimeProvider clock) : IUseCase
{
    /// <returns>The batch's code.</returns>
    public Task<Outcome<string>> HandleAsync(string recipeCode, StartBatchForm form, CancellationToken cancel) =>
        HandleAsync(recipeCode, form, null, cancel);

    /// <summary>The same with doses corrected for the liquor it takes.</summary>
    public async Task<Outcome<string>> HandleAsync(
        string recipeCode,
        StartBatchForm form,
        DoseCorrection? correction,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(form);
        if (await RecipeView.LoadAsync(db, recipeCode, cancel) is not { Recipe.Counts: true } view)
            return Outcome.Refused<string>(
                nameof(form.Volume),
                $"There is no recipe {recipeCode} in this notebook.",
                "Go back to the recipes."
            );
        if (Caution.WhyNever(view.Counting.Select(line => line.Material).OfType<Material>()) is { } never)
            return Outcome.Refused<string>(
                nameof(form.Volume),
                $"No batch is made of this. {never}",
                "Choose another recipe, or put this one right."
            );
        var usual = await settings.ReadAsync(cancel);
        var entered = new Entered(usual.Teaspoon, form);
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var madeOn = entered.PastDay(nameof(form.MadeOn), form.MadeOn, today, today);
        var liquor = entered.Take(Quantities.Volume.Parse(nameof(form.Volume), form.Volume, usual.Teaspoon)).Millilitres;
        if (entered.Sound && liquor <= 0)
            entered.Refuse(nameof(form.Volume), "A batch of nothing cannot be made.", "Type a volume, such as 1.2 L.");
        var pots = await db.Pots.AsNoTracking().Counting().ToListAsync(cancel);
        var first = Find(entered, nameof(form.Pot), form.Pot, pots) ?? pots.Find(pot => pot.Id == view.Recipe.PotId);
        if (first is null && entered.Sound)
            entered.Refuse(nameof(form.Pot), "Which pot the liquor comes from was not said.", "Choose a pot.");
        var second = Find(entered, nameof(form.SecondPot), form.SecondPot, pots);
        var secondMl = 0.0;
        if (second is null && !string.IsNullOrWhiteSpace(form.SecondVolume) && entered.Sound)
            entered.Refuse(
                nameof(form.SecondPot),
                $"“{form.SecondVolume.Trim()}” is to come from a second pot, and none was chosen.",
                "Choose the second pot, or leave the field empty."
            );
        if (second is not null)
        {
            secondMl = entered.Take(Quantities.Volume.Parse(nameof(form.SecondVolume), form.SecondVolume, usual.Teaspoon)).Millilitres;
            if (second.Id == first?.Id)
                entered.Refuse(nameof(form.SecondPot), "That is the same pot twice.", "Choose another, or leave it empty.");
            if (entered.Sound && !(secondMl > 0 && secondMl < liquor))
                entered.Refuse(
                    nameof(form.SecondVolume),
                    "The second pot's share is not between nothing and all of the batch.",
                    "Type how much of the batch comes from it."
                );
        }

        if (entered.Sound)
        {
            await left.CheckAsync(entered, nameof(form.Volume), first!, liquor - secondMl, form.MoreThanWritten, cancel);
            if (second is not null)
                await left.CheckAsync(entered, nameof(form.SecondVolume), second, secondMl, form.MoreThanWritten, cancel);
        }

        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        var asked = ScaleRecipeForm.Of(Corrected(view, correction), form.Volume, usual.Teaspoon);
        var carried = asked.TryGet(out var scale) ? new ScaleRecipe().Handle(scale) : Outcome.Refused<ScaleRecipeAnswer>(asked.Problems);
        if (!carried.TryGet(out var answer))
            return Outcome.Refused<string>([.. carried.Problems.Select(problem => problem with { Field = nameof(form.Volume) })]);
        var plan = answer.Scaled;

        var now = clock.GetUtcNow();
        var number = (await db.Batches.MaxAsync(one => (int?)one.Number, cancel) ?? 0) + 1;
        var (batch, steps) = BatchMaker.Plan(
            view.Recipe,
            [.. view.Lines.Select(line => line.Step)],
            plan,
            number,
            madeOn,
            () => Guid.CreateVersion7(now),
            now
        );
        (batch.Place, batch.Note) = (usual.Place, correction?.Words);
        db.Add(batch);
        db.AddRange(steps);
        db.Add(Poured(batch, first!, liquor - secondMl, now));
        if (second is not null)
            db.Add(Poured(batch, second, secondMl, now));
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(batch.Code);
    }

    private static RecipeCard Corrected(RecipeView view, DoseCorrection? correction)
    {
        var card = view.Card();
        return correction is null
            ? card
            : card with
            {
                Lines =
                [
                    .. card.Lines.Zip(
                        view.Counting,
                        (line, of) =>
                            of.Material is { } material && KnownMaterials.Of(material)?.Substance.Form == SubstanceForm.Water
                                ? line
                                : line with
                                {
                                    Amount = line.Amount.Times(correction.Times),
                                }
                    ),
                ],
            };
    }

    private static Pot? Find(Entered entered, string field, string? code, List<Pot> pots)
    {
        if (string.IsNullOrWhiteSpace(code))
            return null;
        var pot = pots.Find(one => string.Equals(one.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));
        if (pot is null)
            entered.Refuse(field, $"There is no pot {code.Trim()} in this notebook.", "Choose one of the list.");
        return pot;
    }

    private static BatchLiquor Poured(Batch batch, Pot pot, double ml, DateTimeOffset now) =>
        new()
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            BatchId = batch.Id,
            PotId = pot.Id,
            Ml = ml,
        };
}

public sealed record StartBatchForm : IDoubtable
{
    /// <summary>Liquor in all: "1.2 L".</summary>
    public string? Volume { get; init; }

    /// <summary>The pot's code; the recipe's own pot when it is empty.</summary>
    public string? Pot { get; init; }

    /// <summary>A second pot for a blend.</summary>
    public string? SecondPot { get; init; }

    /// <summary>How much of the volume comes from the second pot.</summary>
    public string? SecondVolume { get; init; }

    public string? MadeOn { get; init; }

    /// <summary>Anything where there is more liquor than is written down.</summary>
    public string? MoreThanWritten { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
