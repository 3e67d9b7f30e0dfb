using Dyewort.Testing;
using SkiaSharp;
using Xunit;
using ZXing;
using ZXing.Common;
using ZXing.Multi.QrCode;

namespace Dyewort.Web.Tests;

/// <summary>Reads the square codes of a printed page with programs that are not ours: pdftoppm draws it, ZXing reads it.</summary>
internal static class PrintedCodes
{
    public static IReadOnlyList<string> Read(byte[] pdf)
    {
        Assert.SkipWhen(Tool.Find("pdftoppm") is null, "pdftoppm is not on this machine.");
        var folder = Directory.CreateTempSubdirectory("dyewort-labels-").FullName;
        try
        {
            File.WriteAllBytes(Path.Combine(folder, "labels.pdf"), pdf);
            var (code, _, error) = Tool.Run("pdftoppm", ["-r", "300", "-png", "labels.pdf", "page"], TimeSpan.FromMinutes(1), folder);
            Assert.True(code == 0, error);
            var found = new List<string>();
            foreach (var file in Directory.GetFiles(folder, "*.png").Order(StringComparer.Ordinal))
            {
                using var page = SKBitmap.Decode(file);
                using var rgba = page.Copy(SKColorType.Rgba8888);
                var source = new RGBLuminanceSource(rgba.Bytes, rgba.Width, rgba.Height, RGBLuminanceSource.BitmapFormat.RGBA32);
                var results = new QRCodeMultiReader().decodeMultiple(
                    new BinaryBitmap(new HybridBinarizer(source)),
                    new Dictionary<DecodeHintType, object> { [DecodeHintType.TRY_HARDER] = true }
                );
                if (results is not null)
                    found.AddRange(results.Select(result => result.Text));
            }

            return found;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
