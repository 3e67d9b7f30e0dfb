using System.Globalization;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>A line of a pot's water sum: in + plant water = out + boiled off + held in plant + spilt.</summary>
public enum WaterLine
{
    /// <summary>Liquid poured in, top-ups included.</summary>
    In,

    /// <summary>Water and juice that the plant gave.</summary>
    FromPlant,

    /// <summary>Liquor strained out.</summary>
    Out,

    /// <summary>Gone as steam.</summary>
    BoiledOff,

    /// <summary>Kept back by the plant after straining and pressing.</summary>
    Held,

    /// <summary>Spilt, foamed over, taken for drops.</summary>
    Spilt,
}

/// <summary>The state of the plant as it was weighed into the pot: it decides how much water it gives and keeps.</summary>
public enum PlantForm
{
    /// <summary>Fresh or frozen.</summary>
    Fresh,

    /// <summary>Dried petals, skins, tops, roots, galls.</summary>
    Dry,

    /// <summary>Dry beans and seeds: they swell by about their own weight.</summary>
    Seed,
}

/// <summary>How a figure of the water sum was come by.</summary>
public enum FigureSource
{
    /// <summary>Read off a jug or a scale.</summary>
    Measured,

    /// <summary>Judged by eye.</summary>
    Estimated,
}

/// <summary>One figure of a water sum.</summary>
/// <param name="Line">Which line.</param>
/// <param name="Millilitres">Millilitres, 0 or more.</param>
/// <param name="Source">How it was come by.</param>
/// <param name="StandardDeviation">Its uncertainty in ml (one standard deviation) where it is known; null takes 1.5 % and 5 ml for a
/// jug, 15 % and 15 ml for an eye (common practice, no source).</param>
public sealed record WaterFigure(
    WaterLine Line,
    double Millilitres,
    FigureSource Source = FigureSource.Measured,
    double? StandardDeviation = null
)
{
    /// <summary>The uncertainty that counts, in ml.</summary>
    public double Uncertainty =>
        StandardDeviation
        ?? (
            Source == FigureSource.Measured
                ? Math.Sqrt((0.015 * Millilitres * 0.015 * Millilitres) + 25)
                : Math.Sqrt((0.15 * Millilitres * 0.15 * Millilitres) + 225)
        );
}

/// <summary>What else is known of the pot: it makes some closing values likelier than others.</summary>
/// <param name="PlantGrams">Plant in the pot as weighed, g.</param>
/// <param name="Form">The state it was weighed in.</param>
/// <param name="Pressed">Whether the plant was pressed.</param>
/// <param name="Hours">Hours warm; 0 for a cold soak.</param>
/// <param name="Celsius">Mean temperature while warm, °C.</param>
/// <param name="BoilOff">What is known of the pot's boil-off rate at that temperature.</param>
/// <param name="KilowattsReachingLiquor">The heat, where it is known.</param>
public sealed record PotFacts(
    double? PlantGrams = null,
    PlantForm Form = PlantForm.Fresh,
    bool Pressed = false,
    double Hours = 0,
    double Celsius = 90,
    BoilOffRate? BoilOff = null,
    double? KilowattsReachingLiquor = null
);

/// <summary>A line after the sum was closed.</summary>
/// <param name="Line">Which line.</param>
/// <param name="Given">What was given, ml; null if nothing was.</param>
/// <param name="Closed">The best value once all lines must agree, ml.</param>
/// <param name="ClosedUncertainty">Its standard deviation, ml.</param>
/// <param name="Needed">What this line alone would have to be for the sum to close, ml.</param>
/// <param name="ChanceWrong">How likely it is that this line's figure is the wrong one, 0 to 1.</param>
public sealed record ClosedLine(WaterLine Line, double? Given, double Closed, double ClosedUncertainty, double Needed, double ChanceWrong);

