using Dyewort.Numerics;

namespace Dyewort.Pots;

/// <summary>Water at the point of boiling away: its vapour pressure, its heat of vaporisation and what a hob can drive off at
/// most.</summary>
public static class Steam
{
    private const double CriticalKelvin = 647.096;
    private const double CriticalKilopascals = 22064;

    private static readonly double[] HeatAtCelsius = [0, 25, 40, 60, 80, 100];

    // kJ/kg along the saturation line.
    private static readonly double[] HeatKilojoulesPerKilogram = [2500.9, 2441.7, 2406.0, 2357.7, 2308.0, 2256.4];

    /// <summary>Heat that turns water into vapour of the same temperature.</summary>
    /// <param name="celsius">0 to 100 °C.</param>
    /// <returns>kJ per kg, within 0.3 of the table (straight lines between its rows).</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 100 °C, or NaN.</exception>
    /// <remarks>Source: enthalpy of vaporisation of water along the saturation line [CrcWater2010].</remarks>
    public static double HeatOfVaporisation(double celsius)
    {
        if (celsius is not (>= 0 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "Allowed: 0 to 100 °C.");
        var row = 1;
        while (HeatAtCelsius[row] < celsius)
            row++;
        var share = (celsius - HeatAtCelsius[row - 1]) / (HeatAtCelsius[row] - HeatAtCelsius[row - 1]);
        return HeatKilojoulesPerKilogram[row - 1] + (share * (HeatKilojoulesPerKilogram[row] - HeatKilojoulesPerKilogram[row - 1]));
    }

    /// <summary>The most that a heat can drive off, all of it going into vapour and none into the room.</summary>
    /// <param name="kilowattsReachingLiquor">What reaches the liquor, kW ≥ 0: less than the ring's rating.</param>
    /// <param name="celsius">Temperature of the liquor, 0 to 100 °C.</param>
    /// <returns>Litres of water (1 kg each) an hour: 1.6 per kW at the boil.</returns>
    public static double CeilingLitresPerHour(double kilowattsReachingLiquor, double celsius = 100) =>
        kilowattsReachingLiquor >= 0
            ? 3600 * kilowattsReachingLiquor / HeatOfVaporisation(celsius)
            : throw new ArgumentOutOfRangeException(nameof(kilowattsReachingLiquor), kilowattsReachingLiquor, "Allowed: 0 kW and more.");

    /// <summary>Vapour pressure of water.</summary>
    /// <param name="celsius">0 to 370 °C.</param>
    /// <returns>kPa.</returns>
    /// <remarks>Source: Wagner and Pruss 1993, equation 1 [WagnerPruss1993].</remarks>
    public static double VapourPressureKilopascals(double celsius)
    {
        if (celsius is not (>= 0 and <= 370))
            throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "Allowed: 0 to 370 °C.");
        var kelvin = celsius + 273.15;
        var tau = 1 - (kelvin / CriticalKelvin);
        var sum =
            (-7.85951783 * tau)
            + (1.84408259 * Math.Pow(tau, 1.5))
            - (11.7866497 * Math.Pow(tau, 3))
            + (22.6807411 * Math.Pow(tau, 3.5))
            - (15.9618719 * Math.Pow(tau, 4))
            + (1.80122502 * Math.Pow(tau, 7.5));
        return CriticalKilopascals * Math.Exp(CriticalKelvin / kelvin * sum);
    }

    /// <summary>Where water boils at a height above the sea: what a dial thermometer should read in boiling water.</summary>
    /// <param name="metresAboveSea">−400 to 5000 m.</param>
    /// <returns>°C, for the standard atmosphere; weather moves it by about ±1 °C.</returns>
    /// <remarks>Source: International Standard Atmosphere, pressure with height [Iso2533].</remarks>
    public static double BoilingCelsius(double metresAboveSea)
    {
        if (metresAboveSea is not (>= -400 and <= 5000))
            throw new ArgumentOutOfRangeException(nameof(metresAboveSea), metresAboveSea, "Allowed: −400 to 5000 m.");
        var kilopascals = 101.325 * Math.Pow(1 - (0.0065 * metresAboveSea / 288.15), 5.25588);
        // Between the heights allowed water boils within these temperatures, so the bracket always holds.
        return Bisection.Narrow(60, 110, 1e-12, celsius => VapourPressureKilopascals(celsius) < kilopascals).Middle;
    }
}
