namespace Dyewort.Chemistry.Solving;

/// <summary>When the solver is content, and where each figure comes from.</summary>
/// <remarks>All are chosen here. Double precision keeps 1.1e-16 of a number; a balance adds some hundred terms, so a few 1e-14 of its own
/// size is what rounding leaves. A pH shows two decimals: 1e-3 in ln activity. Between those two ends each figure is as strict as it can be
/// without asking for what rounding has taken; the tests hold balances to 1e-9 and the computed pH to the published ones.</remarks>
internal static class Tolerances
{
    /// <summary>Mass balance of a component, relative to the size of its own terms: two hundred roundings.</summary>
    public const double Balance = 2e-14;

    /// <summary>ln of saturation of a limit that holds: the exponents are sums of numbers up to some 200, each good to 3e-14.</summary>
    public const double Saturation = 1e-12;

    /// <summary>ln of supersaturation from which a solid is let in; well above <see cref="Saturation"/>, or solids would go in and out for
    /// ever.</summary>
    public const double Supersaturation = 1e-10;

    /// <summary>mol/kg of a solid below which it is taken out again: rounding of an amount of one mole.</summary>
    public const double NegativeAmount = -1e-14;

    /// <summary>mol/kg of a solid worth reporting: a hundred-thousandth of a milligram per litre.</summary>
    public const double ReportedAmount = 1e-13;

    /// <summary>Step in ln molality from which on a further one cannot be told from rounding.</summary>
    public const double SmallestStep = 1e-13;

    /// <summary>Longest step in ln molality: a factor of twenty. Uphill steps overshoot an exponential badly, downhill steps never do:
    /// hence a cap on the way up only matters far from the answer.</summary>
    public const double LongestStep = 3;

    /// <summary>Error of the interior point at which it can be told which limits hold: Newton's method on those does the rest.</summary>
    public const double InteriorNear = 1e-7;

    /// <summary>Sum of slack times amount that belongs to <see cref="InteriorNear"/>, mol/kg.</summary>
    public const double InteriorNearComplement = 1e-8;

    /// <summary>Error of the interior point that is as good as it gets.</summary>
    public const double InteriorDone = 1e-10;

    /// <summary>Sum of slack times amount that belongs to <see cref="InteriorDone"/>, mol/kg.</summary>
    public const double InteriorDoneComplement = 1e-13;

    /// <summary>Change of ln water activity between two passes.</summary>
    public const double WaterActivity = 1e-10;

    /// <summary>mol/kg of ionic strength that moves no pH anybody could measure: good enough where rounding forbids more.</summary>
    public const double EnoughStrength = 1e-6;

    /// <summary>How well the ionic strength of the answer meets the one it was computed with, mol/kg.</summary>
    /// <param name="strength">Ionic strength, mol/kg.</param>
    /// <param name="largestTotal">Largest total of a component, mol/kg: large heaps of solid beside a little dissolved salt leave rounding
    /// of this size in the ionic strength.</param>
    public static double Strength(double strength, double largestTotal) => 1e-10 + (1e-9 * strength) + (1e-12 * largestTotal);

    /// <summary>An answer as good as this is taken at once: balances to a billionth, saturation to a millionth.</summary>
    public const double SoundFault = 5e-10;
}
