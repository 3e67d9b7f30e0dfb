using Dyewort.Colour;
using Dyewort.Numerics;

namespace Dyewort.Readings;

/// <summary>Three linear channels of a picture file, 0 to 1 as the file can hold them; out of range after a correction.</summary>
/// <param name="R">Red.</param>
/// <param name="G">Green.</param>
/// <param name="B">Blue.</param>
public readonly record struct FileRgb(double R, double G, double B)
{
    /// <summary>Channel by number: 0 red, 1 green, 2 blue.</summary>
    public double this[int channel] =>
        channel switch
        {
            0 => R,
            1 => G,
            _ => B,
        };

    /// <summary>Channel by channel sum.</summary>
    public static FileRgb operator +(FileRgb first, FileRgb second) => new(first.R + second.R, first.G + second.G, first.B + second.B);

    /// <summary>Each channel times one factor.</summary>
    public static FileRgb operator *(FileRgb colour, double factor) => new(colour.R * factor, colour.G * factor, colour.B * factor);

    /// <summary>Channel by channel quotient.</summary>
    public static FileRgb operator /(FileRgb first, FileRgb second) => new(first.R / second.R, first.G / second.G, first.B / second.B);
}

/// <summary>How the numbers of a picture file become light: the transfer curve and the primaries of its embedded profile.</summary>
/// <remarks>Picture files are read in their own space, because a camera's look is a curve on those very numbers.</remarks>
public sealed class FileColour
{
    private readonly double[] linear;
    private readonly Matrix3 toXyz;
    private readonly Matrix3 fromXyz;

    /// <summary>Makes a space from its curve and matrix.</summary>
    /// <param name="name">What to call it.</param>
    /// <param name="linear">256 values, 0 to 1: the light that each 8-bit number stands for.</param>
    /// <param name="toXyz">3 × 3: linear channels to XYZ under D65, Y of white = 1.</param>
    public FileColour(string name, double[] linear, Matrix3 toXyz)
    {
        if (linear.Length != 256)
            throw new ArgumentException("A curve has 256 values.", nameof(linear));
        Name = name;
        this.linear = linear;
        this.toXyz = toXyz;
        fromXyz = toXyz.Inverse();
    }

    /// <summary>sRGB, IEC 61966-2-1 [IEC61966-2-1].</summary>
    public static FileColour Srgb { get; } =
        new(
            "sRGB",
            [.. Enumerable.Range(0, 256).Select(code => SrgbToLinear(code / 255.0))],
            new(0.4123908, 0.3575843, 0.1804808, 0.2126390, 0.7151687, 0.0721923, 0.0193308, 0.1191948, 0.9505322)
        );

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>The light that each 8-bit number stands for, 256 values.</summary>
    public ReadOnlySpan<double> Linear => linear;

    /// <summary>XYZ (D65, perfect diffuser Y = 100) of linear channels where 1, 1, 1 is the perfect diffuser.</summary>
    public Xyz ToXyz(FileRgb colour)
    {
        var (x, y, z) = toXyz.Times(colour.R, colour.G, colour.B);
        return new(100 * x, 100 * y, 100 * z);
    }

    /// <summary>The inverse of <see cref="ToXyz"/>.</summary>
    public FileRgb FromXyz(Xyz colour)
    {
        var (r, g, b) = fromXyz.Times(colour.X / 100, colour.Y / 100, colour.Z / 100);
        return new(r, g, b);
    }

    /// <summary>The sRGB curve: encoded 0 to 1 to light 0 to 1 [IEC61966-2-1].</summary>
    public static double SrgbToLinear(double encoded) => encoded <= 0.04045 ? encoded / 12.92 : Math.Pow((encoded + 0.055) / 1.055, 2.4);

    /// <summary>The inverse of <see cref="SrgbToLinear"/>; light below 0 gives negative numbers along the straight part.</summary>
    public static double LinearToSrgb(double light) => light <= 0.0031308 ? light * 12.92 : (1.055 * Math.Pow(light, 1 / 2.4)) - 0.055;
}
