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
/// <remarks>The variance is a sum of squares of what can go wrong, each with a weight. The weights are our own fit, by non-negative least
/// squares, to the errors of readings of simulated photos whose truth is known; docs/accuracy.md says how often the result contains the truth
/// on other such photos. What has no weight showed no effect beside the others.</remarks>
public static class Uncertainty
{
    /// <summary>Standard deviations in the 95 % bound: a little under 2, because the weights come from errors with long tails.</summary>
    private const double Bound = 1.95;

    /// <summary>L* per relative change of light, for paper: 38 is 116 / 3 times the cube root of its luminance factor.</summary>
    private const double LightnessPerLight = 38;

    /// <summary>95 % uncertainty, ΔE₀₀.</summary>
    public static double Of(UncertaintyFeatures f)
    {
        var chroma = f.Chroma / 20;
        var white = Square(f.WhiteOff / 5);
        var paper = Square(f.PaperDoubt * f.PaperShare);
        var variance = 0.85
            + (1.1 * paper)
            + (0.4 * paper * white)
            + (2.5 * Square(f.ByLook))
            + (0.1 * Square(f.Spread / 10))
            + (2.1 * Square(LightnessPerLight * f.LightStep))
            + (0.8 * 25 * Square(Math.Min(1, f.Glare * 4)))
            + (1.9 * 25 * Square(Math.Min(1, f.Clipped * 2)))
            + (0.15 * Square(chroma))
            + (0.4 * white)
            + (0.05 * white * Square(chroma))
            + (0.19 * Square(f.LeaveOneOut ?? 0))
            + (9.4 * 4 * Square(1 - f.Coverage) * (f.Coverage > 0 ? 1 : 0))
            + (f.IsScan ? 4.8 * Square(chroma) : 0);
        return double.IsFinite(variance) ? Math.Clamp(Bound * Math.Sqrt(variance), 0.5, 30) : 30;
    }

    private static double Square(double value) => value * value;
}
