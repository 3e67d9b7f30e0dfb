using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>A jar as pages show it: what is in it and what colours it gave.</summary>
/// <param name="Sample">The sample.</param>
/// <param name="Steps">Its additions with their materials, withdrawn ones too, in order.</param>
/// <param name="Totals">What is in the jar now, by material.</param>
/// <param name="Swatches">What was painted from it, with readings, oldest first.</param>
/// <param name="CameAlong">What had been stirred into the jars that it was, or is to be, poured from.</param>
public sealed record JarView(
    Sample Sample,
    IReadOnlyList<JarViewStep> Steps,
    IReadOnlyList<JarView.Total> Totals,
    IReadOnlyList<JarPainted> Swatches,
    IReadOnlyList<Material> CameAlong
)
{
    public sealed record Total(Material Material, RunningTotal Sum);

    public IEnumerable<JarViewStep> Counting => Steps.Where(step => step.Addition.Counts);

    /// <summary>Materials in it, those that came along from other jars too.</summary>
    public IEnumerable<Material> Holds => Totals.Select(total => total.Material).Concat(CameAlong).DistinctBy(material => material.Id);

    /// <summary>The jar as it stands.</summary>
    public Stage Now => Stage.Now(Sample, Steps.Select(step => step.Addition));

    /// <summary>pH as it was last tested, be it before other steps went in.</summary>
    public double? Ph => Now.Ph;

    /// <summary>The first step that went in after the pH was last tested: from it on nobody knows the pH; null where it was tested with
    /// everything in, and where it never was.</summary>
    public JarViewStep? AfterPh =>
        Counting.ToList() is var steps && steps.FindLastIndex(step => step.Addition.Ph is not null) is >= 0 and var tested
            ? steps.ElementAtOrDefault(tested + 1)
            : null;

    /// <summary>The squares that the next painting fills, by their cells; empty when none waits.</summary>
    public IReadOnlyList<JarPainted> Waiting =>
        PaintSquare.Next(Swatches.Select(one => (one.Swatch, one.ChartNumber))) is var next
            ? [.. Swatches.Where(one => next.Contains(one.Swatch))]
            : [];

    /// <summary>True where a square waits for the jar as it stands: it was never painted so.</summary>
    public bool IsDue => Waiting.Count > 0 && !PaintSquare.IsPaintedAsItStands(Swatches.Select(one => one.Swatch), Now.LastStep);

    /// <summary>The squares that were painted when a step was the last in the jar; null for those of the plain liquor.</summary>
    public IEnumerable<JarPainted> PaintedAfter(Addition? step) =>
        Swatches.Where(one => one.Swatch.AfterStep is not null && one.Stage.Last?.Id == step?.Id);

    /// <summary>The painted squares that hold a step.</summary>
    public IEnumerable<JarPainted> SquaresHolding(Addition step) =>
        Swatches.Where(one => one.Swatch.AfterStep is not null && one.Stage.Steps.Any(held => held.Id == step.Id));

    /// <summary>The reading that speaks for a state, from the latest stage that was read, and there from undiluted swatches before
    /// washes.</summary>
    public Reading? In(SwatchState state) => First(readings => StandingColour.In(readings, state));

    /// <summary>The colour to show the liquor in; null while nothing was read.</summary>
    public Colour.Xyz? Liquor => First(StandingColour.OfLiquor)?.Colour;

    /// <summary>Steps of a plan that are not in the jar yet, in their order.</summary>
    public IReadOnlyList<JarPlanned> Planned { get; init; } = [];

    /// <summary>Whose spoons and cups the notebook means; an amount of another kitchen names it.</summary>
    public Teaspoon Kitchen { get; init; }

    /// <summary>The two inks of a mixture in words: "12.5 ml of EB25-1 A5 + 7.5 ml of EB25-1 A4"; null for every other jar.</summary>
    public string? Mixture { get; init; }

    /// <summary>What was set out for it and is still to do, in words; null where nothing was planned or something went in.</summary>
    public string? Plan =>
        Counting.Any()
            ? null
            : Mixture
                ?? (
                    Planned.Count == 0
                        ? null
                        : string.Join(" + ", Planned.Select(step => $"{step.Material.Name} {step.Step.Amount.TextIn(Kitchen)}"))
                );

    /// <summary>What the maker called it, on the jar or on a swatch.</summary>
    public string? Said => Sample.Said ?? Swatches.Select(one => one.Swatch.Said).FirstOrDefault(said => said is not null);

    private Reading? First(Func<IEnumerable<Reading>, Reading?> speaking) =>
        Swatches
            .OrderByDescending(one => one.Stage.LastStep)
            .ThenByDescending(one => one.Swatch.Wash)
            .Select(one => speaking(one.Readings))
            .FirstOrDefault(reading => reading is not null);

    /// <summary>The jars of the given samples.</summary>
    internal static async Task<IReadOnlyList<JarView>> LoadAsync(
        NotebookDb db,
        IReadOnlyList<Sample> samples,
        Teaspoon kitchen,
        CancellationToken cancel
    )
    {
        var (poured, known) = await PouredFromAsync(db, samples, cancel);
        var ids = poured.SelectMany(pair => pair.Value).Concat(poured.Keys).Distinct().ToList();
        var additions = (
            await db
                .Additions.AsNoTracking()
                .Where(addition => ids.Contains(addition.SampleId))
                .OrderBy(addition => addition.Step)
                .ThenBy(addition => addition.Id)
                .ToListAsync(cancel)
        ).ToLookup(addition => addition.SampleId);
        var shown = samples.Select(sample => sample.Id).ToList();
        var planned = (
            await db
                .PlannedSteps.AsNoTracking()
                .Counting()
                .Where(step => shown.Contains(step.SampleId))
                .OrderBy(step => step.Step)
                .ToListAsync(cancel)
        ).ToLookup(step => step.SampleId);
        var materialIds = additions
            .SelectMany(group => group)
            .Select(addition => addition.MaterialId)
            .Concat(planned.SelectMany(group => group).Select(step => step.MaterialId))
            .Distinct()
            .ToList();
        var mixed = samples.Where(sample => sample.MixedWithId is not null).SelectMany(Parents).Select(id => known[id].PotId).ToList();
        var pots = await db.Pots.AsNoTracking().Where(pot => mixed.Contains(pot.Id)).ToDictionaryAsync(pot => pot.Id, cancel);
        string Ink(double ml, Guid id) => $"{Volume.Say(ml)} of {pots[known[id].PotId].Code} {known[id].Jar}";
        var materials = await db
            .Materials.AsNoTracking()
            .Where(material => materialIds.Contains(material.Id))
            .ToDictionaryAsync(material => material.Id, cancel);
        var swatches = await (
            from swatch in db.CountingSwatches().AsNoTracking()
            join chart in db.Charts on swatch.ChartId equals chart.Id
            where shown.Contains(swatch.SampleId)
            select new { swatch, chart.Number }
        ).ToListAsync(cancel);
        var swatchIds = swatches.Select(one => one.swatch.Id).ToList();
        var readings = (
            await db.Readings.AsNoTracking().Where(reading => swatchIds.Contains(reading.SwatchId)).ToListAsync(cancel)
        ).ToLookup(reading => reading.SwatchId);
        IReadOnlyList<Total> TotalsOf(Sample sample, IEnumerable<Addition> steps) =>
            [
                .. RunningTotal
                    .Of(
                        sample.VolumeMl,
                        steps,
                        id => KnownMaterials.Measured(materials[id]).Spoonful(KitchenMeasures.TeaspoonMillilitres(kitchen))?.Typical,
                        kitchen
                    )
                    .Select(sum => new Total(materials[sum.MaterialId], sum)),
            ];
        IReadOnlyList<JarPainted> PaintedFrom(Sample sample)
        {
            var own = swatches.Where(one => one.swatch.SampleId == sample.Id).OrderBy(one => one.Number).ToList();
            var stages = Stage.OfSquares(sample, additions[sample.Id], own.Select(one => one.swatch));
            return
            [
                .. own.Select(one => new JarPainted(
                    one.swatch,
                    one.Number,
                    StandingColour.Standing(readings[one.swatch.Id]),
                    stages[one.swatch.Id].Stage,
                    TotalsOf(sample, stages[one.swatch.Id].Stage.Steps)
                )),
            ];
        }

        return
        [
            .. samples.Select(sample => new JarView(
                sample,
                [.. additions[sample.Id].Select(addition => new JarViewStep(addition, materials[addition.MaterialId]))],
                TotalsOf(sample, additions[sample.Id]),
                PaintedFrom(sample),
                [
                    .. poured[sample.Id]
                        .SelectMany(id => additions[id])
                        .Where(addition => addition.Counts)
                        .Select(addition => materials[addition.MaterialId])
                        .DistinctBy(material => material.Id),
                ]
            )
            {
                Kitchen = kitchen,
                Planned =
                [
                    .. planned[sample.Id]
                        .Where(step => additions[sample.Id].All(done => !done.Counts || done.MaterialId != step.MaterialId))
                        .Select(step => new JarPlanned(step, materials[step.MaterialId])),
                ],
                Mixture = sample is { ParentId: { } first, MixedWithId: { } second, MixedMl: { } ml }
                    ? $"{Ink(sample.VolumeMl - ml, first)} + {Ink(ml, second)}"
                    : null,
            }),
        ];
    }

    /// <summary>For each sample the jars that it came from, and those that these came from.</summary>
    private static async Task<(Dictionary<Guid, HashSet<Guid>> Poured, Dictionary<Guid, Sample> Known)> PouredFromAsync(
        NotebookDb db,
        IReadOnlyList<Sample> samples,
        CancellationToken cancel
    )
    {
        var known = samples.ToDictionary(sample => sample.Id);
        while (known.Values.SelectMany(Parents).Where(id => !known.ContainsKey(id)).ToList() is { Count: > 0 } missing)
        {
            foreach (var sample in await db.Samples.AsNoTracking().Where(sample => missing.Contains(sample.Id)).ToListAsync(cancel))
                known.Add(sample.Id, sample);
        }

        void Collect(Sample sample, HashSet<Guid> all)
        {
            foreach (var id in Parents(sample).Where(all.Add))
                Collect(known[id], all);
        }

        return (
            samples.ToDictionary(
                sample => sample.Id,
                sample =>
                {
                    var all = new HashSet<Guid>();
                    Collect(sample, all);
                    return all;
                }
            ),
            known
        );
    }

    private static IEnumerable<Guid> Parents(Sample sample) => ((Guid?[])[sample.ParentId, sample.MixedWithId]).OfType<Guid>();
}

/// <param name="Swatch">The swatch.</param>
/// <param name="ChartNumber">Its chart's number.</param>
/// <param name="Readings">Its readings that can still speak, oldest first.</param>
/// <param name="Stage">What it was painted from; while it waits, the jar as it stands.</param>
/// <param name="Totals">What was in the jar at that stage, by material.</param>
public sealed record JarPainted(
    Swatch Swatch,
    int ChartNumber,
    IReadOnlyList<Reading> Readings,
    Stage Stage,
    IReadOnlyList<JarView.Total> Totals
)
{
    /// <summary>Its chart's code.</summary>
    public string ChartCode => string.Create(CultureInfo.InvariantCulture, $"C{ChartNumber}");
}

public sealed record JarViewStep(Addition Addition, Material Material);

public sealed record JarPlanned(PlannedStep Step, Material Material);
