namespace Dyewort.Pots;

/// <summary>The liquid that dissolves the colour.</summary>
public enum PotBase
{
    /// <summary>Water.</summary>
    Water,

    /// <summary>Drinking or rubbing spirit.</summary>
    Spirit,

    /// <summary>Vinegar or another acid.</summary>
    Vinegar,

    /// <summary>Washing soda, potash, ammonia or lime.</summary>
    Alkali,

    /// <summary>Fruit left to ferment in its own juice.</summary>
    Ferment,
}

/// <summary>Which liquid suits which class, and what to be careful of.</summary>
/// <remarks>Common practice, no source, but for what the class table of the trade says (makers' pages).</remarks>
public static class BaseAdvice
{
    /// <summary>The liquids that suit a class, best first, each with why.</summary>
    public static IReadOnlyList<(PotBase Base, string Why)> For(ColourantClass colourants) =>
        colourants switch
        {
            ColourantClass.Anthocyanin =>
            [
                (PotBase.Water, "these dissolve in water"),
                (PotBase.Vinegar, "acid keeps the reds bright and the heat from browning them"),
                (PotBase.Ferment, "eats the sugar, so that berry ink dries hard"),
            ],
            ColourantClass.Betalain => [(PotBase.Water, "juice, cold"), (PotBase.Ferment, "a day, not a week")],
            ColourantClass.Flavonol => [(PotBase.Water, "these dissolve in hot water")],
            ColourantClass.Tannin =>
            [
                (PotBase.Water, "these dissolve in water"),
                (PotBase.Alkali, "avocado stone and pine cone need it to colour"),
            ],
            ColourantClass.Anthraquinone =>
            [
                (PotBase.Water, "held warm, with a little chalk in soft water"),
                (PotBase.Alkali, "for a lake"),
            ],
            ColourantClass.Naphthoquinone =>
            [
                (PotBase.Water, "walnut"),
                (PotBase.Spirit, "alkanet's violets come out in spirit, not in water"),
            ],
            ColourantClass.Neoflavonoid => [(PotBase.Vinegar, "brazilwood was boiled in it"), (PotBase.Water, "logwood")],
            ColourantClass.Curcumin => [(PotBase.Spirit, "hardly dissolves in plain water")],
            ColourantClass.Carotenoid => [(PotBase.Spirit, "dissolves in spirit or fat, not in water")],
            ColourantClass.Chlorophyll => [(PotBase.Spirit, "dissolves in spirit"), (PotBase.Alkali, "keeps greener")],
            ColourantClass.Indigoid =>
            [
                (PotBase.Alkali, "leaf liquor is raised to about pH 10 and beaten with air; the blue itself needs reduction to dissolve"),
            ],
            _ => [(PotBase.Water, "try water first, and a spoonful in spirit beside it")],
        };

    /// <summary>What to be careful of with a liquid, to be shown where it is chosen.</summary>
    /// <param name="liquid">The liquid.</param>
    /// <param name="metal">The pot's metal.</param>
    public static IReadOnlyList<string> Cautions(PotBase liquid, PotMetal metal = PotMetal.None)
    {
        var cautions = new List<string>();
        switch (liquid)
        {
            case PotBase.Spirit:
                cautions.Add(
                    "Spirit burns and its vapour creeps to a flame: no gas ring, no hot plate, window open, lid on. Warm it only in "
                        + "a water bath off the heat."
                );
                break;
            case PotBase.Vinegar:
                cautions.Add("Hot vinegar stings eyes and throat: window open, and never together with bleach.");
                if (metal is PotMetal.Aluminium or PotMetal.Iron or PotMetal.Copper)
                    cautions.Add("Acid eats this pot, and its metal goes into the colour: take glass, sound enamel or stainless steel.");
                break;
            case PotBase.Alkali:
                cautions.Add(
                    "Alkali burns skin and eyes: goggles and gloves, powder into cold water a little at a time, never hot water "
                        + "onto soda or lime."
                );
                if (metal == PotMetal.Aluminium)
                    cautions.Add("Alkali dissolves aluminium and gives off hydrogen, which burns: take another pot.");
                break;
            case PotBase.Ferment:
                cautions.Add("It makes gas: keep the lid loose. A day is plenty; throw it away if it grows fur.");
                break;
            default:
                break;
        }

        cautions.Add("Keep pots and spoons for dye work only, and out of children's reach; what is in them is not food.");
        return cautions;
    }
}
