using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Writes down what an instrument measured on a chart's swatches, typed or from a CGATS.17 file.</summary>
public sealed class AddInstrumentReadings(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>95 % uncertainty of a hand-held instrument on painted paper where nothing else is said, ΔE₀₀ (common practice, no
    /// source).</summary>
    public const double UsualUncertaintyDe00 = 1;

    /// <returns>How many swatches were written.</returns>
    public async Task<Outcome<int>> HandleAsync(int number, AddInstrumentReadingsForm form, CancellationToken cancel)
    {
        if (await db.Charts.Counting().SingleOrDefaultAsync(one => one.Number == number, cancel) is not { } chart)
            return Outcome.Refused<int>(nameof(form.File), $"There is no chart C{number} in this notebook.", "Go back to the charts.");
        var swatches = await db
            .Swatches.Counting()
            .Where(swatch => swatch.ChartId == chart.Id)
            .OrderBy(swatch => swatch.Id)
            .ToListAsync(cancel);
        var entered = new Entered();
        var now = clock.GetUtcNow();
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var takenOn = entered.PastDay(nameof(form.TakenOn), form.TakenOn, today, today);
        var state = entered.OneOf(nameof(form.State), form.State, SwatchState.Dry);
        var uncertain = entered.OptionalNumber(nameof(form.Uncertainty), form.Uncertainty, "ΔE00", 0.05, 20, "1") ?? UsualUncertaintyDe00;
        var with = entered.OptionalWords(nameof(form.With), form.With, 120);
        var measured = new Dictionary<string, (Lab Lab, double U95)>();
        var typed = form.Values.Where(pair => !string.IsNullOrWhiteSpace(pair.Value)).ToList();
        if (typed.Count > 0)
        {
            var d50 = TypedLab.IsD50(entered, nameof(form.Illuminant), form.Illuminant);
            foreach (var (cell, text) in typed)
            {
                if (TypedLab.Read(entered, $"Lab-{cell}", text, d50) is { } lab)
                    measured[cell] = (lab, uncertain);
            }
        }

        if (
            !string.IsNullOrWhiteSpace(form.File)
            && entered.Take(CardFile.Parse(nameof(form.File), form.File, "instrument’s file")) is { } file
        )
        {
            foreach (var (cell, patch) in Assign(file, swatches, entered))
                measured.TryAdd(cell, (patch.Lab, patch.UncertaintyDe00 is { } own and > 0 ? own : uncertain));
        }

        if (measured.Count == 0 && entered.Sound)
            entered.Refuse(
                nameof(form.File),
                "No figures came.",
                "Type L*, a* and b* of at least one swatch, or give the instrument's file."
            );
        if (measured.Keys.FirstOrDefault(cell => swatches.TrueForAll(swatch => swatch.Cell != cell)) is { } stranger)
            entered.Refuse(nameof(form.File), $"Chart C{number} has no swatch {stranger}.", "Load the page again.");
        if (!entered.Sound)
            return Outcome.Refused<int>(entered.Problems);

        var ids = swatches.Select(swatch => swatch.Id).ToList();
        var before = await db
            .Readings.AsNoTracking()
            .Counting()
            .Where(reading => ids.Contains(reading.SwatchId) && reading.Source == ReadingSource.Instrument && reading.State == state)
            .OrderBy(reading => reading.Id)
            .ToListAsync(cancel);
        var at = TakenAt.Of(takenOn, today, now);
        foreach (var swatch in swatches)
        {
            if (!measured.TryGetValue(swatch.Cell, out var figure))
                continue;
            db.Add(
                new Reading
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    SwatchId = swatch.Id,
                    At = at,
                    State = state,
                    Colour = figure.Lab.ToXyz(),
                    UncertaintyDe00 = figure.U95,
                    Source = ReadingSource.Instrument,
                    Method = "instrument",
                    MeasuredWith = with,

                    // Measured again on the same day is a correction; on another day it is another measurement.
                    CorrectsId = before
                        .LastOrDefault(one =>
                            one.SwatchId == swatch.Id && DateOnly.FromDateTime(one.At.UtcDateTime) == DateOnly.FromDateTime(at.UtcDateTime)
                        )
                        ?.Id,
                }
            );
        }

        // Whoever measured it has painted it, on that day or before.
        chart.PaintedOn ??= takenOn;
        await Painting.FixAsync(db, swatches.Where(swatch => measured.ContainsKey(swatch.Cell)), cancel);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(measured.Count);
    }

    // By name; a file whose samples have other names is taken in order when it has as many as the chart has swatches.
    private static IEnumerable<(string Cell, CardPatch Patch)> Assign(IReadOnlyList<CardPatch> file, List<Swatch> swatches, Entered entered)
    {
        var named = (
            from swatch in swatches
            from patch in file
            where string.Equals(patch.Id.Trim(), swatch.Cell, StringComparison.OrdinalIgnoreCase)
            select (swatch.Cell, patch)
        ).ToList();
        if (named.Count > 0)
            return named.DistinctBy(pair => pair.Cell);
        if (file.Count == swatches.Count)
            return swatches.Zip(file, (swatch, patch) => (swatch.Cell, patch));
        entered.Refuse(
            nameof(AddInstrumentReadingsForm.File),
            $"No sample of the file has the name of a swatch, and it holds {file.Count} where the chart has {swatches.Count}.",
            "Give its samples the cells' codes as SAMPLE_ID, such as A1."
        );
        return [];
    }
}

public sealed record AddInstrumentReadingsForm
{
    public string? State { get; init; }

    public string? TakenOn { get; init; }

    /// <summary>"D50" or "D65": what the typed figures are for. A file says it itself.</summary>
    public string? Illuminant { get; init; }

    /// <summary>95 % uncertainty, ΔE₀₀.</summary>
    public string? Uncertainty { get; init; }

    /// <summary>What it was measured with.</summary>
    public string? With { get; init; }

    /// <summary>By cell: "L a b"; empty where it was not measured.</summary>
    public IReadOnlyDictionary<string, string> Values { get; init; } = new Dictionary<string, string>();

    /// <summary>A CGATS.17 text, pasted or sent as a file.</summary>
    public string? File { get; init; }
}
