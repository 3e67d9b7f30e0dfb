using Dyewort.Notebook;

namespace Dyewort.Store;

/// <summary>What counts in the notebook: the one home of the question whether an entry was withdrawn.</summary>
/// <remarks>
/// Asked for by name and not hidden in the mapping, because pages that tell a history read withdrawn entries too. Whoever has an entry in
/// hand asks <see cref="Entry.Counts"/>.
/// </remarks>
public static class CountingEntries
{
    /// <summary>The entries that nobody withdrew.</summary>
    public static IQueryable<T> Counting<T>(this IQueryable<T> entries)
        where T : Entry => entries.Where(entry => entry.WithdrawnAt == null);

    /// <summary>The swatches that count: nobody withdrew them, their chart, or the sample, trial or pot they were painted from.</summary>
    public static IQueryable<Swatch> CountingSwatches(this NotebookDb db) =>
        from swatch in db.Swatches.Counting()
        join chart in db.Charts.Counting() on swatch.ChartId equals chart.Id
        join sample in db.Samples.Counting() on swatch.SampleId equals sample.Id
        join trial in db.Trials.Counting() on sample.TrialId equals trial.Id
        join pot in db.Pots.Counting() on sample.PotId equals pot.Id
        select swatch;
}
