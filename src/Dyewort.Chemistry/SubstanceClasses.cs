namespace Dyewort.Chemistry;

/// <summary>What kinds of thing a substance is, as the column "classes" of substances.csv says; the rules ask for these, never for
/// names.</summary>
/// <remarks>Metals are not among them: they are seen from what a substance is made of.</remarks>
[Flags]
public enum SubstanceClasses
{
    /// <summary>None that a rule asks for.</summary>
    None = 0,

    /// <summary>Sour: vinegars, fruit acids, and liquors made with vinegar.</summary>
    Acid = 1 << 0,

    /// <summary>A carbonate or bicarbonate.</summary>
    Carbonate = 1 << 1,

    /// <summary>A bicarbonate: heat turns it to carbonate.</summary>
    Bicarbonate = 1 << 2,

    /// <summary>Lime or lye.</summary>
    Caustic = 1 << 3,

    /// <summary>Gives iron a black: tannic or gallic acid.</summary>
    Tannin = 1 << 4,

    /// <summary>Ammonia in water.</summary>
    Ammonia = 1 << 5,

    /// <summary>Chlorine bleach.</summary>
    Bleach = 1 << 6,

    /// <summary>A salt of benzoic acid.</summary>
    Benzoate = 1 << 7,

    /// <summary>A salt of sorbic acid.</summary>
    Sorbate = 1 << 8,

    /// <summary>Ascorbic acid.</summary>
    VitaminC = 1 << 9,

    /// <summary>Oil of wintergreen.</summary>
    Wintergreen = 1 << 10,

    /// <summary>A liquid whose strength differs widely from one maker or fruit to the next.</summary>
    StrengthUncertain = 1 << 11,

    /// <summary>Whole pieces that are taken out again.</summary>
    Piece = 1 << 12,

    /// <summary>Its dangers are said by a rule of its own, so the card of its hazards is not repeated.</summary>
    SaidElsewhere = 1 << 13,

    /// <summary>What it does to a pH nobody can compute, and it may be much: no pH is told of a jar that holds it.</summary>
    PhUnknown = 1 << 14,

    /// <summary>Plant matter or ash in suspension: it gives off a little acid or alkali of its own that is not computed.</summary>
    BringsItsOwn = 1 << 15,
}
