namespace Dyewort.Colour;

/// <summary>CIELAB in cylinder form: lightness, chroma and hue angle, relative to the white its Lab had.</summary>
/// <param name="L">Lightness L*, 0 to 100.</param>
/// <param name="C">Chroma C*ab ≥ 0.</param>
/// <param name="HueDegrees">Hue angle h_ab, 0 to below 360; 0 for greys.</param>
/// <remarks>Source: CIE 15, section 8.2.1 [CIE15].</remarks>
public readonly record struct Lch(double L, double C, double HueDegrees)
{
    /// <summary>Cylinder form of a Lab colour.</summary>
    public static Lch FromLab(Lab colour) => new(colour.L, colour.Chroma, colour.HueDegrees);

    /// <summary>The inverse of <see cref="FromLab"/>.</summary>
    public Lab ToLab()
    {
        var radians = HueDegrees * Math.PI / 180;
        return new(L, C * Math.Cos(radians), C * Math.Sin(radians));
    }
}
