using System.Globalization;
using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Quantities;
using MathNet.Numerics;

namespace Dyewort.Response;

/// <summary>Whether two readings differ.</summary>
public enum DifferenceVerdict
{
    /// <summary>Repeats of one jar differ as much every third time or more often.</summary>
    No = 0,

    /// <summary>Repeats of one jar differ as much between once in three and once in twenty times.</summary>
    Perhaps,

    /// <summary>Repeats of one jar differ as much less than once in twenty times.</summary>
    Really,
}

/// <summary>How two groups of readings compare, given the maker's own scatter.</summary>
public sealed record RepeatComparison
{
    /// <summary>The verdict.</summary>
    public required DifferenceVerdict Verdict { get; init; }

    /// <summary>ΔE₀₀ between the means of the two groups.</summary>
    public required double De00 { get; init; }

    /// <summary>How often two such groups of squares from one and the same jar would differ as much or more, 0 to 1.</summary>
    public required double ByChance { get; init; }

    /// <summary>By how much two single squares of one jar usually differ with this maker, ΔE₀₀.</summary>
    public required double UsualRepeatDe00 { get; init; }

    /// <summary>How many repeats that rests on (squares beyond the first of each jar); 0 means common practice alone.</summary>
    public required int Repeats { get; init; }

    /// <summary>The difference that so many squares would show 8 times of 10, ΔE₀₀; null where it is more than 30.</summary>
    public double? WouldShowDe00 { get; init; }

    /// <summary>How many more squares of each would settle whether there is a difference as large as the one seen (or a just visible one);
    /// 0 where it is settled, null where more than <see cref="MakerScatter.MostSquares"/> would be needed.</summary>
    public int? MoreSquaresOfEach { get; init; }

    /// <summary>All of it in words.</summary>
    public required string Words { get; init; }
}

/// <summary>The scatter of a maker's repeated squares, and what it says of differences.</summary>
/// <remarks>Readings are taken in CIEDE2000's own units along lightness, chroma and hue around their jar's mean. The three scatter
/// differently and few repeats tell little of how, so two means are compared with the total scatter by Box's approximation: |d|² / (c · tr
/// Σ) against F with h and h·ν degrees of freedom, h = (tr Σ)² / tr Σ², c = 1/n₁ + 1/n₂, ν the repeats [Box1954] [Brunner1997]. Until there
/// are repeats a cautious belief stands in: squares of one jar painted by hand differ by about ΔE₀₀ 2, mostly in lightness (common
/// practice, no source), worth four repeats.</remarks>
public sealed class MakerScatter
{
    /// <summary>More squares of each than this are not asked for.</summary>
    public const int MostSquares = 40;

    private const double BeliefWorth = 4;
    private const double Certain = 0.05;
    private const double Doubtful = 1.0 / 3;
    private const double Power = 0.8;

    // Lightness, chroma, hue; the total makes two squares differ by about 2.
    private static readonly double[] Belief = [1.25, 0.6, 0.35];
    private readonly double[] sums;

    private MakerScatter(double[] total, int repeats) => (sums, Repeats) = (total, repeats);

    /// <summary>Squares beyond the first of each jar that it was learned from.</summary>
    public int Repeats { get; }

    /// <summary>By how much two squares of one jar usually differ, ΔE₀₀ (root mean square).</summary>
    public double UsualDe00 => Math.Sqrt(2 * Trace(Covariance()));

    /// <summary>Nothing but common practice.</summary>
    public static MakerScatter Unknown { get; } = new(new double[9], 0);

    /// <summary>Learns from groups of readings, each of squares that should be the same: one jar, one paper, one state.</summary>
    public static MakerScatter Learn(IEnumerable<IReadOnlyList<Lab>> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        var total = new double[9];
        var repeats = 0;
        foreach (var group in groups)
        {
            if (group.Count < 2)
                continue;
            var mean = Mean(group);
            foreach (var reading in group)
            {
                var z = Parts(mean, mean, reading);
                for (var i = 0; i < 9; i++)
                    total[i] += z[i / 3] * z[i % 3];
            }

            repeats += group.Count - 1;
        }

        return new(total, repeats);
    }

    /// <summary>Learns from every sample of a table that was painted and read more than once in the same way.</summary>
    public static MakerScatter Learn(IReadOnlyList<TrialRow> rows) =>
        Learn(
            rows.Where(row => row.Point.Wash > 0)
                .GroupBy(row =>
                    (row.Point.Plant, row.Point.Pot, row.Point.Sample, row.Point.Paper, row.Point.State, row.Point.Wash, row.Point.Coats)
                )
                .Select(group => (IReadOnlyList<Lab>)[.. group.Select(row => row.Colour)])
        );

