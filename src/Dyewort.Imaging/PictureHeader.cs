using System.Buffers.Binary;

namespace Dyewort.Imaging;

/// <summary>What kind of file the first bytes say it is; names and declared types are never trusted.</summary>
public enum PictureKind
{
    Unknown,
    Jpeg,
    Png,
    WebP,
    Tiff,
    Heif,
    Avif,
    Gif,
    Bitmap,
    Text,
}

/// <summary>The few facts of a picture file that are read without decoding it.</summary>
/// <param name="Kind">The file's kind.</param>
/// <param name="Channels">Colour channels of a JPEG; 0 where unknown.</param>
/// <param name="Profile">The embedded colour profile, or null.</param>
/// <param name="IsComplete">False for a JPEG that has no end.</param>
/// <param name="FocalLength35mm">The lens as a 35 mm camera would have it, or null.</param>
/// <param name="JpegSize">A JPEG's declared size, or null.</param>
/// <param name="DotsPerInch">The resolution the file states, or null.</param>
internal sealed record PictureHeader(
    PictureKind Kind,
    int Channels,
    byte[]? Profile,
    bool IsComplete,
    double? FocalLength35mm,
    (int Width, int Height)? JpegSize,
    double? DotsPerInch
)
{
    private const int MostProfileBytes = 4 << 20;

    public static PictureHeader Read(ReadOnlySpan<byte> data)
    {
        var kind = Sniff(data);
        return kind is PictureKind.Jpeg
            ? ReadJpeg(data)
            : new(
                kind,
                0,
                kind is PictureKind.Png ? PngProfileMark(data) : null,
                true,
                null,
                null,
                kind is PictureKind.Png ? PngResolution(data) : null
            );
    }

    public static PictureKind Sniff(ReadOnlySpan<byte> data)
    {
        if (data.Length < 12)
            return PictureKind.Unknown;
        if (data.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xD8, 0xFF]))
            return PictureKind.Jpeg;
        if (data.StartsWith((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]))
            return PictureKind.Png;
        if (data.StartsWith("RIFF"u8) && data[8..].StartsWith("WEBP"u8))
            return PictureKind.WebP;
        if (data.StartsWith("II*\0"u8) || data.StartsWith("MM\0*"u8))
            return PictureKind.Tiff;
        if (data.StartsWith("GIF8"u8))
            return PictureKind.Gif;
        if (data.StartsWith("BM"u8))
            return PictureKind.Bitmap;
        if (data[4..].StartsWith("ftyp"u8))
        {
            var brand = data.Slice(8, 4);
            if (brand.SequenceEqual("avif"u8) || brand.SequenceEqual("avis"u8))
                return PictureKind.Avif;
            if (
                brand.SequenceEqual("heic"u8)
                || brand.SequenceEqual("heix"u8)
                || brand.SequenceEqual("heim"u8)
                || brand.SequenceEqual("heis"u8)
                || brand.SequenceEqual("mif1"u8)
                || brand.SequenceEqual("msf1"u8)
                || brand.SequenceEqual("hevc"u8)
            )
                return PictureKind.Heif;
        }

        foreach (var one in data[..12])
        {
            if (one is < 9 or (> 13 and < 32))
                return PictureKind.Unknown;
        }

        return PictureKind.Text;
    }

    private static PictureHeader ReadJpeg(ReadOnlySpan<byte> data)
    {
        var channels = 0;
        (int, int)? size = null;
        double? focal = null;
        double? dots = null;
        var parts = new SortedDictionary<int, byte[]>();
        var profileBytes = 0;
        var at = 2;
        var scanStart = -1;
        while (at + 4 <= data.Length)
        {
            if (data[at] != 0xFF)
            {
                at++;
                continue;
            }

            var marker = data[at + 1];
            if (marker is 0xFF)
            {
                at++;
                continue;
            }

            if (marker is 0x01 or (>= 0xD0 and <= 0xD8))
            {
                at += 2;
                continue;
            }

            if (marker is 0xD9)
                break;
            var length = BinaryPrimitives.ReadUInt16BigEndian(data[(at + 2)..]);
            if (length < 2 || at + 2 + length > data.Length)
                break;
            var body = data.Slice(at + 4, length - 2);
            if (marker is >= 0xC0 and <= 0xCF and not 0xC4 and not 0xC8 and not 0xCC && body.Length >= 6)
            {
                size = (BinaryPrimitives.ReadUInt16BigEndian(body[3..]), BinaryPrimitives.ReadUInt16BigEndian(body[1..]));
                channels = body[5];
            }
            else if (
                marker is 0xE2
                && body.Length > 14
                && body.StartsWith("ICC_PROFILE\0"u8)
                && profileBytes + body.Length < MostProfileBytes
            )
            {
                parts[body[12]] = body[14..].ToArray();
                profileBytes += body.Length;
            }
            else if (marker is 0xE0 && body.Length >= 12 && body.StartsWith("JFIF\0"u8) && body[7] is 1 or 2)
            {
                dots = BinaryPrimitives.ReadUInt16BigEndian(body[8..]) * (body[7] == 2 ? 2.54 : 1);
            }
            else if (marker is 0xE1 && body.StartsWith("Exif\0\0"u8))
            {
                focal ??= ReadFocalLength(body[6..]);
            }
            else if (marker is 0xDA)
            {
                scanStart = at;
                break;
            }

            at += 2 + length;
        }

        var complete = scanStart > 0 && data[scanStart..].LastIndexOf((ReadOnlySpan<byte>)[0xFF, 0xD9]) >= 0;
        var profile = parts.Count == 0 ? null : parts.Values.SelectMany(part => part).ToArray();
        return new(PictureKind.Jpeg, channels, profile, complete, focal, size, dots);
    }

    /// <summary>A PNG's profile is unpacked by the decoder; here it only matters that there is one.</summary>
    private static byte[]? PngProfileMark(ReadOnlySpan<byte> data) =>
        data[..Math.Min(data.Length, 4096)].IndexOf("iCCP"u8) >= 0 ? [] : null;

    private static double? PngResolution(ReadOnlySpan<byte> data)
    {
        var head = data[..Math.Min(data.Length, 4096)];
        var at = head.IndexOf("pHYs"u8);
        return at >= 0 && at + 13 <= head.Length && head[at + 12] == 1
            ? BinaryPrimitives.ReadUInt32BigEndian(head[(at + 4)..]) * 0.0254
            : null;
    }

    /// <summary>Reads one number of the camera's notes; every step is bounded, and directories are never followed twice.</summary>
    private static double? ReadFocalLength(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < 8)
            return null;
        var little = tiff.StartsWith("II"u8);
        var first = Number(tiff, 4, 4, little);
        if (!TryFind(tiff, first, 0x8769, little, out var directory))
            return null;
        return TryFind(tiff, directory, 0xA405, little, out var focal) && focal is >= 8 and <= 600 ? focal : null;
    }

    private static bool TryFind(ReadOnlySpan<byte> tiff, long directory, int tag, bool little, out long value)
    {
        value = 0;
        if (directory < 8 || directory + 2 > tiff.Length)
            return false;
        var entries = Math.Min(Number(tiff, (int)directory, 2, little), 200);
        for (var entry = 0; entry < entries; entry++)
        {
            var at = directory + 2 + (entry * 12);
            if (at + 12 > tiff.Length)
                return false;
            if (Number(tiff, (int)at, 2, little) != tag)
                continue;
            var isShort = Number(tiff, (int)at + 2, 2, little) == 3;
            value = Number(tiff, (int)at + 8, isShort ? 2 : 4, little);
            return true;
        }

        return false;
    }

    private static long Number(ReadOnlySpan<byte> data, int at, int bytes, bool little)
    {
        if (at < 0 || at + bytes > data.Length)
            return 0;
        var part = data.Slice(at, bytes);
        if (bytes == 2)
            return little ? BinaryPrimitives.ReadUInt16LittleEndian(part) : BinaryPrimitives.ReadUInt16BigEndian(part);
        return little ? BinaryPrimitives.ReadUInt32LittleEndian(part) : BinaryPrimitives.ReadUInt32BigEndian(part);
    }
}
