using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>“I painted it”: a jar's next square, with what is in the jar now; and what a square was painted from, put right by
/// hand.</summary>
public sealed class PaintSquare(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>The squares that the next painting of a jar fills: the next on its newest sheet, one of each wash; empty when none
    /// waits.</summary>
    /// <param name="painted">The jar's squares with their charts' numbers.</param>
    public static IReadOnlyList<Swatch> Next(IEnumerable<(Swatch Square, int Chart)> painted) =>
        painted
            .Where(one => one.Square.AfterStep is null)
            .GroupBy(one => one.Chart)
            .MaxBy(chart => chart.Key)
            ?.Select(one => one.Square)
            .OrderBy(square => square.Id)
            .DistinctBy(square => square.Wash)
            .ToList()
        ?? [];

    /// <summary>True for a jar of which a square holds everything that is in it now.</summary>
    /// <param name="squares">The jar's squares.</param>
    /// <param name="lastStep">The number of its last step that counts, 0 for none.</param>
    public static bool IsPaintedAsItStands(IEnumerable<Swatch> squares, int lastStep) =>
        squares.Any(square => square.AfterStep >= lastStep);

    /// <returns>The cells that were painted: "C3 B2".</returns>
    public async Task<Outcome<string>> HandleAsync(string code, string jar, CancellationToken cancel)
    {
        var painted = await PaintAsync(code, jar, null, cancel);
        return painted.Count == 0
            ? NoneWaits<string>($"jar {jar}", code)
            : Outcome.Of($"C{painted[0].Chart} {string.Join(", ", painted.Select(one => one.Square.Cell))}");
    }

    /// <summary>The next square of every jar of a trial that has one waiting, each with what is in its jar now; a jar that was painted as
    /// it stands is left out, unless all are.</summary>
    /// <returns>How many jars were painted.</returns>
    public async Task<Outcome<int>> AllAsync(string code, string letter, CancellationToken cancel)
    {
        var painted = await PaintAsync(code, null, letter, cancel);
        return painted.Count == 0
            ? NoneWaits<int>($"a jar of trial {letter}", code)
            : Outcome.Of(painted.Select(one => one.Square.SampleId).Distinct().Count());
    }

    private static Outcome<T> NoneWaits<T>(string whose, string code)
        where T : notnull =>
        Outcome.Refused<T>(
            "Painted",
            $"No square waits for {whose} of pot {code}.",
            "Print a sheet for the trial; it can keep several squares for every jar."
        );

    /// <summary>Paints the next squares of a jar, or of every jar of a trial. What was taken back takes no part: a square counts only with
    /// its jar, trial, pot and chart.</summary>
    /// <returns>The squares that were painted, with their charts' numbers; empty where none waits.</returns>
    private async Task<IReadOnlyList<(Swatch Square, int Chart)>> PaintAsync(
        string code,
        string? jar,
        string? letter,
        CancellationToken cancel
    )
    {
        var squares = await (
            from swatch in db.CountingSwatches()
            join chart in db.Charts on swatch.ChartId equals chart.Id
            join sample in db.Samples on swatch.SampleId equals sample.Id
            join trial in db.Trials on sample.TrialId equals trial.Id
            join pot in db.Pots on sample.PotId equals pot.Id
            where pot.Code == code && (jar == null || sample.Jar == jar) && (letter == null || trial.Letter == letter)
            select new { swatch, chart }
        ).ToListAsync(cancel);
        var last = await Painting.LastStepsAsync(db, [.. squares.Select(one => one.swatch.SampleId).Distinct()], cancel);
        var waiting = squares
            .GroupBy(one => one.swatch.SampleId)
            .Select(own =>
                (
                    Next: Next(own.Select(one => (one.swatch, one.chart.Number))),
                    Painted: IsPaintedAsItStands(own.Select(one => one.swatch), last.GetValueOrDefault(own.Key))
                )
            )
            .ToList();
        var due = waiting.FindAll(own => !own.Painted && own.Next.Count > 0);
        var next = (due.Count > 0 ? due : waiting).SelectMany(own => own.Next).ToList();
        await Painting.FixAsync(db, next, cancel);
        var charts = squares.ToDictionary(one => one.swatch.Id, one => one.chart);
        foreach (var square in next)
        {
            square.StageSaidAt = clock.GetUtcNow();
            charts[square.Id].PaintedOn ??= DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        }

        await db.SaveChangesAsync(cancel);
        return [.. next.Select(square => (square, charts[square.Id].Number))];
    }

    /// <summary>Says after which step a square was painted; what was said before stays readable as a correction.</summary>
    /// <param name="after">The step's number, 0 for the plain liquor; empty for a square that was not painted yet.</param>
    /// <returns>The cell.</returns>
    public async Task<Outcome<string>> SayAsync(int number, string? cell, string? after, CancellationToken cancel)
    {
        var swatch = await (
            from one in db.CountingSwatches()
            join chart in db.Charts on one.ChartId equals chart.Id
            where chart.Number == number && one.Cell == cell
            select one
        ).SingleOrDefaultAsync(cancel);
        if (swatch is null)
            return Outcome.Refused<string>("After", $"Chart C{number} has no swatch {cell}.", "Load the page again.");
        if (string.IsNullOrWhiteSpace(after))
        {
            if (await db.Readings.Counting().AnyAsync(reading => reading.SwatchId == swatch.Id, cancel))
                return Outcome.Refused<string>(
                    "After",
                    $"{cell} was read, so it was painted.",
                    "Choose after which step, or take the photo back first."
                );
            (swatch.AfterStep, swatch.StageSaidAt) = (null, null);
        }
        else
        {
            var steps = await db
                .Additions.Counting()
                .Where(step => step.SampleId == swatch.SampleId)
                .Select(step => step.Step)
                .ToListAsync(cancel);
            if (!int.TryParse(after, NumberStyles.None, CultureInfo.InvariantCulture, out var step) || (step != 0 && !steps.Contains(step)))
                return Outcome.Refused<string>("After", $"The jar of {cell} has no step “{after}”.", "Choose one of those shown.");
            // Correcting what it holds does not say that it was painted today.
            var read = await db
                .Readings.Counting()
                .Where(reading => reading.SwatchId == swatch.Id)
                .OrderBy(reading => reading.Id)
                .Select(reading => (DateTimeOffset?)reading.At)
                .FirstOrDefaultAsync(cancel);
            (swatch.AfterStep, swatch.StageSaidAt) = (step, swatch.StageSaidAt ?? read ?? clock.GetUtcNow());
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(swatch.Cell);
    }
}
