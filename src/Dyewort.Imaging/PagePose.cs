using Dyewort.Numerics;
using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>Where a page lies in a photo: takes millimetres on the page to pixels.</summary>
public abstract class PagePose
{
    /// <summary>The pixel of a point of the page.</summary>
    public abstract PointPx Project(PointMm point);

    /// <summary>Root mean square distance between where markers are seen and where the pose puts them, pixels; 0 where nothing is left to
    /// compare.</summary>
    public double ResidualPx { get; protected init; }

    /// <summary>Height of the curl of the page in millimetres, 0 for a flat page.</summary>
    public double CurlMm { get; protected init; }

    /// <summary>Projects an outline.</summary>
    public IReadOnlyList<PointPx> Project(IReadOnlyList<PointMm> outline) => [.. outline.Select(Project)];

    /// <summary>A flat page by its four corners, or any four points of it.</summary>
    public static PagePose? FromPoints(IReadOnlyList<PointMm> page, IReadOnlyList<PointPx> seen) =>
        Homography.Fit(page, seen) is { } map ? new Flat(map) : null;

    private sealed class Flat(Homography map) : PagePose
    {
        public override PointPx Project(PointMm point) => map.Map(point.X, point.Y);
    }
}

/// <summary>A camera with one lens-distortion number looking at a page that may be curled like a piece of a cylinder.</summary>
/// <remarks>Pin-hole camera; distortion by one radial term; the page is a parabolic cylinder along one of its sides, with true arc length.
/// Unknown: turn (3), place (3), focal length, distortion, curl, and where the lens looked (2): the middle, unless the photo was cropped.
/// Priors keep what a few markers cannot tell near what is usual: focal length within 35 % of a phone's main lens (or of what the file
/// says), distortion within ±0.03, curl within ±4 mm, the lens's centre within 6 % of the diagonal (common practice, no source).</remarks>
public sealed class CameraPose : PagePose
{
    private const double SigmaPx = 0.25;
    private const double SigmaDistortion = 0.03;
    private const double SigmaCurlMm = 4;
    private const double SigmaCentre = 0.06;

    private readonly double[] unknowns;
    private readonly int axis;
    private readonly double widthMm;
    private readonly double heightMm;
    private readonly double centreX;
    private readonly double centreY;
    private readonly double[] rotation;

    private CameraPose(double[] unknowns, int axis, SheetLayout layout, OpenPhoto photo, double residual)
    {
        this.unknowns = unknowns;
        this.axis = axis;
        widthMm = layout.WidthMm;
        heightMm = layout.HeightMm;
        var diagonal = Diagonal(photo);
        centreX = ((photo.Width - 1) / 2.0) + (unknowns[9] * diagonal);
        centreY = ((photo.Height - 1) / 2.0) + (unknowns[10] * diagonal);
        rotation = Rotation(unknowns[0], unknowns[1], unknowns[2]);
        ResidualPx = residual;
        CurlMm = unknowns[8];
    }

    /// <inheritdoc/>
    public override PointPx Project(PointMm point)
    {
        var (x, y) = Project(unknowns, rotation, axis, widthMm, heightMm, point);
        return new(x + centreX, y + centreY);
    }

    /// <summary>Fits the pose to the markers seen; markers that disagree with the others are left out.</summary>
    /// <returns>Null where fewer than two markers agree.</returns>
    internal static CameraPose? Fit(SheetLayout layout, OpenPhoto photo, IReadOnlyList<(SheetMarker Printed, SeenMarker Seen)> pairs)
    {
        var used = pairs.ToList();
        CameraPose? best = null;
        while (used.Count >= 2)
        {
            best = FitAll(layout, photo, used);
            if (best is null)
                return null;
            var errors = used.Select(pair => Error(best, pair)).ToArray();
            var worst = Array.IndexOf(errors, errors.Max());
            var scale = used.Average(pair => pair.Seen.Side);
            if (used.Count < 4 || errors[worst] < Math.Max(2.5, 0.03 * scale))
                return best;
            used.RemoveAt(worst);
        }

        return best;
    }

    private static double Error(CameraPose pose, (SheetMarker Printed, SeenMarker Seen) pair)
    {
        double sum = 0;
        for (var k = 0; k < 4; k++)
            sum += pose.Project(pair.Printed.CornersMm[k]).DistanceTo(pair.Seen.Corners[k]);
        return sum / 4;
    }

