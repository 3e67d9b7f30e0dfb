using Dyewort.Numerics;

namespace Dyewort.Colour;

/// <summary>A colour and how well it is known.</summary>
/// <param name="Colour">XYZ under D65.</param>
/// <param name="Covariance">Its covariance in XYZ.</param>
public readonly record struct UncertainColour(Xyz Colour, Covariance Covariance)
{
    private const int Draws = 1024;
    private static readonly (double A, double B, double C, double D, double E, double F)[] Normals = Spread();

    /// <summary>The colour in CIELAB.</summary>
    public Lab Lab => Lab.FromXyz(Colour);

    /// <summary>A colour whose covariance is known in CIELAB.</summary>
    public static UncertainColour FromLab(Lab colour, Covariance lab) =>
        new(colour.ToXyz(), lab.Through(Derivatives(colour, value => value.ToXyz() is var xyz ? (xyz.X, xyz.Y, xyz.Z) : default)));

    /// <summary>A colour whose 95 % radius in CIEDE2000 is known, the same in all directions.</summary>
    /// <param name="colour">The colour.</param>
    /// <param name="radius95De00">ΔE₀₀ within which 95 of 100 repetitions lie, ≥ 0.</param>
    public static UncertainColour FromRadius(Xyz colour, double radius95De00)
    {
        var lab = Lab.FromXyz(colour);
        // Semi-axes of the ΔE₀₀ = 1 ellipsoid along L*, chroma and hue.
        var sigma = radius95De00 / ThreeNormals.Radius95;
        var hue = lab.HueDegrees * Math.PI / 180;
        var (cos, sin) = (Math.Cos(hue), Math.Sin(hue));
        double Axis(double dl, double da, double db) =>
            0.1 / Math.Max(1e-6, Difference.Ciede2000(lab, new(lab.L + (0.1 * dl), lab.A + (0.1 * da), lab.B + (0.1 * db))));
        var (l, c, h) = (sigma * Axis(1, 0, 0), sigma * Axis(0, cos, sin), sigma * Axis(0, -sin, cos));
        return FromLab(
            lab,
            new(
                l * l,
                0,
                0,
                (c * c * cos * cos) + (h * h * sin * sin),
                (c * c - (h * h)) * cos * sin,
                (c * c * sin * sin) + (h * h * cos * cos)
            )
        );
    }

    /// <summary>Covariance in CIELAB, by first-order propagation.</summary>
    public Covariance LabCovariance()
    {
        var inverse = Derivatives(Lab, value => value.ToXyz() is var xyz ? (xyz.X, xyz.Y, xyz.Z) : default).Inverse();
        return Covariance.Through(inverse);
    }

    /// <summary>ΔE₀₀ from the colour within which it lies with 95 % probability.</summary>
    /// <remarks>From 1024 evenly spread normal draws (a fixed low-discrepancy set), so the same input gives the same figure; good to about
    /// 3 %.</remarks>
    public double Radius95De00()
    {
        var (lab, root) = (Lab, LabCovariance().Root());
        var distances = new double[Draws];
        for (var i = 0; i < Draws; i++)
        {
            var (dl, da, db) = root.Times(Normals[i].A, Normals[i].B, Normals[i].C);
            distances[i] = Difference.Ciede2000(lab, new(lab.L + dl, lab.A + da, lab.B + db));
        }

        Array.Sort(distances);
        return distances[(int)(0.95 * Draws)];
    }

    /// <summary>The chance that the true colours differ by more than a threshold, their errors being independent.</summary>
    /// <param name="other">The other colour.</param>
    /// <param name="thresholdDe00">ΔE₀₀ from which a difference counts as visible; 1 is common practice for swatches side by side (no
    /// source).</param>
    public double ChanceOfDifference(UncertainColour other, double thresholdDe00 = 1)
    {
        var (first, second) = (Lab, other.Lab);
        var (rootFirst, rootSecond) = (LabCovariance().Root(), other.LabCovariance().Root());
        var over = 0;
        foreach (var (a, b, c, d, e, f) in Normals)
        {
            var (l1, a1, b1) = rootFirst.Times(a, b, c);
            var (l2, a2, b2) = rootSecond.Times(d, e, f);
            if (
                Difference.Ciede2000(new(first.L + l1, first.A + a1, first.B + b1), new(second.L + l2, second.A + a2, second.B + b2))
                > thresholdDe00
            )
                over++;
        }

        return (double)over / Draws;
    }

    private static Matrix3 Derivatives(Lab at, Func<Lab, (double X, double Y, double Z)> map)
    {
        const double H = 1e-4;
        (double X, double Y, double Z) Slope(double dl, double da, double db)
        {
            var up = map(new(at.L + (H * dl), at.A + (H * da), at.B + (H * db)));
            var down = map(new(at.L - (H * dl), at.A - (H * da), at.B - (H * db)));
            return ((up.X - down.X) / (2 * H), (up.Y - down.Y) / (2 * H), (up.Z - down.Z) / (2 * H));
        }

        var (l, a, b) = (Slope(1, 0, 0), Slope(0, 1, 0), Slope(0, 0, 1));
        return new(l.X, a.X, b.X, l.Y, a.Y, b.Y, l.Z, a.Z, b.Z);
    }

    /// <summary>Six standard normals from a Kronecker sequence on the roots of x⁷ = x + 1, through Box–Muller.</summary>
    private static (double A, double B, double C, double D, double E, double F)[] Spread()
    {
        var root = 1.1;
        for (var i = 0; i < 60; i++)
            root = Math.Pow(1 + root, 1.0 / 7);
        var all = new (double, double, double, double, double, double)[Draws];
        Span<double> u = stackalloc double[6];
        for (var i = 0; i < Draws; i++)
        {
            for (var k = 0; k < 6; k++)
            {
                var value = 0.5 + ((i + 1) * Math.Pow(root, -(k + 1)));
                u[k] = value - Math.Floor(value);
            }

            var (r1, r2, r3) = (Radius(u[0]), Radius(u[2]), Radius(u[4]));
            var (t1, t2, t3) = (2 * Math.PI * u[1], 2 * Math.PI * u[3], 2 * Math.PI * u[5]);
            all[i] = (r1 * Math.Cos(t1), r1 * Math.Sin(t1), r2 * Math.Cos(t2), r2 * Math.Sin(t2), r3 * Math.Cos(t3), r3 * Math.Sin(t3));
        }

        return all;
    }

    private static double Radius(double unit) => Math.Sqrt(-2 * Math.Log(Math.Max(1 - unit, 1e-12)));
}
