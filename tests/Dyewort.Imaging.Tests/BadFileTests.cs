using System.Buffers.Binary;
using System.Collections.Concurrent;
using System.IO.Compression;
using System.Text.Json;
using Dyewort.Readings;
using Dyewort.Testing;
using SkiaSharp;
using Xunit;

namespace Dyewort.Imaging.Tests;

/// <summary>Files that are not what they claim: one sentence each, no crash, no memory.</summary>
public sealed class BadFileTests
{
    /// <summary>Files of the folder of malformed pictures that must be refused, with a word of the sentence.</summary>
    public static TheoryData<string, string> Refused() =>
        new()
        {
            { "01_truncated_60pc.jpg", "incomplete" },
            { "02_truncated_header.jpg", "" },
            { "03_zero_bytes.jpg", "empty" },
            { "04_text_named.jpg", "not a picture" },
            { "07_bomb_1bit_60000x60000.png", "pixels" },
            { "08_bomb_header_only.png", "" },
            { "09_jpeg_claims_65500x65500.jpg", "pixels" },
            { "10_gif_bomb_65535.gif", "GIF" },
            { "13_grey.jpg", "no colour" },
            { "14_animated.gif", "GIF" },
            { "15_svg_named.png", "not a picture" },
            { "28_png_bad_crc.png", "" },
            { "31_progressive_truncated.jpg", "incomplete" },
            { "32_tiny_1x1.png", "too small" },
        };

    /// <summary>Files that must give the same patch colours as the healthy one, within so many steps of 255, and a warning's code if one is due.</summary>
    public static TheoryData<string, double, string> Same()
    {
        var data = new TheoryData<string, double, string>
        {
            { "00_base_good.jpg", 1, "" },
            { "05_png_named.jpg", 1, "" },
            { "06_jpeg_named.png", 1, "" },
            { "11_cmyk_adobe.jpg", 2.5, "cmyk" },
            { "12_rgb16.png", 1, "" },
            { "16_html_polyglot.jpg", 1, "" },
            { "18_orientation_9_invalid.jpg", 1, "" },
            { "19_display_p3.jpg", 3, "" },
            { "20_adobe_rgb.jpg", 3, "" },
            { "21_prophoto.jpg", 5, "" },
            { "22_icc_garbage.jpg", 1, "profile" },
            { "23_icc_huge_tag_count.jpg", 1, "profile" },
            { "24_icc_truncated.jpg", 1, "profile" },
            { "25_gps_and_names.jpg", 1, "" },
            { "26_photo.heic", 2.5, "" },
            { "27_heic_named.jpg", 2.5, "" },
            { "29_linear_gama1_rgb16.png", 2, "" },
            { "35 ümläut & 'quote' <b>x<b>;.jpg", 1, "" },
            { "38_exif_self_loop.jpg", 1, "" },
        };
        for (var orientation = 1; orientation <= 8; orientation++)
            data.Add($"17_orientation_{orientation}.jpg", 2.5, "");
        return data;
    }

    [Theory, MemberData(nameof(Refused))]
    public void A_malformed_file_is_refused_with_one_sentence(string name, string word)
    {
        var outcome = PhotoFile.OpenFile("photo", Bad(name));
        Assert.False(outcome.TryGet(out _));
        var problem = Assert.Single(outcome.Problems);
        Assert.Contains(word, problem.What, StringComparison.OrdinalIgnoreCase);
        Assert.NotEmpty(problem.Remedy);
    }

