using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>A marker seen in a photo.</summary>
/// <param name="Id">Its number in the family.</param>
/// <param name="Corners">Corners of the black square in the upright photo, clockwise from the marker's own top left.</param>
/// <param name="WrongCells">Cells of its code that had to be repaired.</param>
public sealed record SeenMarker(int Id, IReadOnlyList<PointPx> Corners, int WrongCells)
{
    /// <summary>Mean side in pixels.</summary>
    public double Side => Enumerable.Range(0, 4).Average(i => Corners[i].DistanceTo(Corners[(i + 1) % 4]));
}

/// <summary>Finds printed markers of the 36h11 family in a photo.</summary>
/// <remarks>Dark regions of a reduced picture are outlined; outlines with four straight sides are looked into at full size;
/// what carries a code of the family has its sides fitted again at full size, in linear light, where blur moves no edge.</remarks>
public static class FindMarkers
{
    private const int MostOutline = 20_000;

    /// <summary>Finds markers, looking closer while fewer than wanted are found.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="enough">With this many different markers no harder look is worth its time.</param>
    /// <param name="all">How many there are: until so many are found, at least the usual size is looked at; <paramref name="enough"/> when
    /// 0.</param>
    public static IReadOnlyList<SeenMarker> In(OpenPhoto photo, int enough = 3, int all = 0)
    {
        var longSide = Math.Max(photo.Width, photo.Height);
        var factor = Math.Max(1, (int)Math.Round(longSide / 1900.0));
        var found = new List<SeenMarker>();

        // A small picture shows large markers as well as any, at a quarter of the cost.
        if (factor * 2 <= longSide / 900)
            Once(factor * 2, 25, 0.80);
        if (found.Count >= Math.Max(enough, all))
            return found;
        Once(factor, 25, 0.80);
        if (found.Count >= enough)
            return found;
        using (var finer = GreyPicture.Reduce(photo, Math.Max(1, factor / 2)))
        {
            Look(photo, finer, 25, 0.80, found);
            if (found.Count < enough)
                Look(photo, finer, 60, 0.88, found);
        }

        if (found.Count < enough)
            Once(factor * 2, 12, 0.86);
        return found;

        void Once(int reduced, int windows, double share)
        {
            using var grey = GreyPicture.Reduce(photo, reduced);
            Look(photo, grey, windows, share, found);
        }
    }

    private static void Look(OpenPhoto photo, GreyPicture grey, int windows, double share, List<SeenMarker> found)
    {
        var radius = Math.Max(6, Math.Max(grey.Width, grey.Height) / windows / 2);
        var dark = grey.DarkerThanAround(radius, share);
        var outline = new List<(int X, int Y)>(1024);
        var stride = grey.Width + 2;
        for (var y = 1; y <= grey.Height; y++)
        {
            var row = dark.Slice(y * stride, stride);
            for (var x = 1; x <= grey.Width; x++)
            {
                // 1 dark, 3 dark and already outlined; an outline starts where light turns into dark.
                if (row[x] != 1 || row[x - 1] != 0)
                    continue;
                Trace(dark, stride, x, y, outline);
                if (outline.Count is < 28 or > MostOutline)
                    continue;
                if (!TryQuad(outline, out var quad))
                    continue;
                var corners = new PointPx[4];
                for (var i = 0; i < 4; i++)
                    corners[i] = new(((quad[i].X - 1 + 0.5) * grey.Factor) - 0.5, ((quad[i].Y - 1 + 0.5) * grey.Factor) - 0.5);
                if (found.Exists(known => Inside(corners, known)))
                    continue;
                if (TryRead(photo, corners, out var marker))
                    found.Add(marker);
            }
        }
    }

    private static bool Inside(PointPx[] corners, SeenMarker known)
    {
        var centre = new PointPx(corners.Average(corner => corner.X), corners.Average(corner => corner.Y));
        var other = new PointPx(known.Corners.Average(corner => corner.X), known.Corners.Average(corner => corner.Y));
        return centre.DistanceTo(other) < known.Side * 0.5;
    }

    /// <summary>Walks around a dark region, keeping it on the right hand, and marks its border.</summary>
    private static void Trace(Span<byte> dark, int stride, int startX, int startY, List<(int X, int Y)> outline)
    {
        ReadOnlySpan<int> dx = [1, 1, 0, -1, -1, -1, 0, 1];
        ReadOnlySpan<int> dy = [0, 1, 1, 1, 0, -1, -1, -1];
        outline.Clear();
        var (x, y) = (startX, startY);
        var from = 4;
        for (var steps = 0; steps < MostOutline * 2; steps++)
        {
            dark[(y * stride) + x] = 3;
            outline.Add((x, y));
            var next = -1;
            for (var k = 1; k <= 8; k++)
            {
                var direction = (from + k) & 7;
                if (dark[((y + dy[direction]) * stride) + x + dx[direction]] != 0)
                {
                    next = direction;
                    break;
                }
            }

            if (next < 0)
                return;
            x += dx[next];
            y += dy[next];
            from = (next + 4) & 7;
            if (x == startX && y == startY)
                return;
            if (outline.Count > MostOutline)
                return;
        }
    }

