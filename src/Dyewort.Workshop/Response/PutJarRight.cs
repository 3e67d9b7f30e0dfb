using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Puts a jar right by one of the explanations that <see cref="FindSlips"/> gave; what was written stays readable.</summary>
public sealed class PutJarRight(NotebookDb db, TimeProvider clock, NotebookTrials notebook, FindSlips slips) : IUseCase
{
    /// <returns>The plant.</returns>
    public async Task<Outcome<string>> HandleAsync(string plant, PutJarRightForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var trials = await notebook.HandleAsync(cancel);
        if (await slips.HandleAsync(trials, plant, cancel) is not { } outcome)
            return Outcome.Refused<string>(
                nameof(form.Slip),
                "The notebook has changed, and its jars are still being looked through.",
                "Load the page again in a moment."
            );
        var jar = outcome.TryGet(out var found) ? found.Jars.FirstOrDefault(one => one.Row.Point.Sample == form.Sample) : null;
        if (
            jar is null
            || trials.Of(jar.Row) is not { } painted
            || !int.TryParse(form.Slip, NumberStyles.None, CultureInfo.InvariantCulture, out var place)
            || place >= jar.Slips.Count
        )
            return Outcome.Refused<string>(
                nameof(form.Slip),
                "This explanation does not stand any more.",
                "Load the page again: the notebook has changed since."
            );
        plant = painted.Row.Point.Plant;
        var slip = jar.Slips[place];
        if (slip.Kind is SlipKind.Swapped)
            return await SwapAsync(plant, painted, slip, trials, cancel);
        if (slip.Kind is SlipKind.AsWritten or SlipKind.SomethingElse)
            return Outcome.Refused<string>(
                nameof(form.Slip),
                "There is nothing to put right in the jar.",
                "If the photo was bad, send another."
            );
        if (painted.Sample.ParentId is not null)
            return Outcome.Refused<string>(
                nameof(form.Slip),
                $"{form.Sample} was poured from another jar.",
                "Correct it by hand, in the jar where the slip was made."
            );

        var now = clock.GetUtcNow();
        var all = await db.Additions.Counting().Where(step => step.SampleId == painted.Sample.Id).ToListAsync(cancel);
        var steps = Stage.Of(painted.Sample, painted.Swatch.AfterStep, all).Steps;
        var written = painted.Row.Point;
        var at = steps.Count > 0 ? steps[^1].At : painted.Sample.PouredAt;
        foreach (var name in written.GramsPerLitre.Names.Union(slip.Meant.GramsPerLitre.Names, StringComparer.OrdinalIgnoreCase))
        {
            var (was, meant) = (written.Dose(name), slip.Meant.Dose(name));
            if (Math.Abs(was - meant) <= 0.005 * Math.Max(was, meant))
                continue;
            if (!trials.Materials.TryGetValue(name, out var material))
                return Outcome.Refused<string>(nameof(form.Slip), $"{name} is not in the pantry.", "Correct the jar by hand.");

            // What is put right stands where the slip stood; what was never written down, before the square was painted.
            var wrong = steps.Where(step => step.MaterialId == material.Id).ToList();
            var stands = wrong.Count > 0 ? wrong[^1].Step : painted.Stage.LastStep;
            foreach (var step in wrong)
            {
                step.WithdrawnAt = now;
                step.WithdrawnWhy = $"put right: {slip.Words}";
            }

            if (meant <= 0)
                continue;
            var grams = meant * painted.Sample.VolumeMl / 1000;
            db.Add(
                new Addition
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    SampleId = painted.Sample.Id,
                    MaterialId = material.Id,
                    Step = stands,
                    At = at,
                    Amount = MeasuredAmount.Of(Mass.FromGrams(grams).ToAmount(), grams),
                    Seen = "put right from its colour",
                    Ph = written.Ph,
                }
            );
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(plant);
    }

    /// <summary>Two squares exchanged on a sheet: every swatch of the one belongs to the other and back. Only within one chart.</summary>
    private async Task<Outcome<string>> SwapAsync(
        string plant,
        NotebookTrialsPainted painted,
        Slip slip,
        TrialSource trials,
        CancellationToken cancel
    )
    {
        var chart = painted.Chart;
        var other = trials.Of(slip.Other).FirstOrDefault(one => one.Chart.Id == chart.Id);
        if (other is null)
            return Outcome.Refused<string>(
                nameof(PutJarRightForm.Slip),
                $"{slip.Other} does not lie on {chart.Code}.",
                "Look at both charts and correct it by hand."
            );
        var (first, second) = (painted.Swatch, other.Swatch);
        var squares = await db
            .Swatches.Counting()
            .Where(one => one.ChartId == chart.Id && (one.SampleId == first.SampleId || one.SampleId == second.SampleId))
            .ToListAsync(cancel);
        foreach (var square in squares)
        {
            if (square.SampleId == first.SampleId && square.AfterStep == first.AfterStep)
                (square.SampleId, square.AfterStep) = (second.SampleId, second.AfterStep);
            else if (square.SampleId == second.SampleId && square.AfterStep == second.AfterStep)
                (square.SampleId, square.AfterStep) = (first.SampleId, first.AfterStep);
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(plant);
    }
}

public sealed record PutJarRightForm
{
    /// <summary>The sample's code.</summary>
    public string? Sample { get; init; }

    /// <summary>Which explanation holds: its place in the list, from 0.</summary>
    public string? Slip { get; init; }
}
