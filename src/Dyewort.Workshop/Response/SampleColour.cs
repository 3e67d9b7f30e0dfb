using Dyewort.Colour;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>A colour that is named by a sample of the trials, or as it is typed.</summary>
public static class SampleColour
{
    /// <summary>The colour of a sample of the table (the mean of its dry, undiluted readings), or a colour as it is typed.</summary>
    public static Lab? ColourOf(this Entered entered, string field, string? text, TrialTable trials, out TrialPoint? sample)
    {
        ArgumentNullException.ThrowIfNull(entered);
        ArgumentNullException.ThrowIfNull(trials);
        sample = null;
        var typed = (text ?? "").Trim();
        var rows = trials
            .Rows.Where(row => row.Point.Wash > 0 && string.Equals(row.Point.Sample, typed, StringComparison.OrdinalIgnoreCase))
            .ToList();
        if (rows.Count > 0)
        {
            var best = rows.GroupBy(row =>
                    (Wet: string.Equals(row.Point.State, "wet", StringComparison.OrdinalIgnoreCase), row.Point.Wash, row.Point.Paper)
                )
                .OrderBy(group => group.Key.Wet)
                .ThenByDescending(group => group.Key.Wash)
                .First()
                .ToList();
            sample = best[0].Point;
            return new Lab(best.Average(row => row.Colour.L), best.Average(row => row.Colour.A), best.Average(row => row.Colour.B));
        }

        var colour = ColourText.Parse(field, typed);
        if (colour.TryGet(out var read))
            return Lab.FromXyz(read.Colour);
        entered.Refuse(
            field,
            $"“{typed}” is neither a sample of the trials nor a colour.",
            "Give a sample's code, or a colour such as #5b3f7a."
        );
        return null;
    }
}
