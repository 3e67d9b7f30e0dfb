using Dyewort.Numerics;
using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>A projective map of the plane, by its nine numbers.</summary>
/// <remarks>Source: Hartley and Zisserman 2004, chapter 4 [HartleyZisserman2004].</remarks>
internal sealed class Homography(Matrix3 m)
{
    public Matrix3 Matrix => m;

    public PointPx Map(double x, double y)
    {
        var (u, v, w) = m.Times(x, y, 1);
        return new(u / w, v / w);
    }

    /// <summary>The map that takes (0,0), (1,0), (1,1), (0,1) to four points.</summary>
    public static Homography FromUnitSquare(IReadOnlyList<PointPx> to)
    {
        var (sx, sy) = (to[0].X - to[1].X + to[2].X - to[3].X, to[0].Y - to[1].Y + to[2].Y - to[3].Y);
        var (dx1, dy1) = (to[1].X - to[2].X, to[1].Y - to[2].Y);
        var (dx2, dy2) = (to[3].X - to[2].X, to[3].Y - to[2].Y);
        var cross = (dx1 * dy2) - (dx2 * dy1);
        var g = ((sx * dy2) - (dx2 * sy)) / cross;
        var h = ((dx1 * sy) - (sx * dy1)) / cross;
        return new(
            new Matrix3(
                to[1].X - to[0].X + (g * to[1].X),
                to[3].X - to[0].X + (h * to[3].X),
                to[0].X,
                to[1].Y - to[0].Y + (g * to[1].Y),
                to[3].Y - to[0].Y + (h * to[3].Y),
                to[0].Y,
                g,
                h,
                1
            )
        );
    }

    /// <summary>Least squares over point pairs, both sides brought to unit size first.</summary>
    /// <returns>The map, or null where the points do not determine one.</returns>
    public static Homography? Fit(IReadOnlyList<PointMm> from, IReadOnlyList<PointPx> to)
    {
        var n = from.Count;
        if (n < 4)
            return null;
        var (fx, fy, fs) = Scale([.. from.Select(p => (p.X, p.Y))]);
        var (tx, ty, ts) = Scale([.. to.Select(p => (p.X, p.Y))]);
        var normal = new double[64];
        var right = new double[8];
        Span<double> row = stackalloc double[8];
        for (var i = 0; i < n; i++)
        {
            var (x, y) = ((from[i].X - fx) * fs, (from[i].Y - fy) * fs);
            var (u, v) = ((to[i].X - tx) * ts, (to[i].Y - ty) * ts);
            for (var k = 0; k < 2; k++)
            {
                row.Clear();
                var target = k == 0 ? u : v;
                (row[k * 3], row[(k * 3) + 1], row[(k * 3) + 2]) = (x, y, 1);
                (row[6], row[7]) = (-target * x, -target * y);
                for (var a = 0; a < 8; a++)
                {
                    right[a] += row[a] * target;
                    for (var b = 0; b < 8; b++)
                        normal[(a * 8) + b] += row[a] * row[b];
                }
            }
        }

        for (var a = 0; a < 8; a++)
            normal[(a * 8) + a] += 1e-10;
        if (!Cholesky.TrySolve(normal, right))
            return null;
        var inner = new Matrix3(right[0], right[1], right[2], right[3], right[4], right[5], right[6], right[7], 1);
        var before = new Matrix3(fs, 0, -fs * fx, 0, fs, -fs * fy, 0, 0, 1);
        var after = new Matrix3(1 / ts, 0, tx, 0, 1 / ts, ty, 0, 0, 1);
        return new(after.Times(inner).Times(before));
    }

    private static (double X, double Y, double Scale) Scale((double X, double Y)[] points)
    {
        var (mx, my) = (points.Average(p => p.X), points.Average(p => p.Y));
        var mean = points.Average(p => Math.Sqrt(((p.X - mx) * (p.X - mx)) + ((p.Y - my) * (p.Y - my))));
        return (mx, my, mean > 0 ? Math.Sqrt(2) / mean : 1);
    }
}
