namespace Dyewort.Colour;

/// <summary>Three times 81 weights that turn a reflectance into XYZ.</summary>
internal sealed class Weighting
{
    private Weighting(double[] x, double[] y, double[] z) => (X, Y, Z) = (x, y, z);

    /// <summary>D65, 2°, scaled to <see cref="WhitePoint.D65"/>.</summary>
    public static Weighting Stored { get; } = Of(Illuminant.D65, Observer.Cie1931).ScaledTo(WhitePoint.D65);

    public double[] X { get; }

    public double[] Y { get; }

    public double[] Z { get; }

    public static Weighting Of(Illuminant light, Observer observer)
    {
        var (x, y, z) = (new double[Spectrum.Count], new double[Spectrum.Count], new double[Spectrum.Count]);
        double total = 0;
        for (var i = 0; i < Spectrum.Count; i++)
            total += light.Power[i] * observer.Y[i];
        for (var i = 0; i < Spectrum.Count; i++)
        {
            var k = 100 * light.Power[i] / total;
            (x[i], y[i], z[i]) = (k * observer.X[i], k * observer.Y[i], k * observer.Z[i]);
        }

        return new(x, y, z);
    }

    public Xyz Sum(ReadOnlySpan<double> reflectance)
    {
        double x = 0,
            y = 0,
            z = 0;
        for (var i = 0; i < Spectrum.Count; i++)
        {
            var r = reflectance[i];
            x += r * X[i];
            y += r * Y[i];
            z += r * Z[i];
        }

        return new(x, y, z);
    }

    private Weighting ScaledTo(Xyz white)
    {
        var own = new Xyz(X.Sum(), Y.Sum(), Z.Sum());
        return new(Scale(X, white.X / own.X), Scale(Y, white.Y / own.Y), Scale(Z, white.Z / own.Z));
    }

    private static double[] Scale(double[] values, double factor) => Array.ConvertAll(values, value => value * factor);
}