    /// <summary>Four corners of an outline, clockwise, if it has four straight sides.</summary>
    private static bool TryQuad(List<(int X, int Y)> outline, out (double X, double Y)[] quad)
    {
        quad = new (double, double)[4];
        var n = outline.Count;
        double centreX = 0,
            centreY = 0;
        foreach (var (x, y) in outline)
        {
            centreX += x;
            centreY += y;
        }

        centreX /= n;
        centreY /= n;
        var first = Farthest(outline, centreX, centreY);
        var third = Farthest(outline, outline[first].X, outline[first].Y);
        var (ax, ay) = outline[first];
        var (cx, cy) = outline[third];
        var diagonal = Math.Sqrt(((cx - ax) * (double)(cx - ax)) + ((cy - ay) * (double)(cy - ay)));
        if (diagonal < 9)
            return false;
        int second = -1,
            fourth = -1;
        double most = 0,
            least = 0;
        for (var i = 0; i < n; i++)
        {
            var side = (((cx - ax) * (double)(outline[i].Y - ay)) - ((cy - ay) * (double)(outline[i].X - ax))) / diagonal;
            if (side > most)
                (most, second) = (side, i);
            if (side < least)
                (least, fourth) = (side, i);
        }

        if (second < 0 || fourth < 0 || most < diagonal * 0.12 || -least < diagonal * 0.12)
            return false;
        var corners = new[] { first, second, third, fourth };
        Array.Sort(corners);

        // Sides are fitted to the outline between the corners, then met again: corners of a blurred square are round.
        Span<(double Px, double Py, double Dx, double Dy)> lines = stackalloc (double, double, double, double)[4];
        for (var k = 0; k < 4; k++)
        {
            var start = corners[k];
            var end = corners[(k + 1) % 4];
            var length = (end - start + n) % n;
            if (length < 6)
                return false;
            var skip = Math.Max(1, length / 8);
            double mx = 0,
                my = 0;
            var count = 0;
            for (var i = skip; i <= length - skip; i++)
            {
                var (x, y) = outline[(start + i) % n];
                mx += x;
                my += y;
                count++;
            }

            if (count < 3)
                return false;
            mx /= count;
            my /= count;
            double xx = 0,
                xy = 0,
                yy = 0;
            for (var i = skip; i <= length - skip; i++)
            {
                var (x, y) = outline[(start + i) % n];
                xx += (x - mx) * (x - mx);
                xy += (x - mx) * (y - my);
                yy += (y - my) * (y - my);
            }

            var angle = 0.5 * Math.Atan2(2 * xy, xx - yy);
            var (dx, dy) = (Math.Cos(angle), Math.Sin(angle));
            var spread = ((xx * dy * dy) - (2 * xy * dx * dy) + (yy * dx * dx)) / count;
            if (spread > Math.Pow(0.9 + (0.02 * length), 2))
                return false;
            lines[k] = (mx, my, dx, dy);
        }

        for (var k = 0; k < 4; k++)
        {
            var a = lines[(k + 3) % 4];
            var b = lines[k];
            var cross = (a.Dx * b.Dy) - (a.Dy * b.Dx);
            if (Math.Abs(cross) < 0.2)
                return false;
            var t = (((b.Px - a.Px) * b.Dy) - ((b.Py - a.Py) * b.Dx)) / cross;
            quad[k] = (a.Px + (t * a.Dx), a.Py + (t * a.Dy));
        }

        double area = 0;
        for (var k = 0; k < 4; k++)
        {
            var (x1, y1) = quad[k];
            var (x2, y2) = quad[(k + 1) % 4];
            area += (x1 * y2) - (x2 * y1);
        }

        if (area < 0)
            Array.Reverse(quad);
        if (Math.Abs(area) / 2 < 60)
            return false;
        double shortest = double.MaxValue,
            longest = 0;
        for (var k = 0; k < 4; k++)
        {
            var (x1, y1) = quad[k];
            var (x2, y2) = quad[(k + 1) % 4];
            var side = Math.Sqrt(((x2 - x1) * (x2 - x1)) + ((y2 - y1) * (y2 - y1)));
            shortest = Math.Min(shortest, side);
            longest = Math.Max(longest, side);
        }

        return shortest > 6 && longest < 4 * shortest;
    }

    private static int Farthest(List<(int X, int Y)> outline, double x, double y)
    {
        var best = 0;
        double distance = -1;
        for (var i = 0; i < outline.Count; i++)
        {
            var d = ((outline[i].X - x) * (outline[i].X - x)) + ((outline[i].Y - y) * (outline[i].Y - y));
            if (d > distance)
                (distance, best) = (d, i);
        }

        return best;
    }

