using System.Globalization;
using System.Runtime.InteropServices;
using Dyewort.Numerics;
using Dyewort.Quantities;
using Dyewort.Readings;
using ImageMagick;
using SkiaSharp;

namespace Dyewort.Imaging;

/// <summary>Most that a picture file may ask for.</summary>
/// <param name="Bytes">File size.</param>
/// <param name="Pixels">Width times height, as declared; checked before anything is decoded.</param>
/// <param name="Side">Longest side in pixels.</param>
public sealed record PhotoLimits(long Bytes = 80L << 20, long Pixels = 80_000_000, int Side = 20_000);

/// <summary>Opens pictures from strangers: phones, scanners, chat programs.</summary>
public static class PhotoFile
{
    private const string Export = "Export it as a JPEG: open it in any picture program and choose “save as JPEG”.";

    /// <summary>Made before any thread opens a photo, which the static constructor sees to.</summary>
    /// <remarks>The library keeps one object for sRGB and sets it up when it is first asked for. Two threads that opened their first photos
    /// in that very moment crashed the program now and then: the one's object was thrown away in favour of the other's.</remarks>
    internal static readonly SKColorSpace Srgb;

    static PhotoFile()
    {
        Srgb = SKColorSpace.CreateSrgb();
        ResourceLimits.Memory = 400UL << 20;
        ResourceLimits.Disk = 0;
        ResourceLimits.Area = 100_000_000;
        ResourceLimits.Width = 20_000;
        ResourceLimits.Height = 20_000;
        ResourceLimits.Time = 60;
        ResourceLimits.Thread = 2;
    }

    /// <summary>Opens a file on disk.</summary>
    public static Outcome<OpenPhoto> OpenFile(string field, string path, PhotoLimits? limits = null)
    {
        limits ??= new();
        try
        {
            var info = new FileInfo(path);
            if (!info.Exists)
                return Outcome.Refused<OpenPhoto>(
                    field,
                    $"There is no file “{Path.GetFileName(path)}” there.",
                    "Check the name and the folder."
                );
            if (info.Length > limits.Bytes)
                return TooManyBytes(field, limits);
            return Open(field, File.ReadAllBytes(path), limits);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return Outcome.Refused<OpenPhoto>(
                field,
                $"The file “{Path.GetFileName(path)}” could not be read.",
                "Check that it is a file you may open."
            );
        }
    }

    /// <summary>Opens a picture held in memory.</summary>
    /// <param name="field">The option or field it came from.</param>
    /// <param name="data">The file's bytes.</param>
    /// <param name="limits">The limits; the usual ones when null.</param>
    /// <param name="buffers">Where to take the memory for the pixels from; from the system when null.</param>
    public static Outcome<OpenPhoto> Open(string field, byte[] data, PhotoLimits? limits = null, PixelBuffers? buffers = null)
    {
        limits ??= new();
        if (data.Length == 0)
            return Outcome.Refused<OpenPhoto>(field, "The file is empty.", "Send the picture again.");
        if (data.LongLength > limits.Bytes)
            return TooManyBytes(field, limits);
        var header = PictureHeader.Read(data);
        try
        {
            return header.Kind switch
            {
                PictureKind.Jpeg when header.Channels == 4 => OpenWithMagick(field, data, header, MagickFormat.Jpeg, limits),
                PictureKind.Jpeg when header.Channels == 1 => NoColour(field),
                PictureKind.Jpeg or PictureKind.Png or PictureKind.WebP => OpenWithSkia(field, data, header, limits, buffers),
                PictureKind.Tiff => OpenWithMagick(field, data, header, MagickFormat.Tiff, limits),
                PictureKind.Heif => OpenWithMagick(field, data, header, MagickFormat.Heic, limits),
                PictureKind.Avif => OpenWithMagick(field, data, header, MagickFormat.Avif, limits),
                PictureKind.Gif => Outcome.Refused<OpenPhoto>(
                    field,
                    "A GIF picture holds too few colours to read a colour from.",
                    "Use the photo as the camera wrote it, usually a JPEG."
                ),
                _ => NotAPicture(field),
            };
        }
        catch (Exception problem) when (problem is MagickException or InvalidOperationException or ArgumentException or OverflowException)
        {
            return Damaged(field);
        }
    }

