using Dyewort.Readings;

namespace Dyewort.Print;

/// <summary>What a sheet says besides its cells.</summary>
public sealed record SheetWords
{
    /// <summary>A title, such as the trial's name; may be empty.</summary>
    public string Title { get; init; } = "";

    /// <summary>What the square code holds; the chart's code when null.</summary>
    public string? Link { get; init; }

    /// <summary>Known already, so printed in place of an empty line.</summary>
    public string? Paper { get; init; }

    /// <summary>Known already, so printed in place of an empty line.</summary>
    public string? Pot { get; init; }

    /// <summary>Cell code → a few words about what is painted there (“alum 2 g”). What does not fit on the first line goes on below, where
    /// the plan has lines for it; a free line is ruled, for the maker's own word.</summary>
    public IReadOnlyDictionary<string, string> Captions { get; init; } = new Dictionary<string, string>();
}

/// <summary>Draws a sheet to paint on, or a frame to lay over paper that was painted freely.</summary>
public static class SheetPdf
{
    private const double HairlineMm = 0.2;

    /// <summary>The page as a vector PDF.</summary>
    /// <param name="plan">Where everything lies.</param>
    /// <param name="words">What it says.</param>
    /// <param name="date">The day it is made; the same plan, words and day give the same bytes.</param>
    public static byte[] Draw(SheetPlan plan, SheetWords words, DateOnly date)
    {
        using var document = new PrintDocument($"{(plan.Wish.Frame ? "Frame" : "Sheet")} {plan.Wish.Code}", date);
        var page = document.AddPage(plan.Wish.Page.WidthMm, plan.Wish.Page.HeightMm);
        foreach (var (id, box) in plan.Markers)
            page.Marker(id, box);
        foreach (var (id, box, isBlank) in plan.Cells)
            Cell(page, plan, words, id, box, isBlank);
        Head(page, plan, words);
        Foot(page, plan, words);
        return document.ToBytes();
    }

    private static void Cell(Canvas page, SheetPlan plan, SheetWords words, string id, RectMm box, bool isBlank)
    {
        if (isBlank)
        {
            // A circle says “left out on purpose”, so that nobody takes the gap for a forgotten square.
            page.OutlineCircle(box.X + (box.Width / 2), box.Y + (box.Height / 2), 1.5, Canvas.Hair, HairlineMm);
            return;
        }

        page.Outline(box, plan.Wish.Frame ? Canvas.Quiet : Canvas.Hair, HairlineMm, dashed: plan.Wish.Frame);
        var baseline = box.Bottom + SheetPlan.CodeLineMm - 0.8;
        page.Text(id, box.X, baseline, Face.SansBold, 8);
        var used = page.Width(id, Face.SansBold, 8) + 1.5;
        var caption = words.Captions.GetValueOrDefault(id, "");

        if (plan.Wish.CaptionLines == 1)
        {
            page.Text(page.Fit(caption, Face.Serif, 7, box.Width - used), box.X + used, baseline, Face.Serif, 7, Canvas.Quiet);
            return;
        }

        // The maker's own word goes beside the code, what is in it below; lines that it leaves free are ruled too.
        page.Line(box.X + used, baseline + 0.3, box.Right, baseline + 0.3, Canvas.Hair, HairlineMm);
        var lines = page.Break(caption, Face.Serif, 7, box.Width);
        for (var line = 1; line < plan.Wish.CaptionLines; line++)
        {
            baseline += SheetPlan.CodeLineMm;
            var isLast = line == plan.Wish.CaptionLines - 1;
            if (line > lines.Count)
                page.Line(box.X, baseline + 0.3, box.Right, baseline + 0.3, Canvas.Hair, HairlineMm);
            else
                page.Text(
                    page.Fit(isLast ? string.Join(' ', lines.Skip(line - 1)) : lines[line - 1], Face.Serif, 7, box.Width),
                    box.X,
                    baseline,
                    Face.Serif,
                    7,
                    Canvas.Quiet
                );
        }
    }