    private static bool TryRead(OpenPhoto photo, PointPx[] corners, out SeenMarker marker)
    {
        marker = null!;
        if (!TryDecode(photo, corners, out var code))
            return false;
        var refined = Refine(photo, corners);
        var turned = new PointPx[4];
        for (var i = 0; i < 4; i++)
            turned[i] = refined[(i + code.Turns) % 4];
        marker = new(code.Id, turned, code.Wrong);
        return true;
    }

    private static bool TryDecode(OpenPhoto photo, PointPx[] corners, out (int Id, int Turns, int Wrong) code)
    {
        code = default;
        var map = Homography.FromUnitSquare(corners);
        Span<double> cells = stackalloc double[100];
        var pixels = photo.Pixels;
        var reach = 0.22 / Tag36h11.Side;
        for (var row = -1; row <= Tag36h11.Side; row++)
        {
            for (var column = -1; column <= Tag36h11.Side; column++)
            {
                var (u, v) = ((column + 0.5) / Tag36h11.Side, (row + 0.5) / Tag36h11.Side);
                double sum = 0;
                for (var k = 0; k < 5; k++)
                {
                    var p = map.Map(
                        u
                            + (
                                k is 1 or 2 ? reach
                                : k is 3 or 4 ? -reach
                                : 0
                            ),
                        v
                            + (
                                k is 1 or 3 ? reach
                                : k is 2 or 4 ? -reach
                                : 0
                            )
                    );
                    var (x, y) = ((int)Math.Round(p.X), (int)Math.Round(p.Y));
                    if (x < 0 || y < 0 || x >= photo.Width || y >= photo.Height)
                        return false;
                    sum += (pixels[photo.Start + (x * photo.StepX) + (y * photo.StepY)] >> 8) & 0xFF;
                }

                cells[((row + 1) * 10) + column + 1] = sum / 5;
            }
        }

        // Black and white may change across a marker (shadow, gradient): a plane through its black border and one through the paper around.
        var black = FitPlane(cells, border: true);
        var white = FitPlane(cells, border: false);
        ulong seen = 0;
        var wrongBorder = 0;
        for (var row = 0; row < Tag36h11.Side; row++)
        {
            for (var column = 0; column < Tag36h11.Side; column++)
            {
                var b = black.C + (black.X * column) + (black.Y * row);
                var w = white.C + (white.X * column) + (white.Y * row);
                if (w - b < 18)
                    return false;
                var isWhite = cells[((row + 1) * 10) + column + 1] > (b + w) / 2;
                var isBorder = row is 0 or Tag36h11.Side - 1 || column is 0 or Tag36h11.Side - 1;
                if (isBorder)
                {
                    if (isWhite)
                        wrongBorder++;
                }
                else
                {
                    seen = (seen << 1) | (isWhite ? 1UL : 0);
                }
            }
        }

        return wrongBorder <= 2 && Tag36h11.TryDecode(seen, out code);
    }

    private static (double C, double X, double Y) FitPlane(Span<double> cells, bool border)
    {
        // The two rings are symmetric about 3.5, so the three unknowns come apart.
        double sum = 0,
            sumX = 0,
            sumY = 0,
            square = 0;
        var n = 0;
        var (low, high) = border ? (0, 7) : (-1, 8);
        for (var row = low; row <= high; row++)
        {
            for (var column = low; column <= high; column++)
            {
                if (row != low && row != high && column != low && column != high)
                    continue;
                var value = cells[((row + 1) * 10) + column + 1];
                sum += value;
                sumX += value * (column - 3.5);
                sumY += value * (row - 3.5);
                square += (column - 3.5) * (column - 3.5);
                n++;
            }
        }

        var (x, y) = (sumX / square, sumY / square);
        return ((sum / n) - (3.5 * (x + y)), x, y);
    }

    /// <summary>Fits the four sides again on the full-size picture.</summary>
    private static PointPx[] Refine(OpenPhoto photo, PointPx[] corners)
    {
        var current = corners;
        for (var round = 0; round < 2; round++)
        {
            var lines = new (double X, double Y, double Dx, double Dy)?[4];
            for (var k = 0; k < 4; k++)
                lines[k] = FitSide(photo, current[k], current[(k + 1) % 4], round == 0 ? 1.0 : 0.7);
            var next = new PointPx[4];
            for (var k = 0; k < 4; k++)
            {
                next[k] = current[k];
                if (lines[(k + 3) % 4] is not { } a || lines[k] is not { } b)
                    continue;
                var cross = (a.Dx * b.Dy) - (a.Dy * b.Dx);
                if (Math.Abs(cross) < 0.2)
                    continue;
                var t = (((b.X - a.X) * b.Dy) - ((b.Y - a.Y) * b.Dx)) / cross;
                var met = new PointPx(a.X + (t * a.Dx), a.Y + (t * a.Dy));
                if (met.DistanceTo(current[k]) < 6 + (0.05 * current[k].DistanceTo(current[(k + 1) % 4])))
                    next[k] = met;
            }

            current = next;
        }

        return current;
    }

