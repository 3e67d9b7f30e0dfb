using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>Chromatic adaptation: the colour that looks under one light as the given one looks under another.</summary>
/// <remarks>Complete adaptation, the von Kries rule in sharpened cone channels. Bradford is what exchange files and CSS use [CSS4];
/// CAT16 comes from the CAM16 colour appearance model [Li2017].</remarks>
public static class Adaptation
{
    private static readonly Matrix3 BradfordCones = new(0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296);

    private static readonly Matrix3 Cat16Cones = new(
        0.401288,
        0.650173,
        -0.051461,
        -0.250268,
        1.204414,
        0.045854,
        -0.002079,
        0.048952,
        0.953127
    );

    private static readonly Matrix3 D50ToD65 = Build(BradfordCones, WhitePoint.D50, WhitePoint.D65);
    private static readonly Matrix3 D65ToD50 = Build(BradfordCones, WhitePoint.D65, WhitePoint.D50);

    /// <summary>Bradford adaptation of XYZ between any two whites.</summary>
    public static Xyz Bradford(Xyz colour, Xyz from, Xyz to) => Apply(Build(BradfordCones, from, to), colour);

    /// <summary>CAT16 adaptation of XYZ between any two whites, complete (D = 1).</summary>
    public static Xyz Cat16(Xyz colour, Xyz from, Xyz to) => Apply(Build(Cat16Cones, from, to), colour);

    /// <summary>Bradford adaptation from D50, for values out of exchange files and CSS.</summary>
    public static Xyz FromD50(Xyz colour) => Apply(D50ToD65, colour);

    /// <summary>Bradford adaptation to D50, for values into exchange files and CSS.</summary>
    public static Xyz ToD50(Xyz colour) => Apply(D65ToD50, colour);

    /// <summary>CIELAB relative to D65 of a CIELAB relative to D50, by Bradford.</summary>
    public static Lab LabFromD50(Lab colour) => Lab.FromXyz(FromD50(colour.ToXyz(WhitePoint.D50)));

    /// <summary>CIELAB relative to D50 of a CIELAB relative to D65, by Bradford.</summary>
    public static Lab LabToD50(Lab colour) => Lab.FromXyz(ToD50(colour.ToXyz()), WhitePoint.D50);

    private static Matrix3 Build(Matrix3 cones, Xyz from, Xyz to)
    {
        var (r0, g0, b0) = cones.Times(from.X, from.Y, from.Z);
        var (r1, g1, b1) = cones.Times(to.X, to.Y, to.Z);
        return cones.Inverse().Times(Matrix3.Diagonal(r1 / r0, g1 / g0, b1 / b0)).Times(cones);
    }

    private static Xyz Apply(Matrix3 matrix, Xyz colour)
    {
        var (x, y, z) = matrix.Times(colour.X, colour.Y, colour.Z);
        return new(x, y, z);
    }
}
