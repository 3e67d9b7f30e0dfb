using System.Collections.Concurrent;
using System.Text.Json;
using Dyewort.Readings;
using Dyewort.Testing;
using Dyewort.Testing.Photos;
using SkiaSharp;
using Xunit;

namespace Dyewort.Imaging.Tests;

/// <summary>Files that are not what they claim: one sentence each, no crash, no memory.</summary>
/// <remarks>The files are made by <see cref="HostileFiles"/>. Where the folder of strangers' files lies beside the checkout, they are tried
/// as well.</remarks>
public sealed class BadFileTests(BadFileTests.Folder files) : IClassFixture<BadFileTests.Folder>
{
    private const string Strangers = "shared/";

    /// <summary>Files that must be refused, with a word of the sentence.</summary>
    public static TheoryData<string, string> Refused()
    {
        var data = new TheoryData<string, string>
        {
            { "cut after 60 %.jpg", "incomplete" },
            { "cut in its head.jpg", "" },
            { "empty.jpg", "empty" },
            { "text.jpg", "not a picture" },
            { "bomb of one bit.png", "pixels" },
            { "claims two thousand million.png", "" },
            { "claims 65500.jpg", "pixels" },
            { "claims 65535.gif", "GIF" },
            { "grey.jpg", "no colour" },
            { "three frames.gif", "GIF" },
            { "drawing.png", "not a picture" },
            { "one byte flipped.png", "" },
            { "passes cut.jpg", "incomplete" },
            { "one pixel.png", "too small" },
        };
        (string, string)[] strangers =
        [
            ("01_truncated_60pc.jpg", "incomplete"),
            ("02_truncated_header.jpg", ""),
            ("03_zero_bytes.jpg", "empty"),
            ("04_text_named.jpg", "not a picture"),
            ("07_bomb_1bit_60000x60000.png", "pixels"),
            ("08_bomb_header_only.png", ""),
            ("09_jpeg_claims_65500x65500.jpg", "pixels"),
            ("10_gif_bomb_65535.gif", "GIF"),
            ("13_grey.jpg", "no colour"),
            ("14_animated.gif", "GIF"),
            ("15_svg_named.png", "not a picture"),
            ("28_png_bad_crc.png", ""),
            ("31_progressive_truncated.jpg", "incomplete"),
            ("32_tiny_1x1.png", "too small"),
        ];
        foreach (var (name, word) in HasStrangers ? strangers : [])
            data.Add(Strangers + name, word);
        return data;
    }

    /// <summary>Files that must give the same patch colours as the healthy one, within so many steps of 255, and a warning's code if one
    /// is due.</summary>
    public static TheoryData<string, double, string> Same()
    {
        var data = new TheoryData<string, double, string>
        {
            { "sound.jpg", 1, "" },
            { "PNG named.jpg", 1, "" },
            { "JPEG named.png", 1, "" },
            { "inks.jpg", 2.5, "cmyk" },
            { "16 bits.png", 1, "" },
            { "page behind it.jpg", 1, "" },
            { "orientation 9.jpg", 1, "" },
            { "wide.jpg", 3, "" },
            { "wider.jpg", 3, "" },
            { "widest.jpg", 5, "" },
            { "profile of noise.jpg", 1, "profile" },
            { "profile of endless tags.jpg", 1, "profile" },
            { "profile cut.jpg", 1, "profile" },
            { "profile in many parts.jpg", 3, "" },
            { "tells where and who.jpg", 1, "" },
            { "telephone.heic", 2.5, "" },
            { "telephone, named.jpg", 2.5, "" },
            { "linear.png", 2, "" },
            { "ümläut & 'quote' <b>x<b>;.jpg", 1, "" },
            { "notes that name themselves.jpg", 1, "" },
        };
        (string, double, string)[] strangers =
        [
            ("00_base_good.jpg", 1, ""),
            ("05_png_named.jpg", 1, ""),
            ("06_jpeg_named.png", 1, ""),
            ("11_cmyk_adobe.jpg", 2.5, "cmyk"),
            ("12_rgb16.png", 1, ""),
            ("16_html_polyglot.jpg", 1, ""),
            ("18_orientation_9_invalid.jpg", 1, ""),
            ("19_display_p3.jpg", 3, ""),
            ("20_adobe_rgb.jpg", 3, ""),
            ("21_prophoto.jpg", 5, ""),
            ("22_icc_garbage.jpg", 1, "profile"),
            ("23_icc_huge_tag_count.jpg", 1, "profile"),
            ("24_icc_truncated.jpg", 1, "profile"),
            ("25_gps_and_names.jpg", 1, ""),
            ("26_photo.heic", 2.5, ""),
            ("27_heic_named.jpg", 2.5, ""),
            ("29_linear_gama1_rgb16.png", 2, ""),
            ("35 ümläut & 'quote' <b>x<b>;.jpg", 1, ""),
            ("38_exif_self_loop.jpg", 1, ""),
        ];
        foreach (var (name, steps, warning) in HasStrangers ? strangers : [])
            data.Add(Strangers + name, steps, warning);
        for (var orientation = 1; orientation <= 8; orientation++)
        {
            data.Add($"orientation {orientation}.jpg", 2.5, "");
            if (HasStrangers)
                data.Add($"{Strangers}17_orientation_{orientation}.jpg", 2.5, "");
        }

        return data;
    }

