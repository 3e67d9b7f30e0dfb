namespace Dyewort.Colour;

/// <summary>CIE xyY: chromaticity and luminance factor.</summary>
/// <param name="X">Chromaticity x.</param>
/// <param name="Y">Chromaticity y.</param>
/// <param name="Luminance">Luminance factor Y in per cent, perfect diffuser 100.</param>
/// <remarks>Source: CIE 15 [CIE15].</remarks>
public readonly record struct Chromaticity(double X, double Y, double Luminance)
{
    /// <summary>xyY of XYZ; black takes the chromaticity of the given white.</summary>
    public static Chromaticity FromXyz(Xyz colour, Xyz white)
    {
        var sum = colour.X + colour.Y + colour.Z;
        if (sum != 0)
            return new(colour.X / sum, colour.Y / sum, colour.Y);
        var whiteSum = white.X + white.Y + white.Z;
        return new(white.X / whiteSum, white.Y / whiteSum, 0);
    }

    /// <summary>XYZ; black where the luminance is 0.</summary>
    public Xyz ToXyz() => Luminance == 0 ? default : new(X * Luminance / Y, Luminance, (1 - X - Y) * Luminance / Y);
}
