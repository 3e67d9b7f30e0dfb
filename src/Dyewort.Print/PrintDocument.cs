using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Dyewort.Print;

/// <summary>A PDF whose bytes depend on nothing but what is drawn and the date given.</summary>
internal sealed partial class PrintDocument : IDisposable
{
    private readonly PdfDocument document = new();
    private readonly List<Canvas> canvases = [];

    public PrintDocument(string title, DateOnly date)
    {
        Fonts.Register();
        document.Info.Title = title;
        document.Info.Creator = "Dyewort";
        document.Info.CreationDate = date.ToDateTime(new TimeOnly(12, 0), DateTimeKind.Utc);
        document.Info.ModificationDate = document.Info.CreationDate;
    }

    public Canvas AddPage(double widthMm, double heightMm)
    {
        var page = document.AddPage();
        page.Width = XUnit.FromMillimeter(widthMm);
        page.Height = XUnit.FromMillimeter(heightMm);
        var canvas = new Canvas(XGraphics.FromPdfPage(page));
        canvases.Add(canvas);
        return canvas;
    }

    public byte[] ToBytes()
    {
        foreach (var canvas in canvases)
            canvas.Dispose();
        canvases.Clear();
        using var stream = new MemoryStream();
        var culture = CultureInfo.CurrentCulture;
        try
        {
            // The library writes dates in the calendar of the current culture.
            CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
            document.Save(stream, closeStream: false);
        }
        finally
        {
            CultureInfo.CurrentCulture = culture;
        }

        return Settle(stream.ToArray());
    }

    public void Dispose()
    {
        foreach (var canvas in canvases)
            canvas.Dispose();
        document.Dispose();
    }

    /// <summary>
    /// The library puts chance into a file in a few places, each of fixed length: the tag before a subset font's name and the identifiers
    /// of the file. They are replaced, length for length, by values made from the content, so that the offsets in the file stay true.
    /// </summary>
    private static byte[] Settle(byte[] pdf)
    {
        // Latin-1 maps every byte to one character and back.
        var text = Encoding.Latin1.GetString(pdf);
        var tags = new Dictionary<string, string>(StringComparer.Ordinal);
        text = SubsetTag()
            .Replace(
                text,
                match =>
                {
                    if (!tags.TryGetValue(match.Groups["tag"].Value, out var tag))
                    {
                        tag = string.Concat(
                            Enumerable.Range(0, 6).Select(place => (char)('A' + (tags.Count / (int)Math.Pow(26, 5 - place) % 26)))
                        );
                        tags.Add(match.Groups["tag"].Value, tag);
                    }

                    return $"/{tag}+";
                }
            );
        var settled = Identifiers()
            .Replace(
                Names().Replace(text, NoName),
                match => $"{match.Groups["before"].Value}{NoIdentifier}{match.Groups["between"].Value}{NoIdentifier}"
            );
        var identifier = Convert.ToHexString(SHA256.HashData(Encoding.Latin1.GetBytes(settled)))[..32];
        var name = new Guid(Convert.FromHexString(identifier)).ToString("D");
        return Encoding.Latin1.GetBytes(
            settled.Replace(NoIdentifier, identifier, StringComparison.Ordinal).Replace(NoName, $"uuid:{name}", StringComparison.Ordinal)
        );
    }

    private const string NoIdentifier = "DYEWORTDYEWORTDYEWORTDYEWORTDYEW";
    private const string NoName = "uuid:dyewortd-yewo-rtdy-ewor-tdyewortdyew";

    [GeneratedRegex(@"/(?<tag>[A-Z]{6})\+", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex SubsetTag();

    [GeneratedRegex(
        @"(?<before>/ID\s*\[\s*<)(?<id>[0-9A-Fa-f]{32})(?<between>>\s*<)(?<id2>[0-9A-Fa-f]{32})",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture,
        5000
    )]
    private static partial Regex Identifiers();

    [GeneratedRegex("uuid:[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}", RegexOptions.CultureInvariant, 5000)]
    private static partial Regex Names();
}
