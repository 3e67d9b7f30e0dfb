namespace Dyewort.Colour;

/// <summary>CIE XYZ tristimulus values of a reflecting surface, perfect diffuser Y = 100.</summary>
/// <remarks>Unless a member says otherwise: CIE 1931 2° observer, illuminant D65. <c>default</c> is black.
/// Values outside the real gamut are allowed (measurement noise makes them); NaN passes through.</remarks>
/// <param name="X">X, 0 to about 95 for surfaces under D65.</param>
/// <param name="Y">Luminance factor in per cent, 0 to 100 for non-fluorescent surfaces.</param>
/// <param name="Z">Z, 0 to about 109 for surfaces under D65.</param>
public readonly record struct Xyz(double X, double Y, double Z)
{
    /// <summary>Each component times the same factor.</summary>
    public static Xyz operator *(Xyz colour, double factor) => new(colour.X * factor, colour.Y * factor, colour.Z * factor);

    /// <summary>Component by component sum.</summary>
    public static Xyz operator +(Xyz first, Xyz second) => new(first.X + second.X, first.Y + second.Y, first.Z + second.Z);
}