    private static Outcome<OpenPhoto> OpenWithSkia(
        string field,
        byte[] data,
        PictureHeader header,
        PhotoLimits limits,
        PixelBuffers? buffers
    )
    {
        if (header.JpegSize is { } declared && Refuse(field, declared.Width, declared.Height, limits) is { } early)
            return early;

        // The bytes stay where they are while they are decoded: a copy would be several megabytes more.
        using var held = new PinnedBytes(data);
        using var codec = SKCodec.Create(held.Data);
        if (codec is null)
            return Damaged(field);
        if (Refuse(field, codec.Info.Width, codec.Info.Height, limits) is { } refusal)
            return refusal;
        if (!header.IsComplete)
            return Incomplete(field);
        if (codec.Info.ColorType is SKColorType.Gray8 or SKColorType.Alpha8)
            return NoColour(field);

        var warnings = new List<ReadingWarning>();

        // Colour spaces are left to the collector. Equal ones are one object, whichever thread asked: to dispose of it here would
        // take it out of the hands of a thread that is opening another photo.
        var native = codec.Info.ColorSpace;
        var colour = FileColour.Srgb;
        SKColorSpace? target = null;
        if (header.Profile is { Length: > 0 } profile)
        {
            if (!LooksLikeProfile(profile))
            {
                warnings.Add(DamagedProfile);
            }
            else
            {
                using var parsed = SKColorSpaceIccProfile.Create(profile);
                var space = parsed is null ? null : SKColorSpace.CreateIcc(parsed);
                if (parsed is null)
                    warnings.Add(DamagedProfile);
                else if (space is not null && Describe(space) is { } described)
                    (colour, target) = (described, native);
            }
        }
        else if (native is not null && !native.IsSrgb && Describe(native) is { } described)
        {
            (colour, target) = (described, native);
        }

        var info = new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul, target ?? Srgb);
        var bitmap = new SKBitmap();
        var block = buffers?.Take(info.BytesSize64);
        if (block is null ? !bitmap.TryAllocPixels(info) : !bitmap.InstallPixels(info, block.Start, info.RowBytes))
        {
            Drop();
            return Outcome.Refused<OpenPhoto>(
                field,
                "There is not enough memory for this picture.",
                "Make it smaller first: 4000 pixels on the long side are plenty."
            );
        }

        var result = codec.GetPixels(info, bitmap.GetPixels());
        GC.KeepAlive(info.ColorSpace);
        if (result != SKCodecResult.Success)
        {
            Drop();
            return result is SKCodecResult.IncompleteInput or SKCodecResult.ErrorInInput ? Incomplete(field) : Damaged(field);
        }

        if (codec.FrameCount > 1)
            warnings.Add(new("frames", "The file holds several pictures; the first one was read."));
        if (codec.Info.AlphaType is not SKAlphaType.Opaque && HasHoles(bitmap))
            warnings.Add(new("holes", "Parts of the picture are transparent; nothing was read from them."));
        return Outcome.Of(
            new OpenPhoto(bitmap, codec.EncodedOrigin, colour, header.Kind, header.FocalLength35mm, header.DotsPerInch, warnings, block)
        );

