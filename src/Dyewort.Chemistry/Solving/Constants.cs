using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>Every reaction the program knows, read once from its own tables.</summary>
internal static class Constants
{
    /// <summary>The components all else is written on, with their charges. H+ is the first.</summary>
    public static readonly IReadOnlyList<(string Name, int Charge)> Components =
    [
        ("H+", 1),
        ("Na+", 1),
        ("K+", 1),
        ("Ca+2", 2),
        ("Al+3", 3),
        ("Fe+2", 2),
        ("Fet+3", 3),
        ("Cu+2", 2),
        ("AmmH+", 1),
        ("CO3-2", -2),
        ("SO4-2", -2),
        ("Cl-", -1),
        ("Acetate-", -1),
        ("Tartrate-2", -2),
        ("Citrate-3", -3),
        ("Ascorb-2", -2),
        ("Gall-", -1),
        ("Benz-", -1),
        ("Sorb-", -1),
        ("Phthalate-2", -2),
        ("PO4-3", -3),
        ("H3BO3", 0),
        ("Extract3-", -1),
        ("Extract4-", -1),
        ("Extract5-", -1),
        ("Extract7-", -1),
        ("Extract9-", -1),
    ];

    /// <summary>Pseudo-acids that stand for the unknown acids of a plant liquor: component and pKa.</summary>
    /// <remarks>Chosen here, no source: one weak acid about every 1.3 pH from tartaric-like to phenol-like, so that the buffering is nearly
    /// even.</remarks>
    public static readonly IReadOnlyList<(string Component, double LogK)> ExtractAcids =
    [
        ("Extract3-", 3.2),
        ("Extract4-", 4.4),
        ("Extract5-", 5.6),
        ("Extract7-", 7.2),
        ("Extract9-", 9.4),
    ];

    private static readonly Lazy<(
        List<Reaction> Species,
        Dictionary<string, Reaction> Extra,
        Dictionary<string, Reaction> Solids,
        List<string> Left,
        Reaction Henry
    )> Loaded = new(Load);

    public static IReadOnlyList<Reaction> Species => Loaded.Value.Species;

    /// <summary>Species left out by default, by name.</summary>
    public static IReadOnlyDictionary<string, Reaction> Extra => Loaded.Value.Extra;

    public static IReadOnlyDictionary<string, Reaction> Solids => Loaded.Value.Solids;

    /// <summary>Names of the solids that are allowed to form by default.</summary>
    public static IReadOnlyList<string> QuickSolids => Loaded.Value.Left;

    /// <summary>CO2(g) = CO2(aq).</summary>
    public static Reaction Henry => Loaded.Value.Henry;

    public static int ChargeOf(string component)
    {
        foreach (var (name, charge) in Components)
        {
            if (name == component)
                return charge;
        }

        throw new ArgumentOutOfRangeException(nameof(component), component, "Not a component.");
    }

    private static (List<Reaction>, Dictionary<string, Reaction>, Dictionary<string, Reaction>, List<string>, Reaction) Load()
    {
        var species = new List<Reaction>();
        var extra = new Dictionary<string, Reaction>();
        var solids = new Dictionary<string, Reaction>();
        Reaction? henry = null;
        foreach (var row in TextTable.Embedded(typeof(Jar), "equilibria.csv").Rows)
        {
            switch (row["kind"])
            {
                case "aqueous species" when row["default"] == "yes":
                    species.Add(Reaction.Parse(row));
                    break;
                case "aqueous species":
                    extra[row["name"]] = Reaction.Parse(row);
                    break;
                case "solid":
                    solids[row["name"]] = Reaction.Parse(row);
                    break;
                case "gas" when row["name"] == "CO2(g)":
                    henry = Reaction.ConstantOnly(row);
                    break;
            }
        }

        var quick = TextTable
            .Embedded(typeof(Jar), "solids.csv")
            .Rows.Where(row => row["default"] == "yes")
            .Select(row => row["name"])
            .ToList();
        return (species, extra, solids, quick, henry ?? throw new InvalidOperationException("equilibria.csv has no CO2(g)."));
    }
}