    [Theory, MemberData(nameof(Same))]
    public void A_healthy_file_gives_the_same_colours_however_it_is_wrapped(string name, double steps, string warning)
    {
        var outcome = PhotoFile.OpenFile("photo", Bad(name));
        Assert.True(outcome.TryGet(out var photo), outcome.Problems.Count == 0 ? "" : outcome.Problems[0].What);
        using (photo)
        {
            Assert.Equal((765, 1020), (photo.Width, photo.Height));
            if (warning.Length > 0)
                Assert.Contains(photo.Warnings, one => one.Code == warning);
            else
                Assert.Empty(photo.Warnings);
            var differences = new List<double>();
            using var truth = JsonDocument.Parse(File.ReadAllText(Bad("base_truth.json")));
            foreach (var patch in truth.RootElement.GetProperty("patches").EnumerateArray())
            {
                var quad = patch
                    .GetProperty("sample_quad")
                    .EnumerateArray()
                    .Select(p => new PointPx(p[0].GetDouble(), p[1].GetDouble()))
                    .ToArray();
                var (mean, _, _) = SampleCells.Patch(photo, quad, 0.9);
                var seen = FileColour.Srgb.FromXyz(photo.Colour.ToXyz(mean));
                for (var channel = 0; channel < 3; channel++)
                    differences.Add(
                        Math.Abs((255 * FileColour.LinearToSrgb(seen[channel])) - patch.GetProperty("rgb8_median")[channel].GetDouble())
                    );
            }

            Assert.True(differences.Average() <= steps, $"mean difference {differences.Average():0.00} of 255");
        }
    }

    [Theory, InlineData("30_alpha_hole.png", "holes"), InlineData("34_multi_page.tif", "pages")]
    public void What_can_be_read_in_part_says_so(string name, string warning)
    {
        Assert.True(PhotoFile.OpenFile("photo", Bad(name)).TryGet(out var photo));
        using (photo)
            Assert.Contains(photo.Warnings, one => one.Code == warning);
    }

    [
        Theory,
        InlineData("33_all_white.png"),
        InlineData("36_icc_in_many_chunks.jpg"),
        InlineData("37_cmyk_sample.jpg"),
        InlineData("39_exif_loop.jpg"),
        InlineData("40_real_orientation_6.jpg")
    ]
    public void A_picture_without_a_page_is_read_or_refused_and_shows_no_page(string name)
    {
        if (!PhotoFile.OpenFile("photo", Bad(name)).TryGet(out var photo))
            return;
        using (photo)
            Assert.False(FindPage.ByMarkers("photo", photo, TestSheets.Small()).TryGet(out _));
    }

    [Fact]
    public void Every_orientation_is_turned_upright_once() =>
        Assert.All(
            Enumerable.Range(1, 8),
            orientation =>
            {
                var sheet = TestSheets.Small();
                var painted = new PaintedPhoto
                {
                    Layout = sheet,
                    Width = 320,
                    Height = 240,
                };
                Assert.True(PhotoFile.Open("photo", painted.Jpeg(orientation)).TryGet(out var photo));
                using (photo)
                    Assert.Equal((320, 240), (photo.Width, photo.Height));
            }
        );

