using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>An RGB space: primaries, white and encoding curve. The matrix is computed from the chromaticities, so that equal
/// components are exactly the white.</summary>
/// <remarks>XYZ on the outside is always D65, perfect diffuser Y = 100; a space with another white is adapted by Bradford.
/// Sources: sRGB IEC 61966-2-1 [IEC61966-2-1]; the others as CSS Color 4 defines them [CSS4].</remarks>
public sealed class RgbSpace
{
    private readonly Matrix3 toXyz;
    private readonly Matrix3 fromXyz;
    private readonly Xyz white;
    private readonly Func<double, double> encode;
    private readonly Func<double, double> decode;

    private RgbSpace(
        string name,
        Xyz white,
        (double X, double Y) red,
        (double X, double Y) green,
        (double X, double Y) blue,
        Func<double, double> encode,
        Func<double, double> decode
    )
    {
        Name = name;
        this.white = white;
        this.encode = encode;
        this.decode = decode;
        var columns = new Matrix3(
            red.X / red.Y,
            green.X / green.Y,
            blue.X / blue.Y,
            1,
            1,
            1,
            (1 - red.X - red.Y) / red.Y,
            (1 - green.X - green.Y) / green.Y,
            (1 - blue.X - blue.Y) / blue.Y
        );
        var (r, g, b) = columns.Inverse().Times(white.X, white.Y, white.Z);
        toXyz = columns.Times(Matrix3.Diagonal(r, g, b));
        fromXyz = toXyz.Inverse();
    }

    /// <summary>The space of the web and of most pictures [IEC61966-2-1].</summary>
    public static RgbSpace Srgb { get; } = new("srgb", WhitePoint.D65, (0.64, 0.33), (0.30, 0.60), (0.15, 0.06), EncodeSrgb, DecodeSrgb);

    /// <summary>The wider space of newer phones and their pictures [CSS4].</summary>
    public static RgbSpace DisplayP3 { get; } =
        new("display-p3", WhitePoint.D65, (0.680, 0.320), (0.265, 0.690), (0.150, 0.060), EncodeSrgb, DecodeSrgb);

    /// <summary>CSS a98-rgb.</summary>
    public static RgbSpace A98 { get; } =
        new(
            "a98-rgb",
            WhitePoint.D65,
            (0.6400, 0.3300),
            (0.2100, 0.7100),
            (0.1500, 0.0600),
            v => Signed(v, a => Math.Pow(a, 256.0 / 563)),
            v => Signed(v, a => Math.Pow(a, 563.0 / 256))
        );

    /// <summary>CSS prophoto-rgb, white D50.</summary>
    public static RgbSpace ProPhoto { get; } =
        new(
            "prophoto-rgb",
            WhitePoint.D50,
            (0.734699, 0.265301),
            (0.159597, 0.840403),
            (0.036598, 0.000105),
            v => Signed(v, a => a >= 1.0 / 512 ? Math.Pow(a, 1 / 1.8) : 16 * a),
            v => Signed(v, a => a <= 16.0 / 512 ? a / 16 : Math.Pow(a, 1.8))
        );

    /// <summary>CSS rec2020, with the display curve of 2.4 that the present edition of CSS Color 4 gives it.</summary>
    public static RgbSpace Rec2020 { get; } =
        new(
            "rec2020",
            WhitePoint.D65,
            (0.708, 0.292),
            (0.170, 0.797),
            (0.131, 0.046),
            v => Signed(v, a => Math.Pow(a, 1 / 2.4)),
            v => Signed(v, a => Math.Pow(a, 2.4))
        );

    /// <summary>The name CSS calls it by in <c>color(…)</c>.</summary>
    public string Name { get; }

    /// <summary>Linear components of a colour; outside 0 to 1 where the space cannot show it.</summary>
    public Rgb LinearFromXyz(Xyz colour)
    {
        var own = white == WhitePoint.D65 ? colour : Adaptation.Bradford(colour, WhitePoint.D65, white);
        var (r, g, b) = fromXyz.Times(own.X, own.Y, own.Z);
        return new(r, g, b);
    }

    /// <summary>XYZ of linear components: the inverse of <see cref="LinearFromXyz"/>.</summary>
    public Xyz LinearToXyz(Rgb linear)
    {
        var (x, y, z) = toXyz.Times(linear.R, linear.G, linear.B);
        var own = new Xyz(x, y, z);
        return white == WhitePoint.D65 ? own : Adaptation.Bradford(own, white, WhitePoint.D65);
    }

    /// <summary>Encoded components of a colour.</summary>
    public Rgb FromXyz(Xyz colour) => Encode(LinearFromXyz(colour));

    /// <summary>XYZ of encoded components: the inverse of <see cref="FromXyz"/>.</summary>
    public Xyz ToXyz(Rgb encoded) => LinearToXyz(Decode(encoded));

    /// <summary>Encoded components of linear ones; the curve is continued as an odd function below zero.</summary>
    public Rgb Encode(Rgb linear) => new(encode(linear.R), encode(linear.G), encode(linear.B));

    /// <summary>Linear components of encoded ones: the inverse of <see cref="Encode"/>.</summary>
    public Rgb Decode(Rgb encoded) => new(decode(encoded.R), decode(encoded.G), decode(encoded.B));

    private static double EncodeSrgb(double v) => Signed(v, a => a <= 0.0031308 ? 12.92 * a : (1.055 * Math.Pow(a, 1 / 2.4)) - 0.055);

    private static double DecodeSrgb(double v) => Signed(v, a => a <= 0.04045 ? a / 12.92 : Math.Pow((a + 0.055) / 1.055, 2.4));

    private static double Signed(double v, Func<double, double> curve) => v < 0 ? -curve(-v) : curve(v);
}
