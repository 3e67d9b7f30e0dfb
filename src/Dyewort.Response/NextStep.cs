using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Response;

/// <summary>What one more measure of an addition is expected to do to a jar.</summary>
public sealed record NextStep
{
    /// <summary>The addition.</summary>
    public required string Addition { get; init; }

    /// <summary>How much more, grams per litre of liquor.</summary>
    public required double StepGramsPerLitre { get; init; }

    /// <summary>The jar after the step.</summary>
    public required TrialPoint Next { get; init; }

    /// <summary>The colour expected now.</summary>
    public required Lab Before { get; init; }

    /// <summary>The colour expected after the step.</summary>
    public required Lab After { get; init; }

    /// <summary>95 % radius around <see cref="After"/>, ΔE₀₀.</summary>
    public required double UncertaintyDe00 { get; init; }

    /// <summary>Difference the step is expected to make, ΔE₀₀, averaged over what is left open.</summary>
    public required double ExpectedDe00 { get; init; }

    /// <summary>19 times of 20 the step makes a difference of at least this (with <see cref="De00High"/>) …</summary>
    public required double De00Low { get; init; }

    /// <summary>… and at most this, ΔE₀₀.</summary>
    public required double De00High { get; init; }

    /// <summary>Chance that a person sees the step side by side: ΔE₀₀ of at least <see cref="Match.JustVisibleDe00"/>.</summary>
    public required double ChanceSeen { get; init; }

    /// <summary>The move in words, such as “a little darker, clearly bluer”.</summary>
    public required string Move { get; init; }

    /// <summary>The step, g/L, that would be seen every second time; null where none within reach of the trials is.</summary>
    public double? JustSeenGramsPerLitre { get; init; }

    /// <summary>The step, g/L, that would be seen nine times of ten; null where none within reach of the trials is.</summary>
    public double? SurelySeenGramsPerLitre { get; init; }

    /// <summary>The largest step the answer looked at, g/L.</summary>
    public required double LookedGramsPerLitre { get; init; }

    /// <summary>Why more of this will not change anything now, one sentence; empty where it will or may.</summary>
    public string NothingMore { get; init; } = "";

    /// <summary>What makes this an extrapolation, one phrase each; empty inside the tested range.</summary>
    public required IReadOnlyList<string> Beyond { get; init; }

    /// <summary>All of it in one or two sentences.</summary>
    public required string Words { get; init; }
}

/// <summary>Advice while a jar is being changed.</summary>
public static class BenchAdvice
{
    /// <summary>Below this chance of being seen, over every step looked at, the colour counts as standing still.</summary>
    private const double HardlyEver = 0.1;

    /// <summary>How far a reckoned step of pH may be off, as a share of the step (one standard deviation).</summary>
    internal const double PhStepDoubt = 0.33;
    private const int Rungs = 17;

    /// <summary>True for acids and bases that change a colour by way of the pH and hardly otherwise.</summary>
    public static bool ActsByPhOnly(string addition) => Agents.ActsThroughPhOnly(addition);

    /// <summary>What a step is expected to do.</summary>
    /// <param name="model">What the trials of the plant taught.</param>
    /// <param name="now">The jar as it stands; a measured pH is worth giving.</param>
    /// <param name="addition">What is to be added.</param>
    /// <param name="stepGramsPerLitre">How much of it per litre of liquor, above 0 to 2000.</param>
    /// <param name="chemistrySays">A sentence where the chemistry says that more cannot act (undissolved, or the pH will not move); empty
    /// otherwise.</param>
    /// <returns>Refused where the addition was never tested on this plant.</returns>
    public static Outcome<NextStep> Next(
        ResponseModel model,
        TrialPoint now,
        string addition,
        double stepGramsPerLitre,
        string chemistrySays = ""
    )
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(now);
        if (!(stepGramsPerLitre is > 0 and <= 2000))
            return Outcome.Refused<NextStep>("step", "The step is not an amount.", "Give more than 0 and at most 2000 g per litre.");
        var known = model.Additions.FirstOrDefault(name => string.Equals(name, addition?.Trim(), StringComparison.OrdinalIgnoreCase));
        var highest = known is null ? 0 : model.Rows.Max(row => row.Point.Dose(known));
        if (known is null || highest <= 0)
        {
            return Outcome.Refused<NextStep>(
                "addition",
                $"Not enough trials yet: {addition} was never tested on {(model.Plant.Length > 0 ? model.Plant : "this plant")}.",
                "Paint a sample with it first, then this can be foretold."
            );
        }

