using Dyewort.Readings;
using SkiaSharp;

namespace Dyewort.Imaging;

/// <summary>Pictures made from a photo for people to look at: upright, small, and without anything a camera noted in the file.</summary>
public static class PhotoPictures
{
    private const SKColorType Type = SKColorType.Rgba8888;

    /// <summary>The photo with what was read where drawn on it, PNG.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="result">Its reading.</param>
    /// <param name="longSide">Pixels of the longer side of the picture made.</param>
    /// <remarks>Outlines are white on black, so that they can be seen on anything and add no colour of their own.</remarks>
    public static byte[] Marked(OpenPhoto photo, ReadingResult result, int longSide = 1600)
    {
        var scale = Math.Min(1, longSide / (double)Math.Max(photo.Width, photo.Height));
        using var bitmap = Upright(photo, 0, 0, photo.Width, photo.Height, scale);
        using var canvas = new SKCanvas(bitmap);
        if (result.PageCornersPx.Count > 0)
            Outline(canvas, result.PageCornersPx, scale, 2);
        if (result.CardCornersPx.Count > 0)
            Outline(canvas, result.CardCornersPx, scale, 2);
        foreach (var swatch in result.Swatches)
        {
            Outline(canvas, swatch.OutlinePx, scale, 1.2f);
            Outline(canvas, swatch.SampledPx, scale, 1.2f);
            if (swatch.Warnings.Any(warning => warning.Code is not "paper"))
            {
                // A cross through the middle says that there is something to read about this cell.
                var (x, y) = ((float)(swatch.SampledPx.Average(p => p.X) * scale), (float)(swatch.SampledPx.Average(p => p.Y) * scale));
                Line(canvas, x - 6, y - 6, x + 6, y + 6);
                Line(canvas, x - 6, y + 6, x + 6, y - 6);
            }
        }

        // Grain hardly packs: trying harder takes five times as long as reading the photo did, for a tenth of the bytes.
        using var pixels = bitmap.PeekPixels();
        using var data =
            pixels.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.Sub, 2))
            ?? throw new InvalidOperationException("The picture could not be packed.");
        return data.ToArray();
    }

    /// <summary>A piece of the photo, JPEG.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="outline">What to cut out, upright pixels; its box with a small margin is taken.</param>
    /// <param name="longSide">Most pixels of the longer side.</param>
    /// <param name="margin">Margin as a share of the box.</param>
    /// <returns>Empty where the outline lies outside the photo.</returns>
    public static byte[] Crop(OpenPhoto photo, IReadOnlyList<PointPx> outline, int longSide = 320, double margin = 0.06)
    {
        if (outline.Count == 0)
            return [];
        var (minX, maxX) = (outline.Min(p => p.X), outline.Max(p => p.X));
        var (minY, maxY) = (outline.Min(p => p.Y), outline.Max(p => p.Y));
        var pad = Math.Max(maxX - minX, maxY - minY) * margin;
        var (left, top) = ((int)Math.Clamp(minX - pad, 0, photo.Width), (int)Math.Clamp(minY - pad, 0, photo.Height));
        var (right, bottom) = ((int)Math.Clamp(maxX + pad, 0, photo.Width), (int)Math.Clamp(maxY + pad, 0, photo.Height));
        if (right - left < 2 || bottom - top < 2)
            return [];
        using var bitmap = Upright(
            photo,
            left,
            top,
            right - left,
            bottom - top,
            Math.Min(1, longSide / (double)Math.Max(right - left, bottom - top))
        );
        return Jpeg(bitmap, 88);
    }

    /// <summary>The whole photo, smaller, JPEG.</summary>
    public static byte[] Small(OpenPhoto photo, int longSide = 1600)
    {
        using var bitmap = Upright(
            photo,
            0,
            0,
            photo.Width,
            photo.Height,
            Math.Min(1, longSide / (double)Math.Max(photo.Width, photo.Height))
        );
        return Jpeg(bitmap, 85);
    }

    /// <summary>Averages blocks of stored pixels into an upright picture in plain sRGB.</summary>
    private static SKBitmap Upright(OpenPhoto photo, int left, int top, int width, int height, double scale)
    {
        var (w, h) = (Math.Max(1, (int)Math.Round(width * scale)), Math.Max(1, (int)Math.Round(height * scale)));
        var bitmap = new SKBitmap(new SKImageInfo(w, h, Type, SKAlphaType.Opaque, PhotoFile.Srgb));
        var target = System.Runtime.InteropServices.MemoryMarshal.Cast<byte, uint>(bitmap.GetPixelSpan());
        var pixels = photo.Pixels;
        var linear = photo.Colour.Linear;
        var plain = ReferenceEquals(photo.Colour, FileColour.Srgb);
        Span<byte> encode = new byte[4097];
        for (var i = 0; i <= 4096; i++)
            encode[i] = (byte)Math.Clamp(Math.Round(255 * FileColour.LinearToSrgb(i / 4096.0)), 0, 255);
        for (var y = 0; y < h; y++)
        {
            var (y0, y1) = (top + (y * height / h), top + Math.Max((y * height / h) + 1, (y + 1) * height / h));
            for (var x = 0; x < w; x++)
            {
                var (x0, x1) = (left + (x * width / w), left + Math.Max((x * width / w) + 1, (x + 1) * width / w));
                double r = 0,
                    g = 0,
                    b = 0;
                var n = 0;
                for (var v = y0; v < y1; v++)
                {
                    for (var u = x0; u < x1; u++)
                    {
                        var pixel = pixels[photo.Start + (u * photo.StepX) + (v * photo.StepY)];
                        r += linear[(int)pixel & 0xFF];
                        g += linear[(int)(pixel >> 8) & 0xFF];
                        b += linear[(int)(pixel >> 16) & 0xFF];
                        n++;
                    }
                }

                var colour = new FileRgb(r / n, g / n, b / n);
                if (!plain)
                    colour = FileColour.Srgb.FromXyz(photo.Colour.ToXyz(colour));
                target[(y * w) + x] =
                    (uint)(One(encode, colour.R) | (One(encode, colour.G) << 8) | (One(encode, colour.B) << 16)) | 0xFF000000;
            }
        }

        return bitmap;
    }

    private static int One(ReadOnlySpan<byte> encode, double light) => encode[(int)Math.Clamp(light * 4096, 0, 4096)];

    private static void Outline(SKCanvas canvas, IReadOnlyList<PointPx> points, double scale, float width)
    {
        if (points.Count < 2)
            return;
        using var builder = new SKPathBuilder();
        builder.MoveTo((float)(points[0].X * scale), (float)(points[0].Y * scale));
        foreach (var point in points.Skip(1))
            builder.LineTo((float)(point.X * scale), (float)(point.Y * scale));
        builder.Close();
        using var path = builder.Detach();
        using var under = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            StrokeWidth = width + 2,
            Color = SKColors.Black,
            IsAntialias = true,
        };
        using var over = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            StrokeWidth = width,
            Color = SKColors.White,
            IsAntialias = true,
        };
        canvas.DrawPath(path, under);
        canvas.DrawPath(path, over);
    }

    private static void Line(SKCanvas canvas, float x0, float y0, float x1, float y1)
    {
        using var under = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            StrokeWidth = 4,
            Color = SKColors.Black,
            IsAntialias = true,
        };
        using var over = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            StrokeWidth = 2,
            Color = SKColors.White,
            IsAntialias = true,
        };
        canvas.DrawLine(x0, y0, x1, y1, under);
        canvas.DrawLine(x0, y0, x1, y1, over);
    }

    private static byte[] Jpeg(SKBitmap bitmap, int quality)
    {
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, quality);
        return data.ToArray();
    }
}
