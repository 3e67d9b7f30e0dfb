using System.Runtime.InteropServices;
using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>Everything that was measured on a page, before any correction of colour.</summary>
/// <param name="Cells">One sample per cell, in the layout's order.</param>
/// <param name="Markers">The black of the markers.</param>
/// <param name="Light">The map of the light, or null where there was no paper.</param>
/// <param name="Outlines">Outline of each cell in the photo.</param>
/// <param name="Sampled">Outline of the part of each cell that was read.</param>
public sealed record PageSamples(
    IReadOnlyList<CellSample> Cells,
    IReadOnlyList<InkSample> Markers,
    LightMap? Light,
    IReadOnlyList<IReadOnlyList<PointPx>> Outlines,
    IReadOnlyList<IReadOnlyList<PointPx>> Sampled
);

/// <summary>A place to read, given by its outline in two planes: the one the light is mapped in, and the photo's pixels.</summary>
internal sealed record Place(string Id, IReadOnlyList<PointMm> Outline, bool IsCovered);

/// <summary>Takes pixels out of a photo: the middle of each cell and the bare paper around it.</summary>
public static class SampleCells
{
    /// <summary>Side of the read part of a cell, as a share of the cell's.</summary>
    public const double ReadShare = 0.54;

    /// <summary>Most pixels taken along a side of a cell's middle: some 2,300 in all, whose median is surer than the light is.</summary>
    private const int MostAlongCell = 48;

    /// <summary>Distance of the points among which pencil is looked for, millimetres: a few of them across a line.</summary>
    private const double MarkPitchMm = 0.14;

    /// <summary>Most of them along a side.</summary>
    private const int MostForMarks = 160;

    /// <summary>Side of a swatch whose size on the paper is not known, millimetres (common practice, no source).</summary>
    private const double UsualSwatchMm = 25;

    /// <summary>The same along a side of a strip of paper.</summary>
    private const int MostAlongStrip = 14;

    /// <summary>Reads all cells of a page.</summary>
    public static PageSamples OnPage(
        OpenPhoto photo,
        SheetLayout layout,
        PagePose pose,
        IReadOnlyList<(SheetMarker Printed, SeenMarker Seen)> markers
    )
    {
        var places = layout.Cells.Select(cell => new Place(cell.Id, cell.PolygonMm, cell.IsCovered)).ToList();
        return Sample(photo, places, point => pose.Project(point), 1.4, 4.2, 1, [.. markers.Select(pair => Ink(photo, pair.Seen))]);
    }

    /// <summary>Reads places that were outlined on the photo itself; the paper is looked for just outside of each outline.</summary>
    public static PageSamples OnPhoto(OpenPhoto photo, IReadOnlyList<(string Id, IReadOnlyList<PointPx> Outline, bool IsCovered)> spots)
    {
        var places = spots
            .Select(spot => new Place(spot.Id, [.. spot.Outline.Select(p => new PointMm(p.X, p.Y))], spot.IsCovered))
            .ToList();
        var size = places.Count == 0 ? 10 : places.Select(place => Size(place.Outline)).Order().ElementAt(places.Count / 2);
        return Sample(photo, places, point => new PointPx(point.X, point.Y), size * 0.12, size * 0.36, UsualSwatchMm / size, []);
    }

    /// <summary>Mean linear channels of the whole picture, from every 16th pixel both ways.</summary>
    public static FileRgb PictureMean(OpenPhoto photo)
    {
        var pixels = photo.Pixels;
        var linear = photo.Colour.Linear;
        double r = 0,
            g = 0,
            b = 0;
        var n = 0;
        for (var y = 8; y < photo.Height; y += 16)
        {
            for (var x = 8; x < photo.Width; x += 16)
            {
                var pixel = pixels[photo.Start + (x * photo.StepX) + (y * photo.StepY)];
                r += linear[(int)pixel & 0xFF];
                g += linear[(int)(pixel >> 8) & 0xFF];
                b += linear[(int)(pixel >> 16) & 0xFF];
                n++;
            }
        }

        return n == 0 ? default : new(r / n, g / n, b / n);
    }