/// <summary>A pot's water sum, closed.</summary>
/// <param name="MissingMillilitres">In and plant water less everything accounted for, ml; positive when water is missing.</param>
/// <param name="MissingUncertainty">Its standard deviation from the figures' own, ml.</param>
/// <param name="Closes">Whether what is missing is within twice that.</param>
/// <param name="Lines">All six lines.</param>
/// <param name="Remarks">What to look at again, in sentences.</param>
public sealed record WaterSumAnswer(
    double MissingMillilitres,
    double MissingUncertainty,
    bool Closes,
    IReadOnlyList<ClosedLine> Lines,
    IReadOnlyList<string> Remarks
)
{
    /// <summary>One line.</summary>
    public ClosedLine this[WaterLine line] => Lines.First(one => one.Line == line);
}

/// <summary>Closes the water sum of a pot and says which line looks wrong.</summary>
/// <remarks>
/// Lines without a figure take what the pot's facts let expect, with a wide spread. The closed values are the least-squares adjustment of
/// all lines to the one condition. A single condition cannot tell by itself which figure is wrong; what can are the expectations: for
/// each figure the closing value is weighed against what that line usually is, and typing slips (a zero too many, two digits changed
/// places) weigh in. Expectations (common practice, no source): dry plant keeps 3 ± 0.7 ml/g, pressed 1.3 ± 0.3, fresh 0.3 ± 0.2
/// (pressed 0.1 ± 0.1), beans and seeds 1 ± 0.2; fresh plant gives 0.5 ± 0.2 ml/g; spills are small. Of a plant that
/// was never weighed nobody knows what it gave and kept: a fresh one may have given nothing, as petals do, or most of the largest figure,
/// as berries do: 0.35 ± 0.35 of it (common practice, no source).
/// </remarks>
public static class WaterSum
{
    private const double ChanceOfSlipMeasured = 0.03;
    private const double ChanceOfSlipEstimated = 0.10;

    /// <summary>Closes the sum.</summary>
    /// <param name="figures">The figures there are, at most one for each line; at least liquid in or liquor out.</param>
    /// <param name="facts">What else is known.</param>
    public static Outcome<WaterSumAnswer> Close(IReadOnlyList<WaterFigure> figures, PotFacts facts)
    {
        var problems = Check(figures, facts);
        if (problems.Count > 0)
            return Outcome.Refused<WaterSumAnswer>(problems);

        var given = figures.ToDictionary(figure => figure.Line);
        var size = figures.Max(figure => figure.Millilitres);
        var lines = Enum.GetValues<WaterLine>();
        var expected = lines.ToDictionary(line => line, line => Expect(line, facts, size));
        var value = lines.ToDictionary(
            line => line,
            line => given.TryGetValue(line, out var figure) ? figure.Millilitres : expected[line].Mean
        );
        var deviation = lines.ToDictionary(
            line => line,
            line => given.TryGetValue(line, out var figure) ? figure.Uncertainty : expected[line].Deviation
        );

        var missing = lines.Sum(line => Sign(line) * value[line]);
        var variance = lines.Sum(line => deviation[line] * deviation[line]);
        var uncertainty = Math.Sqrt(variance);
        var closes = Math.Abs(missing) <= 2 * uncertainty;

        var sound = NormalDistribution.Density(missing, 0, uncertainty);
        var weights = lines.ToDictionary(line => line, line => given.ContainsKey(line) ? WeightWrong(line) : 0);
        var total = sound + weights.Values.Sum();

        var closed = lines
            .Select(line =>
            {
                var share = deviation[line] * deviation[line] / variance;
                var adjusted = Math.Max(0, value[line] - (Sign(line) * share * missing));
                return new ClosedLine(
                    line,
                    given.TryGetValue(line, out var figure) ? figure.Millilitres : null,
                    adjusted,
                    deviation[line] * Math.Sqrt(1 - share),
                    value[line] - (Sign(line) * missing),
                    weights[line] / total
                );
            })
            .ToList();
        return Outcome.Of(
            new WaterSumAnswer(missing, uncertainty, closes, closed, Remarks(closed, given, facts, missing, uncertainty, closes))
        );

        double WeightWrong(WaterLine line)
        {
            var needed = value[line] - (Sign(line) * missing);
            if (needed < -2 * uncertainty)
                return 0;
            var chance = given[line].Source == FigureSource.Measured ? ChanceOfSlipMeasured : ChanceOfSlipEstimated;
            var (mean, spread) = expected[line];
            var others = Math.Sqrt(variance - (deviation[line] * deviation[line]));
            var plain = NormalDistribution.Density(needed, mean, Math.Sqrt((spread * spread) + (others * others)));
            var slip = Slips(value[line])
                .Select(one => NormalDistribution.Density(needed, one.Value, Math.Max(others, 0.01 * one.Value)))
                .DefaultIfEmpty(0)
                .Average();
            return chance * ((0.7 * plain) + (0.3 * slip));
        }
    }

