using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>A temperature of a pot or room, held in degrees Celsius.</summary>
/// <remarks>Range −50 to 300 °C, both ends allowed; never NaN; <c>default</c> is 0 °C. The ends guard against slips
/// (common practice, no source).</remarks>
public readonly record struct Temperature
{
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

    /// <summary>Reads <c>70</c>, <c>70 C</c>, <c>70 °C</c> or <c>160 °F</c>; a bare number is Celsius.</summary>
    /// <remarks>°C = (°F − 32)/1.8 [SP811].</remarks>
    public static Outcome<Temperature> Parse(string field, string? text)
    {
        var typed = (text ?? "").Trim();
        var number = typed.TrimEnd('C', 'c', 'F', 'f').TrimEnd().TrimEnd('°', 'º').TrimEnd().Replace('−', '-').Replace(',', '.');
        var unit = typed.Length > 0 ? char.ToUpperInvariant(typed[^1]) : ' ';
        if (
            !double.TryParse(
                number,
                NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture,
                out var degrees
            )
        )
            return Outcome.Refused<Temperature>(field, $"“{typed}” is not a temperature.", "Type degrees, such as 70 °C or 160 °F.");
        var celsius = unit == 'F' ? (degrees - 32) / 1.8 : degrees;
        return celsius is >= Min and <= Max
            ? Outcome.Of(new Temperature(celsius))
            : Outcome.Refused<Temperature>(field, $"{typed} is outside −50 to 300 °C.", "Check the figure and its unit.");
    }

    /// <summary>To a tenth: <c>68 °C</c>.</summary>
    public override string ToString() => $"{Celsius.ToString("0.#", CultureInfo.InvariantCulture)} °C";
}
