using System.Buffers.Binary;
using Dyewort.Colour;
using Dyewort.Readings;
using SkiaSharp;

namespace Dyewort.Imaging.Tests;

/// <summary>A picture of a painted sheet made pixel by pixel, with known colours, light and place.</summary>
internal sealed record PaintedPhoto
{
    public required SheetLayout Layout { get; init; }

    /// <summary>Colour of each painted cell; cells not listed stay bare.</summary>
    public IReadOnlyDictionary<string, Lab> Paint { get; init; } = new Dictionary<string, Lab>();

    public Lab Paper { get; init; } = new(95, -0.5, 3);

    public int Width { get; init; } = 1800;

    public int Height { get; init; } = 1350;

    /// <summary>Turn of the page, degrees clockwise.</summary>
    public double Turn { get; init; }

    /// <summary>How much of the picture the page fills, 1 to its rim.</summary>
    public double Fill { get; init; } = 0.82;

    /// <summary>How strongly the far side of the page shrinks.</summary>
    public double Perspective { get; init; } = 0.18;

    /// <summary>Brightest light over darkest.</summary>
    public double LightRatio { get; init; } = 2;

    public IReadOnlySet<int> HiddenMarkers { get; init; } = new HashSet<int>();

    /// <summary>The sheet as another program rendered it, 1 = white; null to draw markers and hairlines here.</summary>
    public Func<double, double, double>? Print { get; init; }

    /// <summary>Where pencil lies on the paint, by place on the page; null for nowhere.</summary>
    public Func<PointPx, bool>? Pencil { get; init; }

    public bool DisplayP3 { get; init; }

    /// <summary>Where a point of the page lies in the upright picture.</summary>
    public PointPx Project(PointMm point)
    {
        var map = Map();
        return map.Map(point.X, point.Y);
    }

    /// <summary>The picture's pixels, upright, RGBA.</summary>
    public SKBitmap Render()
    {
        var matrix = Map().Matrix;
        var inverse = new Homography(matrix.Inverse());
        var space = DisplayP3 ? SKColorSpace.CreateRgb(SKColorSpaceTransferFn.Srgb, SKColorSpaceXyz.DisplayP3) : SKColorSpace.CreateSrgb();
        var bitmap = new SKBitmap(new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Opaque, space));
        var toRgb = DisplayP3 ? P3 : FileColour.Srgb;
        var paper = toRgb.FromXyz(Paper.ToXyz());
        var cells = Layout
            .Cells.Select(cell =>
                (
                    Left: cell.PolygonMm.Min(p => p.X),
                    Right: cell.PolygonMm.Max(p => p.X),
                    Top: cell.PolygonMm.Min(p => p.Y),
                    Bottom: cell.PolygonMm.Max(p => p.Y),
                    Ink: Paint.TryGetValue(cell.Id, out var lab) ? toRgb.FromXyz(lab.ToXyz()) : (FileRgb?)null
                )
            )
            .ToArray();
        var markers = Layout
            .Markers.Where(marker => !HiddenMarkers.Contains(marker.Id))
            .Select(marker =>
                (
                    X: marker.CornersMm[0].X,
                    Y: marker.CornersMm[0].Y,
                    Size: marker.CornersMm[1].X - marker.CornersMm[0].X,
                    Cells: Tag36h11.Cells(marker.Id)
                )
            )
            .ToArray();
        var bytes = new byte[Width * Height * 4];
        Parallel.For(
            0,
            Height,
            y =>
            {
                for (var x = 0; x < Width; x++)
                {
                    double r = 0,
                        g = 0,
                        b = 0;
                    for (var k = 0; k < 4; k++)
                    {
                        var (px, py) = (x - 0.25 + (0.5 * (k & 1)), y - 0.25 + (0.5 * (k >> 1)));
                        var mm = inverse.Map(px, py);
                        var on = mm.X >= 0 && mm.Y >= 0 && mm.X < Layout.WidthMm && mm.Y < Layout.HeightMm;
                        var light = 0.92 * (1 - ((1 - (1 / LightRatio)) * Math.Clamp(((px / Width) + (py / Height)) / 2, 0, 1)));
                        var c = on ? Page(mm) : Table(px, py);
                        r += c.R * light;
                        g += c.G * light;
                        b += c.B * light;
                    }

                    var at = ((y * Width) + x) * 4;
                    bytes[at] = Encode(r / 4);
                    bytes[at + 1] = Encode(g / 4);
                    bytes[at + 2] = Encode(b / 4);
                    bytes[at + 3] = 255;
                }
            }
        );
        System.Runtime.InteropServices.Marshal.Copy(bytes, 0, bitmap.GetPixels(), bytes.Length);
        return bitmap;

        FileRgb Page(PointPx mm)
        {
            foreach (var cell in cells)
            {
                if (
                    cell.Ink is { } ink
                    && mm.X > cell.Left + 0.6
                    && mm.X < cell.Right - 0.6
                    && mm.Y > cell.Top + 0.6
                    && mm.Y < cell.Bottom - 0.6
                )
                    return Pencil?.Invoke(mm) == true ? paper * 0.15 : ink;
            }

            double white = 1;
            if (Print is not null)
            {
                white = Print(mm.X, mm.Y);
            }
            else
            {
                foreach (var marker in markers)
                {
                    var (u, v) = ((mm.X - marker.X) / marker.Size * 8, (mm.Y - marker.Y) / marker.Size * 8);
                    if (u >= 0 && v >= 0 && u < 8 && v < 8)
                        white = marker.Cells[(int)v, (int)u] ? 1 : 0;
                }

                foreach (var cell in cells)
                {
                    var inside = mm.X > cell.Left && mm.X < cell.Right && mm.Y > cell.Top && mm.Y < cell.Bottom;
                    var core = mm.X > cell.Left + 0.2 && mm.X < cell.Right - 0.2 && mm.Y > cell.Top + 0.2 && mm.Y < cell.Bottom - 0.2;
                    if (inside && !core)
                        white = 0.5;
                }
            }

            // Printed black reflects 4 % of what the paper does.
            return paper * (0.04 + (0.96 * white));
        }

