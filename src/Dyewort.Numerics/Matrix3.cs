namespace Dyewort.Numerics;

/// <summary>A 3 × 3 matrix, its nine numbers row by row; <c>default</c> is all zeros.</summary>
/// <param name="M11">Row 1, column 1.</param>
/// <param name="M12">Row 1, column 2.</param>
/// <param name="M13">Row 1, column 3.</param>
/// <param name="M21">Row 2, column 1.</param>
/// <param name="M22">Row 2, column 2.</param>
/// <param name="M23">Row 2, column 3.</param>
/// <param name="M31">Row 3, column 1.</param>
/// <param name="M32">Row 3, column 2.</param>
/// <param name="M33">Row 3, column 3.</param>
public readonly record struct Matrix3(
    double M11,
    double M12,
    double M13,
    double M21,
    double M22,
    double M23,
    double M31,
    double M32,
    double M33
)
{
    /// <summary>The determinant: 0 where the matrix has no inverse.</summary>
    public double Determinant =>
        (M11 * ((M22 * M33) - (M23 * M32))) + (M12 * ((M23 * M31) - (M21 * M33))) + (M13 * ((M21 * M32) - (M22 * M31)));

    /// <summary>A matrix that scales each coordinate.</summary>
    public static Matrix3 Diagonal(double first, double second, double third) => new(first, 0, 0, 0, second, 0, 0, 0, third);

    /// <summary>The matrix times a column of three.</summary>
    public (double First, double Second, double Third) Times(double a, double b, double c) =>
        ((M11 * a) + (M12 * b) + (M13 * c), (M21 * a) + (M22 * b) + (M23 * c), (M31 * a) + (M32 * b) + (M33 * c));

    /// <summary>The matrix times another: the other one acts first.</summary>
    public Matrix3 Times(Matrix3 n)
    {
        var (a, d, g) = Times(n.M11, n.M21, n.M31);
        var (b, e, h) = Times(n.M12, n.M22, n.M32);
        var (c, f, i) = Times(n.M13, n.M23, n.M33);
        return new(a, b, c, d, e, f, g, h, i);
    }

    /// <summary>Rows and columns exchanged.</summary>
    public Matrix3 Transpose() => new(M11, M21, M31, M12, M22, M32, M13, M23, M33);

    /// <summary>The inverse; not finite where <see cref="Determinant"/> is 0.</summary>
    public Matrix3 Inverse()
    {
        var a = (M22 * M33) - (M23 * M32);
        var b = (M23 * M31) - (M21 * M33);
        var c = (M21 * M32) - (M22 * M31);
        var k = 1 / ((M11 * a) + (M12 * b) + (M13 * c));
        return new(
            k * a,
            k * ((M13 * M32) - (M12 * M33)),
            k * ((M12 * M23) - (M13 * M22)),
            k * b,
            k * ((M11 * M33) - (M13 * M31)),
            k * ((M13 * M21) - (M11 * M23)),
            k * c,
            k * ((M12 * M31) - (M11 * M32)),
            k * ((M11 * M22) - (M12 * M21))
        );
    }
}
