using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>A photo made smaller by a whole factor, upright, three channels on the lightness scale: enough to tell areas apart.</summary>
/// <remarks>Each channel's linear light, 1 = the top of the file, is put on the scale of CIE lightness (116 ∛Y − 16), so that one unit is
/// about as visible in the dark as in the light.</remarks>
internal sealed class ColourPicture
{
    private readonly float[][] channels;

    private ColourPicture(float[][] channels, int width, int height, int factor) =>
        (this.channels, Width, Height, Factor) = (channels, width, height, factor);

    public int Width { get; }

    public int Height { get; }

    /// <summary>Photo pixels per pixel here.</summary>
    public int Factor { get; }

    /// <summary>Lightness of a channel (0 red, 1 green, 2 blue), row by row.</summary>
    public float[] this[int channel] => channels[channel];

    /// <summary>Reduces a photo so that its longer side has at most about a given number of pixels.</summary>
    public static ColourPicture Reduce(OpenPhoto photo, int longSide)
    {
        var factor = Math.Max(1, (int)Math.Ceiling(Math.Max(photo.Width, photo.Height) / (double)longSide));
        var (width, height) = (Math.Max(1, photo.Width / factor), Math.Max(1, photo.Height / factor));
        float[][] reduced = [new float[width * height], new float[width * height], new float[width * height]];

        // A factor beyond four is met with every second pixel: the mean of a quarter of many pixels is even enough.
        var step = factor > 4 ? 2 : 1;
        var table = new float[4097];
        for (var i = 0; i < table.Length; i++)
            table[i] = Lightness(i / 4096.0);
        Parallel.For(
            0,
            height,
            new ParallelOptions { MaxDegreeOfParallelism = 2 },
            y =>
            {
                var pixels = photo.Pixels;
                var linear = photo.Colour.Linear;
                for (var x = 0; x < width; x++)
                {
                    double r = 0,
                        g = 0,
                        b = 0;
                    var n = 0;
                    for (var v = 0; v < factor && (y * factor) + v < photo.Height; v += step)
                    {
                        var at = photo.Start + (((y * factor) + v) * photo.StepY) + (x * factor * photo.StepX);
                        for (var u = 0; u < factor && (x * factor) + u < photo.Width; u += step, at += step * photo.StepX)
                        {
                            var pixel = pixels[at];
                            r += linear[(int)pixel & 0xFF];
                            g += linear[(int)(pixel >> 8) & 0xFF];
                            b += linear[(int)(pixel >> 16) & 0xFF];
                            n++;
                        }
                    }

                    var place = (y * width) + x;
                    reduced[0][place] = table[(int)(4096 * r / n)];
                    reduced[1][place] = table[(int)(4096 * g / n)];
                    reduced[2][place] = table[(int)(4096 * b / n)];
                }
            }
        );
        return new(reduced, width, height, factor);
    }

    /// <summary>Linear light of a lightness.</summary>
    public static double Linear(double lightness) => lightness > 8 ? Math.Pow((lightness + 16) / 116, 3) : lightness / 903.3;

    /// <summary>Linear channels at a place.</summary>
    public FileRgb LightAt(int place) => new(Linear(channels[0][place]), Linear(channels[1][place]), Linear(channels[2][place]));

    /// <summary>The pixel of the photo in the middle of a place here, which may lie between pixels.</summary>
    public PointPx ToPhoto(double x, double y) => new(((x + 0.5) * Factor) - 0.5, ((y + 0.5) * Factor) - 0.5);

    /// <summary>A picture in which every channel is averaged over the square around each pixel.</summary>
    public ColourPicture Blurred(int radius) =>
        new([.. channels.Select(channel => Blur(channel, Width, Height, radius))], Width, Height, Factor);

    /// <summary>How steeply the most changing channel changes at each pixel, over two pixels; the picture's rim is steep.</summary>
    public float[] Slopes()
    {
        var slopes = new float[Width * Height];
        Array.Fill(slopes, 100f);
        for (var y = 1; y < Height - 1; y++)
        {
            for (var x = 1; x < Width - 1; x++)
            {
                var place = (y * Width) + x;
                var most = 0f;
                foreach (var channel in channels)
                {
                    most = Math.Max(
                        most,
                        Math.Max(
                            Math.Abs(channel[place + 1] - channel[place - 1]),
                            Math.Abs(channel[place + Width] - channel[place - Width])
                        )
                    );
                }

                slopes[place] = most;
            }
        }

        return slopes;
    }

    internal static float[] Blur(float[] values, int width, int height, int radius)
    {
        var across = new float[values.Length];
        var result = new float[values.Length];
        var side = (2 * radius) + 1;
        for (var y = 0; y < height; y++)
        {
            float sum = 0;
            for (var k = -radius; k <= radius; k++)
                sum += values[(y * width) + Math.Clamp(k, 0, width - 1)];
            for (var x = 0; x < width; x++)
            {
                across[(y * width) + x] = sum / side;
                sum += values[(y * width) + Math.Min(x + radius + 1, width - 1)] - values[(y * width) + Math.Max(x - radius, 0)];
            }
        }

        for (var x = 0; x < width; x++)
        {
            float sum = 0;
            for (var k = -radius; k <= radius; k++)
                sum += across[(Math.Clamp(k, 0, height - 1) * width) + x];
            for (var y = 0; y < height; y++)
            {
                result[(y * width) + x] = sum / side;
                sum += across[(Math.Min(y + radius + 1, height - 1) * width) + x] - across[(Math.Max(y - radius, 0) * width) + x];
            }
        }

        return result;
    }

    private static float Lightness(double light) => (float)(light > 0.008856 ? (116 * Math.Cbrt(light)) - 16 : 903.3 * light);
}
