using Xunit;

namespace Dyewort.Readings.Tests;

public sealed class FileColourTests
{
    [Fact]
    public void The_table_of_sRGB_holds_the_light_of_every_number()
    {
        // Black, white, the end of the straight part (10/255 = 0.0392), and the ends of its steps: by hand from IEC 61966-2-1.
        var table = FileColour.Srgb.Linear;
        Assert.Equal(0, table[0]);
        Assert.Equal(1, table[255], 1e-12);
        Assert.Equal(10 / (255 * 12.92), table[10], 1e-9);
        Assert.Equal(Math.Pow(((128 / 255.0) + 0.055) / 1.055, 2.4), table[128], 1e-12);
        for (var code = 1; code < 256; code++)
            Assert.True(table[code] > table[code - 1]);
    }

    [Fact]
    public void The_curve_and_its_inverse_undo_each_other_and_meet_at_the_knee()
    {
        for (var light = -0.01; light < 1.2; light += 0.001)
            Assert.Equal(light, FileColour.SrgbToLinear(FileColour.LinearToSrgb(light)), 1e-6);
        Assert.Equal(FileColour.SrgbToLinear(0.04045), FileColour.SrgbToLinear(0.04046), 1e-5);
    }

    [Fact]
    public void White_of_the_file_is_the_white_point_and_the_way_back_is_exact()
    {
        // D65, 2°: x 0.3127, y 0.3290.
        var white = FileColour.Srgb.ToXyz(new(1, 1, 1));
        Assert.Equal(100, white.Y, 1e-4);
        Assert.Equal(0.3127, white.X / (white.X + white.Y + white.Z), 1e-4);
        Assert.Equal(0.3290, white.Y / (white.X + white.Y + white.Z), 1e-4);
        foreach (var light in new FileRgb[] { new(0.2, 0.5, 0.9), new(0.9, 0.1, 0.3), new(0, 1, 0) })
        {
            var back = FileColour.Srgb.FromXyz(FileColour.Srgb.ToXyz(light));
            for (var channel = 0; channel < 3; channel++)
                Assert.Equal(light[channel], back[channel], 1e-12);
        }
    }

    [Fact]
    public void A_curve_of_another_length_is_an_error() =>
        Assert.Throws<ArgumentException>(() => new FileColour("short", new double[255], default));
}
