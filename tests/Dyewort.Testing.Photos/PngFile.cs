using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace Dyewort.Testing.Photos;

/// <summary>Writes PNG files (ISO/IEC 15948), sound ones and others, without the decoder that is under test.</summary>
public static class PngFile
{
    private static readonly byte[] Signature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];
    private static readonly uint[] CrcTable =
    [
        .. Enumerable
            .Range(0, 256)
            .Select(start =>
            {
                var crc = (uint)start;
                for (var bit = 0; bit < 8; bit++)
                    crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
                return crc;
            }),
    ];

    /// <summary>A picture of 8 bits a channel; the channels are red, green, blue and, where there is a fourth, opacity.</summary>
    public static byte[] Of(int width, int height, int channels, Func<int, int, byte[]> pixel) =>
        Of(width, height, 8, channels == 4 ? 6 : 2, [], (x, y) => pixel(x, y));

    /// <summary>A picture of any depth and colour type, with other chunks between its header and its pixels.</summary>
    /// <param name="width">Pixels across.</param>
    /// <param name="height">Pixels down.</param>
    /// <param name="depth">Bits a channel.</param>
    /// <param name="colourType">2 for RGB, 6 for RGB with opacity.</param>
    /// <param name="chunks">Name of four letters and content.</param>
    /// <param name="pixel">The bytes of one pixel.</param>
    public static byte[] Of(
        int width,
        int height,
        int depth,
        int colourType,
        IEnumerable<(string Name, byte[] Data)> chunks,
        Func<int, int, byte[]> pixel
    )
    {
        using var rows = new MemoryStream();
        for (var y = 0; y < height; y++)
        {
            rows.WriteByte(0);
            for (var x = 0; x < width; x++)
                rows.Write(pixel(x, y));
        }

        return Join([("IHDR", Header(width, height, depth, colourType)), .. chunks, ("IDAT", Pack(rows.ToArray())), ("IEND", [])]);
    }

    /// <summary>A sound picture of one bit a pixel, all black: next to no bytes, whatever its size.</summary>
    public static byte[] Bomb(int side)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            var row = new byte[1 + ((side + 7) / 8)];
            for (var y = 0; y < side; y++)
                zip.Write(row);
        }

        return Join([("IHDR", Header(side, side, 1, 0)), ("IDAT", packed.ToArray()), ("IEND", [])]);
    }

    /// <summary>A file of a size that its header claims and its few pixels do not have.</summary>
    public static byte[] Claiming(int width, int height, int depth = 8, int colourType = 2) =>
        Join([("IHDR", Header(width, height, depth, colourType)), ("IDAT", Pack(new byte[4096])), ("IEND", [])]);

    private static byte[] Header(int width, int height, int depth, int colourType)
    {
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9]) = ((byte)depth, (byte)colourType);
        return header;
    }

    private static byte[] Pack(byte[] rows)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true))
            zip.Write(rows);
        return packed.ToArray();
    }

    private static byte[] Join(IEnumerable<(string Name, byte[] Data)> chunks)
    {
        using var file = new MemoryStream();
        file.Write(Signature);
        var number = new byte[4];
        foreach (var (name, data) in chunks)
        {
            byte[] named = [.. Encoding.ASCII.GetBytes(name), .. data];
            BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
            file.Write(number);
            file.Write(named);
            BinaryPrimitives.WriteUInt32BigEndian(number, Crc(named));
            file.Write(number);
        }

        return file.ToArray();
    }

    private static uint Crc(byte[] data)
    {
        var crc = uint.MaxValue;
        foreach (var one in data)
            crc = CrcTable[(crc ^ one) & 0xFF] ^ (crc >> 8);
        return ~crc;
    }
}
