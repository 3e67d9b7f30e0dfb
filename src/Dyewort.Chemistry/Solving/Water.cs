namespace Dyewort.Chemistry.Solving;

/// <summary>What the activity formula needs to know about water.</summary>
internal static class Water
{
    public const double MolarMass = 18.015;

    /// <summary>Density of air-free water at 1 atm, kg/m³, 0 to 100 °C. Source: Kell 1975 [Kell1975], eq. 16.</summary>
    public static double Density(double celsius)
    {
        var t = celsius;
        return (
                999.83952
                + (16.945176 * t)
                - (7.9870401e-3 * t * t)
                - (46.170461e-6 * t * t * t)
                + (105.56302e-9 * t * t * t * t)
                - (280.54253e-12 * t * t * t * t * t)
            ) / (1 + (16.879850e-3 * t));
    }

    /// <summary>Relative permittivity at 1 bar, 0 to 100 °C. Source: Bradley and Pitzer 1979 [BradleyPitzer1979], eq. 1.</summary>
    public static double Permittivity(double celsius)
    {
        var t = celsius + 273.15;
        var d1000 = 3.4279e2 * Math.Exp((-5.0866e-3 * t) + (9.4690e-7 * t * t));
        var c = -2.0525 + (3.1159e3 / (-1.8289e2 + t));
        var b = -8.0325e3 + (4.2142e6 / t) + (2.1417 * t);
        return d1000 + (c * Math.Log((b + 1) / (b + 1000)));
    }

    /// <summary>The Debye–Hückel limiting slope A for log10 γ on molality, (kg/mol)^½: 0.51 at 25 °C.</summary>
    public static double DebyeHuckelSlope(double celsius)
    {
        var product = Permittivity(celsius) * (celsius + 273.15);
        return 1.82483e6 * Math.Sqrt(Density(celsius) / 1000) / (product * Math.Sqrt(product));
    }
}