    private static void Head(Canvas page, SheetPlan plan, SheetWords words)
    {
        if (plan.Head.Count == 0)
            return;
        var first = plan.Head[0];
        var code = page.SizeThatFits(plan.Wish.Code, Face.SerifBold, 14, 6, first.Width) ?? 6;
        page.Text(page.Fit(plan.Wish.Code, Face.SerifBold, code, first.Width), first.X, first.Y + 4, Face.SerifBold, code);
        if (plan.Head.Count == 1)
        {
            if (words.Title.Length > 0)
                page.Text(page.Fit(words.Title, Face.Serif, 8, first.Width), first.X, first.Y + 7.4, Face.Serif, 8, Canvas.Quiet);
            Blanks(page, words, new RectMm(first.X, first.Y, first.Width, 12), perLine: first.Width >= 40 ? 3 : 1);
            return;
        }

        var title = page.Break(words.Title, Face.Serif, 8.5, first.Width);
        for (var line = 0; line < Math.Min(2, title.Count); line++)
            page.Text(
                line == 1 && title.Count > 2 ? page.Fit($"{title[1]} …", Face.Serif, 8.5, first.Width) : title[line],
                first.X,
                first.Y + 8.4 + (line * 3.6),
                Face.Serif,
                8.5,
                Canvas.Quiet
            );
        Blanks(page, words, plan.Head[1] with { Height = plan.Head[1].Height - 1 }, perLine: 1);
    }

    /// <summary>The lines for date, paper and pot, at the bottom of their box.</summary>
    private static void Blanks(Canvas page, SheetWords words, RectMm box, int perLine)
    {
        (string Name, string? Known)[] blanks = [("date", null), ("paper", words.Paper), ("pot", words.Pot)];
        var lines = (blanks.Length + perLine - 1) / perLine;
        if (lines == 3 && box.Height < 14)
            return;
        var width = box.Width / perLine;
        for (var index = 0; index < blanks.Length; index++)
        {
            var x = box.X + (index % perLine * width);
            var baseline = box.Bottom - ((lines - 1 - (index / perLine)) * 4.8);
            page.Text(blanks[index].Name, x, baseline, Face.Sans, 6, Canvas.Quiet);
            var start = x + page.Width(blanks[index].Name, Face.Sans, 6) + 1;
            var end = x + width - (index % perLine == perLine - 1 ? 0 : 2);
            if (end - start < 3)
                continue;
            page.Line(start, baseline + 0.4, end, baseline + 0.4, Canvas.Hair, HairlineMm);
            if (blanks[index].Known is { } known)
                page.Text(page.Fit(known, Face.Serif, 8, end - start), start, baseline - 0.2, Face.Serif, 8);
        }
    }

    private static void Foot(Canvas page, SheetPlan plan, SheetWords words)
    {
        if (plan.Foot.Count == 0)
            return;
        var room = plan.Foot[0];
        var side = Math.Min(Math.Min(room.Height + 3, 22), room.Width);
        // The code's own white border may reach into the white around the cells and the page's edge.
        var code = new RectMm(room.X - 1, room.Bottom - side + 1.5, side, side);
        page.QrCode(words.Link ?? plan.Wish.Code, code);
        var hint = plan.Wish.Frame
            ? "Print at 100 %. Cut the dashed windows out, lay the frame on the painted paper, photograph the whole frame."
            : "Print at 100 %. Paint inside the lines. Photograph the whole page from above in even light: once while it is wet, if you "
                + "like, and once when it is dry.";
        var text = plan.Foot.Count > 1 ? plan.Foot[1] : new RectMm(code.Right + 0.5, room.Y, room.Right - code.Right - 0.5, room.Height);
        if (text.Width < 20)
            return;
        var points = 6.5;
        var lines = page.Break(hint, Face.Sans, points, text.Width);
        while (lines.Count > 4 && points > 5)
        {
            points -= 0.5;
            lines = page.Break(hint, Face.Sans, points, text.Width);
        }

        if (lines.Count > 4)
            return;
        for (var line = 0; line < lines.Count; line++)
            page.Text(lines[line], text.X, text.Bottom - ((lines.Count - 1 - line) * points * 0.46) - 0.4, Face.Sans, points, Canvas.Quiet);
    }
}
