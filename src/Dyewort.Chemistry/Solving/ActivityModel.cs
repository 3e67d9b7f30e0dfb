namespace Dyewort.Chemistry.Solving;

/// <summary>How much less active ions and water are than their amounts say, at one temperature.</summary>
/// <remarks>Ions by Davies' formula with b = 0.3 [Davies1962]; neutral species log γ = 0.1 I, as common geochemical programs take it
/// [Parkhurst1999]; water a = 1 − 0.017 Σm, the same programs' form of Raoult's law [Parkhurst1999]. Fitted below about 0.5
/// mol/kg.</remarks>
internal sealed class ActivityModel(double celsius)
{
    /// <summary>Above this ionic strength, mol/kg, the coefficients are held at its value: Davies' formula turns unphysical
    /// there.</summary>
    public const double Ceiling = 2;

    public const double Ln10 = 2.302585092994046;

    /// <summary>Largest charge of a species in the tables, of either sign.</summary>
    private const int MaxCharge = 5;

    private readonly double slope = Water.DebyeHuckelSlope(celsius);
    private readonly double[] lnGamma = new double[MaxCharge + 1];

    /// <summary>ln of the activity of water.</summary>
    public double LnWater { get; private set; }

    /// <summary>Activity of water beside so many mol/kg of dissolved things.</summary>
    public static double WaterActivity(double solutes) => Math.Max(0.3, 1 - (0.017 * solutes));

    /// <summary>ln of the activity coefficient of a species with this charge.</summary>
    public double LnGamma(int charge) => lnGamma[Math.Abs(charge)];

    /// <summary>Sets the coefficients for an ionic strength, mol/kg.</summary>
    public void SetStrength(double strength)
    {
        var held = Math.Min(strength, Ceiling);
        var root = Math.Sqrt(held);
        var davies = -slope * ((root / (1 + root)) - (0.3 * held)) * Ln10;
        for (var z = 1; z <= MaxCharge; z++)
            lnGamma[z] = davies * z * z;
        lnGamma[0] = 0.1 * held * Ln10;
    }

    /// <summary>Water alone, before anything is known.</summary>
    public void ForgetSolutes() => LnWater = 0;

    /// <summary>Sets the water's activity from what is dissolved, mol/kg.</summary>
    /// <returns>Whether it stayed as it was.</returns>
    public bool SetSolutes(double solutes)
    {
        var before = LnWater;
        LnWater = Math.Log(WaterActivity(solutes));
        return Math.Abs(LnWater - before) < Tolerances.WaterActivity;
    }
}