    /// <summary>Mean linear channels of a small patch, such as one of a reference card.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="outline">The patch's outline, upright pixels.</param>
    /// <param name="share">Side of the part to read, as a share of the patch's.</param>
    /// <param name="most">Most pixels to take along each side.</param>
    public static (FileRgb Mean, double Spread, double Clipped) Patch(
        OpenPhoto photo,
        IReadOnlyList<PointPx> outline,
        double share,
        int most = 40
    )
    {
        var grid = new Grid(photo, [.. outline.Select(p => new PointMm(p.X, p.Y))], point => new PointPx(point.X, point.Y), share);
        using var scratch = new Scratch();
        var (mean, spread, clipped, _) = Robust(photo, grid.Points(most, scratch).At.Span);
        return (mean, spread, clipped);
    }

    private static PageSamples Sample(
        OpenPhoto photo,
        List<Place> places,
        Func<PointMm, PointPx> project,
        double near,
        double far,
        double mmPerUnit,
        List<InkSample> markers
    )
    {
        var around = new PaperSample[places.Count][];
        Parallel.For(0, places.Count, i => around[i] = PaperAround(photo, places[i].Outline, project, near, far));
        var light = LightMap.Fit([.. around.SelectMany(samples => samples)]);
        var cells = new CellSample[places.Count];
        var sampled = new IReadOnlyList<PointPx>[places.Count];
        Parallel.For(
            0,
            places.Count,
            i =>
            {
                var grid = new Grid(photo, places[i].Outline, project, ReadShare);
                sampled[i] = grid.Outline;
                cells[i] = Cell(photo, places[i], grid, light, around[i], mmPerUnit);
            }
        );
        return new(cells, markers, light, [.. places.Select(place => (IReadOnlyList<PointPx>)[.. place.Outline.Select(project)])], sampled);
    }

    private static CellSample Cell(OpenPhoto photo, Place place, Grid grid, LightMap? light, PaperSample[] around, double mmPerUnit)
    {
        using var scratch = new Scratch();
        var nothing = new FileRgb(1, 1, 1);
        var (cx, cy, size) = (grid.CentreX, grid.CentreY, Math.Max(1e-6, grid.HalfSize));
        var local = light?.Around(around, cx, cy, size);
        var points = grid.Points(MostAlongCell, scratch);
        ReadOnlySpan<int> placeOf = points.At.Span;
        ReadOnlySpan<ushort> columnOf = points.Column.Span,
            rowOf = points.Row.Span;
        var marks = Marks(photo, grid, local, mmPerUnit, scratch);
        var (r, g, b) = (new float[placeOf.Length], new float[placeOf.Length], new float[placeOf.Length]);
        Ratios(photo, points, local, r, g, b);
        var pixels = photo.Pixels;
        int n = 0,
            high = 0,
            low = 0,
            onMarks = 0;
        for (var i = 0; i < r.Length; i++)
        {
            if (float.IsNaN(r[i]))
                continue;
            if (marks?.At((columnOf[i] + 0.5) / points.X.Length, (rowOf[i] + 0.5) / points.Y.Length) == true)
            {
                onMarks++;
                continue;
            }

            var pixel = pixels[placeOf[i]];
            var (red, green, blue) = ((int)pixel & 0xFF, (int)(pixel >> 8) & 0xFF, (int)(pixel >> 16) & 0xFF);
            if (red >= 254 || green >= 254 || blue >= 254)
                high++;
            if (red <= 1 || green <= 1 || blue <= 1)
                low++;
            (r[n], g[n], b[n]) = (r[i], g[i], b[i]);
            n++;
        }

        Array.Resize(ref r, n);
        Array.Resize(ref g, n);
        Array.Resize(ref b, n);
        var judged = SwatchJudge.Judge(new(r, g, b, high, low));
        return new(
            place.Id,
            judged.Wash,
            judged.Pale,
            judged.Deep,
            local?.Level ?? nothing,
            judged.Coverage,
            judged.Glare,
            n == 0 ? 0 : high / (double)n,
            n == 0 ? 0 : low / (double)n,
            n,
            judged.Noise,
            local?.Doubt ?? 0.2,
            local?.Scatter ?? 0
        )
        {
            IsCovered = place.IsCovered,
            PaperClipped = around.Length == 0 ? 0 : around.Average(sample => sample.Clipped),
            X = cx,
            Y = cy,
            Marked = onMarks / (double)Math.Max(1, n + onMarks),
        };
    }

