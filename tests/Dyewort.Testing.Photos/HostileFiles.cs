using System.Text;

namespace Dyewort.Testing.Photos;

/// <summary>Picture files that are not what they claim, each made from one sound picture of 24 known patches.</summary>
/// <remarks>Byte by byte by the writers beside this file, so that no codec of the program has a hand in what it is to read.</remarks>
public static class HostileFiles
{
    public const int Width = 480;
    public const int Height = 360;

    private static readonly byte[] Base = Draw();
    private static readonly Lazy<byte[]> Jpeg = new(() => JpegFile.Of(Width, Height, 3, Base));
    private static readonly Lazy<byte[]> Png = new(() =>
        PngFile.Of(Width, Height, 3, (x, y) => Base[((((y * Width) + x) * 3))..((((y * Width) + x) * 3) + 3)])
    );

    /// <summary>The patches: where the safe middle of each lies, and its red, green and blue (8 bits, sRGB).</summary>
    public static IReadOnlyList<(int Left, int Top, int Size, byte[] Colour)> Patches { get; } =
    [.. Enumerable.Range(0, 24).Select(i => (Left: (i % 6 * 80) + 20, Top: (i / 6 * 90) + 25, Size: 40, Colour: Colour(i)))];

    private static readonly Dictionary<string, Func<byte[]>> All = new(StringComparer.Ordinal)
    {
        ["sound.jpg"] = () => Jpeg.Value,
        ["cut after 60 %.jpg"] = () => Jpeg.Value[..(Jpeg.Value.Length * 6 / 10)],
        ["cut in its head.jpg"] = () => Jpeg.Value[..180],
        ["empty.jpg"] = () => [],
        ["text.jpg"] = () => Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat("This is a letter and no picture.\n", 12))),
        ["PNG named.jpg"] = () => Png.Value,
        ["JPEG named.png"] = () => Jpeg.Value,
        ["bomb of one bit.png"] = () => PngFile.Bomb(60_000),
        ["claims two thousand million.png"] = () => PngFile.Claiming(int.MaxValue, int.MaxValue, depth: 16, colourType: 6),
        ["claims 65500.jpg"] = () => ClaimingJpeg(65_500),
        ["claims 65535.gif"] = () =>
            [.. "GIF89a"u8, 0xFF, 0xFF, 0xFF, 0xFF, 0x80, 0, 0, .. new byte[6], 0x2C, 0, 0, 0, 0, 1, 0, 1, 0, 0, 2, 2, 0x44, 1, 0, 0x3B],
        ["inks.jpg"] = Inks,
        ["16 bits.png"] = () => Deep(linear: false),
        ["grey.jpg"] = () => JpegFile.Of(Width, Height, 1, [.. Enumerable.Range(0, Width * Height).Select(i => Base[(3 * i) + 1])]),
        ["three frames.gif"] = Frames,
        ["drawing.png"] = () =>
            """
            <?xml version="1.0"?><!DOCTYPE svg [<!ENTITY out SYSTEM "file:///etc/hostname">]>
            <svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><script>alert(1)</script>
            <image href="http://127.0.0.1:9/x.png"/>&out;</svg>
            """u8.ToArray(),
        ["page behind it.jpg"] = () => [.. Jpeg.Value, .. "<html><script>alert(1)</script></html>"u8],
        ["orientation 9.jpg"] = () => JpegFile.With(Jpeg.Value, 0xE1, ExifBlock.Turned(9)),
        ["wide.jpg"] = () => In(IccProfile.Wide),
        ["wider.jpg"] = () => In(IccProfile.Wider),
        ["widest.jpg"] = () => In(IccProfile.Widest),
        ["profile of noise.jpg"] = () => JpegFile.WithProfile(Jpeg.Value, Noise(600)),
        ["profile of endless tags.jpg"] = () => JpegFile.WithProfile(Jpeg.Value, EndlessTags()),
        ["profile cut.jpg"] = () => JpegFile.WithProfile(Jpeg.Value, IccProfile.Wide.Bytes()[..200]),
        ["profile in many parts.jpg"] = () => In(IccProfile.Wide, padding: 300_000),
        ["tells where and who.jpg"] = () => JpegFile.With(Jpeg.Value, 0xE1, ExifBlock.Telling()),
        ["telephone.heic"] = Heic,
        ["telephone, named.jpg"] = Heic,
        ["one byte flipped.png"] = Flipped,
        ["linear.png"] = () => Deep(linear: true),
        ["hole.png"] = Hole,
        ["one pixel.png"] = () => PngFile.Of(1, 1, 3, (_, _) => [90, 60, 120]),
        ["all white.png"] = () => PngFile.Of(Width, Height, 3, (_, _) => [255, 255, 255]),
        ["two pages.tif"] = TwoPages,
        ["ümläut & 'quote' <b>x<b>;.jpg"] = () => Jpeg.Value,
        ["notes that name themselves.jpg"] = () => JpegFile.With(Jpeg.Value, 0xE1, ExifBlock.Endless()),
    };

    static HostileFiles()
    {
        for (var orientation = 1; orientation <= 8; orientation++)
        {
            var turn = orientation;
            All.Add($"orientation {turn}.jpg", () => Turned(turn));
        }
    }

    public static IEnumerable<string> Names => All.Keys;

    /// <summary>The bytes of one of the files.</summary>
    public static byte[] Make(string name) => All[name]();

    private static byte[] Colour(int index)
    {
        var lab = DrawnPhoto.PlantColour(index);
        return [.. Rgb.OfXyz(Rgb.XyzOfLab(lab[0], lab[1], lab[2])).Select(light => (byte)Math.Round(255 * Rgb.ToCode(light)))];
    }

    // Patches on a grey ground with a bright line around each, and a scatter that a camera could have.
    private static byte[] Draw()
    {
        var random = new Random(24);
        var picture = new byte[Width * Height * 3];
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var (inX, inY) = (x % 80, y % 90);
                var colour =
                    inX is >= 10 and < 70 && inY is >= 15 and < 75 ? Colour((x / 80) + (6 * (y / 90)))
                    : inX is >= 6 and < 74 && inY is >= 11 and < 79 ? [225, 224, 220]
                    : [70, 72, 74];
                for (var k = 0; k < 3; k++)
                    picture[(((y * Width) + x) * 3) + k] = (byte)Math.Clamp(colour[k] + random.Next(-1, 2), 0, 255);
            }
        }

        return picture;
    }

    private static byte[] In(IccProfile space, int padding = 0)
    {
        var pixels = new byte[Base.Length];
        for (var i = 0; i < Base.Length; i += 3)
        {
            var there = space.FromSrgb(Base[i] / 255.0, Base[i + 1] / 255.0, Base[i + 2] / 255.0);
            for (var k = 0; k < 3; k++)
                pixels[i + k] = (byte)Math.Round(255 * there[k]);
        }

        return JpegFile.WithProfile(JpegFile.Of(Width, Height, 3, pixels), space.Bytes(padding));
    }

    // Four inks as picture programs store them: black is what all three share, everything turned round, and the maker's mark that says so.
    private static byte[] Inks()
    {
        var pixels = new byte[Width * Height * 4];
        for (var i = 0; i < Width * Height; i++)
        {
            double[] light = [Base[3 * i] / 255.0, Base[(3 * i) + 1] / 255.0, Base[(3 * i) + 2] / 255.0];
            var most = light.Max();
            for (var k = 0; k < 3; k++)
                pixels[(4 * i) + k] = (byte)Math.Round(255 * light[k] / most);
            pixels[(4 * i) + 3] = (byte)Math.Round(255 * most);
        }

        return JpegFile.Of(Width, Height, 4, pixels, 2, (0xEE, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0]));
    }

    private static byte[] Deep(bool linear)
    {
        (string, byte[])[] chunks = linear
            ?
            [
                ("gAMA", [0, 1, 0x86, 0xA0]),
                // White and the three lights of sRGB, in hundred-thousandths.
                (
                    "cHRM",
                    [
                        .. new[] { 31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000 }.SelectMany(one =>
                            new byte[] { 0, (byte)(one >> 16), (byte)(one >> 8), (byte)one }
                        ),
                    ]
                ),
            ]
            : [];
        return PngFile.Of(
            Width,
            Height,
            16,
            2,
            chunks,
            (x, y) =>
                [
                    .. Enumerable
                        .Range(0, 3)
                        .Select(k => Base[(((y * Width) + x) * 3) + k] / 255.0)
                        .Select(code => (int)Math.Round(65535 * (linear ? Rgb.ToLight(code) : code)))
                        .SelectMany(one => new[] { (byte)(one >> 8), (byte)one }),
                ]
        );
    }

    private static byte[] ClaimingJpeg(int side)
    {
        var jpeg = (byte[])Jpeg.Value.Clone();
        var frame = jpeg.AsSpan().IndexOf((ReadOnlySpan<byte>)[0xFF, 0xC0]);
        (jpeg[frame + 5], jpeg[frame + 6]) = ((byte)(side >> 8), (byte)side);
        (jpeg[frame + 7], jpeg[frame + 8]) = ((byte)(side >> 8), (byte)side);
        return jpeg;
    }

    // The pixels are stored turned, and the note turns them back: where each upright pixel lies, by the meaning of the eight numbers.
    private static byte[] Turned(int orientation)
    {
        var (width, height) = orientation >= 5 ? (Height, Width) : (Width, Height);
        var stored = new byte[Base.Length];
        for (var y = 0; y < Height; y++)
        {
            for (var x = 0; x < Width; x++)
            {
                var (toX, toY) = orientation switch
                {
                    2 => (Width - 1 - x, y),
                    3 => (Width - 1 - x, Height - 1 - y),
                    4 => (x, Height - 1 - y),
                    5 => (y, x),
                    6 => (y, Width - 1 - x),
                    7 => (Height - 1 - y, Width - 1 - x),
                    8 => (Height - 1 - y, x),
                    _ => (x, y),
                };
                Base.AsSpan(((y * Width) + x) * 3, 3).CopyTo(stored.AsSpan(((toY * width) + toX) * 3, 3));
            }
        }

        return JpegFile.With(JpegFile.Of(width, height, 3, stored), 0xE1, ExifBlock.Turned(orientation));
    }

    private static byte[] Noise(int length)
    {
        var bytes = new byte[length];
        new Random(600).NextBytes(bytes);
        return bytes;
    }

    private static byte[] EndlessTags()
    {
        var profile = IccProfile.Wide.Bytes();
        (profile[128], profile[129], profile[130], profile[131]) = (0x7F, 0xFF, 0xFF, 0xFF);
        return profile;
    }

    private static byte[] Flipped()
    {
        var png = (byte[])Png.Value.Clone();
        png[png.Length / 2] ^= 0x5A;
        return png;
    }

    private static byte[] Hole() =>
        PngFile.Of(
            Width,
            Height,
            4,
            (x, y) => [.. Base[(((y * Width) + x) * 3)..((((y * Width) + x) * 3) + 3)], (byte)(y < 100 ? 0 : 255)]
        );

    // 256 colours are too few; the pixels are sent uncompressed, each as a code of nine bits with a fresh start now and then (GIF89a).
    private static byte[] Frames()
    {
        const int Side = 64;
        using var file = new MemoryStream();
        file.Write([.. "GIF89a"u8, Side, 0, Side, 0, 0xF7, 0, 0]);
        for (var i = 0; i < 256; i++)
            file.Write([(byte)(i & 0xE0), (byte)((i & 0x1C) << 3), (byte)((i & 3) << 6)]);
        for (var frame = 0; frame < 3; frame++)
        {
            file.Write([0x21, 0xF9, 4, 0, 10, 0, 0, 0, 0x2C, 0, 0, 0, 0, Side, 0, Side, 0, 0, 8]);
            var (held, bits) = (0, 0);
            using var data = new MemoryStream();
            for (var i = 0; i < Side * Side; i++)
            {
                if (i % 250 == 0)
                    Put(256);
                Put((i + (frame * 40)) % 256);
            }

            Put(257);
            if (bits > 0)
                data.WriteByte((byte)held);
            foreach (var part in data.ToArray().Chunk(255))
                file.Write([(byte)part.Length, .. part]);
            file.WriteByte(0);

            void Put(int code)
            {
                held |= code << bits;
                for (bits += 9; bits >= 8; bits -= 8)
                {
                    data.WriteByte((byte)held);
                    held >>= 8;
                }
            }
        }

        file.WriteByte(0x3B);
        return file.ToArray();
    }

    // Two uncompressed pages (TIFF 6.0), the second one upside down.
    private static byte[] TwoPages()
    {
        using var file = new MemoryStream();
        file.Write([.. "II*\0"u8, .. Number(8)]);
        const int Directory = 2 + (10 * 12) + 4;
        const int Page = Directory + 6 + (Width * Height * 3);
        for (var page = 0; page < 2; page++)
        {
            var start = 8 + (page * Page);
            var depth = start + Directory;
            (int Tag, int Type, int Count, int Value)[] entries =
            [
                (256, 4, 1, Width),
                (257, 4, 1, Height),
                (258, 3, 3, depth),
                (259, 3, 1, 1),
                (262, 3, 1, 2),
                (273, 4, 1, depth + 6),
                (277, 3, 1, 3),
                (278, 4, 1, Height),
                (279, 4, 1, Width * Height * 3),
                (284, 3, 1, 1),
            ];
            file.Write([(byte)entries.Length, 0]);
            foreach (var (tag, type, count, value) in entries)
                file.Write([(byte)tag, (byte)(tag >> 8), (byte)type, 0, .. Number(count), .. Number(value)]);
            file.Write(Number(page == 0 ? start + Page : 0));
            file.Write([8, 0, 8, 0, 8, 0]);
            file.Write(page == 0 ? Base : [.. Base.Reverse()]);
        }

        return file.ToArray();
    }

    private static byte[] Number(int value) => [(byte)value, (byte)(value >> 8), (byte)(value >> 16), (byte)(value >> 24)];

    // The one picture that no short program writes: Files/README.md says how it was made of the base.
    private static byte[] Heic() => File.ReadAllBytes(Repository.PathOf("tests", "Dyewort.Testing.Photos", "Files", "drawn.heic"));
}
