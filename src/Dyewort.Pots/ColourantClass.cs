namespace Dyewort.Pots;

/// <summary>The family of a plant's colourants: it decides the heat a pot stands and what to dissolve it in.</summary>
public enum ColourantClass
{
    /// <summary>Not known.</summary>
    Unknown,

    /// <summary>Berries, hibiscus, black bean, butterfly pea.</summary>
    Anthocyanin,

    /// <summary>Beetroot, pokeberry.</summary>
    Betalain,

    /// <summary>Weld, onion skin, marigold.</summary>
    Flavonol,

    /// <summary>Oak gall, acorn, pomegranate rind, avocado stone.</summary>
    Tannin,

    /// <summary>Madder, bedstraw, dock root.</summary>
    Anthraquinone,

    /// <summary>Walnut hull, alkanet, henna.</summary>
    Naphthoquinone,

    /// <summary>Brazilwood, logwood.</summary>
    Neoflavonoid,

    /// <summary>Turmeric.</summary>
    Curcumin,

    /// <summary>Annatto, saffron, carrot.</summary>
    Carotenoid,

    /// <summary>Grass, nettle, spinach.</summary>
    Chlorophyll,

    /// <summary>Woad, indigo.</summary>
    Indigoid,
}

/// <summary>How fast a plant lets go of its colour.</summary>
public enum Tissue
{
    /// <summary>Petals, berries, calyx, skins: five to twenty minutes.</summary>
    Soft,

    /// <summary>Bark, roots, husks, galls, tops with stalk: an hour or more.</summary>
    Hard,
}
