using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Readings;
using Dyewort.Response;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>How far two readings are apart, and whether a person would see it.</summary>
/// <param name="De00">ΔE₀₀.</param>
/// <param name="UncertaintyDe00">95 % uncertainty, ΔE₀₀: both readings' own, added in squares, as if they shared nothing.</param>
/// <param name="Words">What the second is against the first: "clearly lighter, a little greyer".</param>
public sealed record Change(double De00, double UncertaintyDe00, string Words)
{
    /// <summary>Whether a person would see it, with the doubt said.</summary>
    public string Seen =>
        De00 - UncertaintyDe00 >= Match.JustVisibleDe00 ? DifferenceWords.Visibility(De00)
        : De00 + UncertaintyDe00 < Match.JustVisibleDe00 ? "nobody would see it"
        : De00 >= Match.JustVisibleDe00 ? "probably visible, not certain"
        : "may not be visible";

    public static Change Between(Reading first, Reading second)
    {
        var (before, after) = (Lab.FromXyz(first.Colour), Lab.FromXyz(second.Colour));
        var uncertain = Math.Sqrt((first.UncertaintyDe00 * first.UncertaintyDe00) + (second.UncertaintyDe00 * second.UncertaintyDe00));
        return new(Difference.Ciede2000(before, after), uncertain, DifferenceWords.Say(before, after));
    }
}

/// <summary>What a swatch went through: wet, dry, later, after light; and what an instrument says of it.</summary>
public sealed record SwatchStory
{
    /// <param name="Covered">The half kept covered, or the last reading before the light.</param>
    /// <param name="Open">The half in the light.</param>
    /// <param name="Change">What the light did.</param>
    /// <param name="Grade">Grade on the grey scale for change in colour, 5 none to 1.</param>
    /// <param name="SamePhoto">True where both halves were read from one picture.</param>
    public sealed record Light(Reading Covered, Reading Open, Change Change, string Grade, bool SamePhoto);

    /// <param name="Instrument">What the instrument measured.</param>
    /// <param name="Picture">The picture's reading that speaks in the same state.</param>
    /// <param name="De00">How far apart they are, ΔE₀₀.</param>
    /// <param name="Stated">What was stated for both together, ΔE₀₀.</param>
    public sealed record Check(Reading Instrument, Reading? Picture, double De00, double Stated)
    {
        public bool IsInside => De00 <= Stated;
    }

    /// <summary>Wet and dry, then every later day, oldest first; pictures only.</summary>
    public required IReadOnlyList<SwatchStoryStep> Steps { get; init; }

    /// <summary>What light did, newest exposure; null where there was none.</summary>
    public Light? Exposure { get; init; }

    /// <summary>The instrument's reading that speaks in each state.</summary>
    public required IReadOnlyList<Check> Checks { get; init; }

    /// <summary>What it will dry to; null where it has been read dry.</summary>
    public DryForecast? DriesTo { get; init; }

    /// <summary>Tells the story of one swatch.</summary>
    /// <param name="readings">Its standing readings, oldest first.</param>
    /// <param name="drying">What the notebook's pairs taught.</param>
    /// <param name="paper">The bare paper.</param>
    public static SwatchStory Of(IReadOnlyList<Reading> readings, WetToDry drying, Lab paper)
    {
        var seen = readings.Where(reading => reading.Source is ReadingSource.Photo or ReadingSource.Scan).ToList();
        var chain = new List<Reading>();
        foreach (var state in (SwatchState[])[SwatchState.Wet, SwatchState.Dry])
        {
            if (StandingColour.In(seen, state) is { } speaking)
                chain.Add(speaking);
        }

        chain.AddRange(seen.Where(reading => reading.State == SwatchState.Aged));
        var open = StandingColour.In(seen, SwatchState.Exposed);
        Light? exposure = null;
        if (open is not null)
        {
            var half = seen.LastOrDefault(reading => reading.State == SwatchState.Aged && reading.PhotoId == open.PhotoId);
            if (
                (half ?? chain.LastOrDefault(reading => reading.State is SwatchState.Dry or SwatchState.Aged && reading.At <= open.At)) is
                { } covered
            )
                exposure = new(
                    covered,
                    open,
                    Change.Between(covered, open),
                    GreyScale.Change(Lab.FromXyz(covered.Colour), Lab.FromXyz(open.Colour)).Grade,
                    half is not null
                );
        }

        var wet =
            chain.Count == 1
            && open is null
            && chain[0].State == SwatchState.Wet
            && !readings.Any(reading => reading.State != SwatchState.Wet)
                ? chain[0]
                : null;
        return new()
        {
            Steps = [.. chain.Select((reading, i) => new SwatchStoryStep(reading, i == 0 ? null : Change.Between(chain[i - 1], reading)))],
            Exposure = exposure,
            Checks =
            [
                .. readings
                    .Where(reading => reading.Source == ReadingSource.Instrument)
                    .GroupBy(reading => reading.State)
                    .Select(group => Checked(StandingColour.In(group, group.Key)!, seen)),
            ],
            DriesTo = wet is null ? null : drying.Forecast(Lab.FromXyz(wet.Colour), paper, wet.UncertaintyDe00),
        };
    }

    private static Check Checked(Reading instrument, List<Reading> seen)
    {
        var picture = StandingColour.In(seen, instrument.State);
        return picture is null
            ? new(instrument, null, 0, 0)
            : new(
                instrument,
                picture,
                Difference.Ciede2000(Lab.FromXyz(picture.Colour), Lab.FromXyz(instrument.Colour)),
                Math.Sqrt((picture.UncertaintyDe00 * picture.UncertaintyDe00) + (instrument.UncertaintyDe00 * instrument.UncertaintyDe00))
            );
    }
}

/// <param name="Reading">What was read from a picture.</param>
/// <param name="Since">The change since the step before; null for the first.</param>
public sealed record SwatchStoryStep(Reading Reading, Change? Since);

/// <summary>The notebook's own swatches that were read wet and read again dry.</summary>
internal static class DryingPairs
{
    /// <summary>Bare paper where nobody measured it.</summary>
    public static Lab UsualPaper => PaperGuess.All[0].Colour;

    public static async Task<WetToDry> LearnAsync(NotebookDb db, CancellationToken cancel)
    {
        var readings = await (
            from reading in db.Readings.AsNoTracking()
            join swatch in db.CountingSwatches() on reading.SwatchId equals swatch.Id
            join chart in db.Charts on swatch.ChartId equals chart.Id
            select new { Reading = reading, chart.PaperId }
        ).ToListAsync(cancel);
        var papers = await db
            .Materials.AsNoTracking()
            .Where(material => material.BareColour != null)
            .ToDictionaryAsync(material => material.Id, material => Lab.FromXyz(material.BareColour!.Value), cancel);
        var pairs = new List<WetDryPair>();
        foreach (var swatch in readings.GroupBy(one => one.Reading.SwatchId))
        {
            var all = swatch.Select(one => one.Reading).ToList();
            if (StandingColour.In(all, SwatchState.Wet) is not { } wet || StandingColour.In(all, SwatchState.Dry) is not { } dry)
                continue;
            pairs.Add(
                new(
                    Lab.FromXyz(wet.Colour),
                    Lab.FromXyz(dry.Colour),
                    swatch.First().PaperId is { } paper && papers.TryGetValue(paper, out var bare) ? bare : UsualPaper
                )
            );
        }

        return WetToDry.Learn(pairs);
    }
}
