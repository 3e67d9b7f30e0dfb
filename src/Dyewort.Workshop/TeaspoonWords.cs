using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>Which teaspoon is meant, as people type it.</summary>
internal static class TeaspoonWords
{
    /// <summary>Which teaspoon a word means; metric when there is none.</summary>
    public static Outcome<Teaspoon> Parse(string? text) =>
        (text ?? "").Trim().ToLowerInvariant() switch
        {
            "" or "metric" or "5" or "5ml" or "5 ml" => Outcome.Of(Teaspoon.Metric),
            "us" or "us customary" or "4.93" or "4.929" => Outcome.Of(Teaspoon.UsCustomary),
            "imperial" or "uk" or "5.919" => Outcome.Of(Teaspoon.Imperial),
            _ => Outcome.Refused<Teaspoon>(
                "teaspoon",
                $"“{text}” is not a teaspoon.",
                "Use metric (5 ml), US (4.929 ml) or imperial (5.919 ml)."
            ),
        };
}
