using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>Fixes what squares were painted from.</summary>
internal static class Painting
{
    /// <summary>Gives squares that have no stage yet what stands in their jars now.</summary>
    /// <param name="db">The notebook; the squares are entries of it that it will save.</param>
    /// <param name="squares">The squares.</param>
    public static async Task FixAsync(NotebookDb db, IEnumerable<Swatch> squares, CancellationToken cancel)
    {
        var open = squares.Where(square => square.AfterStep is null).ToList();
        var jars = open.Select(square => square.SampleId).Distinct().ToList();
        var last = await LastStepsAsync(db, jars, cancel);
        foreach (var square in open)
            square.AfterStep = last.GetValueOrDefault(square.SampleId);
    }

    /// <summary>The number of the last step that counts in each jar; a jar without one is left out.</summary>
    public static async Task<Dictionary<Guid, int>> LastStepsAsync(
        NotebookDb db,
        IReadOnlyCollection<Guid> jars,
        CancellationToken cancel
    ) =>
        await db
            .Additions.Counting()
            .Where(step => jars.Contains(step.SampleId))
            .GroupBy(step => step.SampleId)
            .Select(group => new { group.Key, Step = group.Max(step => step.Step) })
            .ToDictionaryAsync(one => one.Key, one => one.Step, cancel);
}
