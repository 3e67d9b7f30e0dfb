using Dyewort.Quantities;

namespace Dyewort.Workshop.Charts;

/// <summary>A dilution as a maker says it.</summary>
public static class WashWords
{
    /// <summary>"1 : 3": parts of ink to parts of water.</summary>
    /// <param name="wash">Share of ink, above 0 to 1.</param>
    public static string Short(double wash) => wash >= 1 ? "undiluted" : $"1 : {Figures.Say((1 / wash) - 1)}";

    public static string Say(double wash) =>
        wash >= 1 ? "undiluted"
        : wash > 0.6 ? $"thinned to {Figures.Say(100 * wash, 2)} % ink"
        : $"washed {Short(wash)} with water";
}
