using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Each solid that lies in the jar, in the words that its kind needs.</summary>
internal sealed record Undissolved : JarRule
{
    /// <summary>Solids that <see cref="IronSludge"/>, <see cref="CopperSludge"/> and <see cref="WhiteSludge"/> name together.</summary>
    private static readonly HashSet<string> NamedTogether = [.. IronSludge.Solids, .. CopperSludge.Solids, .. WhiteSludge.Solids];

    public override IEnumerable<Remark> On(JarScene jar)
    {
        foreach (var solid in jar.State.Solids)
        {
            if (solid.IsSuspension || solid.Grams <= JarScene.SmallestSeenGrams || NamedTogether.Contains(solid.Key))
                continue;
            var isAdded = jar.Contents.Portions.Any(portion => portion.Substance.SolidName == solid.Key);
            yield return Of(solid, Said.Grams(solid.Grams), isAdded, jar.Celsius);
        }
    }

    private static Remark Of(UndissolvedSolid solid, string grams, bool isAdded, double celsius) =>
        solid.Key switch
        {
            "KHTartrate" when isAdded => new(
                "saturated-cream-of-tartar",
                $"Saturated: {grams} of the cream of tartar lies undissolved, and more will not make it sourer. It would dissolve "
                    + $"hot, and fall out again on cooling.",
                $"solubility of cream of tartar, {Solver}",
                RemarkWeight.Note
            ),
            "KHTartrate" => new(
                "tartar-crystals",
                $"Cream-of-tartar crystals fall out ({grams}): potassium has met tartaric acid.",
                Solver,
                RemarkWeight.Note
            ),
            "Portlandite" => new(
                "saturated-lime",
                $"Saturated lime water: {grams} stays as powder, and the pH stays the same whatever the excess.",
                Solver,
                RemarkWeight.Note
            ),
            "Calcite" when isAdded => new(
                "undissolved-chalk",
                $"{grams} of the chalk stays as powder; it goes on dissolving where acid comes.",
                Solver,
                RemarkWeight.Note
            ),
            "Calcite" => new("chalk-falls-out", $"Chalk falls out ({grams}), as in a kettle.", Solver, RemarkWeight.Note),
            "Al(OH)3(am)" => new(
                "lake",
                $"Aluminium hydroxide falls out ({grams} dry): a gel that takes colour with it. That is how a lake is made; in an "
                    + $"ink it is sludge.",
                $"alkali with alum, {Solver}",
                RemarkWeight.Note
            ),
            _ => new(
                "undissolved",
                InvariantText.Of($"{grams} of {solid.Name} stays undissolved at {celsius:0} °C."),
                "handbook solubility",
                RemarkWeight.Note
            ),
        };
}

/// <summary>Iron that alkali or air has thrown out.</summary>
internal sealed record IronSludge() : OneRemark("iron-sludge", $"alkali or air with iron, {Solver}")
{
    public static readonly string[] Solids = ["Fe(OH)2", "Siderite", "Ferrihydrite"];

    protected override string? Say(JarScene jar) =>
        jar.Fallen(Solids) is { } fallen ? $"Iron falls out as {fallen} and is lost to the colour; air browns it." : null;
}

/// <summary>Copper that alkali has thrown out.</summary>
internal sealed record CopperSludge() : OneRemark("copper-sludge", $"alkali with copper, {Solver}", RemarkWeight.Caution)
{
    public static readonly string[] Solids = ["Cu(OH)2", "Malachite"];

    protected override string? Say(JarScene jar) =>
        jar.Fallen(Solids) is { } fallen ? $"Copper falls out as {fallen}: poisonous mud, not to be tipped away." : null;
}

/// <summary>Calcium salts that hardly dissolve.</summary>
internal sealed record WhiteSludge() : OneRemark("white-sludge", Solver)
{
    public static readonly string[] Solids = ["CaTartrate:4H2O", "Ca3Citrate2:4H2O", "Gypsum"];

    protected override string? Say(JarScene jar) =>
        jar.Fallen(Solids) is { } fallen ? $"A white haze or sludge of {fallen} falls out: calcium has met sulfate or a fruit acid." : null;
}

/// <summary>Powders and pieces that never dissolve.</summary>
internal sealed record Suspended : JarRule
{
    public override IEnumerable<Remark> On(JarScene jar) =>
        jar
            .Portions.Where(portion => portion.Substance.Form == SubstanceForm.Suspension)
            .Select(portion => new Remark(
                "suspension",
                portion.Substance.IsAny(SubstanceClasses.Piece)
                    ? "Cloves stay whole: take them out before bottling, or keep them in as a habit of the trade; "
                        + "nobody has measured how long they protect."
                    : $"{Said.Capital(portion.Substance.Name)}: it only stays in suspension. Shake before every stroke; "
                        + "its colour is on the particles, not in the liquid.",
                "such powders do not dissolve in water; common practice",
                RemarkWeight.Note
            ));
}

/// <summary>Alum that alkali has brought near to falling out.</summary>
internal sealed record NearLake() : OneRemark("near-lake", Solver)
{
    protected override string? Say(JarScene jar) =>
        jar.Has("Al+3") && jar.Ph > 4.5 && jar.Solid("Al(OH)3(am)") == 0 && jar.Holds(SubstanceClasses.Carbonate)
            ? InvariantText.Of($"At pH {jar.Ph:0.0} the alum is close to falling out as a gel.")
            : null;
}
