using System.Text.Json;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>What had been read or seen after a step before something else was written for it: an earlier look, or a slip that was put
/// right. The notebook cannot tell the two apart, so both stay readable with their time.</summary>
/// <param name="StepId">The step.</param>
/// <param name="Ph">The pH; null where it was something seen.</param>
/// <param name="By">What the pH was read with; null where nobody said.</param>
/// <param name="Seen">What was seen; null where it was a pH.</param>
/// <param name="WrittenAt">When it was written, UTC.</param>
public sealed record EarlierReading(Guid StepId, double? Ph, PhTool? By, string? Seen, DateTimeOffset WrittenAt)
{
    private static readonly string[] Fields = [nameof(Addition.Ph), nameof(Addition.PhBy), nameof(Addition.Seen)];

    /// <summary>Those of some steps, oldest first; none that says what the step says now.</summary>
    internal static async Task<IReadOnlyList<EarlierReading>> OfAsync(
        NotebookDb db,
        IReadOnlyList<Addition> steps,
        CancellationToken cancel
    )
    {
        var ids = steps.Select(step => step.Id).ToList();
        var changes = (
            await db
                .Corrections.AsNoTracking()
                .Where(one => ids.Contains(one.EntryId) && Fields.Contains(one.Field))
                .OrderByDescending(one => one.CorrectedAt)
                .ToListAsync(cancel)
        ).ToLookup(one => one.EntryId);
        var all = new List<EarlierReading>();
        foreach (var step in steps)
        {
            // From what stands back to what stood first: the tool of a pH is the one that stood beside it.
            var by = step.PhBy;
            foreach (var change in changes[step.Id].GroupBy(one => one.CorrectedAt))
            {
                if (change.FirstOrDefault(one => one.Field == nameof(Addition.PhBy)) is { } tool)
                    by = JsonSerializer.Deserialize<PhTool?>(tool.Before);
                foreach (var one in change)
                {
                    if (one.Field == nameof(Addition.Ph) && JsonSerializer.Deserialize<double?>(one.Before) is { } ph)
                        all.Add(new(step.Id, ph, by, null, one.BeforeWrittenAt));
                    else if (one.Field == nameof(Addition.Seen) && JsonSerializer.Deserialize<string?>(one.Before) is { } seen)
                        all.Add(new(step.Id, null, null, seen, one.BeforeWrittenAt));
                }
            }

            all.RemoveAll(one => one.StepId == step.Id && (one.Seen is { } seen ? seen == step.Seen : Equals(one.Ph, step.Ph)));
        }

        return [.. all.DistinctBy(one => (one.StepId, one.Ph, one.By, one.Seen)).OrderBy(one => one.WrittenAt)];
    }
}