    /// <summary>Files of which a part can be read, and the code of the warning that says so.</summary>
    public static TheoryData<string, string> InPart()
    {
        var data = new TheoryData<string, string> { { "hole.png", "holes" }, { "two pages.tif", "pages" } };
        if (HasStrangers)
        {
            data.Add(Strangers + "30_alpha_hole.png", "holes");
            data.Add(Strangers + "34_multi_page.tif", "pages");
        }

        return data;
    }

    /// <summary>Pictures that show no page.</summary>
    public static TheoryData<string> WithoutPage()
    {
        var data = new TheoryData<string>
        {
            "all white.png",
            "sound.jpg",
            "inks.jpg",
            "orientation 6.jpg",
            "notes that name themselves.jpg",
        };
        string[] strangers =
        [
            "33_all_white.png",
            "36_icc_in_many_chunks.jpg",
            "37_cmyk_sample.jpg",
            "39_exif_loop.jpg",
            "40_real_orientation_6.jpg",
        ];
        foreach (var name in HasStrangers ? strangers : [])
            data.Add(Strangers + name);
        return data;
    }

    [Theory, MemberData(nameof(Refused))]
    public void A_malformed_file_is_refused_with_one_sentence(string name, string word)
    {
        var outcome = PhotoFile.OpenFile("photo", files.PathOf(name));
        Assert.False(outcome.TryGet(out _));
        var problem = Assert.Single(outcome.Problems);
        Assert.Contains(word, problem.What, StringComparison.OrdinalIgnoreCase);
        Assert.NotEmpty(problem.Remedy);
    }

    [Theory, MemberData(nameof(Same))]
    public void A_healthy_file_gives_the_same_colours_however_it_is_wrapped(string name, double steps, string warning)
    {
        var outcome = PhotoFile.OpenFile("photo", files.PathOf(name));
        Assert.True(outcome.TryGet(out var photo), outcome.Problems.Count == 0 ? "" : outcome.Problems[0].What);
        using (photo)
        {
            Assert.Equal(name.StartsWith(Strangers, StringComparison.Ordinal) ? (765, 1020) : (480, 360), (photo.Width, photo.Height));
            if (warning.Length > 0)
                Assert.Contains(photo.Warnings, one => one.Code == warning);
            else
                Assert.Empty(photo.Warnings);
            var differences = new List<double>();
            foreach (var (quad, colour) in Patches(name))
            {
                var (mean, _, _) = SampleCells.Patch(photo, quad, 0.9);
                var seen = FileColour.Srgb.FromXyz(photo.Colour.ToXyz(mean));
                for (var channel = 0; channel < 3; channel++)
                    differences.Add(Math.Abs((255 * FileColour.LinearToSrgb(seen[channel])) - colour[channel]));
            }

            Assert.Equal(72, differences.Count);
            Assert.True(differences.Average() <= steps, $"mean difference {differences.Average():0.00} of 255");
        }
    }

    [Theory, MemberData(nameof(InPart))]
    public void What_can_be_read_in_part_says_so(string name, string warning)
    {
        Assert.True(PhotoFile.OpenFile("photo", files.PathOf(name)).TryGet(out var photo));
        using (photo)
            Assert.Contains(photo.Warnings, one => one.Code == warning);
    }

