using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>How long something takes, as people say it.</summary>
public static class Duration
{
    internal const string Kind = "a time";
    private const double MaxHours = 1e6;
    private const string Remedy = "Type a time, such as 45 min, 1.5 h or 1 h 30.";

    /// <summary>Reads <c>45 min</c>, <c>1 h 30</c>, <c>1h30</c>, <c>1:30</c> (hours and minutes), <c>1½ h</c>, <c>half an hour</c> or
    /// <c>2 days</c>.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="bare">What a number without a unit counts: one minute or one hour.</param>
    public static Outcome<TimeSpan> Parse(string field, string? text, TimeSpan bare)
    {
        var typed = (text ?? "").Trim();
        if (Clock(typed) is { } clock)
            return Outcome.Of(clock);
        var hours = 0.0;
        var smallest = double.PositiveInfinity;
        var rest = typed;
        while (true)
        {
            var read = AmountText.Lead(field, rest, Remedy);
            if (!read.TryGet(out var lead))
                return Other(read.Problems);
            if (lead.After.Count == 0)
            {
                // "1 h 30" is an hour and thirty minutes.
                hours += lead.Number * (double.IsInfinity(smallest) ? bare.TotalHours : Below(smallest));
                break;
            }

            if (Unit(lead.After[0]) is not { } unit || unit >= smallest)
                return Other([new(field, $"“{lead.After[0]}” was not understood in “{typed}”.", Remedy)]);
            hours += lead.Number * unit;
            smallest = unit;
            var left = lead.After.Skip(1).Where(word => word.Length > 0).ToList();
            // "an hour and a half"
            if (left is [var and, var a, var half] && AmountText.Is(and, "and") && AmountText.Is(a, "a") && AmountText.Is(half, "half"))
            {
                hours += unit / 2;
                break;
            }

            if (left.Count > 0 && (AmountText.Is(left[0], "and") || left[0] == "+"))
                left.RemoveAt(0);
            if (left.Count == 0)
                break;
            rest = string.Join(' ', left);
        }

        return hours <= MaxHours
            ? Outcome.Of(TimeSpan.FromHours(hours))
            : Outcome.Refused<TimeSpan>(field, $"“{typed}” is longer than a hundred years.", "Check the number and its unit.");

        Outcome<TimeSpan> Other(IReadOnlyList<Problem> problems) =>
            QuantityKind.Refuse<TimeSpan>(field, typed, Kind, bare.TotalHours < 1 ? "45 min" : "1 h 30", problems);
    }

    /// <summary>As a page says it: <c>45 min</c>, <c>1 h 30 min</c>, <c>3 days</c>.</summary>
    public static string Say(TimeSpan time)
    {
        if (time.TotalMinutes < 59.95)
            return $"{Figures.Say(time.TotalMinutes)} min";
        if (time.TotalHours >= 48)
            return $"{Figures.Say(time.TotalDays)} days";
        var minutes = Math.Round(time.TotalMinutes);
        var (whole, left) = (Math.Floor(minutes / 60), minutes % 60);
        return left == 0
            ? string.Create(CultureInfo.InvariantCulture, $"{whole:0} h")
            : string.Create(CultureInfo.InvariantCulture, $"{whole:0} h {left:0} min");
    }

    internal static bool IsOne(string typed) =>
        Clock(typed) is not null
        || (AmountText.Lead("", typed, "").TryGet(out var lead) && lead.After.Count > 0 && Unit(lead.After[0]) is not null);

    private static TimeSpan? Clock(string typed) =>
        typed.Split(':') is [{ Length: > 0 and <= 4 } hours, { Length: 2 } minutes]
        && hours.All(char.IsAsciiDigit)
        && minutes.All(char.IsAsciiDigit)
        && int.Parse(minutes, CultureInfo.InvariantCulture) is < 60 and var left
            ? new TimeSpan(int.Parse(hours, CultureInfo.InvariantCulture), left, 0)
            : null;

    /// <summary>What a bare number after a unit counts, in hours: minutes after hours, hours after days.</summary>
    private static double Below(double unit) =>
        unit switch
        {
            > 1 => 1,
            1 => 1.0 / 60,
            _ => 1.0 / 3600,
        };

    private static double? Unit(string word) =>
        word.ToLower(CultureInfo.InvariantCulture) switch
        {
            "s" or "sec" or "secs" or "second" or "seconds" => 1.0 / 3600,
            "min" or "mins" or "minute" or "minutes" or "m" or "'" => 1.0 / 60,
            "h" or "hr" or "hrs" or "hour" or "hours" => 1,
            "d" or "day" or "days" => 24,
            "week" or "weeks" or "wk" or "wks" => 168,
            _ => null,
        };
}
