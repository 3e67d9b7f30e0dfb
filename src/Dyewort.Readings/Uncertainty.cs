namespace Dyewort.Readings;

/// <summary>What a reading's uncertainty is made from.</summary>
/// <param name="PaperDoubt">Standard uncertainty of the paper's colour, ΔE₀₀.</param>
/// <param name="PaperShare">How much of the paper's error passes into the swatch, 0 to 1.</param>
/// <param name="ByLook">ΔE₀₀ of one standard uncertainty of the camera's curve.</param>
/// <param name="ByBlack">ΔE₀₀ of one standard uncertainty of how black the sheet is printed; 0 where a card tells the curve.</param>
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
    double PaperDoubt,
    double PaperShare,
    double ByLook,
    double ByBlack,
    double Spread,
    double Coverage,
    double Glare,
    double Clipped,
    double LightDoubt,
    double LightStep,
    double Chroma,
    double Depth,
    double WhiteOff,
    double Curve,
    double? LeaveOneOut,
    bool IsScan,
    double Noise
);

/// <summary>95 % uncertainty of a reading.</summary>
/// <remarks>The variance is a sum of squares of what can go wrong, each with a weight. The weights are our own fit to the errors of
/// readings of simulated photos whose truth is known, print of 3 to 8 % among them, so that the bound contains it in 19 of 20 swatches of
/// every kind of photo and every way to read one;
/// docs/accuracy.md says how often it does on other such photos. What has no weight showed no effect beside the others.
/// Scanners have weights of their own: their lamps of three narrow colours see some inks wrongly, and vivid ones most.</remarks>
public static class Uncertainty
{
    /// <summary>Standard deviations in a 95 % uncertainty of a normal quantity.</summary>
    public const double TwoSided = 1.96;

    /// <summary>Standard deviations in the 95 % bound of a reading, fitted with the weights below.</summary>
    private const double Bound = 1.95;

    /// <summary>L* per relative change of light, for paper: 38 is 116 / 3 times the cube root of its luminance factor.</summary>
    private const double LightnessPerLight = 38;

    /// <summary>95 % uncertainty, ΔE₀₀.</summary>
    public static double Of(UncertaintyFeatures f)
    {
        var chroma = f.Chroma / 20;
        var white = Square(f.WhiteOff / 5);
        var paper = Square(f.PaperDoubt * f.PaperShare);
        var scan = f.IsScan ? 1 : 0;
        var variance =
            (f.IsScan ? 3.1 : 0.6)
            + (0.8 * paper)
            + (0.27 * paper * white)
            + Square(f.ByLook)
            + (1.2 * Square(f.ByBlack))
            + (0.15 * Square(f.Spread / 10))
            + (1.6 * Square(LightnessPerLight * f.LightStep))
            + (0.93 * 25 * Square(Math.Min(1, f.Glare * 4)))
            + (2.0 * 25 * Square(Math.Min(1, f.Clipped * 2)))
            + (0.29 * Square(chroma) * (1 - scan))
            + (6.9 * Square(Math.Min(chroma, 1.5)) * scan)
            + (0.48 * Square(f.Depth / 50) * scan)
            + (0.39 * white)
            + (0.75 * white * Square(chroma))
            + (0.35 * Square(f.LeaveOneOut ?? 0) * (1 - scan))
            + (0.9 * 4 * Square(1 - f.Coverage) * (f.Coverage > 0 ? 1 : 0));
        return double.IsFinite(variance) ? Math.Clamp(Bound * Math.Sqrt(variance), 0.5, 30) : 30;
    }

    private static double Square(double value) => value * value;
}
