namespace Dyewort.Quantities;

/// <summary>Which teaspoon a notebook means. The tablespoon, cup, fluid ounce, pint, quart and gallon follow it.</summary>
/// <remarks><c>default</c> is <see cref="Metric"/>. Sizes: see <see cref="KitchenMeasures"/>.</remarks>
public enum Teaspoon
{
    /// <summary>5 ml; tablespoon 15 ml, cup 250 ml. Larger measures, which the metric kitchen lacks, are the US ones.</summary>
    Metric = 0,

    /// <summary>4.928 922 ml; tablespoon three of them, cup 236.588 2 ml, pint 473.176 5 ml.</summary>
    UsCustomary = 1,

    /// <summary>5.919 ml; tablespoon three of them, cup (half a pint) 284.130 6 ml, pint 568.261 2 ml.</summary>
    Imperial = 2,
}
