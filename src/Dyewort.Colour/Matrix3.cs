namespace Dyewort.Colour;

/// <summary>A 3×3 matrix, row by row.</summary>
internal readonly record struct Matrix3(
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
    public static Matrix3 Diagonal(double first, double second, double third) => new(first, 0, 0, 0, second, 0, 0, 0, third);

    public (double First, double Second, double Third) Times(double a, double b, double c) =>
        ((M11 * a) + (M12 * b) + (M13 * c), (M21 * a) + (M22 * b) + (M23 * c), (M31 * a) + (M32 * b) + (M33 * c));

    public Matrix3 Times(Matrix3 n)
    {
        var (a, d, g) = Times(n.M11, n.M21, n.M31);
        var (b, e, h) = Times(n.M12, n.M22, n.M32);
        var (c, f, i) = Times(n.M13, n.M23, n.M33);
        return new(a, b, c, d, e, f, g, h, i);
    }

    public Matrix3 Transpose() => new(M11, M21, M31, M12, M22, M32, M13, M23, M33);

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