    [Theory, MemberData(nameof(WithoutPage))]
    public void A_picture_without_a_page_is_read_or_refused_and_shows_no_page(string name)
    {
        if (!PhotoFile.OpenFile("photo", files.PathOf(name)).TryGet(out var photo))
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
        var png = PngFile.Claiming(20_001, 20_001);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var outcome = PhotoFile.Open("photo", png);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains("20001 × 20001", outcome.Problems[0].What);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 5_000_000);
    }

    [Theory]
    [InlineData(30_000, 1, "too small to show a page (30000 × 1 pixels)")]
    [InlineData(30_000, 100, "30000 × 100 pixels, longer than the 20000 pixels of a side that are read")]
    [InlineData(19_000, 19_000, "more than the 80 million that are read")]
    public void What_is_wrong_with_a_pictures_size_is_said_as_it_is(int width, int height, string why) =>
        Assert.Contains(
            why,
            Assert.Single(PhotoFile.Open("photo", PngFile.Claiming(width, height)).Problems).What,
            StringComparison.Ordinal
        );

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
    public void Random_changes_to_a_picture_never_crash_the_reader() =>
        Chance.Try(random =>
        {
            var jpeg = new PaintedPhoto
            {
                Layout = TestSheets.Small(),
                Width = 320,
                Height = 240,
            }.Jpeg(6);
            for (var round = 0; round < 200; round++)
            {
                var broken = (byte[])jpeg.Clone();
                for (var k = 0; k < 1 + (round % 5); k++)
                    broken[random.Next(broken.Length / (round % 2 == 0 ? 1 : 10))] = (byte)random.Next(256);
                if (PhotoFile.Open("photo", broken).TryGet(out var photo))
                    photo.Dispose();
            }
        });

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
        using var photo = PhotoFile.Open("photo", HostileFiles.Make("tells where and who.jpg")).TryGet(out var opened)
            ? opened
            : throw new InvalidOperationException("The file cannot be read.");
        var small = PhotoPictures.Small(photo, 240);
        foreach (var note in new[] { "Exif", "Nowhere", "Nobody", "SN-0042", "script" })
        {
            Assert.NotEqual(-1, HostileFiles.Make("tells where and who.jpg").AsSpan().IndexOf(System.Text.Encoding.ASCII.GetBytes(note)));
            Assert.Equal(-1, small.AsSpan().IndexOf(System.Text.Encoding.ASCII.GetBytes(note)));
        }

        Assert.True(small.Length < 60_000);
        using var back = SKBitmap.Decode(small);
        Assert.Equal((240, 180), (back.Width, back.Height));
    }

    private static bool HasStrangers => Repository.Shared("photos", "bad") is not null;

    private static IEnumerable<(PointPx[] Quad, double[] Colour)> Patches(string name)
    {
        if (!name.StartsWith(Strangers, StringComparison.Ordinal))
            return HostileFiles.Patches.Select(patch =>
                (
                    new PointPx[]
                    {
                        new(patch.Left, patch.Top),
                        new(patch.Left + patch.Size, patch.Top),
                        new(patch.Left + patch.Size, patch.Top + patch.Size),
                        new(patch.Left, patch.Top + patch.Size),
                    },
                    patch.Colour.Select(one => (double)one).ToArray()
                )
            );
        using var truth = JsonDocument.Parse(File.ReadAllText(Repository.Shared("photos", "bad", "base_truth.json")!));
        return
        [
            .. truth
                .RootElement.GetProperty("patches")
                .EnumerateArray()
                .Select(patch =>
                    (
                        patch
                            .GetProperty("sample_quad")
                            .EnumerateArray()
                            .Select(p => new PointPx(p[0].GetDouble(), p[1].GetDouble()))
                            .ToArray(),
                        patch.GetProperty("rgb8_median").EnumerateArray().Select(one => one.GetDouble()).ToArray()
                    )
                ),
        ];
    }

    /// <summary>A folder in which every file is made when it is first asked for.</summary>
    public sealed class Folder : IDisposable
    {
        private readonly string folder = Directory.CreateTempSubdirectory("dyewort-hostile-").FullName;

        public string PathOf(string name)
        {
            if (name.StartsWith(Strangers, StringComparison.Ordinal))
                return Repository.Shared("photos", "bad", name[Strangers.Length..])!;
            var path = Path.Combine(folder, name);
            if (!File.Exists(path))
                File.WriteAllBytes(path, name == "passes cut.jpg" ? CutPasses() : HostileFiles.Make(name));
            return path;
        }

        public void Dispose() => Directory.Delete(folder, recursive: true);

        // A picture in passes, cut after a third: the first pass shows the whole of it, blurred.
        private static byte[] CutPasses()
        {
            using var whole = new ImageMagick.MagickImage(HostileFiles.Make("sound.jpg"));
            whole.Settings.Interlace = ImageMagick.Interlace.Jpeg;
            var jpeg = whole.ToByteArray(ImageMagick.MagickFormat.Jpeg);
            return jpeg[..(jpeg.Length / 3)];
        }
    }
}
