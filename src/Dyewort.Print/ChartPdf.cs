using System.Globalization;
using System.Text.RegularExpressions;
using Dyewort.Colour;
using Dyewort.Readings;

namespace Dyewort.Print;

/// <summary>One swatch of a chart.</summary>
/// <param name="Id">Its cell, such as "B2".</param>
/// <param name="Colour">CIE XYZ, 1931 2° observer, D65, perfect diffuser Y = 100; null for a swatch that was never read.</param>
/// <param name="UncertaintyDe00">Half-width in CIEDE2000 of the interval that holds the true colour 19 times in 20; null when
/// unknown.</param>
/// <param name="Caption">What is painted there: "alum 2 g"; may be empty.</param>
public sealed record ChartChip(string Id, Xyz? Colour, double? UncertaintyDe00, string Caption);

/// <summary>What a chart says.</summary>
public sealed record ChartWords
{
    /// <summary>Largest.</summary>
    public required string Title { get; init; }

    /// <summary>The chart's code.</summary>
    public required string Code { get; init; }

    /// <summary>A line below the title: pot, paper, age, day.</summary>
    public string About { get; init; } = "";

    /// <summary>What the square code holds; the chart's code when null.</summary>
    public string? Link { get; init; }
}

/// <summary>Draws a chart on one page: measured chips as they lie on the sheet, with codes, figures and names.</summary>
public static partial class ChartPdf
{
    private const double Margin = 12;
    private const double HeadMm = 24;
    private const double FootMm = 9;
    private const double GapMm = 3;
    private const double SmallestPoints = 4.5;

    /// <summary>The page as a vector PDF.</summary>
    /// <param name="page">The page.</param>
    /// <param name="chips">At least one.</param>
    /// <param name="words">What it says.</param>
    /// <param name="date">The day; the same input gives the same bytes.</param>
    public static byte[] Draw(PageSize page, IReadOnlyList<ChartChip> chips, ChartWords words, DateOnly date)
    {
        if (chips.Count == 0)
            throw new ArgumentException("A chart needs a swatch.", nameof(chips));
        using var document = new PrintDocument($"Chart {words.Code}", date);
        var canvas = document.AddPage(page.WidthMm, page.HeightMm);
        Head(canvas, page, words);
        var (places, columns, rows) = Arrange(chips, page);
        var area = new RectMm(Margin, Margin + HeadMm, page.WidthMm - (2 * Margin), page.HeightMm - (2 * Margin) - HeadMm - FootMm);
        var step = (X: (area.Width + GapMm) / columns, Y: Math.Min((area.Height + GapMm) / rows, 60));
        var outside = false;
        foreach (var (chip, column, row) in places)
            outside |= Chip(canvas, chip, new RectMm(area.X + (column * step.X), area.Y + (row * step.Y), step.X - GapMm, step.Y - GapMm));
        Foot(canvas, page, chips, outside);
        return document.ToBytes();
    }

    /// <summary>Cells named by letter and number lie as on their sheet; others are set in reading order.</summary>
    private static (List<(ChartChip Chip, int Column, int Row)> Places, int Columns, int Rows) Arrange(
        IReadOnlyList<ChartChip> chips,
        PageSize page
    )
    {
        var cells = chips.Select(chip => (Chip: chip, Match: CellId().Match(chip.Id))).ToList();
        if (cells.TrueForAll(cell => cell.Match.Success))
        {
            var placed = cells
                .Select(cell =>
                    (
                        cell.Chip,
                        Column: cell.Match.Groups["column"].Value[0] - 'A',
                        Row: int.Parse(cell.Match.Groups["row"].Value, CultureInfo.InvariantCulture) - 1
                    )
                )
                .ToList();
            var (left, top) = (placed.Min(cell => cell.Column), placed.Min(cell => cell.Row));
            return (
                [.. placed.Select(cell => (cell.Chip, cell.Column - left, cell.Row - top))],
                placed.Max(cell => cell.Column) - left + 1,
                placed.Max(cell => cell.Row) - top + 1
            );
        }

        var columns = Math.Max(1, (int)Math.Round(Math.Sqrt(chips.Count * page.WidthMm / page.HeightMm), MidpointRounding.AwayFromZero));
        return (
            [.. chips.Select((chip, index) => (chip, index % columns, index / columns))],
            columns,
            (chips.Count + columns - 1) / columns
        );
    }

