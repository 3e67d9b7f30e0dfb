namespace Dyewort.Numerics;

/// <summary>Solves small dense systems of linear equations in place, without taking memory.</summary>
/// <remarks>Written here because the solver of a jar asks for systems of 3 to 30 unknowns thousands of times: a matrix object for each
/// would cost more than the solving.</remarks>
public static class LinearSystem
{
    // A pivot this small beside its row's largest entry (both scaled to 1) is rounding error of double precision and no pivot.
    private const double SmallestPivot = 1e-15;

    /// <summary>Solves A x = b by Gaussian elimination with row scaling and partial pivoting.</summary>
    /// <param name="a">n × n numbers, row by row; spoiled afterwards.</param>
    /// <param name="b">n numbers; x afterwards.</param>
    /// <returns>False where A is singular to working precision or not finite; both are spoiled then.</returns>
    /// <remarks>Source: Golub, Van Loan, sections 3.4 and 3.5 [GolubVanLoan2013].</remarks>
    public static bool TrySolve(Span<double> a, Span<double> b)
    {
        var n = b.Length;
        if (a.Length < n * n)
            throw new ArgumentException($"{n} unknowns need {n * n} numbers, not {a.Length}.", nameof(a));
        for (var row = 0; row < n; row++)
        {
            var entries = a.Slice(row * n, n);
            var largest = 0.0;
            foreach (var entry in entries)
                largest = Math.Max(largest, Math.Abs(entry));
            if (largest == 0 || !double.IsFinite(largest))
                return false;
            foreach (ref var entry in entries)
                entry /= largest;
            b[row] /= largest;
        }

        for (var k = 0; k < n; k++)
        {
            var pivot = k;
            var best = Math.Abs(a[(k * n) + k]);
            for (var row = k + 1; row < n; row++)
            {
                var size = Math.Abs(a[(row * n) + k]);
                if (size > best)
                    (best, pivot) = (size, row);
            }

            if (!(best > SmallestPivot))
                return false;
            var upper = a.Slice(k * n, n);
            if (pivot != k)
            {
                var other = a.Slice(pivot * n, n);
                for (var column = k; column < n; column++)
                    (upper[column], other[column]) = (other[column], upper[column]);
                (b[k], b[pivot]) = (b[pivot], b[k]);
            }

            var inverse = 1 / upper[k];
            for (var row = k + 1; row < n; row++)
            {
                var lower = a.Slice(row * n, n);
                var factor = lower[k] * inverse;
                if (factor == 0)
                    continue;
                for (var column = k + 1; column < n; column++)
                    lower[column] -= factor * upper[column];
                b[row] -= factor * b[k];
            }
        }

        for (var row = n - 1; row >= 0; row--)
        {
            var entries = a.Slice(row * n, n);
            var sum = b[row];
            for (var column = row + 1; column < n; column++)
                sum -= entries[column] * b[column];
            b[row] = sum / entries[row];
            if (!double.IsFinite(b[row]))
                return false;
        }

        return true;
    }

    /// <summary>Solves a system of three unknowns by Cramer's rule: several times quicker than elimination, for well-behaved
    /// matrices.</summary>
    /// <param name="m">Nine numbers, row by row.</param>
    /// <param name="b">Three numbers; x afterwards, or zeros where the matrix is singular.</param>
    /// <returns>False where the determinant is below 1e-300 or not a number.</returns>
    public static bool TrySolve3(ReadOnlySpan<double> m, Span<double> b)
    {
        var c0 = (m[4] * m[8]) - (m[5] * m[7]);
        var c1 = (m[5] * m[6]) - (m[3] * m[8]);
        var c2 = (m[3] * m[7]) - (m[4] * m[6]);
        var determinant = (m[0] * c0) + (m[1] * c1) + (m[2] * c2);
        if (!(Math.Abs(determinant) >= 1e-300))
        {
            b[..3].Clear();
            return false;
        }

        var x = (b[0] * c0) + (b[1] * ((m[2] * m[7]) - (m[1] * m[8]))) + (b[2] * ((m[1] * m[5]) - (m[2] * m[4])));
        var y = (b[0] * c1) + (b[1] * ((m[0] * m[8]) - (m[2] * m[6]))) + (b[2] * ((m[2] * m[3]) - (m[0] * m[5])));
        var z = (b[0] * c2) + (b[1] * ((m[1] * m[6]) - (m[0] * m[7]))) + (b[2] * ((m[0] * m[4]) - (m[1] * m[3])));
        b[0] = x / determinant;
        b[1] = y / determinant;
        b[2] = z / determinant;
        return true;
    }
}
