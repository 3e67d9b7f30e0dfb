using Dyewort.Colour;
using Dyewort.Readings;
using SkiaSharp;

namespace Dyewort.Imaging;

/// <summary>A cell cut out of a photo and laid flat: the real wash, with its streaks and edges.</summary>
public static class CellCrop
{
    private const double ShownShare = 0.86;

    /// <summary>Cuts a cell out.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="outline">The cell's four corners in the upright picture, clockwise from its top left.</param>
    /// <param name="sampled">The part that was read; its mean becomes <paramref name="colour"/>.</param>
    /// <param name="colour">The colour that was read: each channel of the crop is brought to it by one factor, so that the light of the day
    /// does not show.</param>
    /// <param name="side">Side of the square in pixels.</param>
    /// <returns>A JPEG in sRGB; null when the outline is not four corners within the picture.</returns>
    public static byte[]? Cut(OpenPhoto photo, IReadOnlyList<PointPx> outline, IReadOnlyList<PointPx> sampled, Xyz colour, int side)
    {
        if (
            outline.Count != 4
            || outline.Any(point =>
                !(point.X > -photo.Width && point.X < 2 * photo.Width && point.Y > -photo.Height && point.Y < 2 * photo.Height)
            )
        )
            return null;
        var cell = Sample(photo, Inset(outline), side);
        var part = sampled.Count == 4 ? Sample(photo, sampled, 24) : cell;
        var mean = new Rgb(part.Average(one => one.R), part.Average(one => one.G), part.Average(one => one.B));
        var wanted = RgbSpace.Srgb.LinearFromXyz(colour);
        var (red, green, blue) = (Factor(wanted.R, mean.R), Factor(wanted.G, mean.G), Factor(wanted.B, mean.B));
        using var bitmap = new SKBitmap(new SKImageInfo(side, side, SKColorType.Rgba8888, SKAlphaType.Opaque));
        for (var y = 0; y < side; y++)
        {
            for (var x = 0; x < side; x++)
            {
                var one = cell[(y * side) + x];
                bitmap.SetPixel(x, y, new SKColor(Byte(one.R * red), Byte(one.G * green), Byte(one.B * blue)));
            }
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 88);
        return data.ToArray();
    }

    // Printed lines and overrun edges are not the wash.
    private static IReadOnlyList<PointPx> Inset(IReadOnlyList<PointPx> outline)
    {
        var (x, y) = (outline.Average(point => point.X), outline.Average(point => point.Y));
        return [.. outline.Select(point => new PointPx(x + ((point.X - x) * ShownShare), y + ((point.Y - y) * ShownShare)))];
    }

    private static Rgb[] Sample(OpenPhoto photo, IReadOnlyList<PointPx> corners, int side)
    {
        var map = Homography.FromUnitSquare(corners);
        var pixels = photo.Pixels;
        var linear = photo.Colour.Linear;
        var result = new Rgb[side * side];
        for (var y = 0; y < side; y++)
        {
            for (var x = 0; x < side; x++)
            {
                var at = map.Map((x + 0.5) / side, (y + 0.5) / side);
                var (px, py) = (
                    (int)Math.Clamp(Math.Round(at.X), 0, photo.Width - 1),
                    (int)Math.Clamp(Math.Round(at.Y), 0, photo.Height - 1)
                );
                var pixel = pixels[photo.Start + (px * photo.StepX) + (py * photo.StepY)];
                var file = new FileRgb(linear[(int)(pixel & 255)], linear[(int)((pixel >> 8) & 255)], linear[(int)((pixel >> 16) & 255)]);
                result[(y * side) + x] = RgbSpace.Srgb.LinearFromXyz(photo.Colour.ToXyz(file));
            }
        }

        return result;
    }

    // A channel that the photo lost altogether cannot be brought back; leave it as it is.
    private static double Factor(double wanted, double mean) => mean > 0.0005 ? Math.Clamp(Math.Max(0, wanted) / mean, 0.2, 5) : 1;

    private static byte Byte(double linear) => (byte)Math.Round(255 * Math.Clamp(FileColour.LinearToSrgb(Math.Clamp(linear, 0, 1)), 0, 1));
}
