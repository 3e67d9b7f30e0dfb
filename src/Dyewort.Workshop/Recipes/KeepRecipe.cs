using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Recipes;

/// <summary>“Keep this one”: makes a recipe of a sample's proportions and of the colour that was chosen.</summary>
public sealed class KeepRecipe(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>What would be kept.</summary>
    public sealed record RecipeChoice(
        Stage Stage,
        Origin Origin,
        Swatch? Swatch,
        Reading? Reading,
        Chart? Chart,
        IReadOnlyList<Proportions.Part> Parts,
        IReadOnlyDictionary<Guid, Material> Materials,
        string? KeptAs
    )
    {
        public Sample Sample => Stage.Sample;

        public string? Said => Swatch?.Said ?? Sample.Said;

        /// <summary>The two inks of a mixture, which has no recipe of its own; empty for every other sample.</summary>
        public IReadOnlyList<Sample> Inks { get; init; } = [];

        /// <summary>How they are mixed: "15 ml of B2 + 5 ml of B6"; null for every other sample.</summary>
        public string? Mixture =>
            Sample.MixedMl is { } ml && Inks is [var first, var second]
                ? $"{Volume.Say(Sample.VolumeMl - ml)} of {first.Jar} + {Volume.Say(ml)} of {second.Jar}"
                : null;

        public string? Position => Chart is null ? null : $"{Chart.Code} {Swatch!.Cell}";

        /// <summary>Liquor that the recipe will be for, millilitres.</summary>
        public double LiquorMl => Parts is [var first, ..] ? first.ForMl : Sample.VolumeMl;
    }

    /// <summary>What a form would keep; null when its sample or swatch is not in the notebook.</summary>
    public async Task<RecipeChoice?> LookAsync(KeepRecipeForm form, CancellationToken cancel)
    {
        var swatch = Guid.TryParse(form.Swatch, out var swatchId)
            ? await db.Swatches.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Id == swatchId, cancel)
            : null;
        Guid? sampleId = swatch?.SampleId ?? (Guid.TryParse(form.Sample, out var id) ? id : null);
        if (
            sampleId is null
            || await db.Samples.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Id == sampleId, cancel) is not { } sample
        )
            return null;
        swatch ??= await PaintedAsItStandsAsync(sample, cancel);
        var jars = await db.Samples.AsNoTracking().Where(one => one.PotId == sample.PotId).ToDictionaryAsync(one => one.Id, cancel);
        var ids = jars.Keys.ToList();
        var additions = (
            await db.Additions.AsNoTracking().Counting().Where(addition => ids.Contains(addition.SampleId)).ToListAsync(cancel)
        ).ToLookup(addition => addition.SampleId);
        var materials = await db.Materials.AsNoTracking().ToDictionaryAsync(material => material.Id, cancel);
        var stage = Stage.Of(sample, swatch?.AfterStep, additions[sample.Id]);
        var parts = Proportions.OfStage(stage, jars, one => additions[one], step => IsLiquid(step, materials[step.MaterialId]));
        var kept = await db.Recipes.AsNoTracking().Counting().Where(one => one.SampleId == sample.Id).ToListAsync(cancel);
        var chart = swatch is null ? null : await db.Charts.AsNoTracking().SingleAsync(one => one.Id == swatch.ChartId, cancel);
        return new(
            stage,
            (await Origin.LoadAsync(db, [sample.PotId], cancel))[0],
            swatch,
            swatch is null ? null : await RecipeView.StandingAsync(db, swatch.Id, cancel),
            chart,
            parts,
            materials,
            kept.Find(one => one.AfterStep is not { } step || stage.IsAfter(step))?.Code
        )
        {
            Inks = await InksAsync(sample, cancel),
        };
    }

    /// <summary>The square of a jar that says what colour it has now: painted from it as it stands and read, undiluted before washes, the
    /// newest chart first; null where there is none.</summary>
    private async Task<Swatch?> PaintedAsItStandsAsync(Sample sample, CancellationToken cancel)
    {
        var steps = await db.Additions.AsNoTracking().Counting().Where(step => step.SampleId == sample.Id).ToListAsync(cancel);
        var now = Stage.Now(sample, steps).LastStep;
        var painted = await (
            from square in db.CountingSwatches().AsNoTracking()
            join chart in db.Charts on square.ChartId equals chart.Id
            where square.SampleId == sample.Id && square.AfterStep != null
            orderby square.Wash descending, chart.Number descending
            select square
        ).ToListAsync(cancel);
        foreach (var square in painted.Where(one => Stage.Of(sample, one.AfterStep, steps).LastStep == now))
        {
            if (await RecipeView.StandingAsync(db, square.Id, cancel) is not null)
                return square;
        }

        return null;
    }

    private async Task<IReadOnlyList<Sample>> InksAsync(Sample sample, CancellationToken cancel) =>
        sample is { ParentId: { } first, MixedWithId: { } second }
            ?
            [
                await db.Samples.AsNoTracking().SingleAsync(one => one.Id == first, cancel),
                await db.Samples.AsNoTracking().SingleAsync(one => one.Id == second, cancel),
            ]
            : [];

    /// <returns>The recipe's code.</returns>
    public async Task<Outcome<string>> HandleAsync(KeepRecipeForm form, CancellationToken cancel)
    {
        var entered = new Entered();
        var name = entered.Words(nameof(form.Name), form.Name, "The name", longest: 40);
        int? months = string.IsNullOrWhiteSpace(form.KeepMonths)
            ? null
            : entered.Whole(nameof(form.KeepMonths), form.KeepMonths, "How long it keeps", 1, 120, 12);
        var caution = entered.OptionalWords(nameof(form.Caution), form.Caution, 120);
        var note = entered.OptionalWords(nameof(form.Note), form.Note);
        var choice = await LookAsync(form, cancel);
        if (choice is null)
            entered.Refuse(nameof(form.Sample), "Which colour to keep was not said.", "Go back to the chart or the jar and choose one.");
        else if (choice.Sample.MixedWithId is not null)
            entered.Refuse(
                nameof(form.Sample),
                "A mixture of two inks has no proportions of its own.",
                "Keep each of its two inks as a recipe, and write into a note how they are mixed."
            );
        else if (RecipeKeeper.TooMuch(choice.Parts) is { } part)
            entered.Refuse(
                nameof(form.Sample),
                $"So much was poured into this jar that a recipe would take more than a tonne of {choice.Materials[part.MaterialId].Name}.",
                "Put the jar's steps right first."
            );
        if ((await db.Recipes.Counting().Select(one => one.Name).ToListAsync(cancel)).Contains(name, StringComparer.OrdinalIgnoreCase))
            entered.Refuse(
                nameof(form.Name),
                $"There is a recipe called “{name}” already.",
                "Give this one another name, so that labels cannot be mixed up."
            );
        if (!entered.Sound || choice is null)
            return Outcome.Refused<string>(entered.Problems);

        var now = clock.GetUtcNow();
        var (recipe, steps) = RecipeKeeper.Keep(
            new RecipeKeeper.Kept
            {
                Sample = choice.Sample,
                AfterStep = choice.Stage.LastStep,
                Parts = choice.Parts,
                Materials = choice.Materials,
                Liquor = $"{choice.Origin.Plant.Name} {choice.Origin.Pot.Code}",
                Swatch = choice.Swatch,
                Chart = choice.Chart,
                Reading = choice.Reading,
            },
            RecipeKeeper.NextCode(await db.Recipes.CountAsync(cancel)),
            name,
            () => Guid.CreateVersion7(now),
            now
        );
        (recipe.KeepMonths, recipe.Caution, recipe.Note) = (months, caution, note);
        db.Add(recipe);
        db.AddRange(steps);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(recipe.Code);
    }

    /// <summary>True for a step that was poured and so adds to the volume.</summary>
    internal static bool IsLiquid(Addition step, Material material) =>
        material.Kind == MaterialKind.Liquid
        || step.Amount.ToAmount().IsPoured
        || (KnownMaterials.Of(material) is { } named && KnownMaterials.IsPoured(named.Substance));
}

public sealed record KeepRecipeForm
{
    /// <summary>The chosen swatch; goes before <see cref="Sample"/>.</summary>
    public string? Swatch { get; init; }

    /// <summary>The sample, when it was chosen before it was painted.</summary>
    public string? Sample { get; init; }

    public string? Name { get; init; }

    public string? KeepMonths { get; init; }

    public string? Caution { get; init; }

    public string? Note { get; init; }
}
