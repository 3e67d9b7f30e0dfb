using System.IO.Compression;
using Dyewort.Colour;
using Dyewort.Workshop.Colours;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class LookAtColourTests
{
    [Fact]
    public void A_colour_comes_with_its_washes_and_what_it_makes_of_another()
    {
        Assert.True(new LookAtColour().Handle("#5b3f7a", "5Y 8/8", null).TryGet(out var answer));
        Assert.Equal(5, answer.Washes.Count);
        for (var i = 1; i < answer.Washes.Count; i++)
            Assert.True(answer.Washes[i].Colour.Lab.L > answer.Washes[i - 1].Colour.Lab.L);
        Assert.Equal(3, answer.Mixtures.Count);
        Assert.True(answer.PaperIsGuessed);
        Assert.Equal("another colour", answer.Against!.Visibility);
    }

    [Fact]
    public void What_is_lighter_than_the_paper_is_no_ink_on_it()
    {
        Assert.True(new LookAtColour().Handle("#ffffff", null, "#c0b090").TryGet(out var answer));
        Assert.Empty(answer.Washes);
        Assert.Null(answer.Other);
        Assert.Empty(answer.Mixtures);
    }

    [Fact]
    public void Every_problem_is_told_at_once() =>
        Assert.Equal(["c", "with", "paper"], new LookAtColour().Handle("x", "y", "black").Problems.Select(problem => problem.Field));

    [Fact]
    public void A_photo_is_read_in_its_middle_as_it_is_or_against_the_paper_around()
    {
        // A warm light: the paper comes out yellowish, and so does the swatch.
        var picture = Png((240, 225, 190), (120, 60, 80));
        Assert.True(new PhotographColour().Handle("Picture", picture, paperAround: false).TryGet(out var plain));
        Assert.Equal("#783c50", CssColour.Hex(plain.Colour));
        Assert.False(plain.AgainstPaper);
        Assert.True(new PhotographColour().Handle("Picture", picture, paperAround: true).TryGet(out var corrected));
        Assert.True(corrected.AgainstPaper);
        Assert.True(Lab.FromXyz(corrected.Colour).B < Lab.FromXyz(plain.Colour).B - 5);
    }

    [Theory]
    [InlineData(40, 60, "darker than bare paper")]
    [InlineData(255, 90, "burnt out")]
    public void A_photo_without_usable_paper_is_refused(byte edge, byte middle, string reason)
    {
        var outcome = new PhotographColour().Handle("Picture", Png((edge, edge, edge), (middle, middle, middle)), paperAround: true);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(reason, outcome.Problems[0].What, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_picture_is_refused() =>
        Assert.NotEmpty(new PhotographColour().Handle("Picture", [1, 2, 3], paperAround: false).Problems);

    /// <summary>A 96 × 96 picture of one colour with a square of another in the middle.</summary>
    private static byte[] Png((byte R, byte G, byte B) edge, (byte R, byte G, byte B) middle)
    {
        const int Side = 96;
        using var rows = new MemoryStream();
        using (var packed = new ZLibStream(rows, CompressionLevel.Fastest, leaveOpen: true))
        {
            for (var y = 0; y < Side; y++)
            {
                packed.WriteByte(0);
                for (var x = 0; x < Side; x++)
                {
                    var (r, g, b) = x is >= 30 and < 66 && y is >= 30 and < 66 ? middle : edge;
                    packed.Write([r, g, b]);
                }
            }
        }

        using var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        void Chunk(string kind, byte[] data)
        {
            byte[] body = [.. System.Text.Encoding.ASCII.GetBytes(kind), .. data];
            file.Write([.. BitConverter.GetBytes(data.Length).Reverse(), .. body, .. BitConverter.GetBytes(Crc(body)).Reverse()]);
        }

        Chunk("IHDR", [0, 0, 0, Side, 0, 0, 0, Side, 8, 2, 0, 0, 0]);
        Chunk("IDAT", rows.ToArray());
        Chunk("IEND", []);
        return file.ToArray();
    }

    /// <summary>The check sum of PNG (ISO 3309).</summary>
    private static uint Crc(byte[] data)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var value in data)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0xEDB88320u : crc >> 1;
        }

        return ~crc;
    }
}