        static FileRgb Table(double x, double y)
        {
            // Planks, and a few dark and light squares that look a little like markers.
            var plank = 0.12 + (0.05 * Math.Sin(x / 37)) + (0.03 * Math.Sin((x + (3 * y)) / 11));
            if (((int)(x / 60) + (int)(y / 60)) % 9 == 0)
                plank = ((int)(x / 15) + (int)(y / 15)) % 2 == 0 ? 0.6 : 0.02;
            return new(plank * 1.2, plank, plank * 0.7);
        }
    }

    /// <summary>The picture as a JPEG whose stored pixels are turned and whose orientation tag turns them back.</summary>
    public byte[] Jpeg(int orientation = 1, int quality = 93)
    {
        using var upright = Render();
        using var stored = Turned(upright, orientation);
        using var data = stored.Encode(SKEncodedImageFormat.Jpeg, quality);
        var jpeg = data.ToArray();
        return orientation == 1 ? jpeg : WithOrientation(jpeg, orientation);
    }

    private static FileColour P3 { get; } =
        new(
            "Display P3",
            [.. Enumerable.Range(0, 256).Select(code => FileColour.SrgbToLinear(code / 255.0))],
            new(0.4865709, 0.2656677, 0.1982173, 0.2289746, 0.6917385, 0.0792869, 0, 0.0451134, 1.0439444)
        );

    private Homography Map()
    {
        var (cx, cy) = (Width / 2.0, Height / 2.0);
        var size = Fill * Math.Min(Width / Reach(Layout.WidthMm, Layout.HeightMm), Height / Reach(Layout.HeightMm, Layout.WidthMm));
        var (sin, cos) = Math.SinCos(Turn * Math.PI / 180);
        PointPx At(double u, double v)
        {
            var (x, y) = ((u - 0.5) * Layout.WidthMm, (v - 0.5) * Layout.HeightMm);
            var (tx, ty) = ((x * cos) - (y * sin), (x * sin) + (y * cos));
            var depth = 1 + (Perspective * ty / Layout.HeightMm) + (Perspective * 0.5 * tx / Layout.WidthMm);
            return new(cx + (tx * size / depth), cy + (ty * size / depth));
        }

        var corners = new[] { At(0, 0), At(1, 0), At(1, 1), At(0, 1) };
        return Homography.Fit([new(0, 0), new(Layout.WidthMm, 0), new(Layout.WidthMm, Layout.HeightMm), new(0, Layout.HeightMm)], corners)!;
    }

    private double Reach(double along, double across)
    {
        var (sin, cos) = Math.SinCos(Turn * Math.PI / 180);
        return Math.Abs(along * cos) + Math.Abs(across * sin);
    }

    private static byte Encode(double light) => (byte)Math.Clamp(Math.Round(255 * FileColour.LinearToSrgb(light)), 0, 255);

    private static SKBitmap Turned(SKBitmap upright, int orientation)
    {
        var (w, h) = (upright.Width, upright.Height);
        var swap = orientation >= 5;
        var stored = new SKBitmap(upright.Info.WithSize(swap ? h : w, swap ? w : h));
        var from = System.Runtime.InteropServices.MemoryMarshal.Cast<byte, uint>(upright.GetPixelSpan());
        var to = System.Runtime.InteropServices.MemoryMarshal.Cast<byte, uint>(stored.GetPixelSpan());
        for (var y = 0; y < h; y++)
        {
            for (var x = 0; x < w; x++)
            {
                // Where the upright pixel is stored, by the meaning of the eight tags in the EXIF standard.
                var (sx, sy) = orientation switch
                {
                    2 => (w - 1 - x, y),
                    3 => (w - 1 - x, h - 1 - y),
                    4 => (x, h - 1 - y),
                    5 => (y, x),
                    6 => (y, w - 1 - x),
                    7 => (h - 1 - y, w - 1 - x),
                    8 => (h - 1 - y, x),
                    _ => (x, y),
                };
                to[(sy * stored.Width) + sx] = from[(y * w) + x];
            }
        }

        return stored;
    }

    private static byte[] WithOrientation(byte[] jpeg, int orientation)
    {
        byte[] exif =
        [
            0xFF,
            0xE1,
            0,
            34,
            .. "Exif\0\0"u8,
            .. "MM\0*"u8,
            0,
            0,
            0,
            8,
            0,
            1,
            0x01,
            0x12,
            0,
            3,
            0,
            0,
            0,
            1,
            0,
            (byte)orientation,
            0,
            0,
            0,
            0,
            0,
            0,
        ];
        BinaryPrimitives.WriteUInt16BigEndian(exif.AsSpan(2), (ushort)(exif.Length - 2));
        return [.. jpeg.AsSpan(0, 2), .. exif, .. jpeg.AsSpan(2)];
    }
}