    /// <summary>Do two groups of readings differ: two orders of addition, two batches, two papers?</summary>
    /// <param name="first">At least one reading.</param>
    /// <param name="second">At least one reading.</param>
    public Outcome<RepeatComparison> Compare(IReadOnlyList<Lab> first, IReadOnlyList<Lab> second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (first.Count == 0 || second.Count == 0)
            return Outcome.Refused<RepeatComparison>("readings", "One of the two has no reading.", "Give at least one of each.");
        if (first.Concat(second).Any(colour => !double.IsFinite(colour.L + colour.A + colour.B)))
            return Outcome.Refused<RepeatComparison>("readings", "A reading is not three finite numbers.", "Read it again.");
        var own = Learn([first, second]);
        var all = new MakerScatter([.. sums.Zip(own.sums, (a, b) => a + b)], Repeats + own.Repeats);
        var covariance = all.Covariance();
        var (trace, h) = (Trace(covariance), Freedom(covariance));
        var degrees = h * (all.Repeats + BeliefWorth);
        var share = (1.0 / first.Count) + (1.0 / second.Count);
        var chance = all.ByChance(first, second);
        var verdict = Judge(chance);
        var difference = Difference.Ciede2000(Mean(first), Mean(second));
        var more =
            verdict == DifferenceVerdict.Really
                ? 0
                : More(first.Count, second.Count, Math.Max(difference, Match.JustVisibleDe00), all.Repeats, h, trace);
        var answer = new RepeatComparison
        {
            Verdict = verdict,
            De00 = difference,
            ByChance = chance,
            UsualRepeatDe00 = all.UsualDe00,
            Repeats = all.Repeats,
            WouldShowDe00 = WouldShow(share, h, degrees, trace),
            MoreSquaresOfEach = more,
            Words = "",
        };
        return Outcome.Of(answer with { Words = Sentence(answer) });
    }

    /// <summary>The verdict alone, its own two groups taken into the scatter.</summary>
    internal DifferenceVerdict Verdict(IReadOnlyList<Lab> first, IReadOnlyList<Lab> second)
    {
        var own = Learn([first, second]);
        return Judge(new MakerScatter([.. sums.Zip(own.sums, (a, b) => a + b)], Repeats + own.Repeats).ByChance(first, second));
    }

    private static DifferenceVerdict Judge(double chance) =>
        chance < Certain ? DifferenceVerdict.Really
        : chance < Doubtful ? DifferenceVerdict.Perhaps
        : DifferenceVerdict.No;

    private double ByChance(IReadOnlyList<Lab> first, IReadOnlyList<Lab> second)
    {
        var (one, other) = (Mean(first), Mean(second));
        var d = Parts(new Lab((one.L + other.L) / 2, (one.A + other.A) / 2, (one.B + other.B) / 2), one, other);
        var covariance = Covariance();
        var h = Freedom(covariance);
        return FTail(
            ((d[0] * d[0]) + (d[1] * d[1]) + (d[2] * d[2])) / (((1.0 / first.Count) + (1.0 / second.Count)) * Trace(covariance)),
            h,
            h * (Repeats + BeliefWorth)
        );
    }

    /// <summary>The upper tail of the F distribution.</summary>
    /// <param name="f">0 and above.</param>
    /// <param name="above">Degrees of freedom of the numerator, above 0.</param>
    /// <param name="below">Degrees of freedom of the denominator, above 0.</param>
    /// <returns>The chance of a value of at least <paramref name="f"/>.</returns>
    internal static double FTail(double f, double above, double below) =>
        f <= 0 ? 1 : SpecialFunctions.BetaRegularized(below / 2, above / 2, below / (below + (above * f)));

    /// <summary>The chance that a true difference is found, 0 to 1.</summary>
    internal static double Found(double trueDe00, double share, double h, double degrees, double trace) =>
        Found(trueDe00, share, h, degrees, trace, FCritical(h, degrees));

    private static double Found(double trueDe00, double share, double h, double degrees, double trace, double critical)
    {
        // Noncentral F as a Poisson mixture of beta distributions [Johnson1995].
        var half = h * trueDe00 * trueDe00 / (share * trace) / 2;
        if (half > 400)
            return 1;
        var x = h * critical / ((h * critical) + degrees);
        var below = 0.0;
        var most = (int)(half + (7 * Math.Sqrt(half)) + 15);
        for (var j = Math.Max(0, (int)(half - (7 * Math.Sqrt(half)) - 15)); j <= most; j++)
        {
            var weight = Math.Exp((j == 0 ? 0 : j * Math.Log(half)) - half - SpecialFunctions.GammaLn(j + 1));
            if (half == 0)
                weight = j == 0 ? 1 : 0;
            below += weight * SpecialFunctions.BetaRegularized((h / 2) + j, degrees / 2, x);
        }

        return Math.Clamp(1 - below, 0, 1);
    }

