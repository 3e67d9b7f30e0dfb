using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>A preservative: whether there is enough of it awake at this pH.</summary>
/// <param name="Acid">The acid that protects.</param>
/// <param name="Class">The salts of it.</param>
internal sealed record Preserved(Preservative Acid, SubstanceClasses Class) : JarRule
{
    public override IEnumerable<Remark> On(JarScene jar)
    {
        if (!jar.Holds(Class))
            yield break;
        var keeping = Acid.At(jar.Ph, jar.PureGrams(Class) * 1000 / jar.Litres);
        yield return new(
            keeping.IsEnough ? "preservative" : "preservative-asleep",
            keeping.Words,
            "share of the undissociated acid, 1/(1 + 10^(pH − pKa)); thresholds chosen here from published ranges",
            keeping.IsEnough ? RemarkWeight.Note : RemarkWeight.Caution
        );
        if (keeping.CrystalMilligramsPerLitre > 0)
            yield return new(
                "preservative-crystals",
                InvariantText.Of(
                    $"So much of it in this acid that about {keeping.CrystalMilligramsPerLitre / 1000:0.0} g per litre of {Acid.AcidName} "
                ) + "may crystallise out; the computed pH counts it as dissolved.",
                $"solubility of {Acid.AcidName} {Acid.AcidSolubilityGramsPerLitre:0.0} g/L at 25 °C (from memory)",
                RemarkWeight.Note
            );
    }
}

/// <summary>Benzoate and vitamin C.</summary>
internal sealed record BenzoateWithVitaminC() : OneRemark("benzoate-vitamin-c", Household, RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Holds(SubstanceClasses.Benzoate) && jar.Holds(SubstanceClasses.VitaminC)
            ? "Vitamin C with benzoate and light can form traces of benzene: do not combine them."
            : null;
}

/// <summary>Tap water that uses up acid.</summary>
internal sealed record HardWater() : OneRemark("hard-water", "mass balance of the water's bicarbonate")
{
    protected override string? Say(JarScene jar) =>
        jar.Contents is { Liquor: Liquor.TapWater { Alkalinity: > 50 } tap, Portions.Count: > 0 }
            ? "The tap water itself uses up acid: its alkalinity equals "
                + InvariantText.Of($"{tap.Alkalinity * 2 * 84.007 / 100.087 / 1000:0.00} g of bicarbonate of soda per litre.")
            : null;
}

/// <summary>Tap water that scales.</summary>
internal sealed record Scale() : OneRemark("scale", Solver)
{
    protected override string? Say(JarScene jar) =>
        jar.Contents.Liquor is Liquor.TapWater && jar.Report.Open.Solids.Any(solid => solid.Key == "Calcite") && jar.Solid("Calcite") == 0
            ? "On standing or heating, this water lets chalk fall out."
            : null;
}
