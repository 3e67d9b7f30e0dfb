using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>Covariance of three values, symmetric and at least 0 in every direction; <c>default</c> is certainty.</summary>
/// <param name="Xx">Variance of the first value.</param>
/// <param name="Xy">Covariance of first and second.</param>
/// <param name="Xz">Covariance of first and third.</param>
/// <param name="Yy">Variance of the second.</param>
/// <param name="Yz">Covariance of second and third.</param>
/// <param name="Zz">Variance of the third.</param>
public readonly record struct Covariance(double Xx, double Xy, double Xz, double Yy, double Yz, double Zz)
{
    /// <summary>Independent values with these standard deviations.</summary>
    public static Covariance OfDeviations(double first, double second, double third) =>
        new(first * first, 0, 0, second * second, 0, third * third);

    /// <summary>The covariance of a sum of independent triples.</summary>
    public static Covariance operator +(Covariance first, Covariance second) =>
        new(
            first.Xx + second.Xx,
            first.Xy + second.Xy,
            first.Xz + second.Xz,
            first.Yy + second.Yy,
            first.Yz + second.Yz,
            first.Zz + second.Zz
        );

    /// <summary>The covariance of the triple times √factor.</summary>
    public static Covariance operator *(Covariance covariance, double factor) =>
        new(
            covariance.Xx * factor,
            covariance.Xy * factor,
            covariance.Xz * factor,
            covariance.Yy * factor,
            covariance.Yz * factor,
            covariance.Zz * factor
        );

    /// <summary>The covariance after a smooth change of coordinates, from its derivatives (first-order propagation).</summary>
    /// <remarks>Source: GUM, section 5.2 [GUM2008].</remarks>
    internal Covariance Through(Matrix3 jacobian)
    {
        var full = new Matrix3(Xx, Xy, Xz, Xy, Yy, Yz, Xz, Yz, Zz);
        var m = jacobian.Times(full).Times(jacobian.Transpose());
        return new(m.M11, m.M12, m.M13, m.M22, m.M23, m.M33);
    }

    /// <summary>Lower triangle L with L Lᵀ = this; directions without variance give zeros.</summary>
    internal Matrix3 Root()
    {
        var a = Math.Sqrt(Math.Max(0, Xx));
        var b = a > 0 ? Xy / a : 0;
        var d = Math.Sqrt(Math.Max(0, Yy - (b * b)));
        var c = a > 0 ? Xz / a : 0;
        var e = d > 0 ? (Yz - (b * c)) / d : 0;
        return new(a, 0, 0, b, d, 0, c, e, Math.Sqrt(Math.Max(0, Zz - (c * c) - (e * e))));
    }
}
