using MathNet.Numerics.Statistics;

namespace Dyewort.Numerics;

/// <summary>Quantiles of a sample.</summary>
/// <remarks>Between two neighbours the line is straight, the lowest value is the quantile 0 and the highest the quantile 1: definition 7 of
/// Hyndman and Fan [HyndmanFan1996].</remarks>
public static class Quantiles
{
    /// <summary>The value that a share of a sorted sample lies below.</summary>
    /// <param name="sorted">One value or more, ascending.</param>
    /// <param name="share">From 0 to 1.</param>
    /// <exception cref="ArgumentException">There is no value.</exception>
    public static double OfSorted(double[] sorted, double share)
    {
        ArgumentNullException.ThrowIfNull(sorted);
        if (sorted.Length == 0)
            throw new ArgumentException("A quantile needs one value or more.", nameof(sorted));
        return SortedArrayStatistics.QuantileCustom(sorted, share, QuantileDefinition.R7);
    }

    /// <summary>The value that a share of a sample lies below.</summary>
    /// <param name="values">One value or more, in any order.</param>
    /// <param name="share">From 0 to 1.</param>
    public static double Of(IEnumerable<double> values, double share) => OfSorted([.. values.Order()], share);

    /// <summary>The middle value, or the mean of the two in the middle.</summary>
    /// <param name="values">One value or more, in any order.</param>
    public static double Median(IEnumerable<double> values) => Of(values, 0.5);

    /// <summary>The lowest value of a sorted sample that at least a share of it does not exceed: always one that was met.</summary>
    /// <param name="sorted">One value or more, ascending.</param>
    /// <param name="share">From 0 to 1.</param>
    /// <remarks>Definition 1 of Hyndman and Fan [HyndmanFan1996], the nearest rank.</remarks>
    public static double MetOfSorted(double[] sorted, double share)
    {
        ArgumentNullException.ThrowIfNull(sorted);
        if (sorted.Length == 0)
            throw new ArgumentException("A quantile needs one value or more.", nameof(sorted));
        return sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)];
    }
}
