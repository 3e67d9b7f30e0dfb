using System.Numerics.Tensors;

namespace Dyewort.Response;

/// <summary>The few dense matrix steps a Gaussian process needs, on row-major arrays.</summary>
internal static class Matrix
{
    /// <summary>Replaces the lower triangle of a symmetric matrix by its Cholesky factor.</summary>
    /// <returns>False where the matrix is not positive definite.</returns>
    public static bool Cholesky(double[] a, int n)
    {
        for (var i = 0; i < n; i++)
        {
            var rowI = a.AsSpan(i * n, n);
            for (var j = 0; j <= i; j++)
            {
                var rowJ = a.AsSpan(j * n, n);
                var sum = rowI[j] - (j == 0 ? 0 : TensorPrimitives.Dot<double>(rowI[..j], rowJ[..j]));
                if (i == j)
                {
                    if (!(sum > 0))
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
    public static void Forward(double[] factor, int n, Span<double> b)
    {
        for (var i = 0; i < n; i++)
        {
            var row = factor.AsSpan(i * n, n);
            b[i] = (b[i] - (i == 0 ? 0 : TensorPrimitives.Dot<double>(row[..i], b[..i]))) / row[i];
        }
    }

    /// <summary>Solves Lᵀ x = b in place.</summary>
    public static void Backward(double[] factor, int n, Span<double> b)
    {
        for (var i = n - 1; i >= 0; i--)
        {
            var row = factor.AsSpan(i * n, n);
            b[i] /= row[i];
            var x = -b[i];
            if (i > 0)
                TensorPrimitives.MultiplyAdd(row[..i], x, b[..i], b[..i]);
        }
    }

    /// <summary>The inverse of L Lᵀ, both triangles.</summary>
    public static double[] Inverse(double[] factor, int n)
    {
        // Rows of the transposed inverse of L, so that every inner product runs along memory.
        var inverse = new double[n * n];
        for (var j = 0; j < n; j++)
        {
            var column = inverse.AsSpan(j * n, n);
            column[j] = 1 / factor[(j * n) + j];
            for (var i = j + 1; i < n; i++)
            {
                var sum = TensorPrimitives.Dot<double>(factor.AsSpan((i * n) + j, i - j), column[j..i]);
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

    /// <summary>Solves a 3 × 3 system in place by Cramer's rule; leaves zero where the matrix is singular.</summary>
    public static void Solve3(ReadOnlySpan<double> m, Span<double> b)
    {
        var c0 = (m[4] * m[8]) - (m[5] * m[7]);
        var c1 = (m[5] * m[6]) - (m[3] * m[8]);
        var c2 = (m[3] * m[7]) - (m[4] * m[6]);
        var determinant = (m[0] * c0) + (m[1] * c1) + (m[2] * c2);
        if (Math.Abs(determinant) < 1e-300)
        {
            b.Clear();
            return;
        }

        var x = (b[0] * c0) + (b[1] * ((m[2] * m[7]) - (m[1] * m[8]))) + (b[2] * ((m[1] * m[5]) - (m[2] * m[4])));
        var y = (b[0] * c1) + (b[1] * ((m[0] * m[8]) - (m[2] * m[6]))) + (b[2] * ((m[2] * m[3]) - (m[0] * m[5])));
        var z = (b[0] * c2) + (b[1] * ((m[1] * m[6]) - (m[0] * m[7]))) + (b[2] * ((m[0] * m[4]) - (m[1] * m[3])));
        b[0] = x / determinant;
        b[1] = y / determinant;
        b[2] = z / determinant;
    }
}
