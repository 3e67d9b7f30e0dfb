using System.Buffers.Binary;

namespace Dyewort.Testing.Photos;

/// <summary>Writes baseline JPEG files (ITU-T T.81) of one, three or four channels, without the codec that is under test.</summary>
/// <remarks>Every symbol gets a Huffman code of one length: the files are larger than they need be and need no statistics.</remarks>
public static class JpegFile
{
    private static readonly int[] ZigZag =
    [
        0,
        1,
        8,
        16,
        9,
        2,
        3,
        10,
        17,
        24,
        32,
        25,
        18,
        11,
        4,
        5,
        12,
        19,
        26,
        33,
        40,
        48,
        41,
        34,
        27,
        20,
        13,
        6,
        7,
        14,
        21,
        28,
        35,
        42,
        49,
        56,
        57,
        50,
        43,
        36,
        29,
        22,
        15,
        23,
        30,
        37,
        44,
        51,
        58,
        59,
        52,
        45,
        38,
        31,
        39,
        46,
        53,
        60,
        61,
        54,
        47,
        55,
        62,
        63,
    ];

    private static readonly double[] Cosines =
    [
        .. Enumerable
            .Range(0, 64)
            .Select(i => (i / 8 == 0 ? Math.Sqrt(0.125) : 0.5) * Math.Cos(((2 * (i % 8)) + 1) * (i / 8) * Math.PI / 16)),
    ];

    // Runs of 0 to 15 zeros before a number of 1 to 10 bits, the end of a block, and sixteen zeros.
    private static readonly byte[] AcSymbols =
    [
        0x00,
        0xF0,
        .. Enumerable.Range(0, 160).Select(i => (byte)(((i / 10) << 4) | ((i % 10) + 1))),
    ];