    /// <remarks>The tail falls from 1 to 0 between the ends, so the halving always finds the place.</remarks>
    private static double FCritical(double h, double degrees) =>
        Bisection.Narrow(0, 1e6, 0, f => FTail(f, h, degrees) > Certain, rounds: 60).Middle;

    private static int? More(int first, int second, double difference, int repeats, double h, double trace)
    {
        for (var more = 1; more <= MostSquares; more++)
        {
            var share = (1.0 / (first + more)) + (1.0 / (second + more));
            if (Found(difference, share, h, h * (repeats + BeliefWorth + (2 * more)), trace) >= Power)
                return more;
        }

        return null;
    }

    private static double? WouldShow(double share, double h, double degrees, double trace)
    {
        const double Most = 30;
        var critical = FCritical(h, degrees);
        if (Found(Most, share, h, degrees, trace, critical) < Power)
            return null;

        // Found at the upper end, as was just asked, and never at 0: the place lies between.
        return Bisection.Narrow(0, Most, 0, de00 => Found(de00, share, h, degrees, trace, critical) < Power, rounds: 14).High;
    }

    private static string Sentence(RepeatComparison answer)
    {
        var often = answer.ByChance switch
        {
            < 0.001 => "less than once in 1000 times",
            < 0.095 => string.Create(
                CultureInfo.InvariantCulture,
                $"{Math.Max(1, Math.Round(100 * answer.ByChance)):0} {(Math.Round(100 * answer.ByChance) < 1.5 ? "time" : "times")} of 100"
            ),
            _ => string.Create(
                CultureInfo.InvariantCulture,
                $"{Math.Round(10 * answer.ByChance):0} {(Math.Round(10 * answer.ByChance) < 1.5 ? "time" : "times")} of 10"
            ),
        };
        var rests =
            answer.Repeats == 0
                ? "common practice, no repeats of yours yet"
                : $"{answer.Repeats} {(answer.Repeats == 1 ? "repeat" : "repeats")} of yours";
        var head = answer.Verdict switch
        {
            DifferenceVerdict.Really => "They really differ",
            DifferenceVerdict.Perhaps => "Perhaps they differ",
            _ => "No difference beyond your scatter",
        };
        var words = string.Create(
            CultureInfo.InvariantCulture,
            $"{head}: ΔE00 {answer.De00:0.0}, and squares of one jar would differ as much {often} (two single squares usually "
                + $"differ by {answer.UsualRepeatDe00:0.0}; {rests})."
        );
        if (answer.Verdict == DifferenceVerdict.Really)
            return words;
        return answer.MoreSquaresOfEach is { } more
            ? $"{words} {more} more {(more == 1 ? "square" : "squares")} of each would settle it 8 times of 10."
            : $"{words} More than {MostSquares} squares of each would be needed to settle it: paint more evenly instead.";
    }

    private double[] Covariance()
    {
        var covariance = new double[9];
        for (var i = 0; i < 9; i++)
            covariance[i] = (sums[i] + (i % 4 == 0 ? BeliefWorth * Belief[i / 4] : 0)) / (Repeats + BeliefWorth);
        return covariance;
    }

    private static double Trace(double[] covariance) => covariance[0] + covariance[4] + covariance[8];

    private static double Freedom(double[] covariance) => Math.Pow(Trace(covariance), 2) / covariance.Sum(value => value * value);

    private static Lab Mean(IReadOnlyList<Lab> colours) =>
        new(colours.Average(c => c.L), colours.Average(c => c.A), colours.Average(c => c.B));

    /// <summary>The way from one colour to another along lightness, chroma and hue at a third, each in ΔE₀₀.</summary>
    private static double[] Parts(Lab at, Lab from, Lab to)
    {
        var (l, a, b) = (to.L - from.L, to.A - from.A, to.B - from.B);
        var hue = at.Chroma < 1 ? 0 : at.HueDegrees * Math.PI / 180;
        var (chroma, turn) = ((a * Math.Cos(hue)) + (b * Math.Sin(hue)), (b * Math.Cos(hue)) - (a * Math.Sin(hue)));
        double Size(double dl, double da, double db) =>
            Difference.Ciede2000(
                new(at.L - (dl / 2), at.A - (da / 2), at.B - (db / 2)),
                new(at.L + (dl / 2), at.A + (da / 2), at.B + (db / 2))
            );
        return
        [
            Math.Sign(l) * Size(l, 0, 0),
            Math.Sign(chroma) * Size(0, chroma * Math.Cos(hue), chroma * Math.Sin(hue)),
            Math.Sign(turn) * Size(0, -turn * Math.Sin(hue), turn * Math.Cos(hue)),
        ];
    }
}
