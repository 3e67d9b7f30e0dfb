using Dyewort.Numerics;

namespace Dyewort.Response;

/// <summary>Three normal numbers with a covariance: the three bands of a film, or the three axes of a colour.</summary>
internal static class NormalTriple
{
    /// <summary>Solves a system of three, in place; zeros where it has no one answer.</summary>
    /// <param name="m">Nine numbers row by row, left as they are.</param>
    /// <param name="b">Three numbers.</param>
    public static void Solve(ReadOnlySpan<double> m, Span<double> b)
    {
        Span<double> spoiled = stackalloc double[9];
        m.CopyTo(spoiled);
        if (!LinearSystem.TrySolve(spoiled, b))
            b.Clear();
    }

    /// <summary>The inverse of nine numbers row by row; zeros where there is none.</summary>
    public static void Invert(ReadOnlySpan<double> m, Span<double> inverse)
    {
        Span<double> column = stackalloc double[3];
        for (var j = 0; j < 3; j++)
        {
            column.Clear();
            column[j] = 1;
            Solve(m, column);
            for (var i = 0; i < 3; i++)
                inverse[(3 * i) + j] = column[i];
        }
    }

    /// <summary>One triple around zero.</summary>
    /// <param name="factor">Lower Cholesky factor, nine numbers row by row.</param>
    /// <param name="random">Gives three numbers.</param>
    public static (double First, double Second, double Third) Draw(ReadOnlySpan<double> factor, NormalDraws random)
    {
        var (x, y, z) = (random.Next(), random.Next(), random.Next());
        return (factor[0] * x, (factor[3] * x) + (factor[4] * y), (factor[6] * x) + (factor[7] * y) + (factor[8] * z));
    }

    /// <summary>One film around a mean.</summary>
    public static FilmDensity Draw(ReadOnlySpan<double> mean, ReadOnlySpan<double> factor, NormalDraws random)
    {
        var (blue, green, red) = Draw(factor, random);
        return new(mean[0] + blue, mean[1] + green, mean[2] + red);
    }

    /// <summary>Logarithm of the density of a deviation.</summary>
    /// <param name="factor">Lower Cholesky factor, nine numbers row by row; its diagonal counts as at least 1e-6.</param>
    /// <param name="off">The deviation from the mean.</param>
    public static double LogDensity(ReadOnlySpan<double> factor, FilmDensity off)
    {
        var (a, b, c) = (Math.Max(factor[0], 1e-6), Math.Max(factor[4], 1e-6), Math.Max(factor[8], 1e-6));
        var x = off.Blue / a;
        var y = (off.Green - (factor[3] * x)) / b;
        var z = (off.Red - (factor[6] * x) - (factor[7] * y)) / c;
        return (-0.5 * ((x * x) + (y * y) + (z * z))) - Math.Log(a * b * c) - (1.5 * Math.Log(2 * Math.PI));
    }
}
