namespace Dyewort.Chemistry.Solving;

/// <summary>Gaussian elimination with row scaling and partial pivoting, in place, for the small systems of one jar.</summary>
internal static class DenseSolve
{
    /// <summary>Solves a·x = b; the answer stands in b. Rows of a are <paramref name="stride"/> apart.</summary>
    /// <returns>False where the matrix is singular to working precision; a and b are then spoiled.</returns>
    public static bool InPlace(double[] a, double[] b, int n, int stride)
    {
        for (var r = 0; r < n; r++)
        {
            var max = 0.0;
            for (var c = 0; c < n; c++)
                max = Math.Max(max, Math.Abs(a[(r * stride) + c]));
            if (max == 0 || !double.IsFinite(max))
                return false;
            for (var c = 0; c < n; c++)
                a[(r * stride) + c] /= max;
            b[r] /= max;
        }

        for (var k = 0; k < n; k++)
        {
            var pivot = k;
            var best = Math.Abs(a[(k * stride) + k]);
            for (var r = k + 1; r < n; r++)
            {
                var size = Math.Abs(a[(r * stride) + k]);
                if (size > best)
                    (best, pivot) = (size, r);
            }

            if (!(best > 1e-15))
                return false;
            if (pivot != k)
            {
                for (var c = k; c < n; c++)
                    (a[(k * stride) + c], a[(pivot * stride) + c]) = (a[(pivot * stride) + c], a[(k * stride) + c]);
                (b[k], b[pivot]) = (b[pivot], b[k]);
            }

            var inverse = 1 / a[(k * stride) + k];
            for (var r = k + 1; r < n; r++)
            {
                var factor = a[(r * stride) + k] * inverse;
                if (factor == 0)
                    continue;
                for (var c = k + 1; c < n; c++)
                    a[(r * stride) + c] -= factor * a[(k * stride) + c];
                b[r] -= factor * b[k];
            }
        }

        for (var r = n - 1; r >= 0; r--)
        {
            var sum = b[r];
            for (var c = r + 1; c < n; c++)
                sum -= a[(r * stride) + c] * b[c];
            b[r] = sum / a[(r * stride) + r];
            if (!double.IsFinite(b[r]))
                return false;
        }

        return true;
    }
}
