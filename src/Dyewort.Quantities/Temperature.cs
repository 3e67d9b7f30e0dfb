using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>A temperature of a pot or room, held in degrees Celsius.</summary>
/// <remarks>Range −50 to 300 °C, both ends allowed; never NaN; <c>default</c> is 0 °C. The ends guard against slips
/// (common practice, no source).</remarks>
public readonly record struct Temperature
{
    internal const string Kind = "a temperature";
    private const string Remedy = "Type degrees, such as 70 °C or 160 °F.";
    private const double Min = -50;
    private const double Max = 300;

    private Temperature(double celsius) => Celsius = celsius;

    /// <summary>Degrees Celsius.</summary>
    public double Celsius { get; }

    /// <summary>A temperature of so many degrees Celsius.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static Temperature FromCelsius(double celsius) =>
        celsius is >= Min and <= Max
            ? new(celsius)
            : throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "Allowed: −50 to 300 °C.");

    /// <summary>Reads <c>70</c>, <c>70 °C</c>, <c>185F</c> or <c>160 degrees Fahrenheit</c>; a bare number is Celsius.</summary>
    /// <remarks>°C = (°F − 32)/1.8 [SP811].</remarks>
    public static Outcome<Temperature> Parse(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        var below = typed.StartsWith('-') || typed.StartsWith('−') || typed.StartsWith('–');
        var read = AmountText.Lead(field, below ? typed[1..] : typed.TrimStart('+'), Remedy);
        if (!read.TryGet(out var lead))
            return QuantityKind.Refuse<Temperature>(field, typed, Kind, "72 °C", [new(field, $"“{typed}” is not a temperature.", Remedy)]);
        if (IsFahrenheit(lead.After) is not { } fahrenheit)
            return QuantityKind.Refuse<Temperature>(field, typed, Kind, "72 °C", [new(field, $"“{typed}” is not a temperature.", Remedy)]);
        var degrees = below ? -lead.Number : lead.Number;
        var celsius = fahrenheit ? (degrees - 32) / 1.8 : degrees;
        return celsius is >= Min and <= Max
            ? Outcome.Of(new Temperature(celsius))
            : Outcome.Refused<Temperature>(field, $"{typed} is outside −50 to 300 °C.", "Check the figure and its unit.");
    }

    /// <summary>To a tenth: <c>68 °C</c>.</summary>
    public override string ToString() => $"{Celsius.ToString("0.#", CultureInfo.InvariantCulture)} °C";

    /// <summary>True for a text that says degrees.</summary>
    internal static bool IsOne(string typed) =>
        AmountText.Lead("", typed.TrimStart('-', '−', '–', '+'), "").TryGet(out var lead)
        && lead.After.Count > 0
        && IsFahrenheit(lead.After) is not null;

    private static bool? IsFahrenheit(IReadOnlyList<string> rest) =>
        string.Concat(rest.SkipWhile(IsDegree)).ToUpperInvariant() switch
        {
            "F" or "FAHRENHEIT" => true,
            "" or "C" or "CELSIUS" or "CENTIGRADE" => false,
            _ => null,
        };

    private static bool IsDegree(string word) =>
        word is "°" or "º" || AmountText.Is(word, "deg") || AmountText.Is(word, "degree") || AmountText.Is(word, "degrees");
}
