using Dyewort.Colour;
using Dyewort.Readings;

namespace Dyewort.Imaging.Tests;

/// <summary>Sheets for tests, laid out here and nowhere else.</summary>
internal static class TestSheets
{
    public static SheetLayout Small(int chart = 0, bool edges = false)
    {
        const double W = 148,
            H = 210,
            S = 12;
        (double X, double Y, int Id)[] places =
        [
            (8, 8, 4 * chart),
            (W - 8 - S, 8, (4 * chart) + 1),
            (W - 8 - S, H - 8 - S, (4 * chart) + 2),
            (8, H - 8 - S, (4 * chart) + 3),
            .. edges
                ? [((W - S) / 2, 8.0, 560), (W - 8 - S, (H - S) / 2, 561), ((W - S) / 2, H - 8 - S, 562), (8.0, (H - S) / 2, 563)]
                : Array.Empty<(double, double, int)>(),
        ];
        var markers = places
            .Select(p => new SheetMarker(p.Id, [new(p.X, p.Y), new(p.X + S, p.Y), new(p.X + S, p.Y + S), new(p.X, p.Y + S)]))
            .ToArray();
        var cells = new List<SheetCell>();
        var left = edges ? 26.0 : 10;
        var pitch = (W - (2 * left)) / 4;
        for (var row = 0; row < 6; row++)
        {
            for (var column = 0; column < 4; column++)
            {
                var (x, y) = (left + (column * pitch) + 3, 26 + (row * 26.5));
                var (r, b) = (x + pitch - 7, y + 18);
                cells.Add(new($"{(char)('A' + column)}{row + 1}", [new(x, y), new(r, y), new(r, b), new(x, b)]));
            }
        }

        return new(W, H, markers, cells);
    }

    /// <summary>24 colours that plant inks have, all within sRGB.</summary>
    public static IReadOnlyDictionary<string, Lab> Paint(SheetLayout layout)
    {
        var paint = new Dictionary<string, Lab>();
        for (var i = 0; i < layout.Cells.Count; i++)
        {
            var (l, hue, chroma) = (30 + (i * 37 % 56), i * 67 % 360, 8 + (i * 13 % 24));
            var (sin, cos) = Math.SinCos(hue * Math.PI / 180);
            paint[layout.Cells[i].Id] = new(l, chroma * cos, chroma * sin);
        }

        return paint;
    }
}
