using Dyewort.Notebook;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Store;

/// <summary>Carries notebooks over that were written before a square named the stage it was painted from.</summary>
/// <remarks>
/// Until then the steps of a jar were told from those after a painting by the clock. The same rule fixes the stage of every square that
/// was read, once, and is asked nowhere else; a maker can correct what it guessed. Recipes held everything that was in their jar when they
/// were kept.
/// </remarks>
public static class EarlierSquares
{
    /// <summary>Fixes the stages that are still open although the square was read or the recipe kept.</summary>
    public static async Task CarryOverAsync(NotebookDb db, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        var squares = await db
            .Swatches.Where(swatch => swatch.AfterStep == null)
            .Where(swatch => db.Readings.Counting().Any(reading => reading.SwatchId == swatch.Id))
            .ToListAsync(cancel);
        var recipes = await db.Recipes.Where(recipe => recipe.SampleId != null && recipe.AfterStep == null).ToListAsync(cancel);
        if (squares.Count == 0 && recipes.Count == 0)
            return;
        var steps = (await db.Additions.AsNoTracking().ToListAsync(cancel)).ToLookup(step => step.SampleId);
        var charts = await db.Charts.AsNoTracking().ToDictionaryAsync(chart => chart.Id, cancel);
        var painted = (await db.CountingSwatches().AsNoTracking().ToListAsync(cancel)).ToLookup(swatch => swatch.SampleId);
        var readings = (await db.Readings.AsNoTracking().Counting().ToListAsync(cancel)).ToLookup(reading => reading.SwatchId);
        foreach (var square in squares)
        {
            square.AfterStep = LastStepBefore(
                readings[square.Id].Min(reading => reading.At),
                [.. steps[square.SampleId].Where(step => step.Counts)],
                [
                    .. painted[square.SampleId]
                        .Where(other => other.ChartId != square.ChartId)
                        .Select(other => charts[other.ChartId].WrittenAt),
                ]
            );
        }

        foreach (var recipe in recipes)
        {
            recipe.AfterStep = steps[recipe.SampleId!.Value]
                .Where(step => step.WrittenAt <= recipe.WrittenAt)
                .Select(step => step.Step)
                .DefaultIfEmpty(0)
                .Max();
        }

        await db.SaveChangesAsync(cancel);
    }

    /// <summary>The last step that was in a jar when a square was painted from it, by the clock.</summary>
    /// <param name="read">When the square was read first.</param>
    /// <param name="steps">The jar's steps that count.</param>
    /// <param name="paintedAgain">When the jar's other charts were laid out.</param>
    /// <returns>
    /// The last step before <paramref name="read"/>, 0 for none; all steps where they look like a jar written up late: nothing stood
    /// before, and the jar was not painted again after them.
    /// </returns>
    private static int LastStepBefore(DateTimeOffset read, List<Addition> steps, List<DateTimeOffset> paintedAgain)
    {
        var after = steps.FindAll(step => step.At > read);
        var writtenUpLate = after.Count == steps.Count && !after.Exists(step => paintedAgain.Exists(chart => chart > step.At));
        return (writtenUpLate ? steps : steps.Except(after)).Select(step => step.Step).DefaultIfEmpty(0).Max();
    }
}