    private static int Sign(WaterLine line) => line is WaterLine.In or WaterLine.FromPlant ? 1 : -1;

    private static (double Mean, double Deviation) Expect(WaterLine line, PotFacts facts, double size)
    {
        var grams = facts.PlantGrams ?? 0;
        switch (line)
        {
            case WaterLine.In or WaterLine.Out:
                return (size / 2, size);
            case WaterLine.FromPlant:
                if (facts.Form == PlantForm.Fresh && facts.PlantGrams is null)
                    return (0.35 * size, 0.35 * size);
                return facts.Form != PlantForm.Fresh || grams == 0 ? (0, 0.5 + (0.02 * grams)) : (0.5 * grams, 0.2 * grams);
            case WaterLine.Held:
                var (mean, deviation) = (facts.Form, facts.Pressed) switch
                {
                    (PlantForm.Seed, _) => (1.0, 0.2),
                    (PlantForm.Dry, false) => (3.0, 0.7),
                    (PlantForm.Dry, true) => (1.3, 0.3),
                    (_, false) => (0.3, 0.2),
                    (_, true) => (0.1, 0.1),
                };
                return facts.PlantGrams is null ? (0.1 * size, 0.1 * size) : (mean * grams, deviation * grams);
            case WaterLine.BoiledOff:
                if (facts.Hours <= 0)
                    return (0, 0.005 * size);
                var rate = facts.BoilOff ?? Guess(facts);
                return (
                    1000 * rate.LitresPerHour * facts.Hours,
                    1000 * facts.Hours * (rate.HighLitresPerHour - rate.LowLitresPerHour) / 3.29
                );
            default:
                return (0, (0.01 * size) + 3);
        }
    }

    private static BoilOffRate Guess(PotFacts facts) =>
        BoilOff.Predict([], "", "", lidOn: false, facts.Celsius, null, facts.KilowattsReachingLiquor).TryGet(out var rate)
            ? rate
            : throw new ArgumentException("The facts were not checked.", nameof(facts));

    private static List<Problem> Check(IReadOnlyList<WaterFigure> figures, PotFacts facts)
    {
        var problems = new List<Problem>();
        foreach (var figure in figures)
        {
            if (figure.Millilitres is not (>= 0 and <= 1e6))
                problems.Add(
                    Sentence.Bad(
                        figure.Line.ToString(),
                        $"{Word(figure.Line)} {figure.Millilitres:0.#} ml is outside 0 to 1,000,000 ml.",
                        "Give millilitres, 0 or more."
                    )
                );
            if (figure.StandardDeviation is { } sd && !(sd > 0 && double.IsFinite(sd)))
                problems.Add(
                    Sentence.Bad(
                        figure.Line.ToString(),
                        $"An uncertainty of {sd:0.#} ml is not above zero.",
                        "Leave it out, or give how far the figure may be off."
                    )
                );
        }

        if (figures.GroupBy(figure => figure.Line).FirstOrDefault(group => group.Count() > 1) is { } twice)
            problems.Add(
                Sentence.Bad(twice.Key.ToString(), $"{Word(twice.Key)} is given twice.", "Add the two together and give the sum.")
            );
        if (!figures.Any(figure => figure.Line is WaterLine.In or WaterLine.Out && figure.Millilitres > 0))
            problems.Add(
                new("figures", "Neither the liquid in nor the liquor out is given.", "Give at least one of the two, in millilitres.")
            );
        if (facts.PlantGrams is { } grams && grams is not (>= 0 and <= 1e6))
            problems.Add(Sentence.Bad("plant", $"{grams:0.#} g of plant is outside 0 to 1,000,000 g.", "Give grams."));
        if (facts.Hours is not (>= 0 and <= 10_000))
            problems.Add(Sentence.Bad("hours", $"{facts.Hours:0.#} h is outside 0 to 10,000 h.", "Give the hours warm."));
        if (facts.Celsius is not (>= 0 and <= 100))
            problems.Add(Sentence.Bad("temperature", $"{facts.Celsius:0.#} °C is outside 0 to 100 °C.", "Give °C."));
        if (facts.KilowattsReachingLiquor is { } heat && heat is not (> 0 and <= 50))
            problems.Add(Sentence.Bad("heat", $"{heat:0.##} kW is outside 0 to 50 kW.", "Give what reaches the liquor."));
        return problems;
    }