    /// <summary>Writes a picture.</summary>
    /// <param name="width">Pixels across.</param>
    /// <param name="height">Pixels down.</param>
    /// <param name="channels">1 grey, 3 red, green and blue, 4 the four inks as they are to be stored.</param>
    /// <param name="samples">Channel by channel within a pixel, row by row.</param>
    /// <param name="step">The step that every DCT coefficient is rounded to: 1 keeps nearly everything, 12 is a small photo.</param>
    /// <param name="segments">What stands before the picture: marker (such as 0xE1) and content.</param>
    public static byte[] Of(int width, int height, int channels, byte[] samples, int step = 2, params (byte Marker, byte[] Data)[] segments)
    {
        using var file = new MemoryStream();
        file.Write([0xFF, 0xD8]);
        foreach (var (marker, data) in segments)
            Segment(file, marker, data);
        Segment(file, 0xDB, [0, .. Enumerable.Repeat((byte)step, 64)]);
        byte[] frame = [8, 0, 0, 0, 0, (byte)channels, .. Enumerable.Range(1, channels).SelectMany(id => new byte[] { (byte)id, 0x11, 0 })];
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(1), (ushort)height);
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(3), (ushort)width);
        Segment(file, 0xC0, frame);
        Segment(file, 0xC4, [0x00, 0, 0, 0, 12, .. new byte[12], .. Enumerable.Range(0, 12).Select(i => (byte)i)]);
        Segment(file, 0xC4, [0x10, .. new byte[7], (byte)AcSymbols.Length, .. new byte[8], .. AcSymbols]);
        Segment(file, 0xDA, [(byte)channels, .. Enumerable.Range(1, channels).SelectMany(id => new byte[] { (byte)id, 0 }), 0, 63, 0]);
        Scan(file, width, height, channels, samples, step);
        file.Write([0xFF, 0xD9]);
        return file.ToArray();
    }

    /// <summary>Puts one more segment before the picture of a file.</summary>
    public static byte[] With(byte[] jpeg, byte marker, byte[] data)
    {
        using var file = new MemoryStream();
        file.Write(jpeg, 0, 2);
        Segment(file, marker, data);
        file.Write(jpeg, 2, jpeg.Length - 2);
        return file.ToArray();
    }

    /// <summary>Puts a colour profile before the picture, in as many segments as it takes.</summary>
    public static byte[] WithProfile(byte[] jpeg, byte[] profile, int mostBytes = 65_519)
    {
        var parts = profile.Chunk(mostBytes).ToList();

        // Each segment goes in at the front, so the last part goes first.
        for (var i = parts.Count; i >= 1; i--)
            jpeg = With(jpeg, 0xE2, [.. "ICC_PROFILE\0"u8, (byte)i, (byte)parts.Count, .. parts[i - 1]]);
        return jpeg;
    }

    private static void Segment(MemoryStream file, byte marker, byte[] data)
    {
        var length = new byte[2];
        BinaryPrimitives.WriteUInt16BigEndian(length, checked((ushort)(data.Length + 2)));
        file.Write([0xFF, marker, .. length]);
        file.Write(data);
    }

    private static void Scan(MemoryStream file, int width, int height, int channels, byte[] samples, int step)
    {
        var (across, down) = ((width + 7) / 8, (height + 7) / 8);
        var rows = new short[down][];
        Parallel.For(0, down, row => rows[row] = Row(width, height, channels, samples, step, across, row));
        var before = new int[channels];
        var (held, bits) = (0, 0);
        foreach (var row in rows)
        {
            for (var block = 0; block < across * channels; block++)
            {
                var numbers = row.AsSpan(block * 64, 64);
                var channel = block % channels;
                var change = numbers[0] - before[channel];
                before[channel] = numbers[0];
                var size = Size(change);
                Put(size, 4);
                Put(Bits(change, size), size);
                var zeros = 0;
                for (var i = 1; i < 64; i++)
                {
                    var number = numbers[i];
                    if (number == 0)
                    {
                        zeros++;
                        continue;
                    }

                    for (; zeros > 15; zeros -= 16)
                        Put(1, 8);
                    size = Size(number);
                    Put(2 + (zeros * 10) + size - 1, 8);
                    Put(Bits(number, size), size);
                    zeros = 0;
                }

                if (zeros > 0)
                    Put(0, 8);
            }
        }

        Put(0x7F, 7);

        void Put(int value, int count)
        {
            for (var bit = count - 1; bit >= 0; bit--)
            {
                held = (held << 1) | ((value >> bit) & 1);
                if (++bits < 8)
                    continue;
                file.WriteByte((byte)held);
                if (held == 0xFF)
                    file.WriteByte(0);
                (held, bits) = (0, 0);
            }
        }
    }

    private static short[] Row(int width, int height, int channels, byte[] samples, int step, int across, int row)
    {
        var numbers = new short[across * channels * 64];
        double[] block = new double[64],
            half = new double[64];
        for (var column = 0; column < across; column++)
        {
            for (var channel = 0; channel < channels; channel++)
            {
                for (var i = 0; i < 64; i++)
                {
                    var at = ((Math.Min((row * 8) + (i / 8), height - 1) * width) + Math.Min((column * 8) + (i % 8), width - 1)) * channels;
                    block[i] = channels == 3 ? Opponent(samples, at, channel) - 128 : samples[at + channel] - 128;
                }

                for (var y = 0; y < 8; y++)
                {
                    for (var u = 0; u < 8; u++)
                    {
                        double sum = 0;
                        for (var x = 0; x < 8; x++)
                            sum += block[(y * 8) + x] * Cosines[(u * 8) + x];
                        half[(y * 8) + u] = sum;
                    }
                }

                var start = ((column * channels) + channel) * 64;
                for (var i = 0; i < 64; i++)
                {
                    var (v, u) = (ZigZag[i] / 8, ZigZag[i] % 8);
                    double sum = 0;
                    for (var y = 0; y < 8; y++)
                        sum += half[(y * 8) + u] * Cosines[(v * 8) + y];
                    numbers[start + i] = (short)Math.Clamp(Math.Round(sum / step), -1023, 1023);
                }
            }
        }

        return numbers;
    }

    // ITU-T T.871 (JFIF): luma and two colour differences.
    private static double Opponent(byte[] samples, int at, int channel)
    {
        double r = samples[at],
            g = samples[at + 1],
            b = samples[at + 2];
        return channel switch
        {
            0 => (0.299 * r) + (0.587 * g) + (0.114 * b),
            1 => 128 - (0.168736 * r) - (0.331264 * g) + (0.5 * b),
            _ => 128 + (0.5 * r) - (0.418688 * g) - (0.081312 * b),
        };
    }

    private static int Size(int number)
    {
        var size = 0;
        for (var rest = Math.Abs(number); rest > 0; rest >>= 1)
            size++;
        return size;
    }

    private static int Bits(int number, int size) => number >= 0 ? number : number + (1 << size) - 1;
}