    private static void Head(Canvas canvas, PageSize page, ChartWords words)
    {
        const double Square = 18;
        canvas.QrCode(words.Link ?? words.Code, new RectMm(page.WidthMm - Margin - Square + 2, Margin - 2, Square, Square));
        var room = page.WidthMm - (2 * Margin) - Square - 3;
        var points = canvas.SizeThatFits(words.Title, Face.SerifBold, 20, 9, room) ?? 9;
        canvas.Text(canvas.Fit(words.Title, Face.SerifBold, points, room), Margin, Margin + 6.5, Face.SerifBold, points);
        var about = string.Join(" · ", new[] { $"chart {words.Code}", words.About }.Where(part => part.Length > 0));
        var lines = canvas.Break(about, Face.Serif, 9, room);
        for (var line = 0; line < Math.Min(2, lines.Count); line++)
            canvas.Text(lines[line], Margin, Margin + 12.5 + (line * 4), Face.Serif, 9, Canvas.Quiet);
    }

    /// <returns>True when the chip is of a colour that screens and printers cannot show.</returns>
    private static bool Chip(Canvas canvas, ChartChip chip, RectMm box)
    {
        var points = Math.Clamp(box.Width / 4.6, SmallestPoints, 7.5);
        var line = points * 0.43;
        var text = Texts(chip);
        // A swatch that was never read is as large as its neighbours.
        var textHeight = (line * 3) + 1;
        var square = box with { Height = Math.Max(4, box.Height - textHeight) };
        var shown = chip.Colour is { } known ? SrgbChip.Of(known) : null;
        if (shown is not null)
            canvas.Fill(square, shown.Bytes);
        // A hairline keeps a chip that is nearly as white as the page from vanishing.
        canvas.Outline(square, Canvas.Hair, 0.1);
        if (shown is null)
            canvas.Text(
                "not read",
                square.X + (square.Width / 2),
                square.Y + (square.Height / 2) + 1,
                Face.Serif,
                points,
                Canvas.Quiet,
                Stand.Middle
            );
        var baseline = square.Bottom + line;
        var id = shown is { IsTrue: false } ? $"{chip.Id}*" : chip.Id;
        canvas.Text(id, box.X, baseline, Face.SansBold, points);
        var used = canvas.Width(id, Face.SansBold, points) + 1.2;
        canvas.Text(canvas.Fit(chip.Caption, Face.Serif, points, box.Width - used), box.X + used, baseline, Face.Serif, points);
        foreach (var (words, face) in text)
        {
            baseline += line;
            canvas.Text(canvas.Fit(words, face, points, box.Width), box.X, baseline, face, points, Canvas.Quiet);
        }

        return shown is { IsTrue: false };
    }

    private static List<(string Words, Face Face)> Texts(ChartChip chip)
    {
        if (chip.Colour is not { } colour)
            return [];
        var lab = Lab.FromXyz(colour);
        var figures = string.Create(CultureInfo.InvariantCulture, $"{Signed(lab.L)}  {Signed(lab.A)}  {Signed(lab.B)}");
        return
        [
            (
                chip.UncertaintyDe00 is { } spread ? $"{figures}  ±{spread.ToString("0.0", CultureInfo.InvariantCulture)}" : figures,
                Face.Sans
            ),
            (ColourName.Of(colour).Name, Face.SerifItalic),
        ];
    }

    private static void Foot(Canvas canvas, PageSize page, IReadOnlyList<ChartChip> chips, bool outside)
    {
        var words =
            "Figures are CIELAB (D65, 2°): lightness, red–green, yellow–blue."
            + (
                chips.Any(chip => chip.UncertaintyDe00 is not null)
                    ? " ± is in CIEDE2000: the true colour lies within it 19 times in 20."
                    : ""
            )
            + " Names are ISCC–NBS. Printed colour is a guide; the painted sheet is the colour."
            + (outside ? " * more vivid than screens and printers can show." : "");
        var lines = canvas.Break(words, Face.Sans, 6, page.WidthMm - (2 * Margin));
        for (var line = 0; line < lines.Count; line++)
            canvas.Text(lines[line], Margin, page.HeightMm - Margin - ((lines.Count - 1 - line) * 2.7), Face.Sans, 6, Canvas.Quiet);
    }

    private static string Signed(double number) => number.ToString("0.0;−0.0", CultureInfo.InvariantCulture);

    [GeneratedRegex("^(?<column>[A-Z])(?<row>[1-9][0-9]?)$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex CellId();
}
