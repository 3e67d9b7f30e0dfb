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
        if (
            !DateTime.TryParseExact(
                typed.Replace(' ', 'T'),
                [Shape, "yyyy-MM-dd'T'HH:mm:ss"],
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var local
            ) || local.Year is < 1900 or >= 2200
        )
        {
            entered.Refuse(field, $"“{typed}” is not a day and a time.", "Write them such as 2025-09-06 08:05.");
            return was;
        }

        var instant = new DateTimeOffset(local, clock.LocalTimeZone.GetUtcOffset(local)).ToUniversalTime();
        if (instant <= clock.GetUtcNow().AddMinutes(1))
            return instant;
        entered.Refuse(field, "That time is still to come.", "Check the day and the hour.");
        return was;
    }
}
