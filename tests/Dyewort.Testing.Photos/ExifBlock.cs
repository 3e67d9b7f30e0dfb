using System.Buffers.Binary;
using System.Text;

namespace Dyewort.Testing.Photos;

/// <summary>Camera notes (EXIF, JEITA CP-3451) as the content of a JPEG's first application segment.</summary>
public static class ExifBlock
{
    private const ushort Orientation = 0x0112;
    private const ushort Gps = 0x8825;

    /// <summary>Nothing but how the stored pixels are to be turned.</summary>
    public static byte[] Turned(int orientation) => Block([Short(Orientation, orientation)], []);

    /// <summary>Where the photo was taken, whose camera it was, and markup where only words belong.</summary>
    public static byte[] Telling() =>
        Block(
            [
                Text(0x010E, "<script>alert('drawn')</script>"),
                Text(0x010F, "Nowhere Optical"),
                Short(Orientation, 1),
                Text(0x013B, "Ada Nobody"),
                Text(0xA431, "SN-0042"),
            ],
            [Text(0x0001, "N"), Degrees(0x0002, 51, 2, 3), Text(0x0003, "W"), Degrees(0x0004, 1, 40, 9)]
        );

    /// <summary>A directory that names itself as the next one, with a text of two gigabytes.</summary>
    public static byte[] Endless()
    {
        var block = Block([(0x010E, 2, 0x7FFFFFFF, [0, 0, 0, 8]), Short(Orientation, 1)], []);

        // After the six letters, the head of eight, the count and two entries stands the offset of the next directory.
        BinaryPrimitives.WriteUInt32BigEndian(block.AsSpan(6 + 8 + 2 + 24), 8);
        return block;
    }

    private static byte[] Block((ushort Tag, ushort Type, uint Count, byte[] Value)[] entries, (ushort, ushort, uint, byte[])[] place)
    {
        var first = 2 + (12 * (entries.Length + (place.Length > 0 ? 1 : 0))) + 4;
        using var values = new MemoryStream();
        var second = 8 + first;
        if (place.Length > 0)
            entries = [.. entries, (Gps, 4, 1, Number(second))];
        var after = second + (place.Length > 0 ? 2 + (12 * place.Length) + 4 : 0);
        return
        [
            .. "Exif\0\0"u8,
            .. "MM\0*"u8,
            .. Number(8),
            .. Directory(entries, values, after),
            .. place.Length > 0 ? Directory(place, values, after) : [],
            .. values.ToArray(),
        ];
    }

    private static byte[] Directory((ushort Tag, ushort Type, uint Count, byte[] Value)[] entries, MemoryStream values, int after)
    {
        using var directory = new MemoryStream();
        directory.Write([(byte)(entries.Length >> 8), (byte)entries.Length]);
        foreach (var (tag, type, count, value) in entries)
        {
            directory.Write([(byte)(tag >> 8), (byte)tag, (byte)(type >> 8), (byte)type, .. Number((int)count)]);
            if (value.Length <= 4)
            {
                directory.Write([.. value, .. new byte[4 - value.Length]]);
            }
            else
            {
                directory.Write(Number(after + (int)values.Length));
                values.Write(value);
            }
        }

        directory.Write(new byte[4]);
        return directory.ToArray();
    }

    private static (ushort, ushort, uint, byte[]) Short(ushort tag, int value) => (tag, 3, 1, [(byte)(value >> 8), (byte)value]);

    private static (ushort, ushort, uint, byte[]) Text(ushort tag, string text) =>
        (tag, 2, (uint)text.Length + 1, [.. Encoding.ASCII.GetBytes(text), 0]);

    private static (ushort, ushort, uint, byte[]) Degrees(ushort tag, int degrees, int minutes, int seconds) =>
        (tag, 5, 3, [.. Number(degrees), .. Number(1), .. Number(minutes), .. Number(1), .. Number(seconds), .. Number(1)]);

    private static byte[] Number(int value)
    {
        var bytes = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(bytes, value);
        return bytes;
    }
}
