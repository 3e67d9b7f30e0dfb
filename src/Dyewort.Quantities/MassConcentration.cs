using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>Mass of a solid in a volume of liquor, held in grams per litre.</summary>
/// <remarks>Range 0 to 2000 g/L, both ends allowed; never NaN; <c>default</c> is 0 g/L. The upper end guards
/// against slipped decimal points; it is not a solubility limit (common practice, no source).</remarks>
public readonly record struct MassConcentration
{
    private const double MaxGramsPerLitre = 2000;

    private MassConcentration(double gramsPerLitre) => GramsPerLitre = gramsPerLitre;

    /// <summary>Grams in one litre.</summary>
    public double GramsPerLitre { get; }

    /// <summary>Grams in 100 ml, as makers write doses.</summary>
    public double GramsPer100Millilitres => GramsPerLitre / 10;

    /// <summary>A concentration of so many grams per litre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static MassConcentration FromGramsPerLitre(double gramsPerLitre) =>
        gramsPerLitre is >= 0 and <= MaxGramsPerLitre
            ? new(gramsPerLitre)
            : throw new ArgumentOutOfRangeException(nameof(gramsPerLitre), gramsPerLitre, "Allowed: 0 to 2000 g/L.");

    /// <summary>Reads grams per litre, a bare number.</summary>
    public static Outcome<MassConcentration> Parse(string field, string? text) =>
        !double.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var grams)
            ? Outcome.Refused<MassConcentration>(field, $"“{text}” is not a number.", "Type grams per litre, such as 12.5.")
        : grams is >= 0 and <= MaxGramsPerLitre ? Outcome.Of(new MassConcentration(grams))
        : Outcome.Refused<MassConcentration>(field, $"{text} g/L is outside 0 to 2000 g/L.", "Check the decimal point.");

    /// <summary>Three figures: <c>11.1 g/L</c>.</summary>
    public override string ToString() => $"{Figures.Say(GramsPerLitre)} g/L";
}
