using Dyewort.Colour;
using Dyewort.Readings;
using SkiaSharp;

namespace Dyewort.Imaging;

/// <summary>How a picture of a painted sheet is to be taken.</summary>
public sealed record SheetShot
{
    /// <summary>Colour of every painted cell, by its code; cells that are missing stay bare.</summary>
    public required IReadOnlyDictionary<string, Xyz> Paint { get; init; }

    /// <summary>The bare paper.</summary>
    public required Xyz Paper { get; init; }

    /// <summary>Where the page's corners lie in the picture, clockwise from its top left, as shares of width and height.</summary>
    public IReadOnlyList<(double X, double Y)> Corners { get; init; } = [(0.09, 0.07), (0.90, 0.09), (0.93, 0.93), (0.06, 0.95)];

    /// <summary>Picture width in pixels.</summary>
    public int Width { get; init; } = 1200;

    /// <summary>Picture height in pixels.</summary>
    public int Height { get; init; } = 1600;

    /// <summary>Light at the darkest corner as a share of the light at the brightest.</summary>
    public double Shade { get; init; } = 0.7;

    /// <summary>Red, green and blue of the light, 1 for what the camera takes as white.</summary>
    public (double R, double G, double B) Tint { get; init; } = (1.03, 1, 0.94);

    /// <summary>Seed of the grain and the brush strokes: the same seed gives the same picture.</summary>
    public int Seed { get; init; } = 1;
}

/// <summary>Draws what a phone would see of a painted sheet: for demonstrations and for trying the reader out. Invented, and never a
/// measurement.</summary>
public static class SheetPicture
{
    private const double Grain = 0.006;

    /// <summary>Toner and black ink reflect about this share of what their paper does (common practice, no source).</summary>
    private const double PrintedBlack = 0.04;

    /// <summary>A JPEG of the sheet on a dark table, in perspective and uneven light.</summary>
    public static byte[] Draw(SheetLayout layout, SheetShot shot)
    {
        using var bitmap = new SKBitmap(new SKImageInfo(shot.Width, shot.Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(new SKColor(92, 90, 88));
            canvas.SetMatrix(Perspective(layout, shot));
            Page(canvas, layout, shot);
        }

        Light(bitmap, shot);
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 92);
        return data.ToArray();
    }

    private static void Page(SKCanvas canvas, SheetLayout layout, SheetShot shot)
    {
        using var fill = new SKPaint { IsAntialias = true, Color = ColourOf(shot.Paper) };
        canvas.DrawRect(0, 0, (float)layout.WidthMm, (float)layout.HeightMm, fill);
        var random = new Random(shot.Seed);
        foreach (var cell in layout.Cells)
        {
            using var outline = PathOf(cell.PolygonMm);
            if (shot.Paint.TryGetValue(cell.Id, out var paint))
                Wash(canvas, outline, paint, random);
            using var hairline = new SKPaint
            {
                IsAntialias = true,
                IsStroke = true,
                StrokeWidth = 0.2f,
                Color = new SKColor(150, 150, 150),
            };
            canvas.DrawPath(outline, hairline);
        }

        foreach (var marker in layout.Markers)
            Marker(canvas, marker, shot.Paper);
    }

    // A wash is never flat: broad strokes a little paler and deeper, about even in the middle.
    private static void Wash(SKCanvas canvas, SKPath outline, Xyz paint, Random random)
    {
        var box = outline.Bounds;
        canvas.Save();
        canvas.ClipPath(outline, SKClipOperation.Intersect, antialias: true);
        using var even = new SKPaint { IsAntialias = true, Color = ColourOf(paint) };
        canvas.DrawRect(box, even);
        var lab = Lab.FromXyz(paint);
        for (var stroke = 0; stroke < 14; stroke++)
        {
            var lift = ((stroke & 1) == 0 ? 1 : -1) * (0.6 + (1.4 * random.NextDouble()));
            using var brush = new SKPaint
            {
                IsAntialias = true,
                IsStroke = true,
                StrokeCap = SKStrokeCap.Round,
                StrokeWidth = box.Height * (float)(0.05 + (0.1 * random.NextDouble())),
                Color = ColourOf((lab with { L = Math.Clamp(lab.L + lift, 1, 99) }).ToXyz()).WithAlpha(120),
            };
            var y = box.Top + (box.Height * (float)random.NextDouble());
            canvas.DrawLine(box.Left - 2, y, box.Right + 2, y + (float)((random.NextDouble() - 0.5) * 3), brush);
        }

        canvas.Restore();
    }