    private static List<string> Remarks(
        List<ClosedLine> closed,
        Dictionary<WaterLine, WaterFigure> given,
        PotFacts facts,
        double missing,
        double uncertainty,
        bool closes
    )
    {
        var remarks = new List<string>();
        if (!closes)
        {
            remarks.Add(
                Sentence.Of(
                    $"{Math.Abs(missing):0} ml {(missing > 0 ? "are missing" : "are too many")}, more than the figures' own "
                        + $"uncertainty of {2 * uncertainty:0} ml allows."
                )
            );
            var suspect = closed.Where(line => line.ChanceWrong > 0).MaxBy(line => line.ChanceWrong);
            if (suspect is { ChanceWrong: > 0.4 })
            {
                remarks.Add(
                    Sentence.Of(
                        $"The line that looks wrong is {Word(suspect.Line).ToLowerInvariant()}: {suspect.Given:0} ml was given, "
                            + $"{Math.Max(0, suspect.Needed):0} ml would close the sum."
                    )
                );
                if (
                    Slips(suspect.Given!.Value).FirstOrDefault(slip => Math.Abs(slip.Value - suspect.Needed) <= 2 * uncertainty) is
                    { Why: { } why } slip
                )
                    remarks.Add(Sentence.Of($"{slip.Value:0} ml fits: {why}."));
            }
            else
            {
                remarks.Add("No single line stands out: measure again what you still can.");
            }
        }

        if (facts.PlantGrams is null && !(given.ContainsKey(WaterLine.Held) && given.ContainsKey(WaterLine.FromPlant)))
            remarks.Add("The plant was not weighed: what water it gave and kept is a wide guess.");

        if (given.TryGetValue(WaterLine.BoiledOff, out var steam) && facts is { KilowattsReachingLiquor: { } heat, Hours: > 0 })
        {
            var ceiling = 1000 * Steam.CeilingLitresPerHour(heat, facts.Celsius) * facts.Hours;
            if (steam.Millilitres > ceiling)
                remarks.Add(
                    Sentence.Of(
                        $"{heat:0.##} kW cannot drive off {steam.Millilitres:0} ml in {facts.Hours:0.##} h: {ceiling:0} ml is the ceiling."
                    )
                );
        }

        return remarks;
    }

    private static IEnumerable<(double Value, string? Why)> Slips(double given)
    {
        if (given < 1)
            yield break;
        yield return (given * 10, "a zero was left out");
        yield return (given / 10, "a zero too many");
        var digits = Math.Round(given).ToString(CultureInfo.InvariantCulture).ToCharArray();
        for (var place = 0; place + 1 < digits.Length; place++)
        {
            if (digits[place] == digits[place + 1] || (place == 0 && digits[1] == '0'))
                continue;
            var swapped = (char[])digits.Clone();
            (swapped[place], swapped[place + 1]) = (swapped[place + 1], swapped[place]);
            yield return (double.Parse(swapped, CultureInfo.InvariantCulture), "two digits changed places");
        }
    }

    internal static string Word(WaterLine line) =>
        line switch
        {
            WaterLine.In => "Liquid in",
            WaterLine.FromPlant => "Water from the plant",
            WaterLine.Out => "Liquor out",
            WaterLine.BoiledOff => "Boiled off",
            WaterLine.Held => "Held in the plant",
            _ => "Spilt",
        };
}
