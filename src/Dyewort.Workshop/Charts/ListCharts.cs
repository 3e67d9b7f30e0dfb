using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Every chart, newest first, with the colours that were read from it.</summary>
public sealed class ListCharts(NotebookDb db) : IUseCase
{
    public async Task<IReadOnlyList<ListChartsLine>> HandleAsync(CancellationToken cancel)
    {
        var charts = await db.Charts.AsNoTracking().Counting().OrderByDescending(chart => chart.Number).ToListAsync(cancel);
        var swatches = (await db.CountingSwatches().AsNoTracking().OrderBy(swatch => swatch.Id).ToListAsync(cancel)).ToLookup(swatch =>
            swatch.ChartId
        );
        var readings = (await db.Readings.AsNoTracking().ToListAsync(cancel)).ToLookup(reading => reading.SwatchId);
        var pots = await (
            from trial in db.Trials
            join pot in db.Pots on trial.PotId equals pot.Id
            select new { trial.Id, pot.Code }
        ).ToDictionaryAsync(one => one.Id, one => one.Code, cancel);
        return
        [
            .. charts.Select(chart => new ListChartsLine(
                chart,
                chart.TrialId is { } trial ? pots.GetValueOrDefault(trial) : null,
                swatches[chart.Id].Count(),
                [.. swatches[chart.Id].Select(swatch => StandingColour.ToShow(readings[swatch.Id])).OfType<Reading>()]
            )),
        ];
    }
}

public sealed record ListChartsLine(Chart Chart, string? PotCode, int Swatches, IReadOnlyList<Reading> Colours);
