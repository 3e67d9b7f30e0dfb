using Dyewort.Colour;

namespace Dyewort.Response.Tests.Generated;

/// <summary>The eye the generated plants are seen with: the whole 5 nm tables, not the model's three bands.</summary>
public static class Eye
{
    public const int Count = Spectrum.Count;

    public static readonly double[] Wavelengths = [.. Enumerable.Range(0, Count).Select(i => (double)Spectrum.Nanometres(i))];

    public static Lab Colour(double[] reflectance) => Lab.FromXyz(Spectrum.Of(reflectance).ToXyz());
}
