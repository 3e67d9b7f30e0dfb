using System.Runtime.InteropServices;
using Dyewort.Readings;
using SkiaSharp;

namespace Dyewort.Imaging;

/// <summary>A decoded picture, seen upright: the stored pixels stay where they are, and steps turn them.</summary>
public sealed class OpenPhoto : IDisposable
{
    private readonly SKBitmap bitmap;
    private readonly IDisposable? block;

    internal OpenPhoto(
        SKBitmap bitmap,
        SKEncodedOrigin origin,
        FileColour colour,
        PictureKind kind,
        double? focalLength35mm,
        double? dotsPerInch,
        IReadOnlyList<ReadingWarning> warnings,
        IDisposable? block = null
    )
    {
        this.bitmap = bitmap;
        this.block = block;
        Origin = origin;
        Colour = colour;
        Kind = kind;
        FocalLength35mm = focalLength35mm;
        DotsPerInch = dotsPerInch;
        Warnings = warnings;
        var (w, h) = (bitmap.Width, bitmap.Height);
        var row = bitmap.RowBytes / 4;
        (Width, Height, Start, StepX, StepY) = origin switch
        {
            SKEncodedOrigin.TopRight => (w, h, w - 1, -1, row),
            SKEncodedOrigin.BottomRight => (w, h, ((h - 1) * row) + w - 1, -1, -row),
            SKEncodedOrigin.BottomLeft => (w, h, (h - 1) * row, 1, -row),
            SKEncodedOrigin.LeftTop => (h, w, 0, row, 1),
            SKEncodedOrigin.RightTop => (h, w, (h - 1) * row, -row, 1),
            SKEncodedOrigin.RightBottom => (h, w, ((h - 1) * row) + w - 1, -row, -1),
            SKEncodedOrigin.LeftBottom => (h, w, w - 1, row, -1),
            _ => (w, h, 0, 1, row),
        };
    }

    /// <summary>Upright width in pixels.</summary>
    public int Width { get; }

    /// <summary>Upright height in pixels.</summary>
    public int Height { get; }

    /// <summary>The file's colour space.</summary>
    public FileColour Colour { get; }

    public PictureKind Kind { get; }

    /// <summary>The lens as a 35 mm camera would have it, or null.</summary>
    public double? FocalLength35mm { get; }

    /// <summary>The resolution the file states, or null.</summary>
    public double? DotsPerInch { get; }

    /// <summary>What decoding noticed.</summary>
    public IReadOnlyList<ReadingWarning> Warnings { get; }

    internal SKEncodedOrigin Origin { get; }

    /// <summary>Where the upright picture's top left pixel lies among the stored ones.</summary>
    internal int Start { get; }

    internal int StepX { get; }

    internal int StepY { get; }

    /// <summary>Stored pixels: red in the lowest byte, then green, blue, opacity.</summary>
    internal ReadOnlySpan<uint> Pixels => MemoryMarshal.Cast<byte, uint>(bitmap.GetPixelSpan());

    public void Dispose()
    {
        bitmap.Dispose();
        block?.Dispose();
    }
}
