using Dyewort.Chemistry;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>What becomes of spirit that plant is put into.</summary>
/// <param name="PercentByVolume">Alcohol once the plant's water is in it, % by volume at 20 °C.</param>
/// <param name="LowPercent">If the plant holds more water than usual.</param>
/// <param name="HighPercent">If it holds less.</param>
/// <param name="Millilitres">Volume of the two liquids after mixing: it shrinks.</param>
/// <param name="FlashCelsius">Flash point, closed cup; null where the table has none for so little alcohol.</param>
/// <param name="Remarks">What to mind, in sentences.</param>
public sealed record PotSpirit(
    double PercentByVolume,
    double LowPercent,
    double HighPercent,
    double Millilitres,
    double? FlashCelsius,
    IReadOnlyList<string> Remarks
)
{
    /// <summary>The strength of the liquor once plant water and spirit have mixed.</summary>
    /// <param name="spiritMillilitres">Spirit poured in, ml.</param>
    /// <param name="spiritPercent">Its strength from the label, % by volume.</param>
    /// <param name="plantGrams">Plant, g.</param>
    /// <param name="form">Its state.</param>
    /// <param name="celsius">How warm the pot is or will be kept, °C; null where nobody says.</param>
    /// <remarks>Fresh plant holds three quarters of its weight of water (the rule of fresh over four), 60 to 90 %; dry plant a tenth, 5 to
    /// 15 % (common practice, no source). Mixed by the density table of <see cref="AlcoholMix"/>, not by adding volumes.</remarks>
    public static Outcome<PotSpirit> Of(
        double spiritMillilitres,
        double spiritPercent,
        double plantGrams,
        PlantForm form,
        double? celsius = null
    )
    {
        var problems = new List<Problem>();
        if (spiritMillilitres is not (> 0 and <= 1e6))
            problems.Add(
                Sentence.Bad("spirit", $"{spiritMillilitres:0.#} ml of spirit is outside 0 to 1,000,000 ml.", "Give millilitres.")
            );
        if (spiritPercent is not (> 0 and <= 100))
            problems.Add(
                Sentence.Bad(
                    "spirit-strength",
                    $"{spiritPercent:0.#} % is outside 0 to 100 %.",
                    "Give the strength on the label, such as 40."
                )
            );
        if (plantGrams is not (>= 0 and <= 1e7))
            problems.Add(Sentence.Bad("plant", $"{plantGrams:0.#} g of plant is outside 0 to 10,000,000 g.", "Give grams."));
        if (problems.Count > 0)
            return Outcome.Refused<PotSpirit>(problems);

        var (low, usual, high) = form == PlantForm.Fresh ? (0.6, 0.75, 0.9) : (0.05, 0.10, 0.15);
        AlcoholBlend Blend(double moisture) => AlcoholMix.Mix([(spiritMillilitres, spiritPercent), (plantGrams * moisture, 0)]);
        var blend = Blend(usual);
        var flash = AlcoholMix.FlashPoint(blend.PercentByVolume);
        var remarks = new List<string>();
        if (celsius is { } warm && AlcoholMix.FlashWarning(blend.PercentByVolume, warm) is { Length: > 0 } warning)
            remarks.Add(warning);
        if (flash is { } point)
            remarks.Add(
                Sentence.Of(
                    $"Its vapour can catch fire from about {point:0} °C{(point < 30 ? ", which is a warm room" : "")}: no "
                        + $"flame, no ring, no sparks; window open, lid on."
                )
            );
        if (blend.PercentByVolume < 20)
            remarks.Add(
                Sentence.Of($"{blend.PercentByVolume:0} % keeps nothing by itself: 20 to 25 % is the least that keeps a water ink.")
            );
        if (blend.PercentByVolume < 0.7 * spiritPercent)
            remarks.Add("The plant's own water thins the spirit: dry it first, or take stronger spirit, if the colour wants alcohol.");
        return Outcome.Of(
            new PotSpirit(blend.PercentByVolume, Blend(high).PercentByVolume, Blend(low).PercentByVolume, blend.Millilitres, flash, remarks)
        );
    }
}
