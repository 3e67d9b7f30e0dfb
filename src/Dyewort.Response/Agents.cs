using Dyewort.Chemistry;

namespace Dyewort.Response;

/// <summary>How an addition is believed to act on a colour before any trial.</summary>
internal enum Action
{
    /// <summary>Binds the dye, or brings colour of its own: metal salts, and whatever is not known.</summary>
    Binds = 0,

    /// <summary>Acts by way of the pH and hardly otherwise.</summary>
    AcidOrBase,

    /// <summary>Does next to nothing to the colour: salt, sugar, gum.</summary>
    Idle,

    /// <summary>Changes what others do rather than the dye: tannic and gallic acid.</summary>
    Helps,
}

/// <summary>What is known of additions before any trial (common practice, no source).</summary>
internal static class Agents
{
    private static readonly string[] Acids =
    [
        "bicarbonate",
        "soda",
        "sodium carbonate",
        "potash",
        "citric",
        "citrate",
        "vinegar",
        "acetic",
        "lemon",
        "tartar",
        "ammonia",
        "lye",
        "hydroxide",
        "hydrochloric",
        "sulphuric",
        "sulfuric",
        "malic",
        "ascorbic",
        "wood ash",
        "carbonate",
        "lime",
        "chalk",
        "borax",
        "acid",
        "alkali",
    ];

    private static readonly string[] Metals = ["alum", "iron", "copper", "tin", "titan", "chrom", "ferr", "bleach"];
    private static readonly string[] Neutral =
    [
        "salt",
        "sugar",
        "honey",
        "gum",
        "glycerine",
        "glauber",
        "gypsum",
        "chloride",
        "water",
        "alcohol",
        "vodka",
        "benzoate",
        "sorbate",
        "clove",
        "oil",
        "thymol",
        "cornflour",
    ];

    /// <summary>True for acids and bases that change a colour by way of the pH and hardly otherwise.</summary>
    public static bool ActsThroughPhOnly(string addition) => Of(addition) == Action.AcidOrBase;

    /// <summary>True for iron salts and liquors.</summary>
    public static bool IsIron(string addition) =>
        (SubstanceCatalogue.Standard.Find("addition", addition).TryGet(out var found) ? found.Substance.Key : addition).Contains(
            "iron",
            StringComparison.OrdinalIgnoreCase
        );

    /// <summary>How an addition acts, by the substance its name stands for, otherwise by words in the name.</summary>
    public static Action Of(string addition)
    {
        var name = SubstanceCatalogue.Standard.Find("addition", addition).TryGet(out var found) ? found.Substance.Key : addition;
        bool Has(string[] words) => words.Any(word => name.Contains(word, StringComparison.OrdinalIgnoreCase));
        if (name.Contains("tannic", StringComparison.OrdinalIgnoreCase) || name.Contains("gallic", StringComparison.OrdinalIgnoreCase))
            return Action.Helps;
        if (Has(Metals) && !name.Contains("potash", StringComparison.OrdinalIgnoreCase))
            return Action.Binds;
        if (Has(Acids))
            return Action.AcidOrBase;
        return Has(Neutral) ? Action.Idle : Action.Binds;
    }
}
