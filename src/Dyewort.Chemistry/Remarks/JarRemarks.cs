namespace Dyewort.Chemistry;

/// <summary>Reasons and warnings in plain words, each with its rule.</summary>
internal static class JarRemarks
{
    /// <summary>All rules; of remarks that weigh the same, the earlier rule's come first.</summary>
    private static readonly JarRule[] Rules =
    [
        // What must not meet.
        new Bleach(),
        // Gas.
        new Foam(),
        new FizzesWhereItFalls(),
        new NoTightCap(),
        new DriftsUp(),
        new DriftsDown(),
        new BoiledBicarbonate(),
        // What does not dissolve.
        new Undissolved(),
        new IronSludge(),
        new CopperSludge(),
        new WhiteSludge(),
        new Suspended(),
        // Colour and paper.
        new IronWithTannin(),
        new AcidIron(),
        new NearLake(),
        // Poisons and burns.
        new CopperPoison(),
        new IronPoison(),
        new Caustic(),
        new AmmoniaFumes(),
        new AmmoniaReleased(),
        new StrongAcid(),
        new AlcoholVapour(),
        new AlcoholModel(),
        new Care(),
        // Keeping.
        new Preserved(Preservative.Benzoate, SubstanceClasses.Benzoate),
        new BenzoateWithVitaminC(),
        new Preserved(Preservative.Sorbate, SubstanceClasses.Sorbate),
        new Wintergreen(),
        // Water.
        new HardWater(),
        new Scale(),
        // How far the figures can be trusted.
        new NotInTheSums(),
        new AlumModel(),
        new IronModel(),
        new OutsideRange(),
        new TanninNotComputed(),
        new UnstatedStrength(),
        new UntestedLiquor(),
        new WeaklyHeld(),
        new AmmoniaLeaves(),
    ];

    public static IReadOnlyList<Remark> On(JarContents contents, double celsius, JarReport report)
    {
        var jar = new JarScene(contents, celsius, report);
        return [.. Rules.SelectMany(rule => rule.On(jar)).OrderByDescending(remark => remark.Weight)];
    }
}
