using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Looks for jars whose colour does not fit what was written, and puts one right when the maker says so; what was written stays
/// readable.</summary>
public sealed class DoubtJars(NotebookDb db, TimeProvider clock, NotebookTrials notebook, FindSlips slips) : IUseCase
{
    /// <returns>Null where nothing of the plant was painted and read.</returns>
    public async Task<DoubtJarsAnswer?> HandleAsync(string plant, CancellationToken cancel)
    {
        var trials = await notebook.HandleAsync(cancel);
        if (trials.Plants.FirstOrDefault(one => string.Equals(one, plant, StringComparison.OrdinalIgnoreCase)) is not { } known)
            return null;
        if (await slips.HandleAsync(await notebook.SourceAsync(cancel), known, cancel) is not { } outcome)
            return new(known, [], null) { StillLearning = true };
        return outcome.TryGet(out var found)
            ? new(
                known,
                [.. found.Jars.Select(jar => new DoubtJarsLine(jar, trials.Painted.First(one => OneReading(one.Row, jar.Row))))],
                null
            )
            : new(known, [], outcome.Problems[0]);
    }

    /// <summary>Corrects the notebook by one of the explanations.</summary>
    /// <returns>The plant.</returns>
    public async Task<Outcome<string>> PutRightAsync(string plant, DoubtJarsForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var answer = await HandleAsync(plant, cancel);
        if (answer is { StillLearning: true })
            return Outcome.Refused<string>(
                nameof(form.Slip),
                "The notebook has changed, and its jars are still being looked through.",
                "Load the page again in a moment."
            );
        var line = answer?.Doubtful.FirstOrDefault(one => one.Painted.Row.Point.Sample == form.Sample);
        if (
            line is null
            || !int.TryParse(form.Slip, NumberStyles.None, CultureInfo.InvariantCulture, out var place)
            || place >= line.Jar.Slips.Count
        )
            return Outcome.Refused<string>(
                nameof(form.Slip),
                "This explanation does not stand any more.",
                "Load the page again: the notebook has changed since."
            );
        var slip = line.Jar.Slips[place];
        var trials = await notebook.HandleAsync(cancel);
        if (slip.Kind is SlipKind.Swapped)
            return await SwapAsync(answer!.Plant, line, slip, trials, cancel);
        if (slip.Kind is SlipKind.AsWritten or SlipKind.SomethingElse)
            return Outcome.Refused<string>(
                nameof(form.Slip),
                "There is nothing to put right in the jar.",
                "If the photo was bad, send another."
            );
        if (line.Painted.Sample.ParentId is not null)
            return Outcome.Refused<string>(
                nameof(form.Slip),
                $"{form.Sample} was poured from another jar.",
                "Correct it by hand, in the jar where the slip was made."
            );

        var now = clock.GetUtcNow();
        var steps = await db
            .Additions.Where(step => step.SampleId == line.Painted.Sample.Id && step.WithdrawnAt == null)
            .OrderBy(step => step.Step)
            .ToListAsync(cancel);
        var last =
            steps.Count == 0
                ? 0
                : await db.Additions.Where(step => step.SampleId == line.Painted.Sample.Id).MaxAsync(step => step.Step, cancel);
        var written = line.Painted.Row.Point;
        var at = steps.Count > 0 ? steps[^1].At : line.Painted.Sample.PouredAt;
        foreach (var name in written.GramsPerLitre.Names.Union(slip.Meant.GramsPerLitre.Names, StringComparer.OrdinalIgnoreCase))
        {
            var (was, meant) = (written.Dose(name), slip.Meant.Dose(name));
            if (Math.Abs(was - meant) <= 0.005 * Math.Max(was, meant))
                continue;
            if (!trials.Materials.TryGetValue(name, out var material))
                return Outcome.Refused<string>(nameof(form.Slip), $"{name} is not in the pantry.", "Correct the jar by hand.");
            foreach (var step in steps.Where(step => step.MaterialId == material.Id))
            {
                step.WithdrawnAt = now;
                step.WithdrawnWhy = $"put right: {slip.Words}";
            }

            if (meant <= 0)
                continue;
            var grams = meant * line.Painted.Sample.VolumeMl / 1000;
            last++;
            db.Add(
                new Addition
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    SampleId = line.Painted.Sample.Id,
                    MaterialId = material.Id,
                    Step = last,
                    At = at,
                    AmountText = $"{Figures.Say(grams)} g",
                    AmountValue = grams,
                    AmountUnit = nameof(AmountUnit.Gram),
                    Grams = grams,
                    Seen = "put right from its colour",
                    Ph = written.Ph,
                }
            );
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(answer!.Plant);
    }

    /// <summary>What is left of the liquor may have changed since the jars were looked through; it says nothing of a colour.</summary>
    private static bool OneReading(TrialRow one, TrialRow other) =>
        one with { Point = one.Point with { LeftMillilitres = other.Point.LeftMillilitres } } == other;

    /// <summary>Two squares exchanged on a sheet: every swatch of the one belongs to the other and back. Only within one chart.</summary>
    private async Task<Outcome<string>> SwapAsync(
        string plant,
        DoubtJarsLine line,
        Slip slip,
        NotebookTrialsAnswer trials,
        CancellationToken cancel
    )
    {
        var chart = line.Painted.Chart;
        var other = trials.Of(slip.Other).FirstOrDefault(one => one.Chart.Id == chart.Id);
        if (other is null)
            return Outcome.Refused<string>(
                nameof(DoubtJarsForm.Slip),
                $"{slip.Other} does not lie on {chart.Code}.",
                "Look at both charts and correct it by hand."
            );
        var (first, second) = (line.Painted.Sample.Id, other.Sample.Id);
        foreach (
            var swatch in await db
                .Swatches.Where(one =>
                    one.ChartId == chart.Id && one.WithdrawnAt == null && (one.SampleId == first || one.SampleId == second)
                )
                .ToListAsync(cancel)
        )
            swatch.SampleId = swatch.SampleId == first ? second : first;
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(plant);
    }
}

public sealed record DoubtJarsForm
{
    /// <summary>The sample's code.</summary>
    public string? Sample { get; init; }

    /// <summary>Which explanation holds: its place in the list, from 0.</summary>
    public string? Slip { get; init; }
}

/// <param name="Painted">The reading that does not fit.</param>
public sealed record DoubtJarsLine(DoubtfulJar Jar, NotebookTrialsPainted Painted);

/// <param name="Doubtful">Jars that are probably not what was written, most doubtful first.</param>
/// <param name="NotYet">Why nothing can be said; null when it can.</param>
public sealed record DoubtJarsAnswer(string Plant, IReadOnlyList<DoubtJarsLine> Doubtful, Problem? NotYet)
{
    /// <summary>True where the jars are still being looked through: ask again in a moment.</summary>
    public bool StillLearning { get; init; }
}
