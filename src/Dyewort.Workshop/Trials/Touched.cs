using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>What says something else once a jar or one of its steps is corrected: squares that were painted from it, and what was kept or
/// poured from it.</summary>
/// <param name="Squares">Painted squares, by chart and cell; what they say they hold follows the correction.</param>
/// <param name="Recipes">Recipes kept from it; they keep what they kept.</param>
/// <param name="Jars">Jars that were poured from it.</param>
public sealed record Touched(IReadOnlyList<TouchedSquare> Squares, IReadOnlyList<Recipe> Recipes, IReadOnlyList<Sample> Jars)
{
    /// <summary>True where nothing else is touched.</summary>
    public bool IsNothing => Squares.Count + Recipes.Count + Jars.Count == 0;

    /// <summary>What a step touches where it stands.</summary>
    internal static Task<Touched> ByStepAsync(NotebookDb db, Addition step, CancellationToken cancel) =>
        ByAsync(db, step.SampleId, step.Step, step.At, cancel);

    /// <summary>What a jar's volume touches.</summary>
    internal static Task<Touched> ByJarAsync(NotebookDb db, Guid sampleId, CancellationToken cancel) =>
        ByAsync(db, sampleId, 0, DateTimeOffset.MinValue, cancel);

    private static async Task<Touched> ByAsync(NotebookDb db, Guid sampleId, int fromStep, DateTimeOffset from, CancellationToken cancel)
    {
        // What was poured off before the step went in never held it.
        var jars = new List<Sample>();
        var sources = new Queue<(Guid Id, DateTimeOffset From)>([(sampleId, from)]);
        while (sources.TryDequeue(out var source))
        {
            var poured = await db
                .Samples.AsNoTracking()
                .Counting()
                .Where(one => one.ParentId == source.Id || one.MixedWithId == source.Id)
                .ToListAsync(cancel);
            foreach (var jar in poured.Where(one => one.PouredAt >= source.From && jars.TrueForAll(known => known.Id != one.Id)))
            {
                jars.Add(jar);
                sources.Enqueue((jar.Id, jar.PouredAt));
            }
        }

        var ids = jars.ConvertAll(jar => jar.Id);
        var squares = await (
            from swatch in db.CountingSwatches().AsNoTracking()
            join chart in db.Charts on swatch.ChartId equals chart.Id
            join sample in db.Samples on swatch.SampleId equals sample.Id
            where (swatch.SampleId == sampleId && swatch.AfterStep >= fromStep) || (swatch.AfterStep != null && ids.Contains(sample.Id))
            orderby chart.Number, swatch.Id
            select new
            {
                chart.Number,
                swatch.Cell,
                sample.Jar,
            }
        ).ToListAsync(cancel);
        var recipes = await db
            .Recipes.AsNoTracking()
            .Counting()
            .Where(one =>
                one.SampleId != null
                && ((one.SampleId == sampleId && (one.AfterStep == null || one.AfterStep >= fromStep)) || ids.Contains(one.SampleId.Value))
            )
            .OrderBy(one => one.Id)
            .ToListAsync(cancel);
        return new(
            [.. squares.Select(one => new TouchedSquare(FormattableString.Invariant($"C{one.Number}"), one.Cell, one.Jar))],
            recipes,
            jars
        );
    }
}

/// <param name="Chart">The chart's code.</param>
/// <param name="Cell">Its cell.</param>
/// <param name="Jar">The jar that was painted.</param>
public sealed record TouchedSquare(string Chart, string Cell, string Jar);