    /// <summary>Linear channels of points over the light at their places; NaN where the picture is transparent.</summary>
    private static void Ratios(OpenPhoto photo, GridPoints points, LocalLight? local, Span<float> r, Span<float> g, Span<float> b)
    {
        var nothing = new FileRgb(1, 1, 1);
        var across = Array.ConvertAll(points.X, x => local?.Across(x) ?? nothing);
        var down = Array.ConvertAll(points.Y, y => local?.Down(y) ?? nothing);
        var pixels = photo.Pixels;
        var linear = photo.Colour.Linear;
        ReadOnlySpan<int> at = points.At.Span;
        ReadOnlySpan<ushort> columns = points.Column.Span,
            rows = points.Row.Span;
        for (var i = 0; i < at.Length; i++)
        {
            var pixel = pixels[at[i]];
            if (pixel >> 24 < 250)
            {
                r[i] = g[i] = b[i] = float.NaN;
                continue;
            }

            ref readonly var column = ref across[columns[i]];
            ref readonly var row = ref down[rows[i]];
            r[i] = (float)(linear[(int)pixel & 0xFF] / (column.R * row.R));
            g[i] = (float)(linear[(int)(pixel >> 8) & 0xFF] / (column.G * row.G));
            b[i] = (float)(linear[(int)(pixel >> 16) & 0xFF] / (column.B * row.B));
        }
    }

    /// <summary>Where pencil lies in the read part of a cell; null where none does.</summary>
    private static MarkMap? Marks(OpenPhoto photo, Grid grid, LocalLight? local, double mmPerUnit, Scratch scratch)
    {
        var points = grid.Points(MostForMarks, scratch, MarkPitchMm / mmPerUnit);
        var count = points.At.Length;
        if (count == 0)
            return null;
        var (columns, rows) = (points.X.Length, points.Y.Length);
        var (r, g, b) = (scratch.Of<float>(count), scratch.Of<float>(count), scratch.Of<float>(count));
        Ratios(photo, points, local, r.Span, g.Span, b.Span);
        var raster = new CellRaster(
            OnGrid(r),
            OnGrid(g),
            OnGrid(b),
            columns,
            columns < 2 ? 0 : (points.X[^1] - points.X[0]) / (columns - 1) * mmPerUnit
        );
        return PencilMarks.Find(raster) is { } marked ? new(marked, columns, rows) : null;

        // A round swatch does not fill its box, nor one at the picture's rim.
        Memory<float> OnGrid(Memory<float> values)
        {
            if (count == columns * rows)
                return values;
            var whole = scratch.Filled(columns * rows, float.NaN);
            Span<float> from = values.Span,
                to = whole.Span;
            ReadOnlySpan<ushort> columnOf = points.Column.Span,
                rowOf = points.Row.Span;
            for (var i = 0; i < from.Length; i++)
                to[(rowOf[i] * columns) + columnOf[i]] = from[i];
            return whole;
        }
    }

    private sealed record MarkMap(bool[] Marked, int Columns, int Rows)
    {
        /// <summary>Whether a place, 0 to 1 both ways, is marked.</summary>
        public bool At(double u, double v) => Marked[((int)(v * Rows) * Columns) + (int)(u * Columns)];
    }

    private static PaperSample[] PaperAround(
        OpenPhoto photo,
        IReadOnlyList<PointMm> outline,
        Func<PointMm, PointPx> project,
        double near,
        double far
    )
    {
        const int Segments = 4;
        using var scratch = new Scratch();
        var (cx, cy) = (outline.Average(p => p.X), outline.Average(p => p.Y));
        var samples = new List<PaperSample>();
        for (var side = 0; side < outline.Count; side++)
        {
            var (a, b) = (outline[side], outline[(side + 1) % outline.Count]);
            var length = Math.Sqrt(((b.X - a.X) * (b.X - a.X)) + ((b.Y - a.Y) * (b.Y - a.Y)));
            if (length < 1e-9)
                continue;
            var (nx, ny) = ((b.Y - a.Y) / length, -(b.X - a.X) / length);
            if ((nx * ((a.X + b.X) / 2 - cx)) + (ny * ((a.Y + b.Y) / 2 - cy)) < 0)
                (nx, ny) = (-nx, -ny);
            var segments = outline.Count > 8 ? 1 : Segments;
            for (var segment = 0; segment < segments; segment++)
            {
                var (from, to) = (segment / (double)segments, (segment + 1) / (double)segments);
                PointMm At(double along, double off) =>
                    new(a.X + ((b.X - a.X) * along) + (nx * off), a.Y + ((b.Y - a.Y) * along) + (ny * off));
                var strip = new Grid(photo, [At(from, near), At(to, near), At(to, far), At(from, far)], project, 1);
                var (mean, spread, clipped, flat) = Robust(photo, strip.Points(MostAlongStrip, scratch).At.Span);
                if (mean.G <= 0)
                    continue;
                if (flat)
                    clipped = 1;
                var middle = At((from + to) / 2, (near + far) / 2);
                samples.Add(new(middle.X, middle.Y, mean, spread, clipped));
            }
        }

        return [.. samples];
    }

