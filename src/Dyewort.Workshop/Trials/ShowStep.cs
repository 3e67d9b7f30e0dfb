using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>One step of a jar, with all that is to be known before it is put right.</summary>
public sealed class ShowStep(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<ShowStepAnswer?> HandleAsync(string code, string jar, Guid id, CancellationToken cancel)
    {
        var found = await (
            from step in db.Additions.AsNoTracking()
            join sample in db.Samples on step.SampleId equals sample.Id
            join trial in db.Trials on sample.TrialId equals trial.Id
            join pot in db.Pots on sample.PotId equals pot.Id
            join material in db.Materials on step.MaterialId equals material.Id
            where pot.Code == code && sample.Jar == jar && step.Id == id
            select new
            {
                step,
                sample,
                trial,
                pot,
                material,
            }
        ).SingleOrDefaultAsync(cancel);
        if (found is null)
            return null;
        var others = await (
            from sample in db.Samples.AsNoTracking().Counting()
            join trial in db.Trials.Counting() on sample.TrialId equals trial.Id
            where sample.PotId == found.pot.Id && sample.Id != found.sample.Id
            orderby sample.Id
            select sample
        ).ToListAsync(cancel);
        var ids = others.ConvertAll(one => one.Id);
        var painted = (
            await (
                from swatch in db.CountingSwatches().AsNoTracking()
                join chart in db.Charts on swatch.ChartId equals chart.Id
                where ids.Contains(swatch.SampleId) && swatch.AfterStep != null
                orderby swatch.AfterStep
                select new { swatch, chart.Number }
            ).ToListAsync(cancel)
        ).ToLookup(one => one.swatch.SampleId);
        var places = others.SelectMany(one =>
            painted[one.Id]
                .DistinctBy(square => square.swatch.AfterStep)
                .Select(square => new StepPlace(
                    $"{one.Id}:{square.swatch.Id}",
                    FormattableString.Invariant($"{one.Jar}; it was in already when C{square.Number} {square.swatch.Cell} was painted")
                ))
                .Prepend(new StepPlace(one.Id.ToString(), painted[one.Id].Any() ? $"{one.Jar}; after all that was painted" : one.Jar))
        );
        return new(
            found.pot,
            found.sample,
            found.step,
            found.material,
            found.pot.Counts && found.trial.Counts && found.sample.Counts,
            await Touched.ByStepAsync(db, found.step, cancel),
            [.. places],
            await db
                .Materials.AsNoTracking()
                .Counting()
                .Where(one => one.Kind != MaterialKind.Plant && one.Kind != MaterialKind.Paper && one.Kind != MaterialKind.Container)
                .OrderBy(one => one.Name)
                .ToListAsync(cancel),
            WrittenTime.Say(found.step.At, clock),
            await LastChange.HistoryAsync(db, found.step.Id, cancel)
        );
    }
}

/// <param name="Pot">The pot.</param>
/// <param name="Sample">The jar.</param>
/// <param name="Step">The step, withdrawn or not.</param>
/// <param name="Material">What went in.</param>
/// <param name="JarCounts">False where the jar, its trial or its pot was taken back.</param>
/// <param name="Touched">What says something else once the step is corrected.</param>
/// <param name="Places">Where it can be moved to.</param>
/// <param name="Materials">What it may have been instead.</param>
/// <param name="At">When it went in, as a form's field holds it.</param>
/// <param name="Corrections">What was corrected of it, newest first.</param>
public sealed record ShowStepAnswer(
    Pot Pot,
    Sample Sample,
    Addition Step,
    Material Material,
    bool JarCounts,
    Touched Touched,
    IReadOnlyList<StepPlace> Places,
    IReadOnlyList<Material> Materials,
    string At,
    IReadOnlyList<Correction> Corrections
);

/// <param name="Key">As <see cref="ChangeStep.MoveAsync"/> takes it: a sample's key, or that and a square's.</param>
/// <param name="Words">The jar, and after which painting.</param>
public sealed record StepPlace(string Key, string Words);
