namespace Dyewort.Quantities;

/// <summary>A volume, held in millilitres.</summary>
/// <remarks>Range 0 to 1,000,000 ml, both ends allowed; never NaN; <c>default</c> is 0 ml. The upper end guards against slipped
/// decimal points (common practice, no source).</remarks>
public readonly record struct Volume
{
    internal const string Kind = "a volume";

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
    /// <param name="kind">Which kitchen's spoons, cups and pints.</param>
    /// <param name="bare">What a number without a unit counts; null refuses it.</param>
    public static Outcome<Volume> Parse(string field, string? text, Teaspoon kind = Teaspoon.Metric, AmountUnit? bare = null) =>
        AmountText.ReadSum(
            text,
            part => ParseOne(field, part, kind, bare),
            (one, other) =>
                one.Millilitres + other.Millilitres is <= MaxMillilitres and var sum
                    ? Outcome.Of(FromMillilitres(sum))
                    : Outcome.Refused<Volume>(field, "That is more than a thousand litres.", "Check the numbers and their units.")
        );

    private static Outcome<Volume> ParseOne(string field, string? text, Teaspoon kind, AmountUnit? bare)
    {
        var parsed = Amount.ParseBare(field, text, bare);
        return parsed.TryGet(out var amount) && KitchenMeasures.Millilitres(amount.Unit, kind) is not null
            ? amount.ToVolume(field, kind)
            : QuantityKind.Refuse<Volume>(field, text, Kind, "1.5 L", parsed.Problems);
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
