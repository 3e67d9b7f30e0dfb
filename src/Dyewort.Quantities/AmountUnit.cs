namespace Dyewort.Quantities;

/// <summary>What an amount was measured with.</summary>
public enum AmountUnit
{
    /// <summary>g.</summary>
    Gram = 0,

    /// <summary>kg.</summary>
    Kilogram,

    /// <summary>mg.</summary>
    Milligram,

    /// <summary>Avoirdupois ounce, by weight.</summary>
    Ounce,

    /// <summary>Avoirdupois pound.</summary>
    Pound,

    /// <summary>ml.</summary>
    Millilitre,

    /// <summary>L.</summary>
    Litre,

    /// <summary>Level teaspoon.</summary>
    Teaspoon,

    /// <summary>Level tablespoon, three teaspoons.</summary>
    Tablespoon,

    /// <summary>Level cup.</summary>
    Cup,

    /// <summary>Fluid ounce, by volume.</summary>
    FluidOunce,

    /// <summary>Pint.</summary>
    Pint,

    /// <summary>Quart, two pints.</summary>
    Quart,

    /// <summary>Gallon, eight pints.</summary>
    Gallon,

    /// <summary>A drop of watery liquid.</summary>
    Drop,

    /// <summary>What two fingers take up.</summary>
    Pinch,

    /// <summary>Two pinches.</summary>
    Dash,

    /// <summary>Something counted, such as cloves; <see cref="Amount.Counted"/> says what.</summary>
    Piece,
}
