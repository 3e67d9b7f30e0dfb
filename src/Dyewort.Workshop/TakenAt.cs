namespace Dyewort.Workshop;

/// <summary>The instant that stands for a day somebody gave.</summary>
internal static class TakenAt
{
    /// <summary>Now where the day is today, else its noon: nobody said the hour.</summary>
    public static DateTimeOffset Of(DateOnly day, DateOnly today, DateTimeOffset now) =>
        day == today ? now : new(day.ToDateTime(new TimeOnly(12, 0)), TimeSpan.Zero);
}
