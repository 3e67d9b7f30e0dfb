using Dyewort.Readings;

namespace Dyewort.Testing.Photos;

/// <summary>A photo of a painted sheet, drawn ray by ray: a camera held at an angle, light that falls off, noise, and colours that are
/// known.</summary>
/// <remarks>Nothing of it is the program's but the sheet's layout: the camera, the markers' pattern, the colour arithmetic and the JPEG are
/// written here from their publications.</remarks>
public sealed record DrawnPhoto
{
    /// <summary>The patterns of markers 0 to 3 of the family 36h11, row by row from the top left, as OpenCV 4.6 draws them; 1 is
    /// white.</summary>
    private static readonly ulong[] Patterns = [0x21A146BAB, 0x92D18FE9B, 0x7089014BB, 0x193979E27];

    public required SheetLayout Layout { get; init; }

    /// <summary>Light that each painted cell sends back, as red, green and blue of sRGB (white = 1); cells not listed stay bare.</summary>
    public required IReadOnlyDictionary<string, double[]> Paint { get; init; }

    /// <summary>The same of the bare paper.</summary>
    public double[] Paper { get; init; } = Rgb.OfXyz(Rgb.XyzOfLab(95, -0.5, 3));

    public int Width { get; init; } = 1600;

    public int Height { get; init; } = 1200;

    /// <summary>How the camera is turned about its own axis, degrees.</summary>
    public double Turn { get; init; } = 90;

    /// <summary>How far from straight above the camera stands, degrees.</summary>
    public double Tilt { get; init; } = 16;

    /// <summary>Light in the darkest corner of the picture over that in the brightest.</summary>
    public double Falloff { get; init; } = 0.6;

    /// <summary>The camera's white balance: what its three channels are multiplied by.</summary>
    public double[] Balance { get; init; } = [1.03, 1, 0.94];

    /// <summary>Scatter of one pixel's light, as a share of it, where the light is full; it grows as the root of what is missing.</summary>
    public double Noise { get; init; } = 0.012;

    /// <summary>How unevenly paint lies: scatter of its density from place to place.</summary>
    public double Ripple { get; init; } = 0.015;

    /// <summary>How much of each painted cell's width carries paint, from its left edge; 1 for all of it.</summary>
    public double Filled { get; init; } = 1;

    /// <summary>Seed of noise and ripple.</summary>
    public int Seed { get; init; } = 1;

    /// <summary>An A5 sheet of 4 × 6 cells in colours that plant inks have.</summary>
    public static DrawnPhoto OfSmallSheet()
    {
        if (
            !SheetPlan
                .Make(
                    new SheetWish
                    {
                        Page = PageSize.A5,
                        Columns = 4,
                        Rows = 6,
                        Code = "drawn",
                    }
                )
                .TryGet(out var plan)
        )
            throw new InvalidOperationException("The usual sheet cannot be planned.");
        return new()
        {
            Layout = plan.Layout,
            Paint = plan
                .Layout.Cells.Select((cell, i) => (cell.Id, Lab: PlantColour(i)))
                .ToDictionary(one => one.Id, one => Rgb.OfXyz(Rgb.XyzOfLab(one.Lab[0], one.Lab[1], one.Lab[2]))),
        };
    }

    /// <summary>One of 24 colours within sRGB, as CIELAB of D65: dark to light, all hues, none of them loud.</summary>
    public static double[] PlantColour(int index)
    {
        var (sin, cos) = Math.SinCos(index * 67 % 360 * Math.PI / 180);
        var chroma = 8 + (index * 13 % 24);
        return [30 + (index * 37 % 56), chroma * cos, chroma * sin];
    }

    /// <summary>The photo as a JPEG file.</summary>
    public byte[] Jpeg() => JpegFile.Of(Width, Height, 3, Pixels(), step: 3);

    /// <summary>The photo's pixels: red, green and blue of sRGB, 8 bits each.</summary>
    public byte[] Pixels()
    {
        var camera = Camera.Above(Layout.WidthMm, Layout.HeightMm, Width, Height, Turn, Tilt);
        var markers = Layout.Markers.Select(Marker).ToArray();
        var cells = Layout.Cells.Where(cell => Paint.ContainsKey(cell.Id)).Select((cell, i) => Cell(cell, i)).ToArray();
        var pixels = new byte[Width * Height * 3];
        Parallel.For(
            0,
            Height,
            y =>
            {
                var random = new Random(HashCode(Seed, y));
                var light = new double[3];
                for (var x = 0; x < Width; x++)
                {
                    light.AsSpan().Clear();
                    for (var part = 0; part < 4; part++)
                    {
                        var (mmX, mmY) = camera.OnPage(x - 0.25 + (0.5 * (part & 1)), y - 0.25 + (0.5 * (part >> 1)));
                        Seen(mmX, mmY, markers, cells, light);
                    }

                    var shade = 0.9 * (1 - ((1 - Falloff) * ((double)x / Width * 0.6 + (double)y / Height * 0.4)));
                    for (var k = 0; k < 3; k++)
                    {
                        var full = light[k] / 4 * shade * Balance[k];
                        var noisy = full + (Noise * Math.Sqrt(Math.Max(full, 0)) * Normal(random));
                        pixels[(((y * Width) + x) * 3) + k] = (byte)Math.Round(255 * Rgb.ToCode(noisy));
                    }
                }
            }
        );
        return pixels;
    }

