namespace Dyewort.Quantities;

/// <summary>A volume, held in millilitres.</summary>
/// <remarks>Range 0 to 1,000,000 ml, both ends allowed; never NaN; <c>default</c> is 0 ml. The upper end guards against slipped
/// decimal points (common practice, no source).</remarks>
public readonly record struct Volume
{
    /// <summary>The largest there is, millilitres.</summary>
    public const double MaxMillilitres = 1e6;

    private Volume(double millilitres) => Millilitres = millilitres;

    /// <summary>The volume in millilitres.</summary>
    public double Millilitres { get; }

    /// <summary>The volume in litres.</summary>
    public double Litres => Millilitres / 1000;

    /// <summary>A volume of so many millilitres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static Volume FromMillilitres(double millilitres) =>
        millilitres is >= 0 and <= MaxMillilitres
            ? new(millilitres)
            : throw new ArgumentOutOfRangeException(nameof(millilitres), millilitres, "Allowed: 0 to 1,000,000 ml.");

    /// <summary>Reads a volume such as <c>90ml</c>, <c>1.5 L</c>, <c>½ cup</c> or <c>2 tsp</c>.</summary>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="kind">Which teaspoon, and with it which cup and pint.</param>
    public static Outcome<Volume> Parse(string field, string? text, Teaspoon kind = Teaspoon.Metric)
    {
        var parsed = Amount.Parse(field, text);
        if (!parsed.TryGet(out var amount))
            return Outcome.Refused<Volume>(parsed.Problems);
        return amount.Unit is AmountUnit.Piece || KitchenMeasures.Grams(amount.Unit) is not null
            ? Outcome.Refused<Volume>(field, $"“{amount.Text}” is not a volume.", "Type a volume, such as 90 ml or 1.5 L.")
            : amount.ToVolume(field, kind);
    }

    /// <summary>Three figures, in ml or L: <c>90 ml</c>, <c>1.5 L</c>.</summary>
    public override string ToString() => Say(Millilitres);

    /// <summary>The same words for a volume that was reckoned and may be larger than a volume can be.</summary>
    /// <param name="millilitres">Zero or more.</param>
    public static string Say(double millilitres) =>
        millilitres switch
        {
            < 999.5 => $"{Figures.Say(millilitres)} ml",
            <= 1000 * MaxMillilitres => $"{Figures.Say(millilitres / 1000)} L",
            _ => "more than a million litres",
        };
}