        var setting = model.UsualSetting(now.Paper);
        var here = now with
        {
            Sample = "",
            Paper = setting.Paper,
            State = now.State.Length > 0 ? now.State : setting.State,
            Pot = now.Pot.Length > 0 ? now.Pot : setting.Pot,
        };
        var dose = here.Dose(known);

        // As far as the trials reach, but always a few spoons on, so that a jar at the end of the ladder gets an answer too.
        var farthest = Math.Max(highest - dose, 4 * stepGramsPerLitre);
        double[] steps =
        [
            .. Compositions
                .Ladder(Math.Min(stepGramsPerLitre, farthest) / 128, farthest, Rungs)
                .Append(stepGramsPerLitre)
                .Distinct()
                .Order(),
        ];
        TrialPoint[] stages = [here, .. steps.Select(step => Compositions.WithDose(model, here, known, dose + step))];

        // A measured pH holds for the jar as it stands; how far a step moves it is reckoned, and may be off by a third of the way.
        var doubt = Array.ConvertAll(stages, stage => here.Ph is { } ph ? PhStepDoubt * Math.Abs(stage.Ph!.Value - ph) : 0);
        var colours = model.ColoursTogether(stages, oneJar: true, doubt);
        var seen = new double[steps.Length];
        for (var i = 0; i < steps.Length; i++)
        {
            var moves = Along(colours[0], colours[i + 1]);
            seen[i] = (double)moves.Count(move => move >= Match.JustVisibleDe00) / moves.Length;
        }

