using System.Globalization;
using Dyewort.Chemistry;

namespace Dyewort.Workshop.Chemistry;

/// <summary>What a page or a terminal shows of a jar: numbers for the ladder, lines for the rest.</summary>
public sealed record JarWords
{
    /// <summary>Where the rungs of a pH ladder lie: pH and what it is like.</summary>
    public static IReadOnlyList<(double Ph, string Like)> Rungs { get; } =
    [
        (2, "lemon juice"),
        (3, "vinegar in water"),
        (3.6, "cream of tartar"),
        (5.6, "rain"),
        (7, "neutral"),
        (8.2, "bicarbonate of soda"),
        (9.2, "borax"),
        (11, "washing soda"),
        (12.5, "lime water"),
    ];

    public required double Ph { get; init; }

    public required double PhLow { get; init; }

    public required double PhHigh { get; init; }

    public required double PhSealed { get; init; }

    public required double PhOpen { get; init; }

    /// <summary>False where the jar holds what cannot be put into the sums: then the pH is that of the rest, and no headline.</summary>
    public required bool IsPhKnown { get; init; }

    /// <summary>What the pH is closed and what it is after days of air, where that is not the same; else empty.</summary>
    public required string Air { get; init; }

    /// <summary>"pH 4.1 (3.8 to 4.5)".</summary>
    public required string Headline { get; init; }

    /// <summary>What makes the interval as wide as it is; empty where nothing stands out.</summary>
    public required string Doubt { get; init; }

    /// <summary>One line per thing that dissolved.</summary>
    public required IReadOnlyList<string> Dissolved { get; init; }

    /// <summary>One line per thing that did not.</summary>
    public required IReadOnlyList<string> Undissolved { get; init; }

    /// <summary>What fizzed off, in a sentence; empty where nothing did.</summary>
    public required string Gas { get; init; }

    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>What each addition did, in order.</summary>
    public required IReadOnlyList<string> Steps { get; init; }

    public static JarWords Of(DescribeJarAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var report = answer.Report;
        var state = report.AfterFizzing;
        var widest = report.Shares.Count > 0 ? report.Shares[0] : null;
        return new()
        {
            Ph = state.Ph,
            PhLow = report.PhLow,
            PhHigh = report.PhHigh,
            PhSealed = report.Sealed.Ph,
            PhOpen = report.Open.Ph,
            IsPhKnown = report.IsPhKnown,
            Headline = report.IsPhKnown
                ? Say($"pH {state.Ph:0.0} ({report.PhLow:0.0} to {report.PhHigh:0.0})")
                : Say($"pH not known: {string.Join(" and ", report.OutsideTheSums)} cannot be put into these sums (the rest alone: ")
                    + Say($"pH {state.Ph:0.0})"),
            Air = AirOf(report),
            Doubt =
                report.IsPhKnown && widest is not null && widest.Below + widest.Above > 0.15
                    ? $"Most of the doubt comes from {widest.Cause}."
                    : "",
            Dissolved =
            [
                .. state.Dissolved.Select(one =>
                    one.MolesPerLitre > 0
                        ? Say($"{one.Name}: {Figure(one.GramsPerLitre)} g/L, {Figure(one.MolesPerLitre * 1000)} mmol/L")
                        : Say($"{one.Name}: {Figure(one.GramsPerLitre)} g/L")
                ),
            ],
            Undissolved = [.. state.Solids.Select(one => Say($"{one.Name}: {Figure(one.Grams)} g"))],
            Gas =
                state.GasMillilitres < 0.5 ? ""
                : report.HeadSpaceMillilitres > 0
                    ? Say(
                        $"About {state.GasMillilitres:0} ml of carbon dioxide fizzes off; leave {report.HeadSpaceMillilitres:0} ml ",
                        $"of free room."
                    )
                : Say($"About {state.GasMillilitres:0} ml of carbon dioxide bubbles off."),
            Remarks = report.Remarks,
            Steps = JarPath.Of(answer.Contents, answer.Celsius).TryGet(out var path) ? [.. path.Select(step => step.Words)] : [],
        };
    }

    private static string AirOf(JarReport report)
    {
        var (closed, open) = (report.AfterFizzing.Ph, report.Open.Ph);
        var isAlkaline = Math.Max(closed, open) > 7;
        return report.IsPhKnown && report.HasCarbonate && isAlkaline && Math.Abs(open - closed) > 0.5
            ? Say(
                $"Two figures are true of it: pH {closed:0.0} with its carbon dioxide in it, as in a full closed bottle or dried fast, ",
                $"and pH {open:0.0} once air has been at it for days, in an open jar or on paper."
            )
            : "";
    }

    /// <summary>Three figures that mean something.</summary>
    private static string Figure(double value)
    {
        if (value == 0)
            return "0";
        var decimals = Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 6);
        return Math.Round(value, decimals).ToString($"0.{new string('#', decimals)}", CultureInfo.InvariantCulture);
    }

    private static string Say(params FormattableString[] parts) =>
        string.Concat(parts.Select(part => part.ToString(CultureInfo.InvariantCulture)));
}
