using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>One chart as it lies on its sheet: each swatch with its jar and its colours.</summary>
public sealed class ShowChart(NotebookDb db, FindThread thread, NotebookSettings settings) : IUseCase
{
    /// <param name="Jar">The jar it was painted from, as it stands.</param>
    /// <param name="Painted">The swatch, its stage and what was in the jar then.</param>
    /// <param name="Story">What it went through.</param>
    /// <param name="Advice">What its newest picture warned of, in sentences.</param>
    public sealed record Cell(JarView Jar, JarPainted Painted, SwatchStory Story, IReadOnlyList<string> Advice)
    {
        /// <summary>The swatch.</summary>
        public Swatch Swatch => Painted.Swatch;

        /// <summary>Its readings that can still speak, oldest first.</summary>
        public IReadOnlyList<Reading> Readings => Painted.Readings;

        /// <summary>The reading that speaks for the swatch.</summary>
        public Reading? Best => StandingColour.ToShow(Readings);
    }

    public async Task<ShowChartAnswer?> HandleAsync(int number, CancellationToken cancel)
    {
        if (await db.Charts.AsNoTracking().SingleOrDefaultAsync(one => one.Number == number, cancel) is not { } chart)
            return null;
        var trial = chart.TrialId is { } trialId ? await db.Trials.AsNoTracking().SingleAsync(one => one.Id == trialId, cancel) : null;
        var pot = trial is null ? null : await db.Pots.AsNoTracking().SingleAsync(one => one.Id == trial.PotId, cancel);
        var paper = chart.PaperId is { } paperId ? await db.Materials.AsNoTracking().SingleAsync(one => one.Id == paperId, cancel) : null;
        var swatches = await db.CountingSwatches()
            .AsNoTracking()
            .Where(swatch => swatch.ChartId == chart.Id)
            .OrderBy(swatch => swatch.Id)
            .ToListAsync(cancel);
        var sampleIds = swatches.Select(swatch => swatch.SampleId).Distinct().ToList();
        var samples = await db.Samples.AsNoTracking().Where(sample => sampleIds.Contains(sample.Id)).ToListAsync(cancel);
        var jars = (await JarView.LoadAsync(db, samples, (await settings.ReadAsync(cancel)).Teaspoon, cancel)).ToDictionary(jar =>
            jar.Sample.Id
        );
        var photos = await db
            .Photos.AsNoTracking()
            .Counting()
            .Where(photo => photo.ChartId == chart.Id)
            .OrderBy(photo => photo.TakenAt)
            .ToListAsync(cancel);
        var reports = photos.ToDictionary(photo => photo.Id, PhotoReport.Of);
        var drying = await DryingPairs.LearnAsync(db, cancel);
        var bare = paper?.BareColour is { } known ? Lab.FromXyz(known) : DryingPairs.UsualPaper;
        var cells = swatches
            .Select(swatch =>
            {
                var painted = jars[swatch.SampleId].Swatches.Single(one => one.Swatch.Id == swatch.Id);
                var readings = painted.Readings;
                var last = readings.LastOrDefault(reading => reading.PhotoId is not null);
                var report = last?.PhotoId is { } photo ? reports.GetValueOrDefault(photo) : null;
                return new Cell(
                    jars[swatch.SampleId],
                    painted,
                    SwatchStory.Of(readings, drying, bare),
                    report?.AdviceFor(swatch.Cell, last!.State) ?? []
                );
            })
            .ToList();
        var layout = ChartSheet.LayoutOf(chart);
        return new(
            chart,
            pot,
            trial,
            paper,
            layout.Columns,
            cells,
            [.. photos.Select(photo => new ShowChartSent(photo, reports[photo.Id]?.Warnings ?? []))],
            await thread.OfChartAsync(chart, cancel),
            await db.HouseStrips.AsNoTracking().Counting().OrderBy(strip => strip.Name).ToListAsync(cancel),
            await db
                .Corrections.AsNoTracking()
                .Where(one => one.EntryId == chart.Id)
                .OrderByDescending(one => one.CorrectedAt)
                .ToListAsync(cancel),
            layout.Markers.Count > 0
        );
    }
}

public sealed record ShowChartAnswer(
    Chart Chart,
    Pot? Pot,
    Trial? Trial,
    Material? Paper,
    int Columns,
    IReadOnlyList<ShowChart.Cell> Cells,
    IReadOnlyList<ShowChartSent> Photos,
    IReadOnlyList<ThreadStep> Thread,
    IReadOnlyList<HouseStrip> Strips,
    IReadOnlyList<Correction> Corrections,
    bool HasSheet
)
{
    /// <summary>True when somebody has sent a photo that was read.</summary>
    public bool IsRead => Cells.Any(cell => cell.Readings.Count > 0);
}

/// <param name="Photo">The photo.</param>
/// <param name="Warnings">What its reading warned of, in sentences.</param>
public sealed record ShowChartSent(Photo Photo, IReadOnlyList<string> Warnings)
{
    /// <summary>False while the maker has not yet shown where the swatches are.</summary>
    public bool IsRead => Photo.ReadingJson is not null;
}
