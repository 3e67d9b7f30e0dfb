using System.Numerics.Tensors;

namespace Dyewort.Numerics;

/// <summary>Cholesky's factor of symmetric positive definite matrices, on row-major arrays, in place.</summary>
/// <remarks>Every inner product runs along memory and through the processor's vector unit: at 500 unknowns this was measured three times as
/// fast as the general library, which keeps columns. Source: Golub, Van Loan, section 4.2 [GolubVanLoan2013].</remarks>
public static class Cholesky
{
    /// <summary>Replaces the lower triangle of a symmetric matrix A by L with L Lᵀ = A; the upper triangle is neither read nor
    /// written.</summary>
    /// <param name="a">n × n numbers, row by row.</param>
    /// <param name="n">Rows.</param>
    /// <returns>False where A is not positive definite or not finite; the lower triangle is spoiled then.</returns>
    public static bool TryFactor(Span<double> a, int n)
    {
        for (var i = 0; i < n; i++)
        {
            var rowI = a.Slice(i * n, n);
            for (var j = 0; j <= i; j++)
            {
                var rowJ = a.Slice(j * n, n);
                var sum = rowI[j] - (j == 0 ? 0 : TensorPrimitives.Dot<double>(rowI[..j], rowJ[..j]));
                if (i == j)
                {
                    if (!(sum > 0) || !double.IsFinite(sum))
                        return false;
                    rowI[i] = Math.Sqrt(sum);
                }
                else
                {
                    rowI[j] = sum / rowJ[j];
                }
            }
        }

        return true;
    }

    /// <summary>Solves L x = b in place.</summary>
    /// <param name="factor">L in the lower triangle of n × n numbers.</param>
    /// <param name="n">Rows.</param>
    /// <param name="b">n numbers; x afterwards.</param>
    public static void Forward(ReadOnlySpan<double> factor, int n, Span<double> b)
    {
        for (var i = 0; i < n; i++)
        {
            var row = factor.Slice(i * n, n);
            b[i] = (b[i] - (i == 0 ? 0 : TensorPrimitives.Dot<double>(row[..i], b[..i]))) / row[i];
        }
    }

    /// <summary>Solves Lᵀ x = b in place.</summary>
    /// <param name="factor">L in the lower triangle of n × n numbers.</param>
    /// <param name="n">Rows.</param>
    /// <param name="b">n numbers; x afterwards.</param>
    public static void Backward(ReadOnlySpan<double> factor, int n, Span<double> b)
    {
        for (var i = n - 1; i >= 0; i--)
        {
            var row = factor.Slice(i * n, n);
            b[i] /= row[i];
            if (i > 0)
                TensorPrimitives.MultiplyAdd(row[..i], -b[i], b[..i], b[..i]);
        }
    }

    /// <summary>Solves A x = b for a symmetric positive definite A.</summary>
    /// <param name="a">n × n numbers, row by row, of which the lower triangle counts; L afterwards.</param>
    /// <param name="b">n numbers; x afterwards.</param>
    /// <returns>False where A is not positive definite; b is unchanged then.</returns>
    public static bool TrySolve(Span<double> a, Span<double> b)
    {
        var n = b.Length;
        if (!TryFactor(a, n))
            return false;
        Forward(a, n, b);
        Backward(a, n, b);
        return true;
    }

    /// <summary>The inverse of L Lᵀ, both triangles.</summary>
    /// <param name="factor">L in the lower triangle of n × n numbers.</param>
    /// <param name="n">Rows.</param>
    public static double[] Inverse(ReadOnlySpan<double> factor, int n)
    {
        // Rows of the transposed inverse of L, so that every inner product runs along memory.
        var inverse = new double[n * n];
        for (var j = 0; j < n; j++)
        {
            var column = inverse.AsSpan(j * n, n);
            column[j] = 1 / factor[(j * n) + j];
            for (var i = j + 1; i < n; i++)
            {
                var sum = TensorPrimitives.Dot<double>(factor.Slice((i * n) + j, i - j), column[j..i]);
                column[i] = -sum / factor[(i * n) + i];
            }
        }

        var result = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = TensorPrimitives.Dot<double>(inverse.AsSpan((i * n) + i, n - i), inverse.AsSpan((j * n) + i, n - i));
                result[(i * n) + j] = sum;
                result[(j * n) + i] = sum;
            }
        }

        return result;
    }

    /// <summary>L of a 3 × 3 covariance that may be flat: directions without variance give zeros instead of a refusal.</summary>
    /// <param name="m">Nine numbers, row by row; L in the lower triangle afterwards, the upper one is left.</param>
    public static void Factor3(Span<double> m)
    {
        m[0] = Math.Sqrt(Math.Max(m[0], 0));
        m[3] = m[0] > 0 ? m[3] / m[0] : 0;
        m[6] = m[0] > 0 ? m[6] / m[0] : 0;
        m[4] = Math.Sqrt(Math.Max(m[4] - (m[3] * m[3]), 0));
        m[7] = m[4] > 0 ? (m[7] - (m[6] * m[3])) / m[4] : 0;
        m[8] = Math.Sqrt(Math.Max(m[8] - (m[6] * m[6]) - (m[7] * m[7]), 0));
    }
}
