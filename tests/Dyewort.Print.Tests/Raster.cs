using System.Globalization;
using System.Text;
using Dyewort.Testing;
using Xunit;
using ZXing;
using ZXing.Common;
using ZXing.QrCode;

namespace Dyewort.Print.Tests;

/// <summary>A page as an independent program (pdftoppm) sees it: grey, ten pixels to the millimetre unless said.</summary>
internal sealed class Raster
{
    public const double PixelsPerMm = 10;

    private Raster(int width, int height, byte[] pixels) => (Width, Height, Pixels) = (width, height, pixels);

    public int Width { get; }

    public int Height { get; }

    public byte[] Pixels { get; }

    public byte At(double xMm, double yMm) => Pixels[((int)(yMm * PixelsPerMm) * Width) + (int)(xMm * PixelsPerMm)];

    public static Raster Of(byte[] pdf, int page = 1)
    {
        Assert.SkipWhen(Tool.Find("pdftoppm") is null, "pdftoppm (poppler-utils) is not on this machine.");
        var folder = Directory.CreateTempSubdirectory("dyewort-print").FullName;
        try
        {
            var source = Path.Combine(folder, "page.pdf");
            File.WriteAllBytes(source, pdf);
            var (code, _, error) = Tool.Run(
                "pdftoppm",
                [
                    "-gray",
                    "-r",
                    "254",
                    "-f",
                    page.ToString(CultureInfo.InvariantCulture),
                    "-l",
                    page.ToString(CultureInfo.InvariantCulture),
                    "-singlefile",
                    source,
                    Path.Combine(folder, "page"),
                ],
                TimeSpan.FromSeconds(60)
            );
            Assert.True(code == 0, error);
            return Read(File.ReadAllBytes(Path.Combine(folder, "page.pgm")));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>What an independent reader finds in the square code of a part of the page; null when it finds none.</summary>
    public string? QrCode(double xMm, double yMm, double widthMm, double heightMm)
    {
        var (left, top) = (Math.Max(0, (int)(xMm * PixelsPerMm)), Math.Max(0, (int)(yMm * PixelsPerMm)));
        var (width, height) = (Math.Min(Width - left, (int)(widthMm * PixelsPerMm)), Math.Min(Height - top, (int)(heightMm * PixelsPerMm)));
        var part = new byte[width * height];
        for (var row = 0; row < height; row++)
            Array.Copy(Pixels, ((top + row) * Width) + left, part, row * width, width);
        var source = new RGBLuminanceSource(part, width, height, RGBLuminanceSource.BitmapFormat.Gray8);
        return new QRCodeReader()
            .decode(
                new BinaryBitmap(new HybridBinarizer(source)),
                new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true }
            )
            ?.Text;
    }

    private static Raster Read(byte[] pgm)
    {
        var place = 0;
        string Word()
        {
            while (char.IsWhiteSpace((char)pgm[place]))
                place++;
            var start = place;
            while (!char.IsWhiteSpace((char)pgm[place]))
                place++;
            return Encoding.ASCII.GetString(pgm, start, place - start);
        }

        Assert.Equal("P5", Word());
        var (width, height) = (int.Parse(Word(), CultureInfo.InvariantCulture), int.Parse(Word(), CultureInfo.InvariantCulture));
        Assert.Equal("255", Word());
        return new Raster(width, height, pgm[(place + 1)..]);
    }
}
