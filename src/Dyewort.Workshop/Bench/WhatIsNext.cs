using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bench;

/// <summary>What waits on the bench: the next step of everything that was begun lately.</summary>
public sealed class WhatIsNext(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>A day's drying before a dry photo is asked for: thick washes need it (common practice, no source).</summary>
    private static readonly TimeSpan Drying = TimeSpan.FromHours(12);

    public async Task<WhatIsNextAnswer> HandleAsync(CancellationToken cancel)
    {
        var pots = await db.Pots.AsNoTracking().Counting().ToListAsync(cancel);
        var log = (await db.PotLog.AsNoTracking().ToListAsync(cancel)).ToLookup(entry => entry.PotId);
        var trials = await db.Trials.AsNoTracking().Counting().ToListAsync(cancel);
        var changed = (
            await (
                from addition in db.Additions.Counting()
                join sample in db.Samples on addition.SampleId equals sample.Id
                select sample.TrialId
            ).ToListAsync(cancel)
        ).ToHashSet();
        var charts = await db.Charts.AsNoTracking().Counting().ToListAsync(cancel);
        var photos = (await db.Photos.AsNoTracking().Counting().Where(photo => photo.ChartId != null).ToListAsync(cancel)).ToLookup(photo =>
            photo.ChartId
        );
        var codes = pots.ToDictionary(pot => pot.Id, pot => pot.Code);
        var steps = new List<WhatIsNextStep>();
        foreach (var pot in pots)
        {
            if (LiquorSum.MeasuredMl(log[pot.Id]) is null)
                steps.Add(new($"Strain {pot.Code} and measure the liquor", Thing.Pot(pot.Code), NextDeed.Look, pot.WrittenAt));
            else if (!trials.Exists(trial => trial.PotId == pot.Id))
                steps.Add(new($"Split {pot.Code} into samples", Thing.Pot(pot.Code), NextDeed.Split, pot.WrittenAt));
        }

        foreach (var trial in trials.Where(trial => codes.ContainsKey(trial.PotId)))
        {
            var own = Thing.Trial(codes[trial.PotId], trial.Letter);
            if (charts.Exists(chart => chart.TrialId == trial.Id))
                continue;
            steps.Add(
                changed.Contains(trial.Id)
                    ? new($"Print the sheet of “{trial.Title}”", own, NextDeed.PrintSheet, trial.WrittenAt)
                    : new($"Add to the jars of “{trial.Title}”", own, NextDeed.Look, trial.WrittenAt)
            );
        }

        foreach (var chart in charts)
        {
            var sent = photos[chart.Id].ToList();
            if (sent.Count == 0)
                steps.Add(
                    new(
                        $"Paint {chart.Code} and send a photo while it is wet",
                        Thing.Chart(chart.Code),
                        NextDeed.SendPhoto,
                        chart.WrittenAt
                    )
                );
            else if (
                sent.TrueForAll(photo => photo.State == SwatchState.Wet)
                && clock.GetUtcNow() - sent.Max(photo => photo.TakenAt) > Drying
            )
                steps.Add(
                    new(
                        $"{chart.Code} should be dry: send a photo",
                        Thing.Chart(chart.Code),
                        NextDeed.SendPhoto,
                        sent.Max(photo => photo.TakenAt)
                    )
                );
        }

        return new([.. steps.OrderByDescending(step => step.Since).Take(8)], pots.Count == 0, !await db.Materials.AnyAsync(cancel));
    }
}

public sealed record WhatIsNextAnswer(IReadOnlyList<WhatIsNextStep> Steps, bool Empty, bool NothingInPantry);

/// <param name="What">The step, as a maker would say it.</param>
/// <param name="On">What to do it on.</param>
/// <param name="Deed">What is done.</param>
/// <param name="Since">When the thing it belongs to was written last.</param>
public sealed record WhatIsNextStep(string What, Thing On, NextDeed Deed, DateTimeOffset Since);
