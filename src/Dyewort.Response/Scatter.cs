using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>How a scatter of one ΔE₀₀ in a reading appears in the densities of the film.</summary>
internal static class Scatter
{
    /// <summary>Covariance (nine numbers) of the densities when the reading scatters by 1 ΔE₀₀ along each of its three axes.</summary>
    public static void InDensity(Film film, FilmDensity at, Span<double> covariance)
    {
        const double Step = 1e-4;
        var here = film.ColourOf(at);
        Span<double> slope = stackalloc double[9];
        for (var j = 0; j < 3; j++)
        {
            var moved = film.ColourOf(at + new FilmDensity(j == 0 ? Step : 0, j == 1 ? Step : 0, j == 2 ? Step : 0));
            slope[j] = (moved.L - here.L) / Step;
            slope[3 + j] = (moved.A - here.A) / Step;
            slope[6 + j] = (moved.B - here.B) / Step;
        }

        // ΔE₀₀² ≈ dLabᵀ M dLab near a colour; the densities' precision is slopeᵀ M slope.
        Span<double> metric = stackalloc double[9];
        Metric(here, metric);
        Span<double> precision = stackalloc double[9];
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
            {
                var sum = 0.0;
                for (var p = 0; p < 3; p++)
                {
                    for (var q = 0; q < 3; q++)
                        sum += slope[(p * 3) + i] * metric[(p * 3) + q] * slope[(q * 3) + j];
                }

                precision[(i * 3) + j] = sum;
            }
        }

        // A film as dark as paint can be hides its density from the reader; the floor keeps its scatter finite.
        for (var i = 0; i < 3; i++)
            precision[(i * 3) + i] += 0.05;
        NormalTriple.Invert(precision, covariance);
    }

    /// <summary>The quadratic form that CIEDE2000 [Sharma2005] becomes for small differences, by central differences of its
    /// square.</summary>
    private static void Metric(Lab at, Span<double> metric)
    {
        const double H = 0.05;
        double Squared(double l, double a, double b)
        {
            var d = Difference.Ciede2000(at, new Lab(at.L + l, at.A + a, at.B + b));
            return d * d / (H * H);
        }

        var l2 = (Squared(H, 0, 0) + Squared(-H, 0, 0)) / 2;
        var a2 = (Squared(0, H, 0) + Squared(0, -H, 0)) / 2;
        var b2 = (Squared(0, 0, H) + Squared(0, 0, -H)) / 2;
        var ab = (Squared(0, H, H) + Squared(0, -H, -H) - Squared(0, H, -H) - Squared(0, -H, H)) / 8;
        metric.Clear();
        metric[0] = l2;
        metric[4] = a2;
        metric[8] = b2;
        metric[5] = ab;
        metric[7] = ab;
    }
}
