using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>Three soft bands over the visible range, and the weights that turn a reflectance into XYZ.</summary>
internal static class Bands
{
    /// <summary>Wavelengths: 400 to 700 nm every 10 nm.</summary>
    public const int Count = 31;

    /// <summary>Weights of the CIE 1931 2° observer under D65 for 400–700 nm every 10 nm, X Y Z in turn, summing to the white point;
    /// condensed from the 5 nm tables, what lies outside added to the end bands [CIE15].</summary>
    public static readonly double[] WhiteWeights = Condensed();

    /// <summary>The share of each band at each wavelength, blue green red in turn; they sum to one, so a flat film is (1, 1, 1).</summary>
    public static readonly double[] Shape = Shapes();

    public static double Density(FilmDensity film, int i) =>
        (film.Blue * Shape[i * 3]) + (film.Green * Shape[(i * 3) + 1]) + (film.Red * Shape[(i * 3) + 2]);

    private static double[] Shapes()
    {
        const double BlueEnds = 490;
        const double RedBegins = 580;
        const double Softness = 14;
        var shape = new double[Count * 3];
        for (var i = 0; i < Count; i++)
        {
            var wavelength = 400.0 + (10 * i);
            var blue = 1 / (1 + Math.Exp((wavelength - BlueEnds) / Softness));
            var red = 1 / (1 + Math.Exp((RedBegins - wavelength) / Softness));
            shape[i * 3] = blue;
            shape[(i * 3) + 1] = 1 - blue - red;
            shape[(i * 3) + 2] = red;
        }

        return shape;
    }

    private static double[] Condensed()
    {
        var weights = new double[Count * 3];
        var single = new double[Spectrum.Count];
        for (var i = 0; i < Spectrum.Count; i++)
        {
            single[i] = 1;
            var xyz = Spectrum.Of(single).ToXyz();
            single[i] = 0;
            var place = Math.Clamp((Spectrum.Nanometres(i) - 400) / 10.0, 0, Count - 1);
            var lower = Math.Min((int)place, Count - 2);
            var share = place - lower;
            for (var k = 0; k < 3; k++)
            {
                var w = k switch
                {
                    0 => xyz.X,
                    1 => xyz.Y,
                    _ => xyz.Z,
                };
                weights[(lower * 3) + k] += w * (1 - share);
                weights[((lower + 1) * 3) + k] += w * share;
            }
        }

        return weights;
    }
}
