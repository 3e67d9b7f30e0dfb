using Dyewort.Colour;

namespace Dyewort.Web;

/// <summary>Colours as a screen shows them.</summary>
public static class Screen
{
    /// <summary>The nearest sRGB colour by clipping, as "#rrggbb".</summary>
    /// <remarks>Matrix and curve: IEC 61966-2-1 [IEC61966-2-1].</remarks>
    public static string Hex(Xyz colour)
    {
        var (x, y, z) = (colour.X / 100, colour.Y / 100, colour.Z / 100);
        var red = Encode((3.2406 * x) - (1.5372 * y) - (0.4986 * z));
        var green = Encode((-0.9689 * x) + (1.8758 * y) + (0.0415 * z));
        var blue = Encode((0.0557 * x) - (0.2040 * y) + (1.0570 * z));
        return $"#{red:x2}{green:x2}{blue:x2}";
    }

    private static byte Encode(double linear)
    {
        var clipped = Math.Clamp(linear, 0, 1);
        return (byte)Math.Round(255 * (clipped <= 0.0031308 ? 12.92 * clipped : (1.055 * Math.Pow(clipped, 1 / 2.4)) - 0.055));
    }
}
