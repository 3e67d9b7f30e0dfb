namespace Dyewort.Colour;

/// <summary>CIELAB (CIE 1976 L*a*b*), relative to a stated white, D65 unless a member says otherwise.</summary>
/// <param name="L">Lightness L*, 0 black to 100 the perfect diffuser.</param>
/// <param name="A">a*, greener below zero, redder above.</param>
/// <param name="B">b*, bluer below zero, yellower above.</param>
/// <remarks>Source: CIE 15, section 8.2.1 [CIE15], with the exact fractions (6/29)³ and (29/3)³.</remarks>
public readonly record struct Lab(double L, double A, double B)
{
    private const double Kappa = 24389.0 / 27;
    private const double Epsilon = 216.0 / 24389;

    /// <summary>Chroma C*ab ≥ 0.</summary>
    public double Chroma => Math.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle h_ab in degrees, 0 to below 360; 0 for greys.</summary>
    public double HueDegrees
    {
        get
        {
            var degrees = Math.Atan2(B, A) * 180 / Math.PI;
            return degrees < 0 ? degrees + 360 : degrees;
        }
    }

    /// <summary>CIELAB of XYZ relative to D65.</summary>
    public static Lab FromXyz(Xyz colour) => FromXyz(colour, WhitePoint.D65);

    /// <summary>CIELAB of XYZ relative to a white.</summary>
    public static Lab FromXyz(Xyz colour, Xyz white)
    {
        var fx = F(colour.X / white.X);
        var fy = F(colour.Y / white.Y);
        var fz = F(colour.Z / white.Z);
        return new((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    /// <summary>XYZ under D65.</summary>
    public Xyz ToXyz() => ToXyz(WhitePoint.D65);

    /// <summary>XYZ relative to a white: the inverse of <see cref="FromXyz(Xyz, Xyz)"/>.</summary>
    public Xyz ToXyz(Xyz white)
    {
        var fy = (L + 16) / 116;
        return new(white.X * Inverse(fy + (A / 500)), white.Y * Inverse(fy), white.Z * Inverse(fy - (B / 200)));
    }

    /// <summary>Lightness L* of a relative luminance.</summary>
    /// <param name="relativeLuminance">Y/Yn, 0 to 1 for surfaces.</param>
    public static double Lightness(double relativeLuminance) => (116 * F(relativeLuminance)) - 16;

    /// <summary>Relative luminance Y/Yn of a lightness L*.</summary>
    public static double LuminanceFactor(double lightness) => Inverse((lightness + 16) / 116);

    private static double F(double t) => t > Epsilon ? Math.Cbrt(t) : ((Kappa * t) + 16) / 116;

    private static double Inverse(double f) => f > 6.0 / 29 ? f * f * f : ((116 * f) - 16) / Kappa;
}