    /// <summary>Paper under thin print and specks: the mean of what lies near the median, darker strays dropped.</summary>
    private static (FileRgb Mean, double Spread, double Clipped, bool Flat) Robust(OpenPhoto photo, ReadOnlySpan<int> at)
    {
        var pixels = photo.Pixels;
        var linear = photo.Colour.Linear;
        Span<int> seen = stackalloc int[256];
        seen.Clear();
        int count = 0,
            clipped = 0;
        foreach (var place in at)
        {
            var pixel = pixels[place];
            if (pixel >> 24 < 250)
                continue;
            if (((int)pixel & 0xFF) >= 254 || ((int)(pixel >> 8) & 0xFF) >= 254 || ((int)(pixel >> 16) & 0xFF) >= 254)
                clipped++;
            seen[(int)(pixel >> 8) & 0xFF]++;
            count++;
        }

        // Eight-bit greens are counted rather than sorted: rank and spread come out of 256 numbers.
        if (count < 4)
            return default;
        var middle = 0;
        for (var below = seen[0]; below <= count / 2; below += seen[middle])
            middle++;
        var median = linear[middle];
        var spread = 1.4826 * MedianAway(seen, linear, middle, count / 2);
        var limit = Math.Max(2.5 * spread, 0.02 * median);
        var sum = default(FileRgb);
        var squares = default(FileRgb);
        var n = 0;
        foreach (var place in at)
        {
            var pixel = pixels[place];
            if (pixel >> 24 < 250)
                continue;
            var green = linear[(int)(pixel >> 8) & 0xFF];
            if (Math.Abs(green - median) > limit)
                continue;
            var value = new FileRgb(linear[(int)pixel & 0xFF], green, linear[(int)(pixel >> 16) & 0xFF]);
            sum += value;
            squares += new FileRgb(value.R * value.R, value.G * value.G, value.B * value.B);
            n++;
        }

        if (n == 0)
            return default;
        var mean = sum * (1.0 / n);

        // A sensor that is full shows no grain: a bright channel without any is burnt out, whatever number the camera then wrote.
        double Deviation(int channel) =>
            Math.Sqrt(Math.Max(0, (squares[channel] / n) - (mean[channel] * mean[channel]))) / Math.Max(mean[channel], 1e-6);
        var flat = n >= 40 && mean.G > 0.35 && Math.Min(Deviation(0), Math.Min(Deviation(1), Deviation(2))) < 0.0012;
        return (mean, Math.Max(spread / Math.Max(median, 1e-6), Deviation(1)), clipped / (double)count, flat);
    }

    /// <summary>The distance from the middle that a given number of values stay within, walking outwards on both sides.</summary>
    private static double MedianAway(ReadOnlySpan<int> seen, ReadOnlySpan<double> linear, int middle, int rank)
    {
        var (low, high) = (middle, middle + 1);
        var passed = 0;
        while (true)
        {
            var (down, up) = (
                low >= 0 ? linear[middle] - linear[low] : double.MaxValue,
                high < 256 ? linear[high] - linear[middle] : double.MaxValue
            );
            passed += down <= up ? seen[low] : seen[high];
            if (passed > rank)
                return Math.Min(down, up);
            if (down <= up)
                low--;
            else
                high++;
        }
    }

