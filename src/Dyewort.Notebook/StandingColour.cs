namespace Dyewort.Notebook;

/// <summary>Which reading speaks for a swatch: the one home of that question.</summary>
/// <remarks>
/// In every state the most trustworthy reading speaks, whatever it is asked for: an instrument before a scan before a photo before the
/// eye, and the newest of these (common practice, no source). What it is asked for decides the state alone. A reading that was withdrawn,
/// or that a later one corrected, does not speak.
/// </remarks>
public static class StandingColour
{
    /// <summary>The readings that can still speak, oldest first.</summary>
    public static IReadOnlyList<Reading> Standing(IEnumerable<Reading> readings)
    {
        var counting = readings.Where(reading => reading.Counts).ToList();
        var corrected = counting.Select(reading => reading.CorrectsId).OfType<Guid>().ToHashSet();
        return [.. counting.Where(reading => !corrected.Contains(reading.Id)).OrderBy(reading => reading.At).ThenBy(reading => reading.Id)];
    }

    /// <summary>The reading that speaks for a state; null while the swatch was not read in it.</summary>
    public static Reading? In(IEnumerable<Reading> readings, SwatchState state) =>
        Standing(readings).Where(reading => reading.State == state).OrderBy(reading => Trust(reading.Source)).LastOrDefault();

    /// <summary>The colour a swatch is shown with: dry, else settled, else wet; after light only where nothing else was read.</summary>
    public static Reading? ToShow(IEnumerable<Reading> readings)
    {
        var standing = Standing(readings);
        return ToKeep(standing) ?? In(standing, SwatchState.Exposed);
    }

    /// <summary>The colour to keep, to find and to make again: dry, else settled, else wet, and never what light did to it.</summary>
    public static Reading? ToKeep(IEnumerable<Reading> readings)
    {
        var standing = Standing(readings);
        return In(standing, SwatchState.Dry) ?? In(standing, SwatchState.Aged) ?? In(standing, SwatchState.Wet);
    }

    /// <summary>The colour to show a liquor in: wet, else dry.</summary>
    public static Reading? OfLiquor(IEnumerable<Reading> readings)
    {
        var standing = Standing(readings);
        return In(standing, SwatchState.Wet) ?? In(standing, SwatchState.Dry);
    }

    /// <summary>What trials learn from: one reading for each state but light, whose hours no trial table knows.</summary>
    public static IReadOnlyList<Reading> ToLearnFrom(IEnumerable<Reading> readings)
    {
        var standing = Standing(readings);
        SwatchState[] states = [SwatchState.Wet, SwatchState.Dry, SwatchState.Aged];
        return [.. states.Select(state => In(standing, state)).OfType<Reading>()];
    }

    private static int Trust(ReadingSource source) =>
        source switch
        {
            ReadingSource.Instrument => 3,
            ReadingSource.Scan => 2,
            ReadingSource.Photo => 1,
            _ => 0,
        };
}
