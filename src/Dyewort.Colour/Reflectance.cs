using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Colour;

/// <summary>A likely spectral reflectance of a surface of which only XYZ is known.</summary>
/// <remarks>Of all spectra with exactly this XYZ under D65 the smoothest is taken, smoothness being measured after a bend that keeps
/// the values in range: the inverse hyperbolic tangent for surfaces (strictly between 0 and 1), the logarithm for bare paper
/// (above 0; a brightened paper returns more blue than it receives). It is one of infinitely many spectra; under other lights
/// the true one may differ. Source: S. A. Burns 2020, methods LHTSS and LLSS [Burns2020].</remarks>
public static class Reflectance
{
    /// <summary>The smoothest reflectance strictly between 0 and 1.</summary>
    /// <param name="field">The field or option to name in a refusal.</param>
    /// <param name="colour">XYZ under D65.</param>
    public static Outcome<Spectrum> Smoothest(string field, Xyz colour) =>
        Solve(colour, z => 0.5 * (Math.Tanh(z) + 1), Slope, z => -2 * Math.Tanh(z) * Slope(z)) is { } spectrum
            ? Outcome.Of(spectrum)
            : Outcome.Refused<Spectrum>(
                field,
                "No surface reflects this colour: it is too light for its strength, or not a number.",
                "Check its values."
            );

    /// <summary>The smoothest positive reflectance, which may exceed 1; null where none is found.</summary>
    internal static Spectrum? SmoothestPositive(Xyz colour) => Solve(colour, Math.Exp, Math.Exp, Math.Exp);

    private static double Slope(double z) => 0.5 / (Math.Cosh(z) * Math.Cosh(z));

    /// <summary>Newton on the Lagrange conditions; where a straight start fails, the colour is approached from a grey in steps.</summary>
    private static Spectrum? Solve(Xyz colour, Func<double, double> bend, Func<double, double> first, Func<double, double> second)
    {
        if (!double.IsFinite(colour.X + colour.Y + colour.Z) || colour.X <= 0 || colour.Y <= 0 || colour.Z <= 0)
            return null;
        var grey = WhitePoint.D65 * (Math.Min(colour.Y, 99) / 100);
        foreach (var steps in (ReadOnlySpan<int>)[1, 8, 40])
        {
            var unknowns = new double[Spectrum.Count + 3];
            var start = Start(grey.Y / 100, bend);
            Array.Fill(unknowns, start, 0, Spectrum.Count);
            var good = true;
            for (var step = 1; step <= steps && good; step++)
            {
                var share = (double)step / steps;
                good = Newton(unknowns, (grey * (1 - share)) + (colour * share), bend, first, second);
            }

            if (!good)
                continue;
            var values = new double[Spectrum.Count];
            for (var i = 0; i < values.Length; i++)
                values[i] = bend(unknowns[i]);
            return Spectrum.Wrap(values);
        }

        return null;
    }

    /// <summary>Where Newton begins: at the flat spectrum of the colour's own lightness; levels that no bend reaches begin at an
    /// end.</summary>
    private static double Start(double level, Func<double, double> bend) =>
        Bisection.Narrow(-12, 12, 1e-13, middle => bend(middle) < level).Low;

    private static bool Newton(double[] u, Xyz target, Func<double, double> bend, Func<double, double> first, Func<double, double> second)
    {
        const int N = Spectrum.Count;
        const int Size = N + 3;
        double[][] weights = [Weighting.Stored.X, Weighting.Stored.Y, Weighting.Stored.Z];
        var matrix = new double[Size * Size];
        var right = new double[Size];
        for (var round = 0; round < 60; round++)
        {
            Array.Clear(matrix);
            double x = 0,
                y = 0,
                z = 0;
            for (var i = 0; i < N; i++)
            {
                var (value, slope) = (bend(u[i]), first(u[i]));
                var pull = (weights[0][i] * u[N]) + (weights[1][i] * u[N + 1]) + (weights[2][i] * u[N + 2]);
                var curve = i is 0 or N - 1 ? u[i] - u[i == 0 ? 1 : N - 2] : (2 * u[i]) - u[i - 1] - u[i + 1];
                matrix[(i * Size) + i] = (i is 0 or N - 1 ? 1 : 2) + (second(u[i]) * pull);
                if (i > 0)
                    matrix[(i * Size) + i - 1] = -1;
                if (i < N - 1)
                    matrix[(i * Size) + i + 1] = -1;
                right[i] = -(curve + (slope * pull));
                for (var k = 0; k < 3; k++)
                {
                    matrix[(i * Size) + N + k] = slope * weights[k][i];
                    matrix[((N + k) * Size) + i] = slope * weights[k][i];
                }

                x += weights[0][i] * value;
                y += weights[1][i] * value;
                z += weights[2][i] * value;
            }

            (right[N], right[N + 1], right[N + 2]) = (target.X - x, target.Y - y, target.Z - z);
            var miss = Math.Max(Math.Abs(right[N]), Math.Max(Math.Abs(right[N + 1]), Math.Abs(right[N + 2])));
            if (!LinearSystem.TrySolve(matrix, right))
                return false;
            double longest = 0;
            for (var i = 0; i < N; i++)
                longest = Math.Max(longest, Math.Abs(right[i]));
            if (!double.IsFinite(longest))
                return false;
            var limit = longest > 2 ? 2 / longest : 1;
            for (var i = 0; i < Size; i++)
                u[i] += limit * right[i];
            if (miss < 1e-10 && longest < 1e-8)
                return true;
        }

        return false;
    }
}
