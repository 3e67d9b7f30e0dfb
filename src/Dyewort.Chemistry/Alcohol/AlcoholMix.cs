using Dyewort.Numerics;

namespace Dyewort.Chemistry;

/// <summary>Ethanol and water: density, the shrinkage on mixing, and the flash point.</summary>
/// <remarks>Strength means ml of ethanol, as if alone, in 100 ml of the mixture, both at 20 °C, as on a bottle. Measured at 20
/// °C.</remarks>
public static class AlcoholMix
{
    private const double WaterDensity = 0.99820123;

    // Coefficients A1 to A12 of the general formula at 20 °C, kg/m³, p as mass fraction [OIML-R22].
    private static readonly double[] Coefficients =
    [
        998.20123,
        -192.9769495,
        389.1238958,
        -1668.103923,
        13522.15441,
        -88292.78388,
        306287.4042,
        -613838.1234,
        747017.2998,
        -547846.1354,
        223446.0334,
        -39032.85426,
    ];

    private static readonly Lazy<(double Percent, double Celsius)[]> Flash = new(() =>
        [
            .. TextTable
                .Embedded(typeof(Jar), "flash_points.csv")
                .Rows.Select(row => (row.NumberOf("percent"), row.NumberOf("flash_point_c"))),
        ]
    );

    /// <summary>Density at 20 °C of ethanol and water by mass fraction, g/ml. Source: [OIML-R22], general formula at 20 °C.</summary>
    /// <param name="massFraction">Grams of ethanol per gram, 0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside 0 to 1.</exception>
    public static double Density(double massFraction)
    {
        if (!(massFraction is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(massFraction), massFraction, "Allowed: 0 to 1.");
        var sum = 0.0;
        for (var k = Coefficients.Length - 1; k >= 0; k--)
            sum = (sum * massFraction) + Coefficients[k];
        return sum / 1000;
    }

    /// <summary>Mass fraction of ethanol at a strength in % by volume, 0 to 100.</summary>
    public static double MassFraction(double percentByVolume)
    {
        if (!(percentByVolume is >= 0 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(percentByVolume), percentByVolume, "Allowed: 0 to 100 % by volume.");
        // At 0 and 100 % the answer is the end itself.
        return Bisection.Narrow(0, 1, 1e-16, middle => PercentByVolume(middle) < percentByVolume).Middle;
    }

    /// <summary>Strength in % by volume at a mass fraction.</summary>
    public static double PercentByVolume(double massFraction) => Math.Min(100, 100 * massFraction * Density(massFraction) / Density(1));

    /// <summary>Density at a strength in % by volume, g/ml at 20 °C.</summary>
    public static double DensityAtStrength(double percentByVolume) => Density(MassFraction(percentByVolume));

    /// <summary>What mixing gives: volumes shrink, masses do not.</summary>
    /// <param name="parts">Millilitres and strength (% by volume) of each part, at 20 °C; water is strength 0.</param>
    public static AlcoholBlend Mix(IReadOnlyList<(double Millilitres, double PercentByVolume)> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var (mass, ethanol, volume) = (0.0, 0.0, 0.0);
        foreach (var (millilitres, strength) in parts)
        {
            if (!(millilitres >= 0) || !double.IsFinite(millilitres))
                throw new ArgumentOutOfRangeException(nameof(parts), millilitres, "A volume is 0 ml or more.");
            var grams = millilitres * DensityAtStrength(strength);
            mass += grams;
            ethanol += grams * MassFraction(strength);
            volume += millilitres;
        }

        if (mass == 0)
            return new(0, 0, 0, 0);
        var fraction = ethanol / mass;
        var after = mass / Density(fraction);
        return new(after, PercentByVolume(fraction), ethanol, volume - after);
    }

    /// <summary>How much spirit brings a water ink to a strength.</summary>
    /// <param name="inkMillilitres">Ink, ml, with <paramref name="inkPercent"/> alcohol.</param>
    /// <param name="inkPercent">% by volume in the ink, usually 0.</param>
    /// <param name="spiritPercent">% by volume of the spirit; must be above the goal.</param>
    /// <param name="goalPercent">% by volume wanted.</param>
    /// <returns>Millilitres of spirit.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The goal does not lie between ink and spirit.</exception>
    public static double SpiritToReach(double inkMillilitres, double inkPercent, double spiritPercent, double goalPercent)
    {
        if (!(goalPercent >= inkPercent && goalPercent < spiritPercent))
            throw new ArgumentOutOfRangeException(
                nameof(goalPercent),
                goalPercent,
                "The goal must lie between the ink's strength and the spirit's."
            );
        var (ink, spirit, goal) = (MassFraction(inkPercent), MassFraction(spiritPercent), MassFraction(goalPercent));
        var inkGrams = inkMillilitres * Density(ink);
        return inkGrams * (goal - ink) / (spirit - goal) / Density(spirit);
    }

    /// <summary>Flash point in °C, closed cup, read cautiously; null below 5 % by volume, where the table ends and nothing is known to
    /// flash below 62 °C.</summary>
    /// <remarks>Published by weight in one place and by volume in another: read as by volume, which gives the lower flash point.</remarks>
    public static double? FlashPoint(double percentByVolume)
    {
        var points = Flash.Value;
        if (!(percentByVolume >= points[0].Percent))
            return null;
        for (var i = 1; i < points.Length; i++)
        {
            if (percentByVolume > points[i].Percent)
                continue;
            var (a, b) = (points[i - 1], points[i]);
            return a.Celsius + ((percentByVolume - a.Percent) / (b.Percent - a.Percent) * (b.Celsius - a.Celsius));
        }

        return points[^1].Celsius;
    }

    /// <summary>What to say of spirit at a temperature beside its flash point; empty where it is well below it, or too weak to
    /// flash.</summary>
    /// <param name="percentByVolume">Ethanol, % by volume.</param>
    /// <param name="celsius">Temperature of the liquid, °C.</param>
    /// <remarks>Near is within 5 °C below, far above is 15 °C and more over it (common practice, no source): the figures of the table
    /// differ
    /// by so much between sources.</remarks>
    public static string FlashWarning(double percentByVolume, double celsius)
    {
        if (FlashPoint(percentByVolume) is not { } flash || celsius < flash - 5)
            return "";
        var (at, than) = (Math.Round(celsius), Math.Round(flash));
        var where =
            celsius >= flash + 15 ? FormattableString.Invariant($"far above its flash point ({than} °C)")
            : celsius >= flash ? FormattableString.Invariant($"above its flash point ({than} °C)")
            : FormattableString.Invariant($"close to its flash point ({than} °C)");
        return FormattableString.Invariant($"At {at} °C it is {where}: no flame, off the hob, lid on, fresh air.");
    }

    /// <summary>Grams of water in a millilitre at 20 °C.</summary>
    internal static double WaterGramsPerMillilitre => WaterDensity;
}

/// <summary>A mixture of spirit and water.</summary>
/// <param name="Millilitres">Volume after mixing, at 20 °C.</param>
/// <param name="PercentByVolume">Strength.</param>
/// <param name="EthanolGrams">Ethanol in it.</param>
/// <param name="ShrinkageMillilitres">How much less it is than the sum of its parts.</param>
public sealed record AlcoholBlend(double Millilitres, double PercentByVolume, double EthanolGrams, double ShrinkageMillilitres);
