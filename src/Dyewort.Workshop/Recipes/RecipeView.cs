using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Recipes;

/// <summary>A recipe with what it came from.</summary>
/// <param name="Recipe">The recipe.</param>
/// <param name="Lines">What goes in, in order, withdrawn lines too.</param>
/// <param name="Origin">The pot, its lot and plant; null for a recipe that was typed in.</param>
/// <param name="Sample">The sample it was kept from.</param>
/// <param name="Trial">That sample's trial.</param>
/// <param name="Swatch">The swatch that was chosen.</param>
/// <param name="Standing">The reading that speaks for that swatch today; later than the colour the recipe was kept for, or the
/// same.</param>
public sealed record RecipeView(
    Recipe Recipe,
    IReadOnlyList<RecipeViewLine> Lines,
    Origin? Origin,
    Sample? Sample,
    Trial? Trial,
    Swatch? Swatch,
    Reading? Standing
)
{
    /// <summary>Where it came from.</summary>
    public RecipeOrigin From => new(Recipe, Origin, Sample, Trial);

    public IEnumerable<RecipeViewLine> Counting => Lines.Where(line => line.Step.Counts);

    public IReadOnlyList<Caution> Cautions =>
        Caution.Together([
            .. Counting.Select(line => line.Material).OfType<Material>(),
            .. Origin is { } origin ? [origin.Plant] : (Material[])[],
        ]);

    /// <summary>The recipe as it would be written on a card.</summary>
    public RecipeCard Card() =>
        RecipeKeeper.Card(
            Recipe,
            [.. Lines.Select(line => line.Step)],
            step =>
                Lines.First(line => line.Step.Id == step.Id).Material is { } material
                    ? KnownMaterials.Measured(material)
                    : KnownMaterials.Measured(step.Name)
        );

    internal static async Task<RecipeView?> LoadAsync(NotebookDb db, string code, CancellationToken cancel) =>
        await db.Recipes.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is { } recipe
            ? await LoadAsync(db, recipe, cancel)
            : null;

    internal static async Task<RecipeView> LoadAsync(NotebookDb db, Recipe recipe, CancellationToken cancel)
    {
        var steps = await db
            .RecipeSteps.AsNoTracking()
            .Where(step => step.RecipeId == recipe.Id)
            .OrderBy(step => step.Step)
            .ToListAsync(cancel);
        var ids = steps.Select(step => step.MaterialId).OfType<Guid>().Distinct().ToList();
        var materials = await db
            .Materials.AsNoTracking()
            .Where(material => ids.Contains(material.Id))
            .ToDictionaryAsync(material => material.Id, cancel);
        var sample = recipe.SampleId is { } sampleId
            ? await db.Samples.AsNoTracking().SingleAsync(one => one.Id == sampleId, cancel)
            : null;
        var trial = sample is null ? null : await db.Trials.AsNoTracking().SingleAsync(one => one.Id == sample.TrialId, cancel);
        var swatch = recipe.SwatchId is { } swatchId
            ? await db.Swatches.AsNoTracking().SingleAsync(one => one.Id == swatchId, cancel)
            : null;
        return new(
            recipe,
            [.. steps.Select(step => RecipeViewLine.Of(step, step.MaterialId is { } id ? materials[id] : null))],
            recipe.PotId is { } potId ? (await Origin.LoadAsync(db, [potId], cancel))[0] : null,
            sample,
            trial,
            swatch,
            swatch is null ? null : await StandingAsync(db, swatch.Id, cancel)
        );
    }

    /// <summary>The reading that a swatch is kept for; null where nobody read it.</summary>
    internal static async Task<Reading?> StandingAsync(NotebookDb db, Guid swatchId, CancellationToken cancel) =>
        StandingColour.ToKeep(await db.Readings.AsNoTracking().Where(reading => reading.SwatchId == swatchId).ToListAsync(cancel));
}

public sealed record RecipeViewLine(RecipeStep Step, Material? Material)
{
    /// <summary>What it was called when it was written, where that is not its name today; null where it is.</summary>
    public string? WrittenAs { get; private init; }

    /// <summary>A line under the name that its material has today.</summary>
    internal static RecipeViewLine Of(RecipeStep step, Material? material)
    {
        var written = step.Name;
        step.Name = material?.Name ?? written;
        return new(step, material) { WrittenAs = step.Name == written ? null : written };
    }

    /// <summary>The amount in 100 ml of liquor.</summary>
    /// <param name="baseMl">Liquor that the step's amount belongs to, millilitres.</param>
    public string Per100Ml(double baseMl) =>
        Step.Amount.Grams is { } grams ? Mass.Say(grams / baseMl * 100)
        : Step.Amount.Fits(100 / baseMl) ? Step.Amount.Times(100 / baseMl).Text
        : "more than can be measured";
}
