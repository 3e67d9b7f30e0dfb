using Dyewort.Readings;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using QRCoder;

namespace Dyewort.Print;

/// <summary>Where a line of text stands on its point.</summary>
internal enum Stand
{
    Left,
    Middle,
    Right,
}

/// <summary>One page: every length in millimetres from the top left, every letter size in points.</summary>
internal sealed class Canvas(XGraphics graphics) : IDisposable
{
    public const double Ink = 0.12;
    public const double Quiet = 0.42;
    public const double Hair = 0.6;

    private const double PointsPerMm = 72 / 25.4;
    private readonly Dictionary<(Face Face, double Size), XFont> fonts = [];

    public void Dispose() => graphics.Dispose();

    public void Fill(RectMm box, double grey) => graphics.DrawRectangle(new XSolidBrush(Grey(grey)), Box(box));

    public void Fill(RectMm box, (byte Red, byte Green, byte Blue) colour) =>
        graphics.DrawRectangle(new XSolidBrush(XColor.FromArgb(colour.Red, colour.Green, colour.Blue)), Box(box));

    public void FillCircle(double x, double y, double radius, (byte Red, byte Green, byte Blue) colour) =>
        graphics.DrawEllipse(
            new XSolidBrush(XColor.FromArgb(colour.Red, colour.Green, colour.Blue)),
            Box(new RectMm(x - radius, y - radius, 2 * radius, 2 * radius))
        );

    public void Outline(RectMm box, double grey, double widthMm, bool dashed = false) =>
        graphics.DrawRectangle(Pen(grey, widthMm, dashed), Box(box));

    public void OutlineCircle(double x, double y, double radius, double grey, double widthMm) =>
        graphics.DrawEllipse(Pen(grey, widthMm, dashed: false), Box(new RectMm(x - radius, y - radius, 2 * radius, 2 * radius)));

    public void Line(double x1, double y1, double x2, double y2, double grey, double widthMm) =>
        graphics.DrawLine(Pen(grey, widthMm, dashed: false), x1 * PointsPerMm, y1 * PointsPerMm, x2 * PointsPerMm, y2 * PointsPerMm);

    /// <summary>One line of text on its baseline.</summary>
    public void Text(string text, double x, double baseline, Face face, double points, double grey = Ink, Stand stand = Stand.Left)
    {
        var format = new XStringFormat
        {
            Alignment = stand switch
            {
                Stand.Middle => XStringAlignment.Center,
                Stand.Right => XStringAlignment.Far,
                _ => XStringAlignment.Near,
            },
            LineAlignment = XLineAlignment.BaseLine,
        };
        graphics.DrawString(
            text,
            Font(face, points),
            new XSolidBrush(Grey(grey)),
            new XPoint(x * PointsPerMm, baseline * PointsPerMm),
            format
        );
    }

    /// <summary>Width of a line of text in millimetres.</summary>
    public double Width(string text, Face face, double points) => graphics.MeasureString(text, Font(face, points)).Width / PointsPerMm;

    /// <summary>The text, shortened with an ellipsis where it is wider than its room.</summary>
    public string Fit(string text, Face face, double points, double widthMm)
    {
        if (Width(text, face, points) <= widthMm)
            return text;
        for (var length = text.Length - 1; length > 0; length--)
        {
            var shorter = text[..length].TrimEnd() + "…";
            if (Width(shorter, face, points) <= widthMm)
                return shorter;
        }

        return "";
    }

    /// <summary>The largest size, in half points, at which the text is not wider than its room; null when even the smallest is too
    /// large.</summary>
    public double? SizeThatFits(string text, Face face, double largest, double smallest, double widthMm)
    {
        for (var points = largest; points >= smallest; points -= 0.5)
        {
            if (Width(text, face, points) <= widthMm)
                return points;
        }

        return null;
    }

    /// <summary>Breaks text at spaces into lines that are not wider than their room; a longer word is broken anywhere.</summary>
    public IReadOnlyList<string> Break(string text, Face face, double points, double widthMm)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (Width(longer, face, points) <= widthMm)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0)
                lines.Add(line);
            line = word;
            while (line.Length > 1 && Width(line, face, points) > widthMm)
            {
                var take = line.Length - 1;
                while (take > 1 && Width(line[..take], face, points) > widthMm)
                    take--;
                lines.Add(line[..take]);
                line = line[take..];
            }
        }

        if (line.Length > 0)
            lines.Add(line);
        return lines;
    }

    /// <summary>A marker: black square, white cells as one shape, so that no seam shows between them.</summary>
    public void Marker(int id, RectMm box)
    {
        Fill(box, 0);
        var cells = Tag36h11.Cells(id);
        Runs(box, Tag36h11.Side, (row, column) => cells[row, column], XBrushes.White);
    }

    /// <summary>A square code for phones (ISO/IEC 18004), level M, as vector rectangles; its white border of four modules lies inside the
    /// box.</summary>
    public void QrCode(string content, RectMm box)
    {
        using var generator = new QRCodeGenerator();
        using var data = generator.CreateQrCode(content, QRCodeGenerator.ECCLevel.M);
        var modules = data.ModuleMatrix;
        Fill(box, 1);
        Runs(box, modules.Count, (row, column) => modules[row][column], XBrushes.Black);
    }

    private void Runs(RectMm box, int count, Func<int, int, bool> isSet, XBrush brush)
    {
        var step = box.Width / count;
        var path = new XGraphicsPath { FillMode = XFillMode.Winding };
        for (var row = 0; row < count; row++)
        {
            for (var column = 0; column < count; column++)
            {
                if (!isSet(row, column))
                    continue;
                var end = column;
                while (end < count && isSet(row, end))
                    end++;
                path.AddRectangle(
                    (box.X + (column * step)) * PointsPerMm,
                    (box.Y + (row * step)) * PointsPerMm,
                    (end - column) * step * PointsPerMm,
                    step * PointsPerMm
                );
                column = end;
            }
        }

        graphics.DrawPath(brush, path);
    }

    private XFont Font(Face face, double points)
    {
        if (!fonts.TryGetValue((face, points), out var font))
        {
            font = new XFont(Fonts.FileOf(face), points, XFontStyleEx.Regular, new XPdfFontOptions(PdfFontEncoding.Unicode));
            fonts.Add((face, points), font);
        }

        return font;
    }

    private static XPen Pen(double grey, double widthMm, bool dashed) =>
        dashed ? new XPen(Grey(grey), widthMm * PointsPerMm) { DashPattern = [8, 5] } : new XPen(Grey(grey), widthMm * PointsPerMm);

    private static XColor Grey(double lightness)
    {
        var level = (int)Math.Round(255 * lightness, MidpointRounding.AwayFromZero);
        return XColor.FromArgb(level, level, level);
    }

    private static XRect Box(RectMm box) =>
        new(box.X * PointsPerMm, box.Y * PointsPerMm, box.Width * PointsPerMm, box.Height * PointsPerMm);
}
