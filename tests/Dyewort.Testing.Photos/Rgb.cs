namespace Dyewort.Testing.Photos;

/// <summary>Colour arithmetic of the drawn photos, written from the standards and kept apart from the program's own.</summary>
public static class Rgb
{
    /// <summary>White of D65, 2° observer, Y = 1 (ISO/CIE 11664-2, rounded).</summary>
    public static readonly double[] White = [0.95047, 1, 1.08883];

    /// <summary>Light of an encoded value, 0 to 1 (IEC 61966-2-1).</summary>
    public static double ToLight(double code) => code <= 0.04045 ? code / 12.92 : Math.Pow((code + 0.055) / 1.055, 2.4);

    /// <summary>Encoded value of a light, 0 to 1 (IEC 61966-2-1).</summary>
    public static double ToCode(double light) =>
        light <= 0.0031308 ? 12.92 * Math.Max(0, light) : (1.055 * Math.Pow(Math.Min(light, 1), 1 / 2.4)) - 0.055;

    /// <summary>Red, green and blue light of a colour (IEC 61966-2-1); outside 0 to 1 where sRGB does not reach.</summary>
    /// <param name="xyz">CIE XYZ, white of D65 at Y = 1.</param>
    public static double[] OfXyz(double[] xyz) =>
        [
            (3.2404542 * xyz[0]) - (1.5371385 * xyz[1]) - (0.4985314 * xyz[2]),
            (-0.9692660 * xyz[0]) + (1.8760108 * xyz[1]) + (0.0415560 * xyz[2]),
            (0.0556434 * xyz[0]) - (0.2040259 * xyz[1]) + (1.0572252 * xyz[2]),
        ];

    /// <summary>CIE XYZ (white at Y = 1) of a CIELAB colour under D65 (ISO/CIE 11664-4).</summary>
    public static double[] XyzOfLab(double l, double a, double b)
    {
        var y = (l + 16) / 116;
        return [White[0] * Cube(y + (a / 500)), White[1] * Cube(y), White[2] * Cube(y - (b / 200))];

        static double Cube(double t) => t > 6.0 / 29 ? t * t * t : (t - (16.0 / 116)) * 108 / 841;
    }
}
