using Dyewort.Colour;
using Dyewort.Readings;
using Dyewort.Testing;
using SkiaSharp;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Paints the sheet that the program printed, seen through another program (pdftoppm), and photographs it askew.</summary>
internal static class PaintedSheet
{
    private const int PixelsPerInch = 200;

    /// <summary>Ink on paper is never black: 4 % of the light comes back (common practice, no source).</summary>
    private static void Print(SKBitmap page) => Recode(page, light => 0.04 + (0.96 * light));

    /// <summary>White paper lies below the top of the file, as a camera exposes it: a picture whose paper is full everywhere is
    /// overexposed, and is rightly read as one.</summary>
    private static void Expose(SKBitmap photo) => Recode(photo, light => 0.8 * light);

    private static void Recode(SKBitmap page, Func<double, double> change)
    {
        var seen = Enumerable
            .Range(0, 256)
            .Select(code => (byte)Math.Round(255 * FileColour.LinearToSrgb(change(FileColour.SrgbToLinear(code / 255.0)))))
            .ToArray();
        var bytes = page.GetPixelSpan().ToArray();
        for (var at = 0; at < bytes.Length; at++)
        {
            if (at % 4 != 3)
                bytes[at] = seen[bytes[at]];
        }

        System.Runtime.InteropServices.Marshal.Copy(bytes, 0, page.GetPixels(), bytes.Length);
    }

    public static byte[] Photograph(byte[] pdf, SheetLayout layout, IReadOnlyDictionary<string, Lab> paint)
    {
        Assert.SkipWhen(Tool.Find("pdftoppm") is null, "pdftoppm is not on this machine.");
        var folder = Directory.CreateTempSubdirectory("dyewort-sheet-").FullName;
        try
        {
            File.WriteAllBytes(Path.Combine(folder, "sheet.pdf"), pdf);
            var (code, _, error) = Tool.Run(
                "pdftoppm",
                ["-r", $"{PixelsPerInch}", "-png", "-singlefile", "sheet.pdf", "sheet"],
                TimeSpan.FromMinutes(1),
                folder
            );
            Assert.True(code == 0, error);
            using var page = SKBitmap.Decode(Path.Combine(folder, "sheet.png"));
            Print(page);
            using (var canvas = new SKCanvas(page))
            {
                var scale = (float)(page.Width / layout.WidthMm);
                foreach (var cell in layout.Cells)
                {
                    if (!paint.TryGetValue(cell.Id, out var colour))
                        continue;
                    var (r, g, b) = SrgbChip.Of(colour.ToXyz()).Bytes;
                    using var fill = new SKPaint { Color = new SKColor(r, g, b) };
                    canvas.DrawRect(
                        SKRect.Create(
                            (float)cell.PolygonMm[0].X * scale,
                            (float)cell.PolygonMm[0].Y * scale,
                            (float)(cell.PolygonMm[1].X - cell.PolygonMm[0].X) * scale,
                            (float)(cell.PolygonMm[2].Y - cell.PolygonMm[1].Y) * scale
                        ),
                        fill
                    );
                }
            }

            using var photo = new SKBitmap(1400, 1900);
            using (var canvas = new SKCanvas(photo))
            {
                canvas.Clear(new SKColor(70, 72, 74));
                canvas.Translate(110, 60);
                canvas.RotateDegrees(2.5f);
                canvas.Scale(1180f / page.Width);
                canvas.DrawBitmap(page, 0, 0, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
            }

            Expose(photo);
            using var data = photo.Encode(SKEncodedImageFormat.Jpeg, 93);
            return data.ToArray();
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
