namespace Dyewort.Quantities;

/// <summary>Which kitchen's measures a notebook means: teaspoon, tablespoon, cup, fluid ounce, pint, quart and gallon, all of
/// one.</summary>
/// <remarks><c>default</c> is <see cref="Metric"/>. Sizes: see <see cref="KitchenMeasures"/>.</remarks>
public enum Teaspoon
{
    /// <summary>5 ml; tablespoon 15 ml, fluid ounce 30 ml, cup 250 ml, pint 500 ml, quart 1 L, gallon 4 L.</summary>
    Metric = 0,

    /// <summary>4.928 922 ml; tablespoon three of them, cup 236.588 2 ml, pint 473.176 5 ml.</summary>
    UsCustomary = 1,

    /// <summary>5.919 ml; tablespoon three of them, cup (half a pint) 284.130 6 ml, pint 568.261 2 ml.</summary>
    Imperial = 2,
}