    private static CameraPose? FitAll(SheetLayout layout, OpenPhoto photo, List<(SheetMarker Printed, SeenMarker Seen)> pairs)
    {
        var mm = pairs.SelectMany(pair => pair.Printed.CornersMm).ToArray();
        var px = pairs.SelectMany(pair => pair.Seen.Corners).ToArray();
        var flat = Homography.Fit(mm, px);
        if (flat is null)
            return null;
        var (cx, cy) = ((photo.Width - 1) / 2.0, (photo.Height - 1) / 2.0);
        var diagonal = Diagonal(photo);
        var focal = (photo.FocalLength35mm ?? 27) / 43.27 * diagonal;
        var sigmaFocal = photo.FocalLength35mm is null ? 0.35 : 0.1;
        var start = Decompose(flat, focal, cx, cy, layout);
        if (start is null)
            return null;
        var count = (mm.Length * 2) + 5;
        var logFocal = Math.Log(focal);
        var steps = new[] { 1e-5, 1e-5, 1e-5, 1e-3, 1e-3, 1e-2, 1e-5, 1e-5, 1e-3, 1e-5, 1e-5 };
        (double[] Best, double Cost, int Axis) best = ([], double.MaxValue, 0);
        for (var side = 0; side < 2; side++)
        {
            var along = side;
            // However it ended: a page that was not met shows in the error at its corners, which decides what is believed.
            var fit = LeastSquares.Minimise(start, Residuals, count, steps, 60);
            if (fit.Cost < best.Cost)
                best = (fit.Best, fit.Cost, side);

            void Residuals(double[] at, double[] r)
            {
                var turn = Rotation(at[0], at[1], at[2]);
                for (var i = 0; i < mm.Length; i++)
                {
                    var (x, y) = Project(at, turn, along, layout.WidthMm, layout.HeightMm, mm[i]);
                    var (ex, ey) = ((x + cx + (at[9] * diagonal) - px[i].X) / SigmaPx, (y + cy + (at[10] * diagonal) - px[i].Y) / SigmaPx);

                    // A corner that is far off pulls with a bounded force.
                    var e = Math.Sqrt((ex * ex) + (ey * ey));
                    var soft = e > 4 ? Math.Sqrt((8 * e) - 16) / e : 1;
                    r[2 * i] = ex * soft;
                    r[(2 * i) + 1] = ey * soft;
                }

                r[count - 5] = (at[6] - logFocal) / sigmaFocal;
                r[count - 4] = at[7] / SigmaDistortion;
                r[count - 3] = at[8] / SigmaCurlMm;
                r[count - 2] = at[9] / SigmaCentre;
                r[count - 1] = at[10] / SigmaCentre;
            }
        }

        if (best.Best.Length == 0 || !double.IsFinite(best.Cost))
            return null;
        var pose = new CameraPose(best.Best, best.Axis, layout, photo, 0);
        double sum = 0;
        for (var i = 0; i < mm.Length; i++)
        {
            var d = pose.Project(mm[i]).DistanceTo(px[i]);
            sum += d * d;
        }

        return new CameraPose(best.Best, best.Axis, layout, photo, Math.Sqrt(sum / mm.Length));
    }

    private static (double X, double Y) Project(double[] at, double[] r, int axis, double width, double height, PointMm point)
    {
        double x = point.X - (width / 2),
            y = point.Y - (height / 2),
            z = 0;
        var curl = at[8];
        if (curl != 0)
        {
            var length = axis == 0 ? width : height;
            var k = 4 * curl / (length * length);
            var arc = axis == 0 ? x : y;
            var p = arc;
            for (var round = 0; round < 3; round++)
            {
                var slope = 2 * k * p;
                var root = Math.Sqrt(1 + (slope * slope));
                var length0 = Math.Abs(slope) < 1e-6 ? p : ((p * root) / 2) + (Math.Asinh(slope) / (4 * k));
                p -= (length0 - arc) / root;
            }

            if (axis == 0)
                x = p;
            else
                y = p;
            z = k * p * p;
        }

        var cx = (r[0] * x) + (r[1] * y) + (r[2] * z) + at[3];
        var cy = (r[3] * x) + (r[4] * y) + (r[5] * z) + at[4];
        var cz = (r[6] * x) + (r[7] * y) + (r[8] * z) + at[5];
        var (u, v) = (cx / cz, cy / cz);
        var bend = 1 + (at[7] * ((u * u) + (v * v)));
        var focal = Math.Exp(at[6]);
        return (u * bend * focal, v * bend * focal);
    }

