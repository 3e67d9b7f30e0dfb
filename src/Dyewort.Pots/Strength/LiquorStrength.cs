using Dyewort.Colour;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>The tinting strength of one liquor: the one number by which pots, reductions and harvests compare.</summary>
/// <param name="Strength">Absorbance-like strength of the undiluted liquor, painted as it was painted.</param>
/// <param name="Uncertainty">Its standard deviation.</param>
/// <param name="Drops">What it rests on.</param>
/// <param name="Steepness">How strength follows the share of liquor in a ladder: 1 where half the liquor shows half the strength; null
/// without a ladder.</param>
/// <param name="Remarks">What to mind, in sentences.</param>
public sealed record LiquorStrength(
    double Strength,
    double Uncertainty,
    IReadOnlyList<DropStrength> Drops,
    double? Steepness,
    IReadOnlyList<string> Remarks
)
{
    private const double OtherHueDe00 = 4;

    /// <summary>Strength from drops or from a ladder of washes on one paper.</summary>
    /// <param name="painted">Drops and washes of one liquor.</param>
    /// <param name="bare">The bare paper.</param>
    public static Outcome<LiquorStrength> Of(IReadOnlyList<Painted> painted, Xyz bare)
    {
        var problems = CheckShares(painted);
        if (problems.Count > 0)
            return Outcome.Refused<LiquorStrength>(problems);
        var learned = StrengthScale.Learn(painted, bare);
        return learned.TryGet(out var scale) ? Outcome.Of(On(scale, painted)) : Outcome.Refused<LiquorStrength>(learned.Problems);
    }

    /// <summary>How many times as strong one liquor is as another, both painted alike on one paper.</summary>
    /// <param name="first">Drops and washes of the first.</param>
    /// <param name="second">Drops and washes of the second.</param>
    /// <param name="bare">The bare paper.</param>
    public static Outcome<StrengthRatio> Compare(IReadOnlyList<Painted> first, IReadOnlyList<Painted> second, Xyz bare)
    {
        List<Problem> problems = [.. CheckShares(first), .. CheckShares(second)];
        if (first.Count == 0 || second.Count == 0)
            problems.Add(new("drops", "One of the two liquors has no drop.", "Give at least one drop of each."));
        if (problems.Count > 0)
            return Outcome.Refused<StrengthRatio>(problems);

        var together = StrengthScale.Learn([.. first, .. second], bare);
        if (!together.TryGet(out var scale))
            return Outcome.Refused<StrengthRatio>(together.Problems);
        var (one, other) = (On(scale, first), On(scale, second));
        var remarks = new List<string>();
        var apart = Math.Max(Median(one.Drops.Select(drop => drop.OffHueDe00)), Median(other.Drops.Select(drop => drop.OffHueDe00)));
        if (
            apart > OtherHueDe00
            && StrengthScale.Learn(first, bare).TryGet(out var ownFirst)
            && StrengthScale.Learn(second, bare).TryGet(out var ownSecond)
        )
        {
            (one, other) = (On(ownFirst, first), On(ownSecond, second));
            remarks.Add("The two are not of one hue (another pH, another plant, browning): the ratio says how dark, not how much colour.");
        }

        if (!(one.Strength > 0 && other.Strength > 0))
            return Outcome.Refused<StrengthRatio>(
                "drops",
                "One of the two liquors cannot be told from the paper.",
                "Take darker drops of it."
            );
        var ratio = one.Strength / other.Strength;
        var (a, b) = (one.Uncertainty / one.Strength, other.Uncertainty / other.Strength);
        return Outcome.Of(
            new StrengthRatio(ratio, ratio * Math.Sqrt((a * a) + (b * b)), one, other, [.. remarks, .. one.Remarks, .. other.Remarks])
        );
    }

    /// <summary>Turns timed drops into points of a curve.</summary>
    /// <param name="drops">Minute, colour.</param>
    /// <param name="bare">The bare paper.</param>
    public static Outcome<IReadOnlyList<Drop>> Timed(IReadOnlyList<(double Minute, UncertainColour Colour)> drops, Xyz bare)
    {
        List<Painted> painted = [.. drops.Select(drop => new Painted(Sentence.Of($"minute {drop.Minute:0.#}"), drop.Colour))];
        var learned = StrengthScale.Learn(painted, bare);
        if (!learned.TryGet(out var scale))
            return Outcome.Refused<IReadOnlyList<Drop>>(learned.Problems);
        return Outcome.Of<IReadOnlyList<Drop>>([
            .. painted.Zip(
                drops,
                (one, drop) => scale.Read(one) is var read ? new Drop(drop.Minute, read.Strength, Math.Max(read.Uncertainty, 1e-4)) : null!
            ),
        ]);
    }

    private static LiquorStrength On(StrengthScale scale, IReadOnlyList<Painted> painted)
    {
        List<DropStrength> drops = [.. painted.Select(scale.Read)];
        var (sum, weights) = (0.0, 0.0);
        for (var i = 0; i < drops.Count; i++)
        {
            // Drops of one liquor differ by hand too: about 5 %, common practice, no source.
            var full = drops[i].Strength / painted[i].Share;
            var deviation = Math.Sqrt(Math.Pow(drops[i].Uncertainty / painted[i].Share, 2) + Math.Pow(0.05 * full, 2));
            var weight = 1 / Math.Max(deviation * deviation, 1e-12);
            sum += weight * full;
            weights += weight;
        }

        var strength = sum / weights;
        var scatter = 0.0;
        for (var i = 0; i < drops.Count; i++)
        {
            var full = drops[i].Strength / painted[i].Share;
            var variance = Math.Pow(drops[i].Uncertainty / painted[i].Share, 2) + Math.Pow(0.05 * full, 2);
            scatter += (full - strength) * (full - strength) / Math.Max(variance, 1e-12);
        }

        var stretch = drops.Count > 2 ? Math.Max(1, Math.Sqrt(scatter / (drops.Count - 1))) : 1;
        var remarks = new List<string>();
        var steepness = Steep(painted, drops);
        if (steepness is { } steep && Math.Abs(steep - 1) > 0.15)
            remarks.Add(
                Sentence.Of(
                    $"The washes do not thin in proportion (steepness {steep:0.00}): check how they were mixed, or whether the full "
                        + $"one was too dark to read."
                )
            );
        foreach (var drop in drops.Where(drop => drop.OffHueDe00 > OtherHueDe00))
            remarks.Add(
                Sentence.Of(
                    $"{drop.Name} is {drop.OffHueDe00:0.#} ΔE00 off the row's own hue: a slip, a stain, or the colour itself changed."
                )
            );
        return new(strength, stretch / Math.Sqrt(weights), drops, steepness, remarks);
    }

    private static double? Steep(IReadOnlyList<Painted> painted, List<DropStrength> drops)
    {
        var points = painted
            .Zip(drops)
            .Where(pair => pair.Second.Strength > 2 * pair.Second.Uncertainty && pair.Second.Strength > 0)
            .Select(pair =>
                (
                    X: Math.Log(pair.First.Share),
                    Y: Math.Log(pair.Second.Strength),
                    W: Math.Pow(pair.Second.Strength / Math.Max(pair.Second.Uncertainty, 1e-4), 2)
                )
            )
            .ToList();
        if (points.Count < 3 || points.Max(point => point.X) - points.Min(point => point.X) < Math.Log(3))
            return null;
        points = [.. points.Select(point => point with { W = 1 / ((1 / point.W) + 0.0025) })];
        var weight = points.Sum(point => point.W);
        var (x, y) = (points.Sum(point => point.W * point.X) / weight, points.Sum(point => point.W * point.Y) / weight);
        return points.Sum(point => point.W * (point.X - x) * (point.Y - y)) / points.Sum(point => point.W * (point.X - x) * (point.X - x));
    }

    private static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return sorted[sorted.Length / 2];
    }

    private static List<Problem> CheckShares(IReadOnlyList<Painted> painted) =>
        [
            .. painted
                .Where(one => one.Share is not (> 0 and <= 1))
                .Select(one =>
                    Sentence.Bad(
                        "share",
                        $"{one.Name}: a share of {one.Share:0.###} is outside 0 to 1.",
                        "Give the share of liquor, such as 0.25 for one part to three of water."
                    )
                ),
        ];
}

/// <summary>How two liquors compare.</summary>
/// <param name="Ratio">Strength of the first over the second.</param>
/// <param name="Uncertainty">Its standard deviation.</param>
/// <param name="First">The first.</param>
/// <param name="Second">The second.</param>
/// <param name="Remarks">What to mind, in sentences.</param>
public sealed record StrengthRatio(
    double Ratio,
    double Uncertainty,
    LiquorStrength First,
    LiquorStrength Second,
    IReadOnlyList<string> Remarks
);
