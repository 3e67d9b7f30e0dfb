using System.Globalization;

namespace Dyewort.Colour;

/// <summary>A colour as a screen can show it: the nearest sRGB chip, and whether it is true.</summary>
/// <param name="Encoded">sRGB components, 0 to 1.</param>
/// <param name="IsTrue">Whether the colour lies within sRGB, so that the chip shows it as it is.</param>
/// <param name="DifferenceDe00">CIEDE2000 from the colour to the chip; 0 to rounding where it is true.</param>
public sealed record SrgbChip(Rgb Encoded, bool IsTrue, double DifferenceDe00)
{
    private const double JustNoticeable = 0.02;

    /// <summary>The chip as bytes.</summary>
    public (byte R, byte G, byte B) Bytes => (Byte(Encoded.R), Byte(Encoded.G), Byte(Encoded.B));

    /// <summary>The chip as <c>#rrggbb</c>.</summary>
    public string Hex
    {
        get
        {
            var (r, g, b) = Bytes;
            return string.Create(CultureInfo.InvariantCulture, $"#{r:x2}{g:x2}{b:x2}");
        }
    }

    /// <summary>The chip of a colour. Outside sRGB the chroma is reduced in OKLCH, with a local clip, until the clip is not
    /// noticeable.</summary>
    /// <remarks>Source: CSS Color Module Level 4, section 13.2.2, binary search gamut mapping with local MINDE [CSS4].</remarks>
    public static SrgbChip Of(Xyz colour)
    {
        var direct = RgbSpace.Srgb.FromXyz(colour);
        if (direct.IsInGamut(1e-5))
            return new(direct.Clipped(), IsTrue: true, 0);
        var mapped = Map(colour, RgbSpace.Srgb);
        return new(mapped, IsTrue: false, Difference.Ciede2000(Lab.FromXyz(colour), Lab.FromXyz(RgbSpace.Srgb.ToXyz(mapped))));
    }

    /// <summary>Encoded components within a space's gamut for any colour, by the CSS method.</summary>
    public static Rgb Map(Xyz colour, RgbSpace space)
    {
        ArgumentNullException.ThrowIfNull(space);
        var origin = Oklab.FromXyz(colour);
        if (origin.L >= 1)
            return new(1, 1, 1);
        if (origin.L <= 0)
            return new(0, 0, 0);
        var direct = space.FromXyz(colour);
        if (direct.IsInGamut(0))
            return direct;
        var (hue, current) = (origin.HueDegrees, origin);
        var clipped = direct.Clipped();
        if (Oklab.FromXyz(space.ToXyz(clipped)).DistanceTo(current) < JustNoticeable)
            return clipped;
        double low = 0,
            high = origin.Chroma;
        var lowInGamut = true;
        while (high - low > 0.0001)
        {
            var chroma = (low + high) / 2;
            current = Oklab.FromLch(origin.L, chroma, hue);
            var rgb = space.FromXyz(current.ToXyz());
            if (lowInGamut && rgb.IsInGamut(0))
            {
                low = chroma;
                continue;
            }

            clipped = rgb.Clipped();
            var error = Oklab.FromXyz(space.ToXyz(clipped)).DistanceTo(current);
            if (error < JustNoticeable)
            {
                if (JustNoticeable - error < 0.0001)
                    return clipped;
                lowInGamut = false;
                low = chroma;
            }
            else
            {
                high = chroma;
            }
        }

        return clipped;
    }

    private static byte Byte(double component) => (byte)Math.Round(Math.Clamp(component, 0, 1) * 255, MidpointRounding.AwayFromZero);
}
