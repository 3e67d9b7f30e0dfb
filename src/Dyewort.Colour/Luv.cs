namespace Dyewort.Colour;

/// <summary>CIELUV (CIE 1976 L*u*v*), relative to D65 unless a white is given.</summary>
/// <param name="L">Lightness L*, 0 to 100.</param>
/// <param name="U">u*.</param>
/// <param name="V">v*.</param>
/// <remarks>Source: CIE 15, section 8.2.2 [CIE15].</remarks>
public readonly record struct Luv(double L, double U, double V)
{
    /// <summary>CIELUV of XYZ relative to D65.</summary>
    public static Luv FromXyz(Xyz colour) => FromXyz(colour, WhitePoint.D65);

    /// <summary>CIELUV of XYZ relative to a white; black is 0, 0, 0.</summary>
    public static Luv FromXyz(Xyz colour, Xyz white)
    {
        var lightness = Lab.Lightness(colour.Y / white.Y);
        var (u, v) = Uniform(colour);
        var (un, vn) = Uniform(white);
        return colour is { X: 0, Y: 0, Z: 0 } ? default : new(lightness, 13 * lightness * (u - un), 13 * lightness * (v - vn));
    }

    /// <summary>XYZ under D65.</summary>
    public Xyz ToXyz() => ToXyz(WhitePoint.D65);

    /// <summary>XYZ relative to a white: the inverse of <see cref="FromXyz(Xyz, Xyz)"/>; black for L* = 0.</summary>
    public Xyz ToXyz(Xyz white)
    {
        if (L == 0)
            return default;
        var (un, vn) = Uniform(white);
        var u = (U / (13 * L)) + un;
        var v = (V / (13 * L)) + vn;
        var y = white.Y * Lab.LuminanceFactor(L);
        return new(y * 9 * u / (4 * v), y, y * (12 - (3 * u) - (20 * v)) / (4 * v));
    }

    private static (double U, double V) Uniform(Xyz colour)
    {
        var divisor = colour.X + (15 * colour.Y) + (3 * colour.Z);
        return divisor == 0 ? (0, 0) : (4 * colour.X / divisor, 9 * colour.Y / divisor);
    }
}