    private static InkSample Ink(OpenPhoto photo, SeenMarker marker)
    {
        var map = Homography.FromUnitSquare(marker.Corners);
        var cell = marker.Side / Tag36h11.Side;

        // Cameras sharpen: black beside white is made blacker. So black is taken where white is farthest, at least a cell away.
        var cells = Tag36h11.Cells(marker.Id);
        var far = new List<(double U, double V)>();
        for (var row = 1; row < Tag36h11.Side; row++)
        {
            for (var column = 1; column < Tag36h11.Side; column++)
            {
                if (!cells[row - 1, column - 1] && !cells[row, column - 1] && !cells[row - 1, column] && !cells[row, column])
                    far.Add((column, row));
            }
        }

        var reach = Math.Max(0.5, cell * 0.18) / cell;
        var black = new List<int>();
        foreach (var (u, v) in far)
        {
            for (var k = 0; k < 9; k++)
            {
                var p = map.Map((u + (((k % 3) - 1) * reach)) / Tag36h11.Side, (v + (((k / 3) - 1) * reach)) / Tag36h11.Side);
                AddPlace(photo, p, black);
            }
        }

        var white = new List<int>();
        for (var i = 0; i < 60; i++)
        {
            var t = i / 59.0;
            const double Off = 0.95 / Tag36h11.Side;
            foreach (var p in new[] { map.Map(t, -Off), map.Map(t, 1 + Off), map.Map(-Off, t), map.Map(1 + Off, t) })
                AddPlace(photo, p, white);
        }

        var (paper, _, clipped, flat) = Robust(photo, CollectionsMarshal.AsSpan(white));
        return new(Robust(photo, CollectionsMarshal.AsSpan(black)).Mean, paper, cell, flat || clipped > 0.2);
    }

    private static void AddPlace(OpenPhoto photo, PointPx point, List<int> places)
    {
        var (x, y) = ((int)Math.Round(point.X), (int)Math.Round(point.Y));
        if (x >= 0 && y >= 0 && x < photo.Width && y < photo.Height)
            places.Add(photo.Start + (x * photo.StepX) + (y * photo.StepY));
    }

    private static double Size(IReadOnlyList<PointMm> outline) =>
        Math.Sqrt((outline.Max(p => p.X) - outline.Min(p => p.X)) * (outline.Max(p => p.Y) - outline.Min(p => p.Y)));

    /// <summary>Points of a grid that lie in the picture: places among the stored pixels, and where on the page their columns and rows
    /// lie.</summary>
    private readonly record struct GridPoints(
        ReadOnlyMemory<int> At,
        ReadOnlyMemory<ushort> Column,
        ReadOnlyMemory<ushort> Row,
        double[] X,
        double[] Y
    );

    /// <summary>An even grid of points over the middle of an outline, as pixels.</summary>
    private sealed class Grid
    {
        private readonly OpenPhoto photo;
        private readonly PointMm[] inner;
        private readonly Func<PointMm, PointPx> project;

        public Grid(OpenPhoto photo, IReadOnlyList<PointMm> outline, Func<PointMm, PointPx> project, double share)
        {
            this.photo = photo;
            this.project = project;
            (CentreX, CentreY) = Centroid(outline);
            inner = [.. outline.Select(p => new PointMm(CentreX + ((p.X - CentreX) * share), CentreY + ((p.Y - CentreY) * share)))];
            HalfSize = Size(outline) / 2;
        }

        public double CentreX { get; }

        public double CentreY { get; }

        public double HalfSize { get; }

        public IReadOnlyList<PointPx> Outline => [.. inner.Select(project)];

