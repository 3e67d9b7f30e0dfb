using System.Globalization;
using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Print;

/// <summary>Draws sheets of bottle labels: all front labels, then all cap labels in the same order.</summary>
public static class LabelsPdf
{
    /// <summary>The smallest letters on a label, in points.</summary>
    public const double SmallestPoints = 5;

    private const double Padding = 2;
    private const double LineFactor = 0.42;

    /// <summary>The sheets as a vector PDF, or why the words do not fit on such labels.</summary>
    /// <param name="labels">At least one.</param>
    /// <param name="front">Sheets for the front labels; null leaves them out.</param>
    /// <param name="cap">Sheets for the cap labels; null leaves them out.</param>
    /// <param name="used">Labels already gone from the first sheet of each kind.</param>
    /// <param name="date">The day; the same input gives the same bytes.</param>
    public static Outcome<byte[]> Draw(IReadOnlyList<LabelText> labels, LabelSheet? front, LabelSheet? cap, int used, DateOnly date)
    {
        if (labels.Count == 0)
            return Outcome.Refused<byte[]>("bottles", "There is no bottle to label.", "Name at least one.");
        if (front is null && cap is null)
            return Outcome.Refused<byte[]>("front", "Neither front nor cap labels are wanted.", "Describe at least one sheet.");
        foreach (var sheet in new[] { front, cap })
        {
            if (sheet is not null && (used < 0 || used >= sheet.PerPage))
                return Outcome.Refused<byte[]>(
                    "used",
                    $"{used} labels cannot be gone from a sheet of {sheet.PerPage}.",
                    "Count the free places again."
                );
        }

        using var document = new PrintDocument($"Labels {labels[0].Name}", date);
        if (front is not null && Sheets(document, labels, front, used, Front) is { } tooMuch)
            return Outcome.Refused<byte[]>([tooMuch]);
        if (cap is not null && Sheets(document, labels, cap, used, Cap) is { } capTooMuch)
            return Outcome.Refused<byte[]>([capTooMuch]);
        return Outcome.Of(document.ToBytes());
    }

    private static Problem? Sheets(
        PrintDocument document,
        IReadOnlyList<LabelText> labels,
        LabelSheet sheet,
        int used,
        Func<Canvas, LabelText, LabelSheet, RectMm, Problem?> draw
    )
    {
        var places = sheet.Places;
        Canvas? page = null;
        for (var index = 0; index < labels.Count; index++)
        {
            var place = (index + used) % sheet.PerPage;
            if (page is null || place == 0)
                page = document.AddPage(sheet.Page.WidthMm, sheet.Page.HeightMm);
            var box = places[place];
            if (sheet.Outlined)
            {
                if (sheet.Round)
                    page.OutlineCircle(box.X + (box.Width / 2), box.Y + (box.Height / 2), box.Width / 2, Canvas.Hair, 0.15);
                else
                    page.Outline(box, Canvas.Hair, 0.15);
            }

            if (draw(page, labels[index], sheet, box) is { } problem)
                return problem;
        }

        return null;
    }

    private static Problem? Front(Canvas page, LabelText label, LabelSheet sheet, RectMm box)
    {
        // A round front label is written in the square inside it.
        var inset = sheet.Round ? box.Width * (1 - Math.Sqrt(0.5)) / 2 : Padding;
        var area = new RectMm(box.X + inset, box.Y + inset, box.Width - (2 * inset), box.Height - (2 * inset));
        var square = Math.Min(Math.Max(12, 0.42 * area.Height), Math.Min(18, area.Height));
        var code = new RectMm(area.Right - square + 1, area.Bottom - square + 1, square, square);
        page.QrCode(label.Square, code);

        var chip = label.Colour is null ? 0 : Math.Min(11, 0.3 * area.Height);
        if (label.Colour is { } colour)
            page.Fill(new RectMm(area.X, area.Y, chip, chip), SrgbChip.Of(colour).Bytes);
        var left = area.X + (chip > 0 ? chip + 1.5 : 0);
        var codePoints = page.SizeThatFits(label.Code, Face.SansBold, 8, SmallestPoints, area.Width / 3) ?? SmallestPoints;
        var codeWidth = page.Width(label.Code, Face.SansBold, codePoints);
        page.Text(label.Code, area.Right, area.Y + (codePoints * LineFactor * 0.75), Face.SansBold, codePoints, stand: Stand.Right);
        var nameRoom = area.Right - codeWidth - 1.5 - left;
        var namePoints = page.SizeThatFits(label.Name, Face.SerifBold, 12, 7, nameRoom) ?? 7;
        page.Text(
            page.Fit(label.Name, Face.SerifBold, namePoints, nameRoom),
            left,
            area.Y + (namePoints * LineFactor * 0.75),
            Face.SerifBold,
            namePoints
        );

        var facts = string.Join(" · ", label.Facts);
        for (var points = 7.0; points >= SmallestPoints; points -= 0.5)
        {
            if (Words(page, label, facts, area, code, left, chip, namePoints, points) is not { } lines)
                continue;
            foreach (var (text, x, baseline, face, size, grey) in lines)
                page.Text(text, x, baseline, face, size, grey);
            return null;
        }

        return new Problem(
            "front",
            string.Create(
                CultureInfo.InvariantCulture,
                $"The words of “{label.Name}” do not fit on a label of {box.Width:0.#} × {box.Height:0.#} mm."
            ),
            "Take larger labels, or a shorter recipe; warnings are never left out."
        );
    }

