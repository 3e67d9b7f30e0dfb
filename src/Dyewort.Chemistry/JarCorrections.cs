namespace Dyewort.Chemistry;

/// <summary>How a jar is computed.</summary>
public enum JarModel
{
    /// <summary>With what the constants are known to miss laid over them: what a maker's strip or meter reads.</summary>
    Corrected = 0,

    /// <summary>The published constants alone, to compare with other programs that hold the same ones.</summary>
    PlainConstants,
}

/// <summary>What is laid over the plain constants where real solutions are known to read otherwise.</summary>
/// <param name="BasicAluminiumSulfate">Counts the species AlOHSO4, fitted so that 5 % of alum reads 3.3.</param>
/// <param name="OxidisedIron">Share of the iron(II) that air has oxidised in the crystals, 0 to 1.</param>
/// <param name="FreeAcidInCopper">Sulfuric acid that crystals of copper sulfate carry, mol for each of copper.</param>
/// <param name="OwnAcids">How many times the usual acid gum, honey and tannin bring; 0 leaves them out.</param>
internal sealed record JarCorrections(bool BasicAluminiumSulfate, double OxidisedIron, double FreeAcidInCopper, double OwnAcids)
{
    /// <summary>Iron salts of commerce: a fifth of a percent of the iron brings a solution of 50 g/L into the pharmacopoeia's pH 3 to 4;
    /// its
    /// limit on iron(III) lies well above.</summary>
    public const double UsualOxidisedIron = 0.002;

    /// <summary>Crystals of copper sulfate carry a trace of the acid they grew from: with this much 50 g/L read 4.2, within the 3.5 to 4.5
    /// of
    /// supplier sheets (from memory).</summary>
    public const double UsualFreeAcidInCopper = 0.0003;

    private static readonly string[] FittedSpecies = ["AlOHSO4"];

    /// <summary>The constants alone.</summary>
    public static JarCorrections None { get; } = new(false, 0, 0, 0);

    /// <summary>What is met in practice.</summary>
    public static JarCorrections Usual { get; } = new(true, UsualOxidisedIron, UsualFreeAcidInCopper, 1);

    /// <summary>Species beyond the default set that it counts.</summary>
    public IReadOnlyList<string> Species => BasicAluminiumSulfate ? FittedSpecies : [];

    public static JarCorrections Of(JarModel model) => model == JarModel.PlainConstants ? None : Usual;

    /// <summary>Changes the moles of each component in the whole jar.</summary>
    public void Apply(JarContents contents, Dictionary<string, double> totals)
    {
        if (OxidisedIron > 0 && totals.GetValueOrDefault("Fe+2") is > 0 and var iron)
        {
            // Fe(II) + ¼ O2 + 2½ H2O = Fe(OH)3 + 2 H+: what rusted leaves two acids behind. The speck of rust is nothing anybody sees.
            var oxidised = OxidisedIron * iron;
            totals["Fe+2"] = iron - oxidised;
            totals["H+"] = totals.GetValueOrDefault("H+") + (2 * oxidised);
        }

        if (
            FreeAcidInCopper > 0
            && totals.GetValueOrDefault("Cu+2") is > 0 and var copper
            && totals.GetValueOrDefault("SO4-2") is > 0 and var sulfate
        )
        {
            var free = FreeAcidInCopper * Math.Min(copper, sulfate);
            totals["SO4-2"] = sulfate + free;
            totals["H+"] = totals.GetValueOrDefault("H+") + (2 * free);
        }

        var acid = OwnAcids * OwnAcidOf(contents);
        if (acid <= 0)
            return;
        totals["Extract4-"] = totals.GetValueOrDefault("Extract4-") + acid;
        totals["H+"] = totals.GetValueOrDefault("H+") + acid;
    }

    /// <summary>mol of weak acid (pKa 4.4) that gum, honey and tannin in a jar usually bring.</summary>
    /// <remarks>Tannic acid so that 1 % reads about pH 3.5, gum so that 3 % reads about 4.7 (both from memory); honey 25 mmol/kg of free
    /// acid (from memory).</remarks>
    public static double OwnAcidOf(JarContents contents) =>
        contents.Portions.Sum(portion =>
            portion.PureGrams
            * portion.Substance.Key switch
            {
                "tannic-acid" => 0.25e-3,
                "gum-arabic" => 0.002e-3,
                "honey" => 0.025e-3,
                _ => 0,
            }
        );
}
