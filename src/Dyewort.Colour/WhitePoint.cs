namespace Dyewort.Colour;

/// <summary>White points: XYZ of the perfect diffuser, Y = 100, CIE 1931 2° observer.</summary>
/// <remarks>D65 and D50 are held at the four-decimal chromaticities that sRGB, Display P3 and CSS state, so that a white chip is
/// exactly L* 100, a* 0, b* 0. ISO 11664-2 prints D65 as x 0.31272, y 0.32903: the difference is below 0.02 in b*.</remarks>
public static class WhitePoint
{
    /// <summary>CIE standard illuminant D65, x 0.3127, y 0.3290 [IEC61966-2-1] [CSS4].</summary>
    public static Xyz D65 { get; } = FromChromaticity(0.3127, 0.3290);

    /// <summary>CIE illuminant D50, x 0.3457, y 0.3585 [CSS4].</summary>
    public static Xyz D50 { get; } = FromChromaticity(0.3457, 0.3585);

    /// <summary>CIE illuminant C, x 0.31006, y 0.31616, the light of the Munsell renotation [CIE15].</summary>
    public static Xyz C { get; } = FromChromaticity(0.31006, 0.31616);

    /// <summary>CIE standard illuminant A, x 0.44758, y 0.40745, light of an incandescent lamp [CIE15].</summary>
    public static Xyz A { get; } = FromChromaticity(0.44758, 0.40745);

    /// <summary>XYZ with Y = 100 of a chromaticity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">y is not above zero.</exception>
    public static Xyz FromChromaticity(double x, double y) =>
        y > 0
            ? new(100 * x / y, 100, 100 * (1 - x - y) / y)
            : throw new ArgumentOutOfRangeException(nameof(y), y, "A white has y above 0.");
}