    private void Seen(double x, double y, (double X, double Y, double Size, ulong Pattern)[] markers, Painted[] cells, double[] light)
    {
        if (x < 0 || y < 0 || x >= Layout.WidthMm || y >= Layout.HeightMm)
        {
            // A table of dark boards.
            var board = 0.10 + (0.03 * Math.Sin(x / 9)) + (0.02 * Math.Sin((x + (3 * y)) / 4));
            (light[0], light[1], light[2]) = (light[0] + (1.2 * board), light[1] + board, light[2] + (0.7 * board));
            return;
        }

        foreach (var cell in cells)
        {
            if (x <= cell.Left || x >= cell.Right || y <= cell.Top || y >= cell.Bottom)
                continue;
            var density = 1 + (Ripple * (Math.Sin((x * 1.9) + cell.Phase) + Math.Sin((y * 2.3) + (2 * cell.Phase))));
            for (var k = 0; k < 3; k++)
                light[k] += Paper[k] * Math.Pow(Math.Max(cell.Light[k], 1e-4) / Paper[k], density);
            return;
        }

        // Printed black reflects 4 % of what the paper does.
        var white = markers.Any(marker => IsBlack(marker, x, y)) ? 0.04 : 1;
        for (var k = 0; k < 3; k++)
            light[k] += white * Paper[k];
    }

    private static bool IsBlack((double X, double Y, double Size, ulong Pattern) marker, double x, double y)
    {
        var (u, v) = ((x - marker.X) / marker.Size * 8, (y - marker.Y) / marker.Size * 8);
        if (u < 0 || v < 0 || u >= 8 || v >= 8)
            return false;
        var (column, row) = ((int)u - 1, (int)v - 1);
        return column is < 0 or > 5 || row is < 0 or > 5 || ((marker.Pattern >> (35 - (6 * row) - column)) & 1) == 0;
    }

    private static (double X, double Y, double Size, ulong Pattern) Marker(SheetMarker marker) =>
        marker.Id < Patterns.Length
            ? (marker.CornersMm[0].X, marker.CornersMm[0].Y, marker.CornersMm[1].X - marker.CornersMm[0].X, Patterns[marker.Id])
            : throw new NotSupportedException("Only the sheet of chart 0 without markers in the edges is drawn.");

    private Painted Cell(SheetCell cell, int index)
    {
        var (left, right) = (cell.PolygonMm.Min(p => p.X), cell.PolygonMm.Max(p => p.X));

        // Paint keeps half a millimetre from the printed line.
        return new(
            left + 0.5,
            cell.PolygonMm.Min(p => p.Y) + 0.5,
            Math.Min(right - 0.5, left + (Filled * (right - left))),
            cell.PolygonMm.Max(p => p.Y) - 0.5,
            Paint[cell.Id],
            (index * 1.7) + Seed
        );
    }

    private static int HashCode(int seed, int row) => unchecked((seed * 73_856_093) ^ (row * 19_349_663));

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private sealed record Painted(double Left, double Top, double Right, double Bottom, double[] Light, double Phase);

    /// <summary>A pinhole over a table: every pixel is a ray, and the ray meets the page.</summary>
    private sealed record Camera(
        double[] Place,
        double[] Right,
        double[] Down,
        double[] Ahead,
        double Focal,
        double MiddleX,
        double MiddleY
    )
    {
        public static Camera Above(double widthMm, double heightMm, int width, int height, double turn, double tilt)
        {
            var (sin, cos) = Math.SinCos(turn * Math.PI / 180);
            var (lean, up) = Math.SinCos(tilt * Math.PI / 180);

            // Along the page's own axes, z towards the camera: looking down, then leaning, then turned about the line of sight.
            double[] ahead = [0, -lean, -up],
                across = [1, 0, 0],
                down = [0, up, -lean];
            double[] right = [.. across.Zip(down, (a, b) => (cos * a) + (sin * b))];
            double[] below = [.. across.Zip(down, (a, b) => (cos * b) - (sin * a))];
            var focal = 1.1 * Math.Max(width, height);

            // As far away as lets the page fill four fifths of the picture.
            var reach = Math.Max(
                ((widthMm * Math.Abs(cos)) + (heightMm * Math.Abs(sin))) / width,
                ((widthMm * Math.Abs(sin)) + (heightMm * Math.Abs(cos))) / height
            );
            var distance = focal * reach / 0.8;
            double[] middle = [widthMm / 2, heightMm / 2, 0];
            return new(
                [.. middle.Zip(ahead, (m, a) => m - (distance * a))],
                right,
                below,
                ahead,
                focal,
                (width - 1) / 2.0,
                (height - 1) / 2.0
            );
        }

        public (double X, double Y) OnPage(double x, double y)
        {
            var (u, v) = ((x - MiddleX) / Focal, (y - MiddleY) / Focal);
            double Along(int k) => Ahead[k] + (u * Right[k]) + (v * Down[k]);
            var far = -Place[2] / Along(2);
            return (Place[0] + (far * Along(0)), Place[1] + (far * Along(1)));
        }
    }
}