    private static void Marker(SKCanvas canvas, SheetMarker marker, Xyz paper)
    {
        var corners = marker.CornersMm;
        using var black = new SKPaint { IsAntialias = true, Color = ColourOf(paper * PrintedBlack) };
        using var white = new SKPaint { IsAntialias = false, Color = ColourOf(paper) };
        using var square = PathOf(corners);
        canvas.DrawPath(square, black);
        var cells = Tag36h11.Cells(marker.Id);
        PointMm At(double row, double column)
        {
            var (v, u) = (row / Tag36h11.Side, column / Tag36h11.Side);
            return new(
                ((1 - v) * (((1 - u) * corners[0].X) + (u * corners[1].X))) + (v * (((1 - u) * corners[3].X) + (u * corners[2].X))),
                ((1 - v) * (((1 - u) * corners[0].Y) + (u * corners[1].Y))) + (v * (((1 - u) * corners[3].Y) + (u * corners[2].Y)))
            );
        }

        for (var row = 0; row < Tag36h11.Side; row++)
        {
            for (var column = 0; column < Tag36h11.Side; column++)
            {
                if (!cells[row, column])
                    continue;
                using var path = PathOf([At(row, column), At(row, column + 1), At(row + 1, column + 1), At(row + 1, column)]);
                canvas.DrawPath(path, white);
            }
        }
    }

    private static void Light(SKBitmap bitmap, SheetShot shot)
    {
        var random = new Random(shot.Seed + 1);
        var linear = FileColour.Srgb.Linear;
        var pixels = bitmap.GetPixelSpan();
        var lit = new byte[pixels.Length];
        for (var y = 0; y < bitmap.Height; y++)
        {
            for (var x = 0; x < bitmap.Width; x++)
            {
                var along = ((x / (double)bitmap.Width) + (y / (double)bitmap.Height)) / 2;
                var light = 0.88 * (1 - ((1 - shot.Shade) * along));
                var at = (y * bitmap.RowBytes) + (4 * x);
                lit[at] = Expose(linear[pixels[at]] * light * shot.Tint.R, random);
                lit[at + 1] = Expose(linear[pixels[at + 1]] * light * shot.Tint.G, random);
                lit[at + 2] = Expose(linear[pixels[at + 2]] * light * shot.Tint.B, random);
                lit[at + 3] = 255;
            }
        }

        System.Runtime.InteropServices.Marshal.Copy(lit, 0, bitmap.GetPixels(), lit.Length);
    }

    private static byte Expose(double light, Random random)
    {
        var noise = (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5) * 2 * Grain;
        return (byte)Math.Round(255 * Math.Clamp(FileColour.LinearToSrgb(Math.Clamp(light, 0, 1)) + noise, 0, 1));
    }

    private static SKMatrix Perspective(SheetLayout layout, SheetShot shot)
    {
        var corners = shot.Corners.Select(corner => new PointPx(corner.X * shot.Width, corner.Y * shot.Height)).ToList();
        var m = Homography.FromUnitSquare(corners).Matrix;
        var (w, h) = (layout.WidthMm, layout.HeightMm);
        return new SKMatrix(
            (float)(m.M11 / w),
            (float)(m.M12 / h),
            (float)m.M13,
            (float)(m.M21 / w),
            (float)(m.M22 / h),
            (float)m.M23,
            (float)(m.M31 / w),
            (float)(m.M32 / h),
            (float)m.M33
        );
    }

    private static SKPath PathOf(IReadOnlyList<PointMm> corners)
    {
        using var path = new SKPathBuilder();
        path.AddPoly([.. corners.Select(corner => new SKPoint((float)corner.X, (float)corner.Y))], close: true);
        return path.Detach();
    }

    private static SKColor ColourOf(Xyz colour)
    {
        var (r, g, b) = SrgbChip.Of(colour).Bytes;
        return new SKColor(r, g, b);
    }
}