    /// <summary>Sets recipe, facts and warnings under the name, beside the chip first and beside the square code last; null when they do
    /// not fit at this size.</summary>
    private static List<(string Text, double X, double Baseline, Face Face, double Points, double Grey)>? Words(
        Canvas page,
        LabelText label,
        string facts,
        RectMm area,
        RectMm code,
        double left,
        double chip,
        double namePoints,
        double points
    )
    {
        var set = new List<(string Text, double X, double Baseline, Face Face, double Points, double Grey)>();
        var y = area.Y + (namePoints * LineFactor);
        var warningPoints = Math.Max(SmallestPoints, points - 1.5);
        (string Text, Face Face, double Points, double Grey)[] paragraphs =
        [
            (label.Recipe, Face.Serif, points, Canvas.Ink),
            (facts, Face.Sans, Math.Max(SmallestPoints, points - 1), Canvas.Ink),
            (label.Warnings[0], Face.SansBold, warningPoints, Canvas.Ink),
            (string.Join(" ", label.Warnings.Skip(1)), Face.Sans, warningPoints, Canvas.Ink),
            (chip > 0 ? LabelText.ChipIsNotExact : "", Face.Sans, SmallestPoints, Canvas.Quiet),
        ];
        foreach (var paragraph in paragraphs)
        {
            var words = new Queue<string>(paragraph.Text.Split(' ', StringSplitOptions.RemoveEmptyEntries));
            if (words.Count == 0)
                continue;
            var line = "";
            while (words.Count > 0 || line.Length > 0)
            {
                var height = paragraph.Points * LineFactor;
                var x = y < area.Y + chip + 0.5 ? left : area.X;
                var end = y + height > code.Y + 1 ? code.X : area.Right;
                while (words.Count > 0)
                {
                    var longer = line.Length == 0 ? words.Peek() : $"{line} {words.Peek()}";
                    if (page.Width(longer, paragraph.Face, paragraph.Points) > end - x)
                        break;
                    line = longer;
                    words.Dequeue();
                }

                // A single word that is wider than its line can only be helped by smaller letters.
                if (line.Length == 0)
                    return null;
                if (y + height > area.Bottom + 0.2)
                    return null;
                set.Add((line, x, y + (height * 0.8), paragraph.Face, paragraph.Points, paragraph.Grey));
                line = "";
                y += height;
            }

            y += paragraph.Face is Face.SansBold ? 0 : 0.4;
        }

        return set;
    }

    private static Problem? Cap(Canvas page, LabelText label, LabelSheet sheet, RectMm box)
    {
        var (middle, height) = (box.X + (box.Width / 2), box.Height);
        var radius = 0.19 * Math.Min(box.Width, height);
        double Room(double y) =>
            sheet.Round ? (2 * Math.Sqrt(Math.Max(0, Math.Pow(box.Width / 2, 2) - Math.Pow(y - (height / 2), 2)))) - 1.5 : box.Width - 2;
        if (label.Colour is { } colour)
            page.FillCircle(middle, box.Y + (0.27 * height), radius, SrgbChip.Of(colour).Bytes);
        else
            page.OutlineCircle(middle, box.Y + (0.27 * height), radius, Canvas.Hair, 0.2);
        var codePoints = page.SizeThatFits(label.Code, Face.SansBold, 10, SmallestPoints, Room(0.62 * height));
        if (codePoints is not { } points)
        {
            return new Problem(
                "cap",
                string.Create(CultureInfo.InvariantCulture, $"The code “{label.Code}” does not fit on a cap label of {box.Width:0.#} mm."),
                "Take larger cap labels."
            );
        }

        page.Text(label.Code, middle, box.Y + (0.64 * height), Face.SansBold, points, stand: Stand.Middle);
        var namePoints = page.SizeThatFits(label.Name, Face.Serif, 8, SmallestPoints, Room(0.78 * height)) ?? SmallestPoints;
        page.Text(
            page.Fit(label.Name, Face.Serif, namePoints, Room(0.78 * height)),
            middle,
            box.Y + (0.76 * height),
            Face.Serif,
            namePoints,
            stand: Stand.Middle
        );
        if (label.Facts.FirstOrDefault(fact => fact.StartsWith(LabelText.KeepByWords, StringComparison.Ordinal)) is not { } keep)
            return null;
        foreach (var words in new[] { keep, keep["keep ".Length..] })
        {
            if (page.Width(words, Face.Sans, SmallestPoints) > Room(0.87 * height))
                continue;
            page.Text(words, middle, box.Y + (0.865 * height), Face.Sans, SmallestPoints, Canvas.Quiet, Stand.Middle);
            break;
        }

        return null;
    }
}