    private static (double X, double Y, double Dx, double Dy)? FitSide(OpenPhoto photo, PointPx from, PointPx to, double width)
    {
        var length = from.DistanceTo(to);
        var (dx, dy) = ((to.X - from.X) / length, (to.Y - from.Y) / length);
        var (nx, ny) = (dy, -dx);
        var cell = length / Tag36h11.Side;
        var reach = Math.Clamp(cell * 0.8, 2.5, 9) * width;
        var samples = Math.Clamp((int)(length * 0.8), 12, 48);
        var steps = (int)Math.Ceiling(2 * reach / 0.5) + 1;
        Span<double> profile = stackalloc double[steps];
        var points = new List<(double X, double Y)>(samples);
        for (var i = 0; i < samples; i++)
        {
            var along = length * (0.1 + (0.8 * i / (samples - 1)));
            var (cx, cy) = (from.X + (dx * along), from.Y + (dy * along));
            for (var k = 0; k < steps; k++)
            {
                var off = -reach + (0.5 * k);
                profile[k] = LightAt(photo, cx + (nx * off), cy + (ny * off));
            }

            var inner = Math.Min(profile[0], Math.Min(profile[1], profile[2]));
            var outer = Math.Max(profile[^1], Math.Max(profile[^2], profile[^3]));
            if (!(outer > inner * 1.5) || double.IsNaN(inner + outer))
                continue;
            var middle = (inner + outer) / 2;

            // The crossing nearest to where the side is believed to be.
            var best = double.NaN;
            for (var k = 0; k + 1 < steps; k++)
            {
                if (profile[k] > middle || profile[k + 1] <= middle)
                    continue;
                var off = -reach + (0.5 * (k + ((middle - profile[k]) / (profile[k + 1] - profile[k]))));
                if (double.IsNaN(best) || Math.Abs(off) < Math.Abs(best))
                    best = off;
            }

            if (!double.IsNaN(best))
                points.Add((cx + (nx * best), cy + (ny * best)));
        }

        if (points.Count < 8)
            return null;
        for (var trim = 0; ; trim++)
        {
            var line = FitLine(points);
            if (trim == 2)
                return line;
            var off = points.Select(p => Math.Abs(((p.X - line.X) * line.Dy) - ((p.Y - line.Y) * line.Dx))).Order().ToArray();
            var limit = Math.Max(0.15, 3 * off[off.Length / 2]);
            points.RemoveAll(p => Math.Abs(((p.X - line.X) * line.Dy) - ((p.Y - line.Y) * line.Dx)) > limit);
            if (points.Count < 6)
                return line;
        }
    }

    private static (double X, double Y, double Dx, double Dy) FitLine(List<(double X, double Y)> points)
    {
        double mx = 0,
            my = 0,
            xx = 0,
            xy = 0,
            yy = 0;
        foreach (var (x, y) in points)
        {
            mx += x;
            my += y;
        }

        mx /= points.Count;
        my /= points.Count;
        foreach (var (x, y) in points)
        {
            xx += (x - mx) * (x - mx);
            xy += (x - mx) * (y - my);
            yy += (y - my) * (y - my);
        }

        var angle = 0.5 * Math.Atan2(2 * xy, xx - yy);
        return (mx, my, Math.Cos(angle), Math.Sin(angle));
    }

    /// <summary>Green in linear light between pixels; NaN outside the picture.</summary>
    private static double LightAt(OpenPhoto photo, double x, double y)
    {
        var (x0, y0) = ((int)Math.Floor(x), (int)Math.Floor(y));
        if (x0 < 0 || y0 < 0 || x0 + 1 >= photo.Width || y0 + 1 >= photo.Height)
            return double.NaN;
        var (fx, fy) = (x - x0, y - y0);
        var at = photo.Start + (x0 * photo.StepX) + (y0 * photo.StepY);
        var pixels = photo.Pixels;
        var linear = photo.Colour.Linear;
        var top = (linear[(int)(pixels[at] >> 8) & 0xFF] * (1 - fx)) + (linear[(int)(pixels[at + photo.StepX] >> 8) & 0xFF] * fx);
        var low =
            (linear[(int)(pixels[at + photo.StepY] >> 8) & 0xFF] * (1 - fx))
            + (linear[(int)(pixels[at + photo.StepX + photo.StepY] >> 8) & 0xFF] * fx);
        return (top * (1 - fy)) + (low * fy);
    }
}
