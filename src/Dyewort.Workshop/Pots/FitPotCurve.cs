using Dyewort.Pots;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Fits the curve of a pot to its drops and says when to stop.</summary>
public sealed class FitPotCurve : IUseCase
{
    private const int Points = 60;

    /// <param name="Minute">Minutes since the plant met the liquid.</param>
    /// <param name="Strength">The curve there, with its 95 % band.</param>
    public sealed record Point(double Minute, Band Strength);

    /// <param name="form">What was typed.</param>
    /// <param name="csv">Columns minute and either strength (and uncertainty) or L, a, b (and u95, the ΔE00 that 95 of 100 readings lie
    /// within); celsius where the pot was measured.</param>
    public Outcome<FitPotCurveAnswer> Handle(FitPotCurveForm form, string csv)
    {
        var entered = new Entered();
        var colourants = entered.OneOf("class", form.Class, ColourantClass.Unknown);
        var tissue = entered.OneOf("tissue", form.Tissue, Dyewort.Pots.Tissue.Soft);
        var steady = entered.Temperature("temperature", form.Temperature, -5, 120);
        var more = entered.Minutes("more", form.More, 0, 10_000) ?? 30;
        var bare = ReadDrops.Paper(entered, form.Paper);
        var table = CsvText.Read("drops", csv, ["minute"], ["strength", "uncertainty", "l", "a", "b", "u95", "celsius"]);
        if (!table.TryGet(out var rows))
            return Outcome.Refused<FitPotCurveAnswer>([.. entered.Problems, .. table.Problems]);

        var problems = new List<Problem>();
        var readings = rows.Where(row => row["minute"] is not null && row["celsius"] is not null)
            .Select(row => (Minute: row.Number("minute", problems) ?? 0, Celsius: row.Number("celsius", problems) ?? 0))
            .ToList();
        var heat =
            steady is { } held ? Outcome.Of(HeatHistory.Steady(held))
            : readings.Count > 0 ? HeatHistory.FromReadings(readings)
            : Outcome.Refused<HeatHistory>(
                "temperature",
                "Nothing says how hot the pot was.",
                "Give the temperature, or a column celsius beside the minutes."
            );
        var drops = ReadDrops.Timed(rows, bare, problems);
        if (!entered.Sound || problems.Count > 0 || !heat.TryGet(out var history) || drops is null)
            return Outcome.Refused<FitPotCurveAnswer>([.. entered.Problems, .. problems, .. heat.Problems]);
        return Handle(drops, history, CurvePrior.For(colourants, tissue), more);
    }

    /// <param name="drops">The drops.</param>
    /// <param name="heat">How hot the pot was.</param>
    /// <param name="prior">What is believed beforehand.</param>
    /// <param name="more">Minutes to look ahead.</param>
    public Outcome<FitPotCurveAnswer> Handle(IReadOnlyList<Drop> drops, HeatHistory heat, CurvePrior prior, double more)
    {
        var fitted = CurveFit.Fit(drops, heat, prior);
        if (!fitted.TryGet(out var fit))
            return Outcome.Refused<FitPotCurveAnswer>(fitted.Problems);
        var last = drops.Max(drop => drop.Minute);
        var end = last + Math.Max(more, 0.15 * last);
        IReadOnlyList<Point> curve =
        [
            .. Enumerable.Range(0, Points + 1).Select(i => end * i / Points).Select(minute => new Point(minute, fit.StrengthAt(minute))),
        ];
        var ninetyFive = fit.MinuteOf(0.95);
        var change = fit.ChangeBy(last, more);
        return Outcome.Of(
            new FitPotCurveAnswer(fit, drops, curve, ninetyFive, more, change, prior, Sentences(fit, ninetyFive, last, more, change))
        );
    }

    private static List<string> Sentences(CurveFit fit, Band ninetyFive, double last, double more, Band change)
    {
        static string Say(params FormattableString[] parts) => string.Concat(parts.Select(FormattableString.Invariant));
        var sentences = new List<string>
        {
            Say($"95 % of what you will get was there at {ninetyFive.Median:0} minutes ({ninetyFive.Low:0} to {ninetyFive.High:0})."),
            fit.BestMinute.High > 20 * Math.Max(last, 1)
                ? Say($"The best time is not before {fit.BestMinute.Low:0} minutes; after the 95 % little is gained.")
                : Say(
                    $"Strongest at {fit.BestMinute.Median:0} minutes ({fit.BestMinute.Low:0} to {fit.BestMinute.High:0}) at ",
                    $"{fit.Celsius:0} °C."
                ),
        };
        sentences.Add(
            (change.Low, change.High) switch
            {
                (> 0, _) => Say(
                    $"Another {more:0} minutes at this heat would still gain {100 * change.Median:0} % ({100 * change.Low:0} to ",
                    $"{100 * change.High:0} %)."
                ),
                (_, < 0) => Say(
                    $"Another {more:0} minutes at this heat would cost {-100 * change.Median:0} % ({-100 * change.High:0} to ",
                    $"{-100 * change.Low:0} %): stop."
                ),
                _ => Say(
                    $"Another {more:0} minutes at this heat change it by {100 * change.Median:+0;−0;0} % (somewhere from ",
                    $"{100 * change.Low:+0;−0;0} to {100 * change.High:+0;−0;0} %)."
                ),
            }
        );
        foreach (var drop in fit.Doubtful)
            sentences.Add(
                Say($"The drop of minute {drop.Minute:0.#} does not fit: judged wet, a drop of another size, or the wrong minute?")
            );
        if (fit.Drops.Count < 5)
            sentences.Add(Say($"Only {fit.Drops.Count} drops: the bands rest in part on what is usual for the class."));
        return sentences;
    }
}

/// <param name="Fit">The fit.</param>
/// <param name="Drops">The drops in the order given.</param>
/// <param name="Curve">Points for drawing.</param>
/// <param name="NinetyFiveMinute">When 95 % of the most was there.</param>
/// <param name="MoreMinutes">The time asked about.</param>
/// <param name="ChangeByMore">What that much longer at the last heat changes, as a share.</param>
/// <param name="Prior">What was believed beforehand.</param>
/// <param name="Sentences">All of it in words.</param>
public sealed record FitPotCurveAnswer(
    CurveFit Fit,
    IReadOnlyList<Drop> Drops,
    IReadOnlyList<FitPotCurve.Point> Curve,
    Band NinetyFiveMinute,
    double MoreMinutes,
    Band ChangeByMore,
    CurvePrior Prior,
    IReadOnlyList<string> Sentences
);

public sealed record FitPotCurveForm
{
    public string? Paper { get; init; }

    public string? Class { get; init; }

    public string? Tissue { get; init; }

    public string? Temperature { get; init; }

    /// <summary>Minutes to look ahead.</summary>
    public string? More { get; init; }
}
