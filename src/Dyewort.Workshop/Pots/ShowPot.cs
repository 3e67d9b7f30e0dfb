using Dyewort.Notebook;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>One pot with its log, what is left of it and what became of it.</summary>
public sealed class ShowPot(NotebookDb db, FindThread thread, LiquorLeft left, FindTakenBack taken) : IUseCase
{
    public sealed record TrialLine(Trial Trial, int Jars);

    public async Task<ShowPotAnswer?> HandleAsync(string code, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        var lot = await db.PlantLots.AsNoTracking().SingleAsync(one => one.Id == pot.LotId, cancel);
        var plant = await db.Materials.AsNoTracking().SingleAsync(one => one.Id == lot.PlantId, cancel);
        var log = await db.PotLog.AsNoTracking().Where(entry => entry.PotId == pot.Id).OrderBy(entry => entry.At).ToListAsync(cancel);
        var samples = await db.Samples.AsNoTracking().Counting().Where(sample => sample.PotId == pot.Id).ToListAsync(cancel);
        var trials = await db
            .Trials.AsNoTracking()
            .Counting()
            .Where(trial => trial.PotId == pot.Id)
            .OrderBy(trial => trial.Id)
            .ToListAsync(cancel);
        var corrections = await db
            .Corrections.AsNoTracking()
            .Where(one => one.EntryId == pot.Id)
            .OrderByDescending(one => one.CorrectedAt)
            .ToListAsync(cancel);
        return new(
            pot,
            lot,
            plant,
            log,
            await left.HandleAsync(pot.Id, cancel),
            [.. trials.Select(trial => new TrialLine(trial, samples.Count(sample => sample.TrialId == trial.Id)))],
            await thread.OfPotAsync(pot.Id, cancel),
            corrections,
            LeaveWords.Of(await db.LotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.LotId == lot.Id, cancel))
        )
        {
            TakenBack = await taken.TrialsAsync(pot, cancel),
        };
    }
}

public sealed record ShowPotAnswer(
    Pot Pot,
    PlantLot Lot,
    Material Plant,
    IReadOnlyList<PotLogEntry> Log,
    double? LeftMl,
    IReadOnlyList<ShowPot.TrialLine> Trials,
    IReadOnlyList<ThreadStep> Thread,
    IReadOnlyList<Correction> Corrections,
    string? LeaveWords
)
{
    /// <summary>Trials of it that were taken back.</summary>
    public IReadOnlyList<TakenBackLine> TakenBack { get; init; } = [];
}
