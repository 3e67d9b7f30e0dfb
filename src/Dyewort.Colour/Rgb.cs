namespace Dyewort.Colour;

/// <summary>Red, green and blue of some RGB space, 0 to 1 within its gamut; whether linear or encoded, the member that made it
/// says.</summary>
/// <param name="R">Red.</param>
/// <param name="G">Green.</param>
/// <param name="B">Blue.</param>
public readonly record struct Rgb(double R, double G, double B)
{
    /// <summary>Whether every component lies within 0 to 1, with a little room for rounding.</summary>
    public bool IsInGamut(double tolerance = 1e-6) =>
        Math.Min(R, Math.Min(G, B)) >= -tolerance && Math.Max(R, Math.Max(G, B)) <= 1 + tolerance;

    /// <summary>Each component held within 0 to 1.</summary>
    public Rgb Clipped() => new(Math.Clamp(R, 0, 1), Math.Clamp(G, 0, 1), Math.Clamp(B, 0, 1));
}
