using PdfSharp.Fonts;

namespace Dyewort.Print;

/// <summary>The letters that prints are set in: serif for what is read, sans for what is handled.</summary>
internal enum Face
{
    Serif,
    SerifItalic,
    SerifBold,
    Sans,
    SansBold,
}

/// <summary>Gives the PDF library our own font files, which lie inside this assembly, so that a page does not depend on the
/// machine.</summary>
internal sealed class Fonts : IFontResolver
{
    private static readonly Lazy<bool> Registered = new(() =>
    {
        GlobalFontSettings.FontResolver = new Fonts();
        return true;
    });

    private Fonts() { }

    public static void Register() => _ = Registered.Value;

    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) => new(familyName);

    public byte[]? GetFont(string faceName)
    {
        using var stream =
            typeof(Fonts).Assembly.GetManifestResourceStream($"{faceName}.ttf")
            ?? throw new InvalidOperationException($"The font file {faceName}.ttf is not part of this build.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    public static string FileOf(Face face) =>
        face switch
        {
            Face.Serif => "GentiumPlus-Regular",
            Face.SerifItalic => "GentiumPlus-Italic",
            Face.SerifBold => "GentiumPlus-Bold",
            Face.Sans => "Inter-Regular",
            _ => "Inter-SemiBold",
        };
}
