namespace Dyewort.Making;

/// <summary>Days on which a bottle should be looked at, and the last day it should be used.</summary>
/// <remarks>No controlled study of how long home-made plant ink keeps was found: months come from the maker, and a date is the maker's own
/// estimate, never a promise. Looking after two weeks, three months and then every three months is common practice, no source.</remarks>
public static class Keeping
{
    /// <summary>The last day.</summary>
    /// <param name="madeOn">The day it was made; for a blend, the day the oldest part was made.</param>
    /// <param name="months">1 to 120.</param>
    /// <exception cref="ArgumentOutOfRangeException">The months are outside that range.</exception>
    public static DateOnly KeepBy(DateOnly madeOn, int months) =>
        months is >= 1 and <= 120
            ? madeOn.AddMonths(months)
            : throw new ArgumentOutOfRangeException(nameof(months), months, "Allowed: 1 to 120.");

    /// <summary>A blend is as old as its oldest part.</summary>
    /// <param name="parts">The days its parts were made; at least one.</param>
    public static DateOnly MadeOn(IEnumerable<DateOnly> parts) => parts.Min();

    /// <summary>The days to look at it, up to its last day.</summary>
    /// <param name="madeOn">The day it was made.</param>
    /// <param name="keepBy">Its last day.</param>
    public static IReadOnlyList<DateOnly> LooksAgain(DateOnly madeOn, DateOnly keepBy)
    {
        var days = new List<DateOnly> { madeOn.AddDays(14) };
        for (var months = 3; months <= 120; months += 3)
            days.Add(madeOn.AddMonths(months));
        return [.. days.Where(day => day <= keepBy)];
    }
}
