namespace Dyewort.Quantities;

/// <summary>A mass, held in grams.</summary>
/// <remarks>Range 0 to 1,000,000 g, both ends allowed; never NaN; <c>default</c> is 0 g. The upper end guards against slipped
/// decimal points (common practice, no source).</remarks>
public readonly record struct Mass
{
    internal const string Kind = "a weight";

    /// <summary>The largest there is, grams.</summary>
    public const double MaxGrams = 1e6;

    private Mass(double grams) => Grams = grams;

    /// <summary>The mass in grams.</summary>
    public double Grams { get; }

    /// <summary>A mass of so many grams.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static Mass FromGrams(double grams) =>
        grams is >= 0 and <= MaxGrams
            ? new(grams)
            : throw new ArgumentOutOfRangeException(nameof(grams), grams, "Allowed: 0 to 1,000,000 g.");

    /// <summary>Reads a mass such as <c>2.5 g</c>, <c>0.5 kg</c> or <c>4 oz</c>.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="bare">What a number without a unit counts; null refuses it.</param>
    public static Outcome<Mass> Parse(string field, string? text, AmountUnit? bare = null) =>
        AmountText.ReadSum(
            text,
            part => ParseOne(field, part, bare),
            (one, other) =>
                one.Grams + other.Grams is <= MaxGrams and var sum
                    ? Outcome.Of(FromGrams(sum))
                    : Outcome.Refused<Mass>(field, "That is more than a tonne.", "Check the numbers and their units.")
        );

    private static Outcome<Mass> ParseOne(string field, string? text, AmountUnit? bare)
    {
        var parsed = Amount.ParseBare(field, text, bare);
        return parsed.TryGet(out var amount) && KitchenMeasures.Grams(amount.Unit) is not null
            ? amount.ToMass(field)
            : QuantityKind.Refuse<Mass>(field, text, Kind, "400 g", parsed.Problems);
    }

    /// <summary>The mass as an amount in the unit that its words have.</summary>
    public Amount ToAmount() =>
        Grams switch
        {
            > 0 and < 0.0995 => Amount.Written(ToString(), Grams * 1000, AmountUnit.Milligram, null, null),
            < 999.5 => Amount.Written(ToString(), Grams, AmountUnit.Gram, null, null),
            _ => Amount.Written(ToString(), Grams / 1000, AmountUnit.Kilogram, null, null),
        };

    /// <summary>Three figures, in mg, g or kg: <c>24.4 g</c>.</summary>
    public override string ToString() => Say(Grams);

    /// <summary>The same words for a mass that was reckoned and may be larger than a mass can be.</summary>
    /// <param name="grams">Zero or more.</param>
    public static string Say(double grams) =>
        grams switch
        {
            0 => "0 g",
            < 0.0995 => $"{Figures.Say(grams * 1000)} mg",
            < 999.5 => $"{Figures.Say(grams)} g",
            <= 1000 * MaxGrams => $"{Figures.Say(grams / 1000)} kg",
            _ => "more than 1000 tonnes",
        };
}