    [Fact]
    public void A_picture_that_claims_too_much_is_refused_before_it_is_decoded()
    {
        var png = Png(20_001, 20_001);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var outcome = PhotoFile.Open("photo", png);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains("20001 × 20001", outcome.Problems[0].What);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 5_000_000);
    }

    [Theory, InlineData(0), InlineData(1), InlineData(11), InlineData(40)]
    public void Any_beginning_of_a_picture_is_refused(int bytes)
    {
        var jpeg = new PaintedPhoto
        {
            Layout = TestSheets.Small(),
            Width = 320,
            Height = 240,
        }.Jpeg();
        Assert.False(PhotoFile.Open("photo", jpeg[..bytes]).TryGet(out _));
        Assert.False(PhotoFile.Open("photo", jpeg[..(jpeg.Length - 1 - bytes)]).TryGet(out _));
    }

    [Fact]
    public void Random_changes_to_a_picture_never_crash_the_reader()
    {
        var jpeg = new PaintedPhoto
        {
            Layout = TestSheets.Small(),
            Width = 320,
            Height = 240,
        }.Jpeg(6);
        var random = new Random(20261125);
        for (var round = 0; round < 200; round++)
        {
            var broken = (byte[])jpeg.Clone();
            for (var k = 0; k < 1 + (round % 5); k++)
                broken[random.Next(broken.Length / (round % 2 == 0 ? 1 : 10))] = (byte)random.Next(256);
            if (PhotoFile.Open("photo", broken).TryGet(out var photo))
                photo.Dispose();
        }
    }

    [Fact]
    public void A_picture_in_endlessly_many_passes_is_refused()
    {
        using var whole = new ImageMagick.MagickImage(ImageMagick.MagickColors.Peru, 800, 600);
        whole.Settings.Interlace = ImageMagick.Interlace.Jpeg;
        var jpeg = whole.ToByteArray(ImageMagick.MagickFormat.Jpeg);
        Assert.True(PhotoFile.Open("photo", jpeg).TryGet(out var once));
        once.Dispose();

        // Each pass costs the whole picture and next to no bytes: the last one, sent two thousand times.
        var last = jpeg.AsSpan().LastIndexOf((ReadOnlySpan<byte>)[0xFF, 0xDA]);
        byte[] pass = jpeg[last..^2];
        byte[] endless = [.. jpeg[..^2], .. Enumerable.Repeat(pass, 2000).SelectMany(one => one), 0xFF, 0xD9];
        Assert.True(endless.Length < 1_000_000);
        Assert.False(PhotoFile.Open("photo", endless).TryGet(out _));
    }

    [Theory, InlineData(false), InlineData(true)]
    public void Photos_of_one_profile_are_opened_by_several_threads_at_once(bool wide)
    {
        var space = wide ? SKColorSpace.CreateRgb(SKColorSpaceTransferFn.Srgb, SKColorSpaceXyz.DisplayP3) : SKColorSpace.CreateSrgb();
        using var bitmap = new SKBitmap(new SKImageInfo(96, 64, SKColorType.Rgba8888, SKAlphaType.Opaque, space));
        bitmap.Erase(new SKColor(180, 90, 40));
        var jpeg = bitmap.Encode(SKEncodedImageFormat.Jpeg, 90).ToArray();
        Assert.NotEqual(-1, jpeg.AsSpan().IndexOf("ICC_PROFILE"u8));
        var colours = new ConcurrentBag<string>();
        Parallel.For(
            0,
            2000,
            new ParallelOptions { MaxDegreeOfParallelism = 4 },
            _ =>
            {
                Assert.True(PhotoFile.Open("photo", jpeg).TryGet(out var photo));
                using (photo)
                    colours.Add(photo.Colour.Name);
            }
        );
        Assert.Equal(wide ? "embedded profile" : "sRGB", Assert.Single(colours.Distinct(StringComparer.Ordinal)));
    }

    [Fact]
    public void Pictures_made_for_people_carry_no_camera_notes_and_are_upright()
    {
        using var photo = PhotoFile.OpenFile("photo", Bad("25_gps_and_names.jpg")).TryGet(out var opened)
            ? opened
            : throw new InvalidOperationException("The file cannot be read.");
        var small = PhotoPictures.Small(photo, 400);
        Assert.Equal(-1, small.AsSpan().IndexOf("Exif"u8));
        Assert.True(small.Length < 60_000);
        using var back = SKBitmap.Decode(small);
        Assert.Equal((300, 400), (back.Width, back.Height));
    }

    private static byte[] Png(uint width, uint height)
    {
        using var body = new MemoryStream();
        body.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        Span<byte> head = stackalloc byte[13];
        BinaryPrimitives.WriteUInt32BigEndian(head, width);
        BinaryPrimitives.WriteUInt32BigEndian(head[4..], height);
        (head[8], head[9]) = (8, 2);
        Chunk("IHDR"u8, head);
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true))
            zip.Write(new byte[4096]);
        Chunk("IDAT"u8, packed.ToArray());
        Chunk("IEND"u8, []);
        return body.ToArray();

        void Chunk(ReadOnlySpan<byte> name, ReadOnlySpan<byte> data)
        {
            Span<byte> number = stackalloc byte[4];
            BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
            body.Write(number);
            byte[] named = [.. name, .. data];
            body.Write(named);
            BinaryPrimitives.WriteUInt32BigEndian(number, Crc(named));
            body.Write(number);
        }

        static uint Crc(byte[] data)
        {
            var crc = uint.MaxValue;
            foreach (var one in data)
            {
                crc ^= one;
                for (var bit = 0; bit < 8; bit++)
                    crc = (crc & 1) == 1 ? (crc >> 1) ^ 0xEDB88320 : crc >> 1;
            }

            return ~crc;
        }
    }

    private static string Bad(string name)
    {
        var path = Repository.Shared("photos", "bad", name);
        Assert.SkipWhen(path is null, Repository.NoShared);
        return path!;
    }
}
