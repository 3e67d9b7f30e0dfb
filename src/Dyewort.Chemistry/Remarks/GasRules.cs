using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Chlorine bleach has no place in an ink, and is worse beside acid or ammonia.</summary>
internal sealed record Bleach() : OneRemark("bleach", Household, RemarkWeight.Stop)
{
    protected override string? Say(JarScene jar)
    {
        if (!jar.Holds(SubstanceClasses.Bleach))
            return null;
        var partner =
            jar.Holds(SubstanceClasses.Ammonia) || jar.Has("AmmH+") ? "with ammonia it gives off chloramine"
            : jar.IsAcid || jar.Holds(SubstanceClasses.Acid) ? "with any acid it gives off chlorine"
            : "acids, alum and ammonia turn it into poisonous gas";
        return $"Do not: chlorine bleach has no place in an ink, and {partner}. Get into fresh air if it was mixed.";
    }
}

/// <summary>Acid on carbonate: so much gas that it froths over.</summary>
internal sealed record Foam() : OneRemark("foam", $"acid on carbonate, {Solver}; gas volume at the jar's temperature", RemarkWeight.Caution)
{
    /// <summary>Gas as a share of the liquid from which it is worth a word (common practice, no source).</summary>
    private const double WorthAWord = 0.02;

    public static bool IsMuch(JarState state) => state.GasMillilitres > WorthAWord * state.VolumeMillilitres;

    protected override string? Say(JarScene jar) =>
        IsMuch(jar.State)
            ? $"It foams: about {Said.Volume(jar.State.GasMillilitres)} of carbon dioxide leaves. Add the second part a little at a time "
                + $"in a vessel with {Said.Volume(jar.Report.HeadSpaceMillilitres)} of free room above the liquid."
            : null;
}

/// <summary>Carbonate that meets acid where it falls, though the gas stays dissolved once all is stirred.</summary>
internal sealed record FizzesWhereItFalls() : OneRemark("fizzes-where-it-falls", $"acid on carbonate; the end by {Solver}")
{
    private const double WorthAWordMillilitres = 2;

    protected override string? Say(JarScene jar) =>
        Foam.IsMuch(jar.State) || jar.Report.FizzMillilitres < WorthAWordMillilitres
            ? null
            : "It fizzes where carbonate and acid meet, before it is stirred"
                + InvariantText.Of(
                    $": up to {Said.Volume(jar.Report.FizzMillilitres)} of gas if all of it escapes there. Stirred in, most "
                )
                + "stays dissolved. Leave room in the jar and add it a little at a time.";
}

/// <summary>The same gas shut in.</summary>
internal sealed record NoTightCap() : OneRemark("no-tight-cap", $"Henry's law, {Solver}", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        Foam.IsMuch(jar.State)
            ? "Leave the cap loose until it is quiet, best for a day: shut in, the gas would press with about "
                + InvariantText.Of($"{jar.Report.Sealed.CarbonDioxidePressureAtm:0.#} atmospheres or more.")
            : null;
}

/// <summary>Carbon dioxide that leaves an open jar over days.</summary>
internal sealed record DriftsUp() : OneRemark("drifts-up", $"balance with 420 ppm CO2, {Solver}")
{
    /// <summary>A drift of the pH that a strip shows.</summary>
    public const double WorthAWord = 0.5;

    public static bool Applies(JarScene jar) =>
        jar.Has("CO3-2") && jar.Report.Open.Ph - jar.Ph > WorthAWord && jar.Contents.Liquor is not Liquor.TapWater;

    protected override string? Say(JarScene jar) =>
        Applies(jar)
            ? InvariantText.Of($"Left open, it slowly loses carbon dioxide and drifts towards pH {jar.Report.Open.Ph:0.0} over days.")
            : null;
}

/// <summary>Carbon dioxide that an alkaline jar takes up.</summary>
internal sealed record DriftsDown() : OneRemark("drifts-down", $"balance with 420 ppm CO2, {Solver}")
{
    protected override string? Say(JarScene jar) =>
        !DriftsUp.Applies(jar) && jar.Ph - jar.Report.Open.Ph > DriftsUp.WorthAWord && jar.Ph > 8
            ? InvariantText.Of(
                $"Left open, it takes up carbon dioxide from the air and drifts towards pH {jar.Report.Open.Ph:0.0} over days."
            )
            : null;
}

/// <summary>Bicarbonate that is boiled.</summary>
internal sealed record BoiledBicarbonate()
    : OneRemark("boiled-bicarbonate", "2 HCO3- = CO3-2 + CO2 + H2O; general chemistry", RemarkWeight.Caution)
{
    protected override string? Say(JarScene jar) =>
        jar.Celsius >= 80 && jar.Holds(SubstanceClasses.Bicarbonate)
            ? "Boiling drives carbon dioxide off and makes washing soda: the pH climbs well above what cold bicarbonate gives. "
                + "Add bicarbonate after heating, and cold."
            : null;
}
