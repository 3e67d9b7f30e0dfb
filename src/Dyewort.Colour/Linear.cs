namespace Dyewort.Colour;

/// <summary>Small dense linear algebra on row-major arrays.</summary>
internal static class Linear
{
    /// <summary>Solves A x = b in place by elimination with partial pivoting; false where A is singular to rounding.</summary>
    public static bool Solve(double[] a, double[] b)
    {
        var n = b.Length;
        for (var column = 0; column < n; column++)
        {
            var pivot = column;
            for (var row = column + 1; row < n; row++)
            {
                if (Math.Abs(a[(row * n) + column]) > Math.Abs(a[(pivot * n) + column]))
                    pivot = row;
            }

            if (Math.Abs(a[(pivot * n) + column]) < 1e-300)
                return false;
            if (pivot != column)
            {
                for (var k = column; k < n; k++)
                    (a[(column * n) + k], a[(pivot * n) + k]) = (a[(pivot * n) + k], a[(column * n) + k]);
                (b[column], b[pivot]) = (b[pivot], b[column]);
            }

            for (var row = column + 1; row < n; row++)
            {
                var factor = a[(row * n) + column] / a[(column * n) + column];
                if (factor == 0)
                    continue;
                for (var k = column + 1; k < n; k++)
                    a[(row * n) + k] -= factor * a[(column * n) + k];
                b[row] -= factor * b[column];
            }
        }

        for (var row = n - 1; row >= 0; row--)
        {
            var sum = b[row];
            for (var k = row + 1; k < n; k++)
                sum -= a[(row * n) + k] * b[k];
            b[row] = sum / a[(row * n) + row];
        }

        return true;
    }
}
