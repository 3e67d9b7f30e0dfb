using Dyewort.Quantities;

namespace Dyewort.Making;

/// <summary>What a batch gives in bottles.</summary>
/// <param name="Made">Before filtering.</param>
/// <param name="Filtered">After filtering.</param>
/// <param name="KeptBack">Set aside, never sold.</param>
/// <param name="Fill">In each bottle.</param>
/// <param name="Bottles">Full bottles.</param>
/// <param name="Over">What is left after them.</param>
/// <param name="UllageShare">Air over the ink as a share of the bottle, 0 to 1.</param>
/// <param name="Remarks">What a maker should know, one sentence each.</param>
public sealed record Bottling(
    Volume Made,
    Volume Filtered,
    Volume KeptBack,
    Volume Fill,
    int Bottles,
    Volume Over,
    double UllageShare,
    IReadOnlyList<string> Remarks
)
{
    /// <summary>Filters and fills.</summary>
    /// <param name="made">Volume before filtering, above zero.</param>
    /// <param name="filterLoss">Share that stays in the filter, 0 to under 1; 0.02 to 0.05 is usual (common practice, no source).</param>
    /// <param name="keptBack">Set aside.</param>
    /// <param name="fill">In each bottle, above zero.</param>
    /// <param name="holds">What a bottle holds to the brim.</param>
    /// <param name="atHand">Empty bottles at hand; null when that does not matter.</param>
    public static Outcome<Bottling> Plan(Volume made, double filterLoss, Volume keptBack, Volume fill, Volume holds, int? atHand = null)
    {
        var problems = new List<Problem>();
        if (filterLoss is not (>= 0 and < 1))
            problems.Add(new("loss", "The filter's loss is not between none and all.", "Type per cent, such as 3."));
        if (fill.Millilitres <= 0)
            problems.Add(new("fill", "Nothing would be filled into a bottle.", "Type millilitres, such as 29."));
        else if (fill.Millilitres > holds.Millilitres)
            problems.Add(new("fill", $"{fill} do not go into a bottle of {holds}.", "Fill less, or take a larger bottle."));
        if (atHand is < 0)
            problems.Add(new("bottles", "There cannot be fewer than no bottles.", "Count them again."));
        if (problems.Count > 0)
            return Outcome.Refused<Bottling>(problems);

        var filtered = made.Millilitres * (1 - filterLoss);
        var toFill = filtered - keptBack.Millilitres;
        if (toFill < 0)
            return Outcome.Refused<Bottling>(
                "kept",
                $"{keptBack} cannot be kept back from {Volume.FromMillilitres(filtered)}.",
                "Keep back less."
            );
        // A bottle that lacks a thousandth of a millilitre to rounding is a full bottle.
        var bottles = (int)Math.Floor((toFill / fill.Millilitres) + 1e-9);
        var remarks = new List<string>();
        if (atHand is { } have && have < bottles)
        {
            remarks.Add($"There are {have} bottles for {bottles} fillings: {bottles - have} short.");
            bottles = have;
        }

        var ullage = 1 - (fill.Millilitres / holds.Millilitres);
        if (ullage < 0.02)
            remarks.Add("Hardly any air over the ink: it may creep out when it warms.");
        if (ullage > 0.15)
            remarks.Add("Much air over the ink: it keeps better in a bottle that is nearly full.");
        return Outcome.Of(
            new Bottling(
                made,
                Volume.FromMillilitres(filtered),
                keptBack,
                fill,
                bottles,
                Volume.FromMillilitres(Math.Max(0, toFill - (bottles * fill.Millilitres))),
                ullage,
                remarks
            )
        );
    }

    /// <summary>How much must be made, before filtering, to fill so many bottles.</summary>
    /// <param name="bottles">Zero or more.</param>
    /// <param name="fill">In each.</param>
    /// <param name="keptBack">Set aside.</param>
    /// <param name="filterLoss">Share that stays in the filter, 0 to under 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static Volume Needed(int bottles, Volume fill, Volume keptBack, double filterLoss)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(bottles);
        if (filterLoss is not (>= 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(filterLoss), filterLoss, "Allowed: 0 to under 1.");
        return Volume.FromMillilitres(((bottles * fill.Millilitres) + keptBack.Millilitres) / (1 - filterLoss));
    }
}
