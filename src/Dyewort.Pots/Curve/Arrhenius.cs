using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>A rate that grows with heat: k(T) = k(T₀) · exp(−E/R · (1/T − 1/T₀)).</summary>
/// <param name="Rate">The rate at <paramref name="Celsius"/>, in any unit per time.</param>
/// <param name="Celsius">The temperature it holds at, °C.</param>
/// <param name="KilojoulesPerMole">Activation energy E, kJ/mol.</param>
public readonly record struct Arrhenius(double Rate, double Celsius, double KilojoulesPerMole)
{
    private const double GasConstant = 8.314462618e-3;
    private const double Zero = 273.15;

    /// <summary>The rate at another temperature, above absolute zero.</summary>
    public double At(double celsius) => Rate * Factor(KilojoulesPerMole, Celsius, celsius);

    /// <summary>How many times faster ten degrees above a temperature than at it.</summary>
    public double Q10(double celsius) => Factor(KilojoulesPerMole, celsius, celsius + 10);

    /// <summary>Rate at one temperature over rate at another.</summary>
    public static double Factor(double kilojoulesPerMole, double fromCelsius, double toCelsius) =>
        Math.Exp(kilojoulesPerMole * Exponent(fromCelsius, toCelsius));

    /// <summary>What one kilojoule per mole adds to the logarithm of a rate between two temperatures.</summary>
    internal static double Exponent(double fromCelsius, double toCelsius) =>
        ((1 / (fromCelsius + Zero)) - (1 / (toCelsius + Zero))) / GasConstant;

    /// <summary>Fits a rate and an activation energy to rates at two or more temperatures: a straight line of ln k over 1/T.</summary>
    /// <param name="rates">Temperature in °C and rate, all rates above zero, at least two different temperatures.</param>
    /// <param name="atCelsius">The temperature to state the rate at.</param>
    public static Outcome<Arrhenius> Fit(IReadOnlyList<(double Celsius, double Rate)> rates, double atCelsius)
    {
        if (rates.Any(one => !(one.Rate > 0 && double.IsFinite(one.Rate) && one.Celsius is > -Zero and < 1000)))
            return Outcome.Refused<Arrhenius>(
                "rates",
                "A rate that is not above zero has no logarithm.",
                "Leave out rates that are zero or unreadable."
            );
        if (rates.Select(one => one.Celsius).Distinct().Count() < 2)
            return Outcome.Refused<Arrhenius>(
                "rates",
                "One temperature alone says nothing of how heat speeds it up.",
                "Give rates at two temperatures or more."
            );

        var x = rates.Select(one => 1 / (one.Celsius + Zero)).ToArray();
        var y = rates.Select(one => Math.Log(one.Rate)).ToArray();
        var (meanX, meanY) = (x.Average(), y.Average());
        var slope = x.Zip(y, (a, b) => (a - meanX) * (b - meanY)).Sum() / x.Sum(a => (a - meanX) * (a - meanX));
        return Outcome.Of(new Arrhenius(Math.Exp(meanY + (slope * ((1 / (atCelsius + Zero)) - meanX))), atCelsius, -slope * GasConstant));
    }
}
