using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>A length on a table or a page, held in millimetres.</summary>
/// <remarks>Range 0 to 100,000 mm, both ends allowed; never NaN; <c>default</c> is 0 mm. The upper end guards against slipped decimal
/// points (common practice, no source).</remarks>
public readonly record struct Length
{
    internal const string Kind = "a length";
    private const double MaxMillimetres = 1e5;
    private const string Remedy = "Type a length, such as 24 cm, 38 mm or 9½ in.";

    private Length(double millimetres) => Millimetres = millimetres;

    /// <summary>The length in millimetres.</summary>
    public double Millimetres { get; }

    /// <summary>The length in centimetres.</summary>
    public double Centimetres => Millimetres / 10;

    /// <summary>A length of so many millimetres.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static Length FromMillimetres(double millimetres) =>
        millimetres is >= 0 and <= MaxMillimetres
            ? new(millimetres)
            : throw new ArgumentOutOfRangeException(nameof(millimetres), millimetres, "Allowed: 0 to 100,000 mm.");

    /// <summary>Reads <c>24 cm</c>, <c>38 mm</c>, <c>9½ in</c>, <c>9.5"</c> or <c>1 ft</c>.</summary>
    /// <remarks>An inch is 25.4 mm and a foot twelve of them [SP811].</remarks>
    /// <param name="field">The field or option it stands in.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="bareMillimetres">What a number without a unit counts, in millimetres: 10 where the field is in centimetres.</param>
    public static Outcome<Length> Parse(string field, string? text, double bareMillimetres = 1)
    {
        var typed = (text ?? "").Trim();
        var read = AmountText.Lead(field, typed, Remedy);
        if (!read.TryGet(out var lead))
            return QuantityKind.Refuse<Length>(field, typed, Kind, "24 cm", read.Problems);
        var unit = lead.After.Count == 0 ? bareMillimetres : Unit(lead.After);
        if (unit is not { } each)
            return QuantityKind.Refuse<Length>(
                field,
                typed,
                Kind,
                "24 cm",
                [new(field, $"“{string.Concat(lead.After)}” is not a length that is known here.", Remedy)]
            );
        return lead.Number * each <= MaxMillimetres
            ? Outcome.Of(new Length(lead.Number * each))
            : Outcome.Refused<Length>(field, $"“{typed}” is longer than 100 m.", "Check the number and its unit.");
    }

    /// <summary>Three figures, in mm or cm: <c>38.1 mm</c>, <c>24 cm</c>.</summary>
    public override string ToString() => Millimetres < 99.5 ? $"{Figures.Say(Millimetres)} mm" : $"{Figures.Say(Millimetres / 10)} cm";

    internal static bool IsOne(IReadOnlyList<string> rest) => Unit(rest) is not null;

    private static double? Unit(IReadOnlyList<string> rest) =>
        string.Concat(rest).ToLower(CultureInfo.InvariantCulture) switch
        {
            "mm" or "millimetre" or "millimetres" or "millimeter" or "millimeters" => 1,
            "cm" or "centimetre" or "centimetres" or "centimeter" or "centimeters" => 10,
            "m" or "metre" or "metres" or "meter" or "meters" => 1000,
            "in" or "ins" or "inch" or "inches" or "\"" or "″" or "”" or "''" => 25.4,
            "ft" or "foot" or "feet" or "'" or "′" or "’" => 304.8,
            _ => null,
        };
}