        void Drop()
        {
            bitmap.Dispose();
            block?.Dispose();
        }
    }

    private static Outcome<OpenPhoto> OpenWithMagick(
        string field,
        byte[] data,
        PictureHeader header,
        MagickFormat format,
        PhotoLimits limits
    )
    {
        var settings = new MagickReadSettings
        {
            Format = format,
            FrameIndex = 0,
            FrameCount = 1,
        };
        if (header.Kind is PictureKind.Jpeg && !header.IsComplete)
            return Incomplete(field);
        if (header.JpegSize is { } declared && Refuse(field, declared.Width, declared.Height, limits) is { } early)
            return early;
        var ping = new MagickImageInfo(data, settings);
        if (Refuse(field, (int)Math.Min(ping.Width, int.MaxValue), (int)Math.Min(ping.Height, int.MaxValue), limits) is { } refusal)
            return refusal;
        using var image = new MagickImage(data, settings);
        if (image.ColorSpace is ColorSpace.Gray or ColorSpace.LinearGray)
            return NoColour(field);
        var warnings = new List<ReadingWarning>();
        if (header.Kind is PictureKind.Tiff && MagickImageInfo.ReadCollection(data).Count() > 1)
            warnings.Add(new("pages", "The file holds several pages; the first one was read."));

        var colour = FileColour.Srgb;
        var profile = image.GetColorProfile();
        if (image.ColorSpace is ColorSpace.CMYK)
        {
            if (profile is null || !image.TransformColorSpace(profile, ColorProfiles.SRGB))
                image.ColorSpace = ColorSpace.sRGB;
            warnings.Add(
                new(
                    "cmyk",
                    "This picture was prepared for a printing press (CMYK); its colours were turned back as well as that can be done."
                )
            );
        }
        else if (profile is not null)
        {
            using var parsed = SKColorSpaceIccProfile.Create(profile.ToByteArray());
            var space = parsed is null ? null : SKColorSpace.CreateIcc(parsed);
            if (space is not null && Describe(space) is { } described)
                colour = described;
            else if (parsed is null || !image.TransformColorSpace(profile, ColorProfiles.SRGB))
                warnings.Add(DamagedProfile);
        }
        else if (image.ColorSpace is not (ColorSpace.sRGB or ColorSpace.RGB))
        {
            image.ColorSpace = ColorSpace.sRGB;
        }

        var (width, height) = ((int)image.Width, (int)image.Height);
        using var pixels = image.GetPixelsUnsafe();
        var bytes = pixels.ToByteArray(PixelMapping.RGBA);
        if (bytes is null || bytes.Length != (long)width * height * 4)
            return Damaged(field);
        var bitmap = new SKBitmap();
        if (!bitmap.TryAllocPixels(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Unpremul, Srgb)))
        {
            bitmap.Dispose();
            return Damaged(field);
        }

        Marshal.Copy(bytes, 0, bitmap.GetPixels(), bytes.Length);
        var origin = header.Kind is PictureKind.Heif or PictureKind.Avif
            ? SKEncodedOrigin.TopLeft
            : (SKEncodedOrigin)Math.Clamp((int)image.Orientation, 1, 8);
        return Outcome.Of(new OpenPhoto(bitmap, origin, colour, header.Kind, header.FocalLength35mm, header.DotsPerInch, warnings));
    }

    /// <summary>An array that stays in its place while a decoder reads it.</summary>
    private sealed class PinnedBytes : IDisposable
    {
        private GCHandle handle;

        public PinnedBytes(byte[] bytes)
        {
            handle = GCHandle.Alloc(bytes, GCHandleType.Pinned);
            Data = SKData.Create(handle.AddrOfPinnedObject(), bytes.Length);
        }

        public SKData Data { get; }

        public void Dispose()
        {
            Data.Dispose();
            handle.Free();
        }
    }

    private static ReadingWarning DamagedProfile =>
        new("profile", "The colour profile inside the file is damaged; the picture was read as plain sRGB.");

    /// <summary>A profile says its own length, has its signature, and lists a believable number of tags.</summary>
    private static bool LooksLikeProfile(byte[] profile)
    {
        if (profile.Length < 132 || !profile.AsSpan(36, 4).SequenceEqual("acsp"u8))
            return false;
        var length = System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(profile);
        var tags = System.Buffers.Binary.BinaryPrimitives.ReadUInt32BigEndian(profile.AsSpan(128));
        return length <= profile.Length && tags is > 0 and <= 1000;
    }

    /// <summary>A profile that is a curve and a matrix, as our own numbers; null for any other kind, and for curves too steep for eight
    /// bits.</summary>
    private static FileColour? Describe(SKColorSpace space)
    {
        if (space.IsSrgb)
            return FileColour.Srgb;
        if (!space.ToColorSpaceXyz(out var xyz) || !space.GetNumericalTransferFunction(out var curve))
            return null;
        var linear = new double[256];
        for (var code = 0; code < 256; code++)
            linear[code] = curve.Transform(code / 255f);
        if (linear[128] > 0.4 || !(linear[255] is > 0.98 and < 1.02))
            return null;
        // The library's first index is the column.
        var toD50 = new Matrix3(xyz[0, 0], xyz[1, 0], xyz[2, 0], xyz[0, 1], xyz[1, 1], xyz[2, 1], xyz[0, 2], xyz[1, 2], xyz[2, 2]);
        return new FileColour("embedded profile", linear, D50ToD65.Times(toD50));
    }

    /// <summary>Bradford adaptation from the profile connection space to D65 [ICC.1].</summary>
    private static readonly Matrix3 D50ToD65 = new(
        0.9555766,
        -0.0230393,
        0.0631636,
        -0.0282895,
        1.0099416,
        0.0210077,
        0.0122982,
        -0.0204830,
        1.3299098
    );

    private static bool HasHoles(SKBitmap bitmap)
    {
        var bytes = bitmap.GetPixelSpan();
        for (var i = 3; i < bytes.Length; i += 4)
        {
            if (bytes[i] < 250)
                return true;
        }

        return false;
    }

    private static Outcome<OpenPhoto>? Refuse(string field, int width, int height, PhotoLimits limits)
    {
        if (width <= 0 || height <= 0)
            return Damaged(field);
        if (Math.Min(width, height) < 64)
            return Outcome.Refused<OpenPhoto>(
                field,
                string.Create(CultureInfo.InvariantCulture, $"The picture is too small to show a page ({width} × {height} pixels)."),
                "Use the photo at its full size."
            );
        var claims = string.Create(CultureInfo.InvariantCulture, $"The picture claims {width} × {height} pixels, ");
        return Math.Max(width, height) > limits.Side
                ? Outcome.Refused<OpenPhoto>(
                    field,
                    string.Create(CultureInfo.InvariantCulture, $"{claims}longer than the {limits.Side} pixels of a side that are read."),
                    "Cut it to the page, or make the picture smaller first."
                )
            : (long)width * height > limits.Pixels
                ? Outcome.Refused<OpenPhoto>(
                    field,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{claims}more than the {limits.Pixels / 1_000_000} million that are read."
                    ),
                    "Scan at 300 dpi, or make the picture smaller first."
                )
            : null;
    }

    private static Outcome<OpenPhoto> TooManyBytes(string field, PhotoLimits limits) =>
        Outcome.Refused<OpenPhoto>(
            field,
            string.Create(CultureInfo.InvariantCulture, $"The file is larger than {limits.Bytes >> 20} MB."),
            "Make it smaller first: 4000 pixels on the long side are plenty."
        );

    private static Outcome<OpenPhoto> Incomplete(string field) =>
        Outcome.Refused<OpenPhoto>(
            field,
            "The file is incomplete or damaged: part of the picture is missing.",
            "Copy it from the phone or scanner once more."
        );

    private static Outcome<OpenPhoto> Damaged(string field) =>
        Outcome.Refused<OpenPhoto>(field, "The picture cannot be read: the file is damaged.", Export);

    private static Outcome<OpenPhoto> NoColour(string field) =>
        Outcome.Refused<OpenPhoto>(field, "There is no colour in this picture: it is black and white.", "Take or scan it in colour.");

    private static Outcome<OpenPhoto> NotAPicture(string field) =>
        Outcome.Refused<OpenPhoto>(field, "This file is not a picture that can be read here.", "Use a JPEG, PNG, WebP, HEIC or TIFF file.");
}
