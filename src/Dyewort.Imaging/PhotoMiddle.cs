using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>What lies in the middle of a photo, and what lies around its edge: enough for a close photo of one swatch on its
/// paper.</summary>
/// <param name="Middle">Median of the middle quarter's width and height, linear channels of the file.</param>
/// <param name="Edge">Median of the lighter half of the outermost twelfth: bare paper, if the photo shows some there.</param>
/// <param name="ClippedShare">Share of the edge's lighter half in which a channel is at its end.</param>
public sealed record PhotoMiddle(FileRgb Middle, FileRgb Edge, double ClippedShare)
{
    private const int Samples = 160;

    /// <summary>Measures a photo.</summary>
    public static PhotoMiddle Of(OpenPhoto photo)
    {
        ArgumentNullException.ThrowIfNull(photo);
        var (middle, edge) = (new List<uint>(), new List<uint>());
        for (var row = 0; row < Samples; row++)
        {
            for (var column = 0; column < Samples; column++)
            {
                var (u, v) = ((column + 0.5) / Samples, (row + 0.5) / Samples);
                var pixel = photo.Pixels[photo.Start + ((int)(u * photo.Width) * photo.StepX) + ((int)(v * photo.Height) * photo.StepY)];
                if (Math.Abs(u - 0.5) < 0.125 && Math.Abs(v - 0.5) < 0.125)
                    middle.Add(pixel);
                else if (Math.Min(Math.Min(u, 1 - u), Math.Min(v, 1 - v)) < 1.0 / 12)
                    edge.Add(pixel);
            }
        }

        edge.Sort((first, second) => Light(second).CompareTo(Light(first)));
        edge.RemoveRange(edge.Count / 2, edge.Count - (edge.Count / 2));
        return new(
            Median(middle, photo.Colour),
            Median(edge, photo.Colour),
            edge.Count(pixel => Math.Max(Channel(pixel, 0), Math.Max(Channel(pixel, 1), Channel(pixel, 2))) >= 254) / (double)edge.Count
        );
    }

    private static int Light(uint pixel) => (2 * Channel(pixel, 0)) + (5 * Channel(pixel, 1)) + Channel(pixel, 2);

    private static int Channel(uint pixel, int channel) => (int)(pixel >> (8 * channel)) & 255;

    private static FileRgb Median(List<uint> pixels, FileColour colour)
    {
        double One(int channel) => colour.Linear[pixels.Select(pixel => Channel(pixel, channel)).Order().ElementAt(pixels.Count / 2)];
        return new(One(0), One(1), One(2));
    }
}