        var place = 1 + Array.IndexOf(steps, stepGramsPerLitre);
        var (before, after) = (Centre(colours[0]), Centre(colours[place]));
        double[] made = [.. colours[0].Zip(colours[place], (first, second) => Difference.Ciede2000(first, second)).Order()];
        var prediction = model.Predict(stages[place]);
        var last = model.Predict(stages[^1]);
        var still = seen.Max() <= HardlyEver && last.PriorWeight <= 0.5;
        var nothing =
            chemistrySays.Length > 0 ? chemistrySays
            : still
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"More {known} will not change anything now: up to {Say(dose + farthest)} g/L the colour stands still."
                )
            : "";
        var chance = seen[place - 1];
        var answer = new NextStep
        {
            Addition = known,
            StepGramsPerLitre = stepGramsPerLitre,
            Next = stages[place],
            Before = before,
            After = after,
            UncertaintyDe00 = prediction.UncertaintyDe00,
            ExpectedDe00 = Along(colours[0], colours[place]).Average(),
            De00Low = MayBeNothing(colours[0], colours[place]) ? 0 : made[(int)(0.025 * made.Length)],
            De00High = made[^(1 + (int)(0.025 * made.Length))],
            ChanceSeen = chance,
            Move = DifferenceWords.Say(before, after),
            JustSeenGramsPerLitre = Reaches(steps, seen, 0.5),
            SurelySeenGramsPerLitre = Reaches(steps, seen, 0.9),
            LookedGramsPerLitre = farthest,
            NothingMore = nothing,
            Beyond = prediction.Why,
            Words = "",
        };
        return Outcome.Of(answer with { Words = Sentence(answer) });
    }

    /// <summary>How far each likely move goes along the way that is expected of it, ΔE₀₀.</summary>
    /// <remarks>Doubt across the way makes every move longer and none shorter; counting it foretold visible steps that generated plants did
    /// not make (docs/accuracy.md).</remarks>
    private static double[] Along(Lab[] before, Lab[] after)
    {
        var (from, to) = (Centre(before), Centre(after));
        var (l, a, b) = (to.L - from.L, to.A - from.A, to.B - from.B);
        var way = Math.Sqrt((l * l) + (a * a) + (b * b));
        return
        [
            .. before.Zip(
                after,
                (first, second) =>
                {
                    var length = Difference.Cie1976(first, second);
                    var along = Math.Abs(((second.L - first.L) * l) + ((second.A - first.A) * a) + ((second.B - first.B) * b));
                    return length * way > 0 ? Difference.Ciede2000(first, second) * along / (length * way) : 0;
                }
            ),
        ];
    }

    /// <summary>Whether no move at all lies within the 95 % region of the moves: a length is never below zero, so its own quantiles cannot
    /// tell.</summary>
    private static bool MayBeNothing(Lab[] before, Lab[] after)
    {
        var (from, to) = (Centre(before), Centre(after));
        double[] apart =
        [
            .. before
                .Zip(
                    after,
                    (first, second) =>
                        Difference.Ciede2000(new(first.L + to.L - from.L, first.A + to.A - from.A, first.B + to.B - from.B), second)
                )
                .Order(),
        ];
        return Difference.Ciede2000(from, to) <= apart[(int)(0.95 * apart.Length)];
    }

    private static string Sentence(NextStep step)
    {
        if (step.NothingMore.Length > 0)
            return step.NothingMore;
        var seen = step.ChanceSeen switch
        {
            >= 0.95 => "anybody will see it",
            >= 0.5 => string.Create(
                CultureInfo.InvariantCulture,
                $"a person would see it {Math.Round(10 * step.ChanceSeen):0} times of 10"
            ),
            >= 0.05 => string.Create(
                CultureInfo.InvariantCulture,
                $"a person would see it only {Math.Max(1, Math.Round(10 * step.ChanceSeen)):0} "
                    + $"{(Math.Round(10 * step.ChanceSeen) < 1.5 ? "time" : "times")} of 10"
            ),
            _ => "nobody would see it",
        };
        var words = string.Create(
            CultureInfo.InvariantCulture,
            $"{char.ToUpperInvariant(step.Move[0])}{step.Move[1..]}: ΔE00 {step.ExpectedDe00:0.0} (between {step.De00Low:0.0} "
                + $"and {step.De00High:0.0}), {seen}."
        );
        if (step.ChanceSeen < 0.5 && step.JustSeenGramsPerLitre is { } dose)
            words += string.Create(CultureInfo.InvariantCulture, $" About {Say(dose)} g/L more would just be seen.");
        if (step.Beyond.Count > 0)
            words += $" Beyond what was tested: {string.Join(", ", step.Beyond)}.";
        return words;
    }

    /// <summary>The smallest step whose chance of being seen reaches a level; straight between the logarithms of neighbouring
    /// steps.</summary>
    private static double? Reaches(double[] steps, double[] seen, double level)
    {
        for (var i = 0; i < steps.Length; i++)
        {
            if (seen[i] < level)
                continue;
            if (i == 0)
                return steps[0];
            var share = (level - seen[i - 1]) / (seen[i] - seen[i - 1]);
            return steps[i - 1] * Math.Pow(steps[i] / steps[i - 1], share);
        }

        return null;
    }

    private static Lab Centre(Lab[] colours) => new(colours.Average(c => c.L), colours.Average(c => c.A), colours.Average(c => c.B));

    private static string Say(double gramsPerLitre) =>
        gramsPerLitre.ToString(gramsPerLitre < 1 ? "0.##" : "0.#", CultureInfo.InvariantCulture);
}
