using System.Numerics;

namespace Dyewort.Colour;

/// <summary>Many colours at once: sRGB bytes to CIELAB, and CIEDE2000, several values per instruction.</summary>
/// <remarks>The same formulas as the single-colour members; agreement is tested to 1e-9. Colours lie as one array for each
/// coordinate.</remarks>
public static class ColourBatch
{
    private static readonly double[] LinearOfByte =
    [
        .. Enumerable.Range(0, 256).Select(value => RgbSpace.Srgb.Decode(new(value / 255.0, 0, 0)).R),
    ];
    private static readonly double[] Matrix = RelativeMatrix();

    /// <summary>CIELAB (D65) of sRGB bytes.</summary>
    /// <param name="rgb">Red, green, blue, red, green, blue …: 3n bytes.</param>
    /// <param name="l">Takes n values of L*.</param>
    /// <param name="a">Takes n values of a*.</param>
    /// <param name="b">Takes n values of b*.</param>
    /// <exception cref="ArgumentException">The lengths do not fit together.</exception>
    public static void LabOfSrgb(ReadOnlySpan<byte> rgb, Span<double> l, Span<double> a, Span<double> b)
    {
        var n = rgb.Length / 3;
        if (rgb.Length != 3 * n || l.Length != n || a.Length != n || b.Length != n)
            throw new ArgumentException("Three bytes and one place in each result for every colour.", nameof(rgb));
        var table = LinearOfByte.AsSpan();
        var m = Matrix;
        // Linear components wait in the places of the result; then whole vectors are worked in place.
        for (var i = 0; i < n; i++)
        {
            var (red, green, blue) = (table[rgb[3 * i]], table[rgb[(3 * i) + 1]], table[rgb[(3 * i) + 2]]);
            l[i] = (m[0] * red) + (m[1] * green) + (m[2] * blue);
            a[i] = (m[3] * red) + (m[4] * green) + (m[5] * blue);
            b[i] = (m[6] * red) + (m[7] * green) + (m[8] * blue);
        }

        var width = Vector<double>.Count;
        var whole = n - (n % width);
        for (var i = 0; i < whole; i += width)
        {
            var fx = LabRoot(new Vector<double>(l[i..]));
            var fy = LabRoot(new Vector<double>(a[i..]));
            var fz = LabRoot(new Vector<double>(b[i..]));
            ((116 * fy) - new Vector<double>(16)).CopyTo(l[i..]);
            (500 * (fx - fy)).CopyTo(a[i..]);
            (200 * (fy - fz)).CopyTo(b[i..]);
        }

        for (var i = whole; i < n; i++)
        {
            var white = WhitePoint.D65;
            var lab = Lab.FromXyz(new(l[i] * white.X, a[i] * white.Y, b[i] * white.Z));
            (l[i], a[i], b[i]) = (lab.L, lab.A, lab.B);
        }
    }

