using System.Globalization;

namespace Dyewort.Workshop;

/// <summary>An instant as a form's field holds it: the day and the minute where the maker stands.</summary>
internal static class WrittenTime
{
    private const string Shape = "yyyy-MM-dd'T'HH:mm";

    /// <summary>"2025-09-06T08:05".</summary>
    public static string Say(DateTimeOffset instant, TimeProvider clock) =>
        TimeZoneInfo.ConvertTime(instant, clock.LocalTimeZone).ToString(Shape, CultureInfo.InvariantCulture);

    /// <summary>The instant that was typed.</summary>
    /// <param name="entered">Where a refusal goes.</param>
    /// <param name="field">The field.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="was">The instant that stands there: kept to the second where the minute was left alone or the field is empty.</param>
    /// <param name="clock">Where the maker stands, and when.</param>
    public static DateTimeOffset Read(Entered entered, string field, string? text, DateTimeOffset was, TimeProvider clock)
    {
        var typed = text?.Trim();
        if (string.IsNullOrEmpty(typed) || typed == Say(was, clock))
            return was;
        return entered.At(field, typed, clock);
    }
}