        /// <summary>At most <paramref name="most"/> points along each side; fewer where pixels are fewer. With a <paramref name="pitch"/>
        /// in the plane's units they lie equally far apart both ways, and no closer than it.</summary>
        public GridPoints Points(int most, Scratch scratch, double pitch = 0)
        {
            var (minX, maxX) = (inner.Min(p => p.X), inner.Max(p => p.X));
            var (minY, maxY) = (inner.Min(p => p.Y), inner.Max(p => p.Y));

            // The projection is worked out on nine points and interpolated: within one cell it is smooth.
            var nodes = new PointPx[3, 3];
            for (var j = 0; j < 3; j++)
            {
                for (var i = 0; i < 3; i++)
                    nodes[i, j] = project(new(minX + ((maxX - minX) * i / 2), minY + ((maxY - minY) * j / 2)));
            }

            var across = Math.Max(nodes[0, 0].DistanceTo(nodes[2, 0]), nodes[0, 2].DistanceTo(nodes[2, 2]));
            var down = Math.Max(nodes[0, 0].DistanceTo(nodes[0, 2]), nodes[2, 0].DistanceTo(nodes[2, 2]));
            if (!double.IsFinite(across + down) || across > 20 * photo.Width || down > 20 * photo.Height)
                return new(default, default, default, [], []);
            var (columns, rows) = ((int)Math.Clamp(across, 2, most), (int)Math.Clamp(down, 2, most));
            if (pitch > 0)
            {
                pitch = Math.Max(pitch, Math.Max((maxX - minX) / columns, (maxY - minY) / rows));
                (columns, rows) = ((int)Math.Max(2, (maxX - minX) / pitch), (int)Math.Max(2, (maxY - minY) / pitch));
            }

            var isBox =
                inner.Length == 4 && inner.All(p => (p.X - minX < 1e-6 || maxX - p.X < 1e-6) && (p.Y - minY < 1e-6 || maxY - p.Y < 1e-6));
            double[] xs = [.. Enumerable.Range(0, columns).Select(column => minX + ((maxX - minX) * (column + 0.5) / columns))];
            double[] ys = [.. Enumerable.Range(0, rows).Select(row => minY + ((maxY - minY) * (row + 0.5) / rows))];
            var (places, columnOf, rowOf) = (
                scratch.Of<int>(columns * rows),
                scratch.Of<ushort>(columns * rows),
                scratch.Of<ushort>(columns * rows)
            );
            var at = places.Span;
            Span<ushort> ofColumn = columnOf.Span,
                ofRow = rowOf.Span;
            var count = 0;
            for (var row = 0; row < rows; row++)
            {
                // One row of the grid is a parabola through three points.
                var v = (row + 0.5) / rows;
                var (left, centre, right) = (
                    Along(nodes[0, 0], nodes[0, 1], nodes[0, 2], v),
                    Along(nodes[1, 0], nodes[1, 1], nodes[1, 2], v),
                    Along(nodes[2, 0], nodes[2, 1], nodes[2, 2], v)
                );
                for (var column = 0; column < columns; column++)
                {
                    if (!isBox && !Contains(xs[column], ys[row]))
                        continue;
                    var px = Along(left, centre, right, (column + 0.5) / columns);
                    var (x, y) = ((int)Math.Round(px.X), (int)Math.Round(px.Y));
                    if (x < 0 || y < 0 || x >= photo.Width || y >= photo.Height)
                        continue;
                    (at[count], ofColumn[count], ofRow[count]) = (
                        photo.Start + (x * photo.StepX) + (y * photo.StepY),
                        (ushort)column,
                        (ushort)row
                    );
                    count++;
                }
            }

            return new(places[..count], columnOf[..count], rowOf[..count], xs, ys);
        }

        /// <summary>Quadratic interpolation through three points at 0, ½ and 1.</summary>
        private static PointPx Along(PointPx start, PointPx middle, PointPx end, double at)
        {
            var (a, b, c) = ((1 - at) * (1 - (2 * at)), 4 * at * (1 - at), at * ((2 * at) - 1));
            return new((a * start.X) + (b * middle.X) + (c * end.X), (a * start.Y) + (b * middle.Y) + (c * end.Y));
        }

        private bool Contains(double x, double y)
        {
            var inside = false;
            for (int i = 0, j = inner.Length - 1; i < inner.Length; j = i++)
            {
                if (
                    inner[i].Y > y != inner[j].Y > y
                    && x < ((inner[j].X - inner[i].X) * (y - inner[i].Y) / (inner[j].Y - inner[i].Y)) + inner[i].X
                )
                    inside = !inside;
            }

            return inside;
        }

        private static (double X, double Y) Centroid(IReadOnlyList<PointMm> outline)
        {
            double area = 0,
                x = 0,
                y = 0;
            for (var i = 0; i < outline.Count; i++)
            {
                var (p, q) = (outline[i], outline[(i + 1) % outline.Count]);
                var cross = (p.X * q.Y) - (q.X * p.Y);
                area += cross;
                x += (p.X + q.X) * cross;
                y += (p.Y + q.Y) * cross;
            }

            return Math.Abs(area) < 1e-9 ? (outline.Average(p => p.X), outline.Average(p => p.Y)) : (x / (3 * area), y / (3 * area));
        }
    }
}