    /// <summary>CIEDE2000 of one colour against many.</summary>
    /// <param name="reference">The one.</param>
    /// <param name="l">L* of the many.</param>
    /// <param name="a">a*, as many.</param>
    /// <param name="b">b*, as many.</param>
    /// <param name="differences">Takes ΔE₀₀ of each.</param>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static void Ciede2000(
        Lab reference,
        ReadOnlySpan<double> l,
        ReadOnlySpan<double> a,
        ReadOnlySpan<double> b,
        Span<double> differences
    )
    {
        var n = l.Length;
        if (a.Length != n || b.Length != n || differences.Length != n)
            throw new ArgumentException("All arrays have the same length.", nameof(l));
        var (l1, a1, b1) = (new Vector<double>(reference.L), new Vector<double>(reference.A), new Vector<double>(reference.B));
        var width = Vector<double>.Count;
        var at = 0;
        for (; at <= n - width; at += width)
        {
            var (l2, a2, b2) = (new Vector<double>(l[at..]), new Vector<double>(a[at..]), new Vector<double>(b[at..]));
            var result = Kernel(l1, a1, b1, l2, a2, b2, out var alone);
            result.CopyTo(differences[at..]);
            if (Vector.EqualsAll(alone, Vector<long>.Zero))
                continue;
            for (var lane = 0; lane < width; lane++)
            {
                if (alone[lane] != 0)
                    differences[at + lane] = Difference.Ciede2000(reference, new(l[at + lane], a[at + lane], b[at + lane]));
            }
        }

        for (; at < n; at++)
            differences[at] = Difference.Ciede2000(reference, new(l[at], a[at], b[at]));
    }

    /// <summary>CIEDE2000 of pairs: first i against second i.</summary>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static void Ciede2000(
        ReadOnlySpan<double> firstL,
        ReadOnlySpan<double> firstA,
        ReadOnlySpan<double> firstB,
        ReadOnlySpan<double> secondL,
        ReadOnlySpan<double> secondA,
        ReadOnlySpan<double> secondB,
        Span<double> differences
    )
    {
        var n = firstL.Length;
        if (
            firstA.Length != n
            || firstB.Length != n
            || secondL.Length != n
            || secondA.Length != n
            || secondB.Length != n
            || differences.Length != n
        )
            throw new ArgumentException("All arrays have the same length.", nameof(firstL));
        var width = Vector<double>.Count;
        var at = 0;
        for (; at <= n - width; at += width)
        {
            var result = Kernel(
                new(firstL[at..]),
                new(firstA[at..]),
                new(firstB[at..]),
                new(secondL[at..]),
                new(secondA[at..]),
                new(secondB[at..]),
                out var alone
            );
            result.CopyTo(differences[at..]);
            if (Vector.EqualsAll(alone, Vector<long>.Zero))
                continue;
            for (var lane = 0; lane < width; lane++)
            {
                if (alone[lane] != 0)
                    differences[at + lane] = Difference.Ciede2000(
                        new(firstL[at + lane], firstA[at + lane], firstB[at + lane]),
                        new(secondL[at + lane], secondA[at + lane], secondB[at + lane])
                    );
            }
        }

        for (; at < n; at++)
            differences[at] = Difference.Ciede2000(new(firstL[at], firstA[at], firstB[at]), new(secondL[at], secondA[at], secondB[at]));
    }

    /// <summary>CIEDE2000 without arc tangents: the mean hue is the bisector of the two hue directions, its multiples follow from
    /// double-angle formulas, and only the distance to 275° is turned into an angle, by halving it three times and a short series. Lanes
    /// with nearly opposite hues, where the bisector is ill defined, are marked as alone: they go the single-colour way.</summary>
    private static Vector<double> Kernel(
        Vector<double> l1,
        Vector<double> a1,
        Vector<double> b1,
        Vector<double> l2,
        Vector<double> a2,
        Vector<double> b2,
        out Vector<long> alone
    )
    {
        var one = Vector<double>.One;
        var half = new Vector<double>(0.5);
        var tiny = new Vector<double>(1e-300);
        var c1 = Vector.SquareRoot((a1 * a1) + (b1 * b1));
        var c2 = Vector.SquareRoot((a2 * a2) + (b2 * b2));
        var stretch = one + (half * (one - Vector.SquareRoot(Saturation(half * (c1 + c2)))));
        var (p1, p2) = (stretch * a1, stretch * a2);
        var q1 = Vector.SquareRoot((p1 * p1) + (b1 * b1));
        var q2 = Vector.SquareRoot((p2 * p2) + (b2 * b2));
        var dL = l2 - l1;
        var dC = q2 - q1;
        var product = q1 * q2;
        var dot = (p1 * p2) + (b1 * b2);
        var cross = (p1 * b2) - (p2 * b1);
        // 2 √(C₁C₂) sin(Δh/2) = (C₁C₂ sin Δh) / √((C₁C₂ + C₁C₂ cos Δh)/2)
        var dH = cross / Vector.Max(Vector.SquareRoot(half * Vector.Max(product + dot, Vector<double>.Zero)), tiny);

        var (i1, i2) = (one / Vector.Max(q1, tiny), one / Vector.Max(q2, tiny));
        var (x, y) = ((p1 * i1) + (p2 * i2), (b1 * i1) + (b2 * i2));
        var length2 = (x * x) + (y * y);
        alone = Vector.BitwiseAnd(Vector.GreaterThan(product, Vector<double>.Zero), Vector.LessThan(length2, new(1e-4)));
        // Two greys have no hue at all; their chroma is 0 and the direction drops out.
        var grey = Vector.LessThan(length2, new(1e-200));
        var inverse = one / Vector.SquareRoot(Vector.Max(length2, new(1e-200)));
        var cos = Vector.ConditionalSelect(grey, one, x * inverse);
        var sin = Vector.ConditionalSelect(grey, Vector<double>.Zero, y * inverse);

        // The formula measures the distance from 275° along 0 to 360, not round the circle: a mean hue within rounding of 0 must be told
        // apart.
        alone |= Vector.BitwiseAnd(
            Vector.BitwiseAnd(Vector.LessThan(Vector.Abs(sin), new(1e-9)), Vector.GreaterThan(cos, Vector<double>.Zero)),
            Vector.GreaterThan(product, Vector<double>.Zero)
        );

        var cos2 = (2 * cos * cos) - one;
        var sin2 = 2 * sin * cos;
        var cos3 = (cos2 * cos) - (sin2 * sin);
        var sin3 = (sin2 * cos) + (cos2 * sin);
        var cos4 = (2 * cos2 * cos2) - one;
        var sin4 = 2 * sin2 * cos2;
        var t =
            one
            - (0.17 * ((Cos30 * cos) + (Sin30 * sin)))
            + (0.24 * cos2)
            + (0.32 * ((Cos6 * cos3) - (Sin6 * sin3)))
            - (0.20 * ((Cos63 * cos4) + (Sin63 * sin4)));

        var cBar = half * (q1 + q2);
        var l50 = (half * (l1 + l2)) - new Vector<double>(50);
        l50 *= l50;
        var sL = one + (0.015 * l50 / Vector.SquareRoot(new Vector<double>(20) + l50));
        var sC = one + (0.045 * cBar);
        var sH = one + (0.015 * cBar * t);

        var (cosTo, sinTo) = ((Cos275 * cos) + (Sin275 * sin), (Cos275 * sin) - (Sin275 * cos));
        var tan = sinTo / Vector.Max(one + cosTo, new(1e-12));
        tan /= one + Vector.SquareRoot(one + (tan * tan));
        tan /= one + Vector.SquareRoot(one + (tan * tan));
        var fromBlue = 8 * Angle(tan) * (180 / Math.PI / 25);
        var theta = new Vector<double>(60 * Math.PI / 180) * Vector.Exp(-(fromBlue * fromBlue));
        theta = Vector.ConditionalSelect(
            Vector.BitwiseAnd(Vector.GreaterThan(fromBlue, Vector<double>.Zero), Vector.GreaterThanOrEqual(sin, Vector<double>.Zero)),
            Vector<double>.Zero,
            theta
        );
        var rT = -2 * Vector.Sin(theta) * Vector.SquareRoot(Saturation(cBar));

        var (vL, vC, vH) = (dL / sL, dC / sC, dH / sH);
        return Vector.SquareRoot(Vector.Max((vL * vL) + (vC * vC) + (vH * vH) + (rT * vC * vH), Vector<double>.Zero));
    }

    private static double Cos30 => 0.86602540378443864676;

    private static double Sin30 => 0.5;

    private static double Cos6 => 0.99452189536827333692;

    private static double Sin6 => 0.10452846326765347140;

    private static double Cos63 => 0.45399049973954679156;

    private static double Sin63 => 0.89100652418836786236;

    private static double Cos275 => 0.08715574274765817356;

    private static double Sin275 => -0.99619469809174553230;

    /// <summary>C⁷/(C⁷ + 25⁷).</summary>
    private static Vector<double> Saturation(Vector<double> chroma)
    {
        var c2 = chroma * chroma;
        var c7 = c2 * c2 * c2 * chroma;
        return c7 / (c7 + new Vector<double>(6103515625));
    }

    /// <summary>Arc tangent of values up to tan 22.5°: the series to the 27th power, good to 1e-12 at that end.</summary>
    private static Vector<double> Angle(Vector<double> x)
    {
        var x2 = x * x;
        var sum = new Vector<double>(-1.0 / 27);
        for (var power = 25; power >= 1; power -= 2)
            sum = new Vector<double>((power % 4 == 1 ? 1.0 : -1.0) / power) + (x2 * sum);
        return x * sum;
    }

    /// <summary>The f of CIELAB: cube root above (6/29)³, straight line below.</summary>
    private static Vector<double> LabRoot(Vector<double> t)
    {
        var line = ((24389.0 / 27 * t) + new Vector<double>(16)) * (1.0 / 116);
        return Vector.ConditionalSelect(Vector.GreaterThan(t, new(216.0 / 24389)), CubeRoot(Vector.Max(t, new(1e-3))), line);
    }

    /// <summary>Cube root of values from 0.001 up: a guess from the bits of the number, then Halley's steps, each tripling the
    /// digits.</summary>
    private static Vector<double> CubeRoot(Vector<double> t)
    {
        // A third of the exponent and mantissa together; the constant is ⅔ of the exponent bias, chosen for the least error.
        var bits =
            Vector.ConvertToInt64(Vector.ConvertToDouble(Vector.AsVectorInt64(t)) * (1.0 / 3)) + new Vector<long>(0x2A9F7893782DA1CE);
        var guess = Vector.AsVectorDouble(bits);
        for (var step = 0; step < 3; step++)
        {
            var cube = guess * guess * guess;
            guess *= (cube + (2 * t)) / ((2 * cube) + t);
        }

        return guess;
    }

    private static double[] RelativeMatrix()
    {
        var rows = new double[9];
        Rgb[] primaries = [new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)];
        for (var k = 0; k < 3; k++)
        {
            var colour = RgbSpace.Srgb.LinearToXyz(primaries[k]);
            (rows[k], rows[3 + k], rows[6 + k]) = (colour.X / WhitePoint.D65.X, colour.Y / WhitePoint.D65.Y, colour.Z / WhitePoint.D65.Z);
        }

        return rows;
    }
}
