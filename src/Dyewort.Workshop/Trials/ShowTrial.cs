using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>A trial as jars in a row.</summary>
public sealed class ShowTrial(NotebookDb db, FindThread thread, NotebookSettings settings, FindTakenBack taken) : IUseCase
{
    public async Task<ShowTrialAnswer?> HandleAsync(string code, string letter, CancellationToken cancel)
    {
        var found = await (
            from trial in db.Trials.AsNoTracking()
            join pot in db.Pots on trial.PotId equals pot.Id
            where pot.Code == code && trial.Letter == letter
            select new { pot, trial }
        ).SingleOrDefaultAsync(cancel);
        if (found is null)
            return null;
        var samples = await db
            .Samples.AsNoTracking()
            .Counting()
            .Where(sample => sample.TrialId == found.trial.Id)
            .OrderBy(sample => sample.Id)
            .ToListAsync(cancel);
        var jars = await JarView.LoadAsync(db, samples, (await settings.ReadAsync(cancel)).Teaspoon, cancel);
        var charts = await db
            .Charts.AsNoTracking()
            .Counting()
            .Where(chart => chart.TrialId == found.trial.Id)
            .OrderBy(chart => chart.Number)
            .ToListAsync(cancel);
        var careful = Caution.For([.. jars.SelectMany(jar => jar.Holds), (await Origin.LoadAsync(db, [found.pot.Id], cancel))[0].Plant]);
        return new(found.pot, found.trial, jars, charts, careful, await thread.OfTrialAsync(found.trial, cancel))
        {
            TakenBack = await taken.JarsAsync(found.pot, found.trial, cancel),
        };
    }
}

public sealed record ShowTrialAnswer(
    Pot Pot,
    Trial Trial,
    IReadOnlyList<JarView> Jars,
    IReadOnlyList<Chart> Charts,
    IReadOnlyList<Caution> Careful,
    IReadOnlyList<ThreadStep> Thread
)
{
    /// <summary>Jars of it that were taken back.</summary>
    public IReadOnlyList<TakenBackLine> TakenBack { get; init; } = [];
}
