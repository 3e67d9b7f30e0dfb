using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>Oklab, the uniform space that CSS mixes and maps colours in; D65.</summary>
/// <param name="L">Lightness, 0 black to 1 white.</param>
/// <param name="A">Green to red.</param>
/// <param name="B">Blue to yellow.</param>
/// <remarks>The matrices are those of CSS Color 4, recomputed there with sixteen digits for the four-decimal D65 white.
/// Source: CSS Color Module Level 4, sample code [CSS4]; B. Ottosson's proposal of 2020 [Ottosson2020].</remarks>
public readonly record struct Oklab(double L, double A, double B)
{
    private static readonly Matrix3 XyzToLms = new(
        0.8190224379967030,
        0.3619062600528904,
        -0.1288737815209879,
        0.0329836539323885,
        0.9292868615863434,
        0.0361446663506424,
        0.0481771893596242,
        0.2642395317527308,
        0.6335478284694309
    );

    private static readonly Matrix3 LmsToOklab = new(
        0.2104542683093140,
        0.7936177747023054,
        -0.0040720430116193,
        1.9779985324311684,
        -2.4285922420485799,
        0.4505937096174110,
        0.0259040424655478,
        0.7827717124575296,
        -0.8086757549230774
    );

    private static readonly Matrix3 LmsToXyz = XyzToLms.Inverse();
    private static readonly Matrix3 OklabToLms = LmsToOklab.Inverse();

    /// <summary>Chroma ≥ 0; 0.4 is about the most a display shows.</summary>
    public double Chroma => Math.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle in degrees, 0 to below 360; 0 for greys.</summary>
    public double HueDegrees
    {
        get
        {
            var degrees = Math.Atan2(B, A) * 180 / Math.PI;
            return degrees < 0 ? degrees + 360 : degrees;
        }
    }

    /// <summary>Oklab of XYZ under D65.</summary>
    public static Oklab FromXyz(Xyz colour)
    {
        var (l, m, s) = XyzToLms.Times(colour.X / 100, colour.Y / 100, colour.Z / 100);
        var (lightness, a, b) = LmsToOklab.Times(Math.Cbrt(l), Math.Cbrt(m), Math.Cbrt(s));
        return new(lightness, a, b);
    }

    /// <summary>From lightness, chroma and hue angle (OKLCH).</summary>
    public static Oklab FromLch(double lightness, double chroma, double hueDegrees)
    {
        var radians = hueDegrees * Math.PI / 180;
        return new(lightness, chroma * Math.Cos(radians), chroma * Math.Sin(radians));
    }

    /// <summary>XYZ under D65: the inverse of <see cref="FromXyz"/>.</summary>
    public Xyz ToXyz()
    {
        var (l, m, s) = OklabToLms.Times(L, A, B);
        var (x, y, z) = LmsToXyz.Times(l * l * l, m * m * m, s * s * s);
        return new(100 * x, 100 * y, 100 * z);
    }

    /// <summary>Euclidean distance in Oklab, the ΔE that CSS gamut mapping uses; about 0.02 is just noticeable [CSS4].</summary>
    public double DistanceTo(Oklab other)
    {
        var (dl, da, db) = (L - other.L, A - other.A, B - other.B);
        return Math.Sqrt((dl * dl) + (da * da) + (db * db));
    }
}
