using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Find;

/// <summary>The way from plant to bottle as seen from one of its stops.</summary>
public sealed partial class FindThread(NotebookDb db, LiquorLeft liquor) : IUseCase
{
    /// <summary>Seen from a pot.</summary>
    public async Task<IReadOnlyList<ThreadStep>> OfPotAsync(Guid potId, CancellationToken cancel)
    {
        var trials = await db
            .Trials.AsNoTracking()
            .Counting()
            .Where(trial => trial.PotId == potId)
            .OrderBy(trial => trial.Id)
            .ToListAsync(cancel);
        return [.. await UpToPotAsync(potId, here: true, cancel), .. await FromTrialAsync(potId, trials, null, null, cancel)];
    }

    /// <summary>Seen from a trial.</summary>
    public async Task<IReadOnlyList<ThreadStep>> OfTrialAsync(Trial trial, CancellationToken cancel) =>
        [.. await UpToPotAsync(trial.PotId, here: false, cancel), .. await FromTrialAsync(trial.PotId, [trial], trial.Id, null, cancel)];

    /// <summary>Seen from a chart; one that belongs to no trial has no thread.</summary>
    public async Task<IReadOnlyList<ThreadStep>> OfChartAsync(Chart chart, CancellationToken cancel)
    {
        if (chart.TrialId is not { } trialId)
            return [];
        var trial = await db.Trials.AsNoTracking().SingleAsync(one => one.Id == trialId, cancel);
        return
        [
            .. await UpToPotAsync(trial.PotId, here: false, cancel),
            .. await FromTrialAsync(trial.PotId, [trial], null, chart, cancel),
        ];
    }

    private static string LotOf(PlantLot lot) =>
        lot.GatheredOn is { } day ? string.Create(CultureInfo.InvariantCulture, $"lot of {day:d MMM yyyy}") : "lot, day not known";

    private async Task<IReadOnlyList<ThreadStep>> UpToPotAsync(Guid potId, bool here, CancellationToken cancel)
    {
        var found = await (
            from pot in db.Pots.AsNoTracking()
            join lot in db.PlantLots on pot.LotId equals lot.Id
            join plant in db.Materials on lot.PlantId equals plant.Id
            where pot.Id == potId
            select new
            {
                pot,
                lot,
                plant.Name,
            }
        ).SingleAsync(cancel);
        var gathered = LotOf(found.lot);
        var yield = await liquor.HandleAsync(potId, cancel) is { } ml ? $"{Volume.Say(Math.Max(0, ml))} left" : "not strained yet";
        return [new(found.Name, gathered), new($"Pot {found.pot.Code}", yield, Thing.Pot(found.pot.Code), here)];
    }

    private async Task<IReadOnlyList<ThreadStep>> FromTrialAsync(
        Guid potId,
        List<Trial> trials,
        Guid? hereTrial,
        Chart? hereChart,
        CancellationToken cancel
    )
    {
        var code = await db.Pots.Where(pot => pot.Id == potId).Select(pot => pot.Code).SingleAsync(cancel);
        var steps = new List<ThreadStep>();
        var jars = await db
            .Samples.AsNoTracking()
            .Counting()
            .Where(sample => sample.PotId == potId)
            .Select(sample => sample.TrialId)
            .ToListAsync(cancel);
        steps.Add(
            trials switch
            {
                [] => new("Trial", null),
                [var only] => new(
                    $"Trial {only.Letter}",
                    Jars(jars.Count(id => id == only.Id)),
                    Thing.Trial(code, only.Letter),
                    hereTrial == only.Id
                ),
                _ => new($"{trials.Count} trials", Jars(jars.Count), Thing.Pot(code)),
            }
        );
        var ids = trials.Select(trial => trial.Id).ToList();
        var charts = await db
            .Charts.AsNoTracking()
            .Counting()
            .Where(chart => chart.TrialId != null && ids.Contains(chart.TrialId.Value))
            .OrderBy(chart => chart.Number)
            .ToListAsync(cancel);
        steps.Add(
            hereChart is not null
                ? new($"Chart {hereChart.Code}", Painted(hereChart), Thing.Chart(hereChart.Code), Here: true)
                : charts switch
                {
                    [] => new("Chart", null),
                    [var only] => new($"Chart {only.Code}", Painted(only), Thing.Chart(only.Code)),
                    _ => new($"Charts {charts[0].Code} to {charts[^1].Code}", Painted(charts[^1]), Thing.Chart(charts[^1].Code)),
                }
        );
        steps.AddRange(await AfterChartAsync(potId, ids, hereTrial is null && hereChart is null, cancel));
        return steps;
    }

    private static string Painted(Chart chart) =>
        chart.PaintedOn is { } day ? string.Create(CultureInfo.InvariantCulture, $"painted {day:d MMM}") : "to be painted";

    private static string Jars(int count) => count == 1 ? "1 jar" : $"{count} jars";
}
