using MathNet.Numerics.Distributions;

namespace Dyewort.Numerics;

/// <summary>The normal distribution.</summary>
public static class NormalDistribution
{
    /// <summary>The standard normal number that a share of all lies below.</summary>
    /// <param name="share">Between 0 and 1; at the ends −∞ and ∞.</param>
    public static double Quantile(double share) => Normal.InvCDF(0, 1, share);

    /// <summary>The share of standard normal numbers below a number.</summary>
    public static double Below(double number) => Normal.CDF(0, 1, number);

    /// <summary>The density at a value, per its unit.</summary>
    /// <param name="value">Where.</param>
    /// <param name="mean">Mean.</param>
    /// <param name="deviation">Standard deviation, above 0.</param>
    public static double Density(double value, double mean, double deviation) => Normal.PDF(mean, deviation, value);

    /// <summary>One standard normal number out of two uniform ones.</summary>
    /// <param name="first">Above 0, at most 1.</param>
    /// <param name="second">From 0 to 1.</param>
    /// <remarks>Source: Box and Muller [BoxMuller1958].</remarks>
    public static double OfUniforms(double first, double second) => Math.Sqrt(-2 * Math.Log(first)) * Math.Cos(2 * Math.PI * second);
}

/// <summary>Student's t distribution.</summary>
public static class StudentDistribution
{
    /// <summary>The number that a share of all lies below.</summary>
    /// <param name="share">Between 0 and 1.</param>
    /// <param name="freedom">Degrees of freedom, above 0.</param>
    public static double Quantile(double share, double freedom) => StudentT.InvCDF(0, 1, freedom, share);
}

/// <summary>How far from their middle three independent normals lie together, all of one deviation: a colour in a space with three equal
/// axes.</summary>
public static class ThreeNormals
{
    /// <summary>The 95 % quantile of the squared radius for deviation 1: chi-squared with three degrees of freedom.</summary>
    public const double SquaredRadius95 = 7.814727903251179;

    /// <summary>The radius that holds 95 % for deviation 1, √7.8147.</summary>
    public const double Radius95 = 2.795483482915108;

    /// <summary>The squared radius that holds a share, for deviation 1.</summary>
    /// <param name="share">Between 0 and 1.</param>
    public static double SquaredRadius(double share) => ChiSquared.InvCDF(3, share);
}
