using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>What a further run of the same plant will give.</summary>
/// <param name="Run">2 for the second run.</param>
/// <param name="Strength">Its strength over the first liquor's.</param>
/// <param name="Millilitres">Its volume, ml.</param>
/// <param name="ColourShare">Its colour (strength × volume) over the first run's.</param>
/// <param name="HoursToFirstStrength">Boiling time to bring it to the first liquor's strength at the pot's rate; null without a
/// rate.</param>
/// <param name="KilowattHours">Heat that this boiling takes at least.</param>
/// <param name="Pays">Whether the heat costs less than the plant it saves; null where a price is missing.</param>
public sealed record FurtherRun(
    int Run,
    double Strength,
    double Millilitres,
    double ColourShare,
    double? HoursToFirstStrength,
    double KilowattHours,
    bool? Pays
);

/// <summary>Prices that decide whether a further run pays, in one currency.</summary>
/// <param name="PlantPerFirstRun">What the plant in the pot cost.</param>
/// <param name="PerKilowattHour">What a kilowatt-hour of heat costs.</param>
public sealed record RunPrices(double PlantPerFirstRun, double PerKilowattHour);

/// <summary>Sums of colour: strength times volume is what was got out of the plant.</summary>
public static class ColourSums
{
    /// <summary>Colour units in a liquor.</summary>
    /// <param name="strength">Tinting strength, absorbance-like.</param>
    /// <param name="millilitres">Volume, ml.</param>
    /// <returns>Strength × ml.</returns>
    public static double Units(double strength, double millilitres) => strength * millilitres;

    /// <summary>The real yield: colour units for each gram of plant.</summary>
    /// <param name="strength">Tinting strength, absorbance-like.</param>
    /// <param name="millilitres">Liquor strained out, ml.</param>
    /// <param name="plantGrams">Plant that went in, g.</param>
    public static Outcome<double> UnitsPerGram(double strength, double millilitres, double plantGrams) =>
        plantGrams > 0 && strength >= 0 && millilitres >= 0
            ? Outcome.Of(Units(strength, millilitres) / plantGrams)
            : Outcome.Refused<double>(
                "plant",
                "A yield needs plant, strength and volume above zero.",
                "Give the grams of plant, the millilitres and the strength."
            );

    /// <summary>Expects the second and further runs.</summary>
    /// <param name="outMillilitres">Liquor of the first run, ml.</param>
    /// <param name="heldMillilitres">Liquor of that strength still in the plant, ml.</param>
    /// <param name="newWaterMillilitres">Fresh water for each further run, ml.</param>
    /// <param name="uptake">Share of the plant's colour that the first run released, 0 to 1: what is left comes out in the same share
    /// again.</param>
    /// <param name="runs">Last run to expect, 2 to 6.</param>
    /// <param name="rate">The pot's boil-off rate, to say how long reducing takes.</param>
    /// <param name="prices">Prices, to say whether it pays.</param>
    /// <remarks>First × (held / new total), plus what the plant had not yet let go.</remarks>
    public static Outcome<IReadOnlyList<FurtherRun>> Further(
        double outMillilitres,
        double heldMillilitres,
        double newWaterMillilitres,
        double uptake = 1,
        int runs = 3,
        BoilOffRate? rate = null,
        RunPrices? prices = null
    )
    {
        var problems = new List<Problem>();
        if (outMillilitres is not (> 0 and <= 1e6))
            problems.Add(
                Sentence.Bad("out", $"{outMillilitres:0.#} ml of first liquor is outside 0 to 1,000,000 ml.", "Give what was strained out.")
            );
        if (heldMillilitres is not (>= 0 and <= 1e6))
            problems.Add(Sentence.Bad("held", $"{heldMillilitres:0.#} ml held is outside 0 to 1,000,000 ml.", "Give what the plant kept."));
        if (newWaterMillilitres is not (> 0 and <= 1e6))
            problems.Add(
                Sentence.Bad(
                    "water",
                    $"{newWaterMillilitres:0.#} ml of new water is outside 0 to 1,000,000 ml.",
                    "Give the water of the next run."
                )
            );
        if (uptake is not (> 0 and <= 1))
            problems.Add(
                Sentence.Bad(
                    "uptake",
                    $"A release of {uptake:0.##} is outside 0 to 1.",
                    "Give the share of the colour that came out, such as 0.9."
                )
            );
        if (runs is not (>= 2 and <= 6))
            problems.Add(Sentence.Bad("runs", $"{runs} runs is outside 2 to 6.", "Ask for the second to the sixth."));
        if (problems.Count > 0)
            return Outcome.Refused<IReadOnlyList<FurtherRun>>(problems);

        var answer = new List<FurtherRun>();
        var firstTotal = outMillilitres + heldMillilitres;
        var unreleased = firstTotal * ((1 / uptake) - 1);
        var inPlant = heldMillilitres;
        for (var run = 2; run <= runs; run++)
        {
            var total = heldMillilitres + newWaterMillilitres;
            var released = unreleased * uptake;
            unreleased -= released;
            var strength = (inPlant + released) / total;
            inPlant = strength * heldMillilitres;
            var share = strength * newWaterMillilitres / outMillilitres;
            var toBoil = newWaterMillilitres * Math.Max(0, 1 - strength);
            var heat = (newWaterMillilitres * 4.18 * 75 / 3.6e6) + (toBoil * Steam.HeatOfVaporisation(100) / 3.6e6);
            var pays = prices is null ? (bool?)null : heat * prices.PerKilowattHour < share * prices.PlantPerFirstRun;
            answer.Add(
                new(run, strength, newWaterMillilitres, share, rate is null ? null : toBoil / 1000 / rate.LitresPerHour, heat, pays)
            );
        }

        return Outcome.Of<IReadOnlyList<FurtherRun>>(answer);
    }
}
