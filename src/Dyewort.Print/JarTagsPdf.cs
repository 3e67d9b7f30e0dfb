using Dyewort.Making;
using Dyewort.Readings;

namespace Dyewort.Print;

/// <summary>One jar of a trial, as its tag says it.</summary>
/// <param name="Jar">Its code, such as "A3"; largest.</param>
/// <param name="Liquor">What was poured: "20 ml of EB25-1"; may be empty.</param>
/// <param name="Steps">What goes in, in order: "alum 0.4 g".</param>
public sealed record JarTag(string Jar, string Liquor, IReadOnlyList<string> Steps);

/// <summary>Draws tags for the jars of a trial: to cut out and tie on, or on stickers; steps are ticked off as they are done.</summary>
public static class JarTagsPdf
{
    /// <summary>3 × 8 tags of 60 × 32 mm on A4, with lines to cut along.</summary>
    public static LabelSheet UsualSheet { get; } = new(PageSize.A4, 3, 8, 60, 32, 13, 15, 2, 2, Round: false, Outlined: true);

    /// <summary>The sheets as a vector PDF.</summary>
    /// <param name="tags">At least one.</param>
    /// <param name="sheet">Where the tags lie.</param>
    /// <param name="date">The day; the same input gives the same bytes.</param>
    public static byte[] Draw(IReadOnlyList<JarTag> tags, LabelSheet sheet, DateOnly date)
    {
        if (tags.Count == 0)
            throw new ArgumentException("There is no jar.", nameof(tags));
        using var document = new PrintDocument("Jar tags", date);
        Canvas? page = null;
        var places = sheet.Places;
        for (var index = 0; index < tags.Count; index++)
        {
            var place = index % sheet.PerPage;
            if (page is null || place == 0)
                page = document.AddPage(sheet.Page.WidthMm, sheet.Page.HeightMm);
            if (sheet.Outlined)
                page.Outline(places[place], Canvas.Hair, 0.15);
            Tag(page, tags[index], places[place]);
        }

        return document.ToBytes();
    }

    private static void Tag(Canvas page, JarTag tag, RectMm box)
    {
        const double Padding = 2.5;
        var (left, right) = (box.X + Padding, box.Right - Padding);
        page.Text(page.Fit(tag.Jar, Face.SansBold, 18, box.Width / 2), left, box.Y + 7.5, Face.SansBold, 18);
        var used = page.Width(tag.Jar, Face.SansBold, 18) + 3;
        page.Text(page.Fit(tag.Liquor, Face.Serif, 8, right - left - used), right, box.Y + 7, Face.Serif, 8, Canvas.Quiet, Stand.Right);

        // The last line is for the pH strip and for what was seen; what stands above it shares the rest.
        var lastLine = box.Bottom - 3;
        var room = (int)((lastLine - 3.5 - (box.Y + 9)) / 3.6);
        var steps =
            tag.Steps.Count <= room ? tag.Steps : [.. tag.Steps.Take(Math.Max(0, room - 1)), $"… and {tag.Steps.Count - room + 1} more"];
        for (var line = 0; line < steps.Count; line++)
        {
            var baseline = box.Y + 12 + (line * 3.6);
            page.Outline(new RectMm(left, baseline - 2.1, 2.2, 2.2), Canvas.Quiet, 0.15);
            page.Text(page.Fit(steps[line], Face.Serif, 8.5, right - left - 3.5), left + 3.5, baseline, Face.Serif, 8.5);
        }

        page.Text("pH", left, lastLine, Face.Sans, 6, Canvas.Quiet);
        page.Line(left + 4, lastLine + 0.4, left + 14, lastLine + 0.4, Canvas.Hair, 0.15);
        page.Text("seen", left + 16, lastLine, Face.Sans, 6, Canvas.Quiet);
        page.Line(left + 22, lastLine + 0.4, right, lastLine + 0.4, Canvas.Hair, 0.15);
    }
}
