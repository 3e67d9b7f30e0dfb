using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>A batch with what went into it and where that came from.</summary>
/// <param name="Batch">The batch.</param>
/// <param name="Recipe">Its recipe.</param>
/// <param name="Pours">The liquor, pot by pot.</param>
/// <param name="Steps">What was added, in order.</param>
/// <param name="Bottles">What it filled, by number; those written by mistake too.</param>
public sealed record BatchView(
    Batch Batch,
    RecipeView Recipe,
    IReadOnlyList<BatchPour> Pours,
    IReadOnlyList<BatchLine> Steps,
    IReadOnlyList<Bottle> Bottles
)
{
    public IReadOnlyList<Caution> Cautions =>
        Caution.Together([.. Steps.Select(step => step.Material).OfType<Material>(), .. Pours.Select(pour => pour.Origin.Plant)]);

    /// <summary>The pots its liquor came from.</summary>
    public IReadOnlyList<Origin> Origins => [.. Pours.Select(pour => pour.Origin)];

    /// <summary>Liquor and poured liquids together, millilitres; powders are taken to add nothing (common practice, no source).</summary>
    public double ComputedMl =>
        (Batch.MeasuredLiquorMl ?? Batch.PlannedLiquorMl)
        + Steps.Where(line => line.IsPoured).Sum(line => line.Step.Measured?.Ml ?? line.Step.Planned.Ml ?? 0);

    /// <summary>Millilitres to fill: as filtered, else as made, else as computed; and whether anybody measured that.</summary>
    public (double Ml, bool Measured) Ready =>
        (Batch.FilteredMl ?? Batch.MadeMl ?? ComputedMl, Batch.FilteredMl is not null || Batch.MadeMl is not null);

    /// <summary>The colours of squares painted from it, oldest first.</summary>
    public IReadOnlyList<BatchReading> Readings { get; private init; } = [];

    /// <summary>The colour it has: the mean of its squares; null while none was read.</summary>
    public Dyewort.Colour.Xyz? Colour =>
        Readings.Count == 0
            ? null
            : new Dyewort.Colour.Xyz(
                Readings.Average(one => one.Colour.X),
                Readings.Average(one => one.Colour.Y),
                Readings.Average(one => one.Colour.Z)
            );

    /// <summary>Millilitres in bottles.</summary>
    public double FilledMl => Bottles.Where(bottle => bottle.Counts).Sum(bottle => bottle.FillMl);

    internal static async Task<BatchView?> LoadAsync(NotebookDb db, string code, CancellationToken cancel) =>
        await db.Batches.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is { } batch
            ? await LoadAsync(db, batch, cancel)
            : null;

    internal static async Task<BatchView> LoadAsync(NotebookDb db, Batch batch, CancellationToken cancel)
    {
        var recipe = await RecipeView.LoadAsync(
            db,
            await db.Recipes.AsNoTracking().SingleAsync(one => one.Id == batch.RecipeId, cancel),
            cancel
        );
        var liquors = await db.BatchLiquors.AsNoTracking().Counting().Where(one => one.BatchId == batch.Id).ToListAsync(cancel);
        var origins = (await Origin.LoadAsync(db, [.. liquors.Select(one => one.PotId)], cancel)).ToDictionary(origin => origin.Pot.Id);
        var steps = await db
            .BatchSteps.AsNoTracking()
            .Where(step => step.BatchId == batch.Id)
            .OrderBy(step => step.Step)
            .ToListAsync(cancel);
        var ids = steps.Select(step => step.MaterialId).OfType<Guid>().Distinct().ToList();
        var materials = await db
            .Materials.AsNoTracking()
            .Where(material => ids.Contains(material.Id))
            .ToDictionaryAsync(material => material.Id, cancel);
        return new(
            batch,
            recipe,
            [
                .. liquors
                    .Select(liquor => new BatchPour(liquor, origins[liquor.PotId]))
                    .OrderBy(pour => pour.Origin.Pot.MadeOn)
                    .ThenBy(pour => pour.Origin.Pot.Code, StringComparer.Ordinal),
            ],
            [.. steps.Select(step => BatchLine.Of(step, step.MaterialId is { } id ? materials[id] : null))],
            await db.Bottles.AsNoTracking().Where(bottle => bottle.BatchId == batch.Id).OrderBy(bottle => bottle.Number).ToListAsync(cancel)
        )
        {
            Readings = await db
                .BatchReadings.AsNoTracking()
                .Counting()
                .Where(one => one.BatchId == batch.Id)
                .OrderBy(one => one.Id)
                .ToListAsync(cancel),
        };
    }
}

public sealed record BatchLine(BatchStep Step, Material? Material)
{
    /// <summary>What it was called when it was written, where that is not its name today; null where it is.</summary>
    public string? WrittenAs { get; private init; }

    /// <summary>A line under the name that its material has today.</summary>
    internal static BatchLine Of(BatchStep step, Material? material)
    {
        var written = step.Name;
        step.Name = material?.Name ?? written;
        return new(step, material) { WrittenAs = step.Name == written ? null : written };
    }

    /// <summary>Measured against planned, in per cent: positive is too much; null until measured, or when the two cannot be
    /// compared.</summary>
    public double? OffPercent =>
        (Step.Measured?.Grams, Step.Planned.Grams, Step.Measured?.Ml, Step.Planned.Ml) switch
        {
            ({ } measured, > 0 and { } planned, _, _) => 100 * ((measured / planned) - 1),
            (_, _, { } measured, > 0 and { } planned) => 100 * ((measured / planned) - 1),
            _ => null,
        };

    /// <summary>True for what is poured: its volume counts in the batch, a powder's does not.</summary>
    public bool IsPoured => Step.Planned.ToAmount().IsPoured;
}

public sealed record BatchPour(BatchLiquor Liquor, Origin Origin);
