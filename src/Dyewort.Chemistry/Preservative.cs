using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>A preservative acid: only its undissociated share works.</summary>
/// <param name="SaltName">The salt that is sold.</param>
/// <param name="AcidName">The acid it becomes.</param>
/// <param name="PKa">At 25 °C.</param>
/// <param name="AcidShareOfSalt">Grams of acid per gram of salt.</param>
/// <param name="EnoughMilligramsPerLitre">Least awake acid that is worth calling protection; chosen here from published ranges, not
/// published for inks.</param>
/// <param name="AcidSolubilityGramsPerLitre">At 25 °C, from memory.</param>
public sealed record Preservative(
    string SaltName,
    string AcidName,
    double PKa,
    double AcidShareOfSalt,
    double EnoughMilligramsPerLitre,
    double AcidSolubilityGramsPerLitre
)
{
    /// <summary>Sodium benzoate; pKa 4.20.</summary>
    public static Preservative Benzoate { get; } = new("sodium benzoate", "benzoic acid", 4.20, 122.12 / 144.10, 200, 3.4);

    /// <summary>Potassium sorbate; pKa 4.76.</summary>
    public static Preservative Sorbate { get; } = new("potassium sorbate", "sorbic acid", 4.76, 112.13 / 150.22, 250, 1.6);

    /// <summary>Share of the acid that is awake (undissociated) at a pH, 0 to 1; no activity correction.</summary>
    public double AwakeShare(double ph) => 1 / (1 + Math.Pow(10, ph - PKa));

    /// <summary>What a dose does at a pH.</summary>
    /// <param name="ph">pH of the ink.</param>
    /// <param name="saltMilligramsPerLitre">Salt in it, mg/L.</param>
    public PreservativeEffect At(double ph, double saltMilligramsPerLitre)
    {
        var share = AwakeShare(ph);
        var awake = saltMilligramsPerLitre * AcidShareOfSalt * share;
        var crystals = Math.Max(0, awake - (AcidSolubilityGramsPerLitre * 1000));
        var enough = awake >= EnoughMilligramsPerLitre;
        var remedy = share < 0.3 ? "Make it more acid, or keep it cold and use it up." : "Use more of it, or keep it cold.";
        var verdict = enough
            ? "which slows most moulds. Not a guarantee: look and smell before use."
            : InvariantText.Of($"less than the {EnoughMilligramsPerLitre:0} that are worth having. {remedy}");
        var text = InvariantText.Of(
            $"At pH {ph:0.0} {100 * share:0.#} % of the {SaltName} is awake: {awake:0} mg per litre of {AcidName}, {verdict}"
        );
        return new(share, awake, enough, crystals, text);
    }
}

/// <summary>The effect of a preservative.</summary>
/// <param name="AwakeShare">0 to 1.</param>
/// <param name="AwakeMilligramsPerLitre">Undissociated acid.</param>
/// <param name="IsEnough">Whether that is worth calling protection.</param>
/// <param name="CrystalMilligramsPerLitre">Acid beyond its solubility, which may crystallise.</param>
/// <param name="Words">The same as a sentence.</param>
public sealed record PreservativeEffect(
    double AwakeShare,
    double AwakeMilligramsPerLitre,
    bool IsEnough,
    double CrystalMilligramsPerLitre,
    string Words
);
