namespace Dyewort.Colour;

/// <summary>White points: XYZ of the perfect diffuser, Y = 100, CIE 1931 2° observer.</summary>
public static class WhitePoint
{
    /// <summary>CIE standard illuminant D65, as CIE 15 and IEC 61966-2-1 print it to two decimals and more [CIE15].</summary>
    public static Xyz D65 { get; } = new(95.047, 100, 108.883);

    /// <summary>CIE illuminant D50 as the ICC profile connection space states it [ICC.1].</summary>
    public static Xyz D50 { get; } = new(96.422, 100, 82.521);
}