    /// <summary>Turn and place of a flat page from its homography and a focal length.</summary>
    private static double[]? Decompose(Homography map, double focal, double cx, double cy, SheetLayout layout)
    {
        var h = map.Matrix;
        var column = new double[3][];
        for (var j = 0; j < 3; j++)
        {
            // The page's origin moves to its middle.
            var (x, y, w) =
                j == 0 ? h.Times(1, 0, 0)
                : j == 1 ? h.Times(0, 1, 0)
                : h.Times(layout.WidthMm / 2, layout.HeightMm / 2, 1);
            column[j] = [(x - (cx * w)) / focal, (y - (cy * w)) / focal, w];
        }

        var scale = 2 / (Norm(column[0]) + Norm(column[1]));
        if (!double.IsFinite(scale))
            return null;
        if (column[2][2] < 0)
            scale = -scale;
        var r1 = Unit([.. column[0].Select(v => v * scale)]);
        var c2 = column[1].Select(v => v * scale).ToArray();
        var dot = (r1[0] * c2[0]) + (r1[1] * c2[1]) + (r1[2] * c2[2]);
        var r2 = Unit([c2[0] - (dot * r1[0]), c2[1] - (dot * r1[1]), c2[2] - (dot * r1[2])]);
        double[] r3 = [(r1[1] * r2[2]) - (r1[2] * r2[1]), (r1[2] * r2[0]) - (r1[0] * r2[2]), (r1[0] * r2[1]) - (r1[1] * r2[0])];
        double[] turn = [r1[0], r2[0], r3[0], r1[1], r2[1], r3[1], r1[2], r2[2], r3[2]];
        var (wx, wy, wz) = Rodrigues(turn);
        return [wx, wy, wz, column[2][0] * scale, column[2][1] * scale, column[2][2] * scale, Math.Log(focal), 0, 0.01, 0, 0];
    }

    private static double Diagonal(OpenPhoto photo) =>
        Math.Sqrt(((double)photo.Width * photo.Width) + ((double)photo.Height * photo.Height));

    private static double Norm(double[] v) => Math.Sqrt((v[0] * v[0]) + (v[1] * v[1]) + (v[2] * v[2]));

    private static double[] Unit(double[] v)
    {
        var norm = Norm(v);
        return [v[0] / norm, v[1] / norm, v[2] / norm];
    }

    private static double[] Rotation(double x, double y, double z)
    {
        var angle = Math.Sqrt((x * x) + (y * y) + (z * z));
        var (a, b) = angle < 1e-9 ? (1.0, 0.5) : (Math.Sin(angle) / angle, (1 - Math.Cos(angle)) / (angle * angle));
        return
        [
            1 - (b * ((y * y) + (z * z))),
            (b * x * y) - (a * z),
            (b * x * z) + (a * y),
            (b * x * y) + (a * z),
            1 - (b * ((x * x) + (z * z))),
            (b * y * z) - (a * x),
            (b * x * z) - (a * y),
            (b * y * z) + (a * x),
            1 - (b * ((x * x) + (y * y))),
        ];
    }

    private static (double X, double Y, double Z) Rodrigues(double[] r)
    {
        // By way of the quaternion, which has no bad place at half a turn.
        var trace = r[0] + r[4] + r[8];
        double w,
            x,
            y,
            z;
        if (trace > 0)
        {
            var s = Math.Sqrt(trace + 1) * 2;
            (w, x, y, z) = (s / 4, (r[7] - r[5]) / s, (r[2] - r[6]) / s, (r[3] - r[1]) / s);
        }
        else if (r[0] > r[4] && r[0] > r[8])
        {
            var s = Math.Sqrt(1 + r[0] - r[4] - r[8]) * 2;
            (w, x, y, z) = ((r[7] - r[5]) / s, s / 4, (r[1] + r[3]) / s, (r[2] + r[6]) / s);
        }
        else if (r[4] > r[8])
        {
            var s = Math.Sqrt(1 + r[4] - r[0] - r[8]) * 2;
            (w, x, y, z) = ((r[2] - r[6]) / s, (r[1] + r[3]) / s, s / 4, (r[5] + r[7]) / s);
        }
        else
        {
            var s = Math.Sqrt(1 + r[8] - r[0] - r[4]) * 2;
            (w, x, y, z) = ((r[3] - r[1]) / s, (r[2] + r[6]) / s, (r[5] + r[7]) / s, s / 4);
        }

        var sine = Math.Sqrt((x * x) + (y * y) + (z * z));
        if (sine < 1e-12)
            return (0, 0, 0);
        var angle = 2 * Math.Atan2(sine, w);
        return (x / sine * angle, y / sine * angle, z / sine * angle);
    }
}
