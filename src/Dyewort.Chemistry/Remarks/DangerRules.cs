using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Chemistry;

/// <summary>Iron with tannin: the black that eats paper.</summary>
internal sealed record IronWithTannin()
    : OneRemark("iron-with-tannin", "workshop accounts; damage by iron sulfate: Restaurator 21(4), 204–212", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.HasIron && jar.HasTannin
            ? "Iron with tannin turns grey to blue-black and goes on darkening for days; an acid iron ink eats into paper over the years."
            : null;
}

/// <summary>Iron without tannin, in acid.</summary>
internal sealed record AcidIron() : OneRemark("acid-iron", "Restaurator 21(4), 204–212", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.HasIron && !jar.HasTannin && jar.Ph < 4
            ? "Iron in an acid liquid harms paper and cloth over the years: use little, and let it dry on buffered paper."
            : null;
}

/// <summary>Copper is poisonous in any salt.</summary>
internal sealed record CopperPoison() : OneRemark("copper", "CLP Annex VI 029-023-00-4", RemarkWeight.Caution)
{
    private const double MolarMass = 63.546;

    protected override string? Say(JarScene jar) =>
        jar.Has("Cu+2")
            ? InvariantText.Of(
                $"Copper is poisonous, above all to water life ({jar.Moles("Cu+2") * MolarMass / jar.Litres * 1000:0} mg per litre here): "
            ) + "gloves and goggles, keep it from children and pets, nothing of it down the drain. Ask your local waste service."
            : null;
}

/// <summary>Iron salts that are classified as harmful when swallowed.</summary>
internal sealed record IronPoison() : OneRemark("iron-salt", "CLP Annex VI 026-003-01-4", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.HasIron
        && jar.Contents.Portions.Any(portion =>
            portion.Substance.Hazard?.HCodes.Contains("H302", StringComparison.Ordinal) == true
            && (portion.Substance.Gives("Fe+2") || portion.Substance.Gives("Fet+3"))
        )
            ? "Iron salts make children gravely ill when swallowed: lock the jar away. It stains everything."
            : null;
}

/// <summary>Lime and lye, or anything as alkaline.</summary>
internal sealed record Caustic() : OneRemark("caustic", $"H314/H318 classifications; {Household}", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Holds(SubstanceClasses.Caustic) || jar.Ph > 11.5
            ? InvariantText.Of(
                $"Caustic: lime and lye burn eyes for good and skin slowly (pH {jar.Ph:0.0}). Goggles and gloves, powder into cold water, "
            ) + "never near aluminium pans; rinse an eye for many minutes and call a doctor."
            : null;
}

/// <summary>Ammonia itself.</summary>
internal sealed record AmmoniaFumes() : OneRemark("ammonia-fumes", "H314, H335 for 5 to 10 % solutions", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Holds(SubstanceClasses.Ammonia)
            ? "Ammonia fumes choke and burn the eyes: window open, lid on, never heated, and never anywhere near chlorine bleach. "
                + "Poison centre or doctor if breathed."
            : null;
}

/// <summary>Ammonia that an alkali drives out of a salt.</summary>
internal sealed record AmmoniaReleased() : OneRemark("ammonia-released", Household, RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        !jar.Holds(SubstanceClasses.Ammonia) && jar.Has("AmmH+") && jar.Ph > 8.5
            ? InvariantText.Of($"At pH {jar.Ph:0.0} the ammonium salt gives off ammonia: ventilate, and keep chlorine bleach far away.")
            : null;
}

/// <summary>Acid as sour as lemon juice or more.</summary>
internal sealed record StrongAcid() : OneRemark("strong-acid", Household, RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Ph < 2.2
            ? InvariantText.Of($"At pH {jar.Ph:0.0} it smarts in eyes and cuts, and etches marble, limestone and chipped enamel.")
            : null;
}

/// <summary>Spirit that can catch fire.</summary>
internal sealed record AlcoholVapour()
    : OneRemark("alcohol-vapour", "flash points of ethanol and water, read cautiously (flash_points.csv); H225", RemarkWeight.Caution)
{
    /// <summary>Ethanol, % by volume, from which a jar is treated as spirit.</summary>
    public const double LeastPercent = 5;

    protected override string? Say(JarScene jar)
    {
        var percent = jar.Report.AlcoholPercent;
        return percent >= LeastPercent
            ? InvariantText.Of($"{percent:0} % alcohol: its vapour can catch fire from about {AlcoholMix.FlashPoint(percent):0} °C. ")
                + (AlcoholMix.FlashWarning(percent, jar.Celsius) is { Length: > 0 } now ? now + " " : "")
                + "No flame, no hot plate, window open; warm it only in hot water taken off the heat."
            : null;
    }
}

/// <summary>Each substance's own care, where no other rule has said it better.</summary>
internal sealed record Care : JarRule
{
    public override IEnumerable<Remark> On(JarScene jar)
    {
        foreach (var named in jar.Portions.Select(portion => portion.Named))
        {
            var substance = named.Substance;
            if (named.Hazard is not { SignalWord: not "none" } hazard || substance.IsAny(SubstanceClasses.SaidElsewhere))
                continue;
            yield return new(
                "care",
                $"{Said.Capital(substance.Name)}: {hazard.Caution}",
                hazard.HCodes.Length > 0 ? $"{hazard.SignalWord}; {hazard.HCodes}. {Hazard.GoesFirst}" : Hazard.GoesFirst,
                hazard.SignalWord == "Danger" ? RemarkWeight.Caution : RemarkWeight.Note
            );
        }
    }
}

/// <summary>An oil that is taken for a preservative and is a poison.</summary>
internal sealed record Wintergreen() : OneRemark("wintergreen", "Davis 2007, J. Emerg. Med. 32, 63", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Holds(SubstanceClasses.Wintergreen)
            ? "Oil of wintergreen is poisonous (a teaspoon has killed small children) and unproven as a preservative: better left out."
            : null;
}
