using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>Finds a reference card or house strip in a photo by its grid and its colours.</summary>
/// <remarks>Even areas that lie like a grid seen in perspective are looked for beside the page; which grid, and which way round, is decided
/// by the patches' known colours after each channel has been scaled. The bounds are our own, tried on simulated and real photos
/// (docs/accuracy.md).</remarks>
public static class FindCardPlace
{
    private const int LongSide = 1500;

    /// <summary>A grid whose colours are off by more than this is no picture of the card: mean ΔE₀₀ after scaling, each patch at most
    /// 30.</summary>
    private const double MostDe00 = 15;

    /// <summary>The next best way round must be this much worse.</summary>
    private const double Apart = 1.35;

    /// <summary>Places of a card in a photo, best first, with how far its colours are off.</summary>
    private sealed record Guess(CardPlace Place, double De00);

    /// <summary>Finds the card.</summary>
    /// <param name="photo">The photo.</param>
    /// <param name="known">Its patches; some of the grid's places may be missing.</param>
    /// <param name="columns">Columns of its grid.</param>
    /// <param name="rows">Rows of its grid.</param>
    /// <param name="outlines">Where it cannot be: the page, or swatches outlined by hand; upright pixels.</param>
    /// <returns>Its place, or a refusal where no such grid, or more than one, can be seen.</returns>
    public static Outcome<CardPlace> ByColours(
        OpenPhoto photo,
        IReadOnlyList<CardPatch> known,
        int columns,
        int rows,
        IReadOnlyList<IReadOnlyList<PointPx>> outlines
    )
    {
        var size = Size(columns, rows);
        if (columns * rows < 4)
            return Outcome.Refused<CardPlace>(
                "card-corners",
                "A card of fewer than four patches cannot be told from its surroundings.",
                "Give its four outer corners."
            );
        var places = CardFile.Places(known, columns, rows);
        var picture = ColourPicture.Reduce(photo, LongSide);
        var target = new FileRgb?[columns * rows];
        for (var i = 0; i < known.Count; i++)
        {
            if (places[i] >= 0)
                target[places[i]] = photo.Colour.FromXyz(known[i].Lab.ToXyz());
        }

        var guesses = new List<Guess>();
        foreach (var grid in Candidates(picture, columns, rows, outlines))
        {
            foreach (var window in Windows(grid, columns, rows))
            {
                var off = Off(picture, photo.Colour, window, columns, rows, target);
                if (double.IsFinite(off))
                    guesses.Add(new(new([.. Corners(window, columns, rows).Select(p => picture.ToPhoto(p.X, p.Y))], columns, rows), off));
            }
        }

        if (guesses.Count == 0)
            return Outcome.Refused<CardPlace>(
                "card-corners",
                $"No grid of {size} patches was found beside the page.",
                "Lay the card flat and whole beside the page, or give its four outer corners."
            );
        var ordered = guesses.OrderBy(guess => guess.De00).ToList();
        var best = ordered[0];
        if (best.De00 > MostDe00)
        {
            return Outcome.Refused<CardPlace>(
                "card-corners",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"A grid of patches was found, but its colours are not the card's (off by ΔE00 {best.De00:0} on average)."
                ),
                "Check that the file belongs to this card and that the grid is columns x rows, or give the card's four outer corners."
            );
        }

        // The same place found twice is no second card.
        var other = ordered
            .Skip(1)
            .FirstOrDefault(guess =>
                guess.Place.Corners.Zip(best.Place.Corners).Max(pair => pair.First.DistanceTo(pair.Second)) > Side(best.Place) * 0.25
            );
        return other is null || other.De00 > Math.Max(Apart * best.De00, best.De00 + 2)
            ? Outcome.Of(best.Place)
            : Outcome.Refused<CardPlace>(
                "card-corners",
                "The card could lie in this photo in two ways.",
                "Give its four outer corners, clockwise from the patch that comes first."
            );
    }

    /// <summary>Finds a strip whose colours are not known yet: the only grid of its size beside the page. Its first patch is the one
    /// nearest to the photo's top left.</summary>
    public static Outcome<CardPlace> ByGrid(OpenPhoto photo, int columns, int rows, IReadOnlyList<IReadOnlyList<PointPx>> outlines)
    {
        var picture = ColourPicture.Reduce(photo, LongSide);
        var found = new List<CardPlace>();
        foreach (var grid in Candidates(picture, columns, rows, outlines))
        {
            var whole = Windows(grid, columns, rows)
                .Where(window => Inside(grid, window, columns, rows) == columns * rows && grid.At.Count == columns * rows)
                .ToList();
            if (whole.Count == 0)
                continue;
            var place = whole
                .Select(window => new CardPlace([.. Corners(window, columns, rows).Select(p => picture.ToPhoto(p.X, p.Y))], columns, rows))
                .MinBy(one => one.Corners[0].X + one.Corners[0].Y)!;
            if (!found.Exists(one => Middle(one).DistanceTo(Middle(place)) < 0.5 * Side(place)))
                found.Add(place);
        }

        return found.Count switch
        {
            1 => Outcome.Of(found[0]),
            0 => Outcome.Refused<CardPlace>(
                "card-corners",
                $"No grid of {Size(columns, rows)} patches was found beside the page.",
                "Lay the strip flat and whole beside the page, or give its four outer corners."
            ),
            _ => Outcome.Refused<CardPlace>(
                "card-corners",
                $"More than one grid of {Size(columns, rows)} patches was found in this photo.",
                "Give the strip's four outer corners, clockwise from the patch that comes first."
            ),
        };
    }

    private static string Size(int columns, int rows) => string.Create(CultureInfo.InvariantCulture, $"{columns} x {rows}");

    private static PointPx Middle(CardPlace place) => new(place.Corners.Average(p => p.X), place.Corners.Average(p => p.Y));

    private static double Side(CardPlace place) =>
        Enumerable
            .Range(0, 4)
            .Min(i => place.Corners[i].DistanceTo(place.Corners[(i + 1) % 4]) / (i % 2 == 0 ? place.Columns : place.Rows));

    private static IEnumerable<PatchGrid> Candidates(
        ColourPicture picture,
        int columns,
        int rows,
        IReadOnlyList<IReadOnlyList<PointPx>> outlines
    )
    {
        bool IsOutside(double x, double y)
        {
            var at = picture.ToPhoto(x, y);
            return !outlines.Any(outline => Contains(outline, at));
        }

        // Grain and blur ask for different steps: what one pass misses the other finds.
        foreach (var (blur, steep) in new[] { (0, 6.0), (1, 3.5), (1, 8.0) })
        {
            var soft = blur == 0 ? picture : picture.Blurred(blur);
            var areas = PatchGrids.Areas(soft, soft.Slopes(), steep, IsOutside);
            var grids =
                columns > 1 && rows > 1
                    ? PatchGrids.Grids(areas, Math.Max(4, (columns * rows * 11 / 20) + 1)).Take(6)
                    : PatchGrids.Rows(areas, Math.Max(columns, rows));
            foreach (var grid in grids)
                yield return grid;
        }
    }

    /// <summary>Every way in which a card of that size can lie on a grid: where, and which way round. A way is the grid's place of the
    /// first patch and of its neighbours.</summary>
    private static IEnumerable<(Homography Map, (int U, int V) First, (int U, int V) Across, (int U, int V) Down)> Windows(
        PatchGrid grid,
        int columns,
        int rows
    )
    {
        var (u0, u1) = (grid.At.Keys.Min(p => p.U), grid.At.Keys.Max(p => p.U));
        var (v0, v1) = (grid.At.Keys.Min(p => p.V), grid.At.Keys.Max(p => p.V));
        for (var quarter = 0; quarter < 4; quarter++)
        {
            var (w, h) = quarter % 2 == 0 ? (columns, rows) : (rows, columns);
            for (var u = Math.Min(u0, u1 - w + 1); u <= Math.Max(u0, u1 - w + 1); u++)
            {
                for (var v = Math.Min(v0, v1 - h + 1); v <= Math.Max(v0, v1 - h + 1); v++)
                {
                    var way = quarter switch
                    {
                        0 => (grid.Map, (u, v), (1, 0), (0, 1)),
                        1 => (grid.Map, (u + w - 1, v), (0, 1), (-1, 0)),
                        2 => (grid.Map, (u + w - 1, v + h - 1), (-1, 0), (0, -1)),
                        _ => (grid.Map, (u, v + h - 1), (0, -1), (1, 0)),
                    };
                    if (Inside(grid, way, columns, rows) * 2 > columns * rows)
                        yield return way;
                }
            }
        }
    }

    private static int Inside(
        PatchGrid grid,
        (Homography Map, (int U, int V) First, (int U, int V) Across, (int U, int V) Down) window,
        int columns,
        int rows
    )
    {
        var count = 0;
        for (var i = 0; i < columns * rows; i++)
        {
            var (column, row) = (i % columns, i / columns);
            if (
                grid.At.ContainsKey(
                    (
                        window.First.U + (column * window.Across.U) + (row * window.Down.U),
                        window.First.V + (column * window.Across.V) + (row * window.Down.V)
                    )
                )
            )
                count++;
        }

        return count;
    }

    private static PointPx At(
        (Homography Map, (int U, int V) First, (int U, int V) Across, (int U, int V) Down) window,
        double column,
        double row
    ) =>
        window.Map.Map(
            window.First.U + (column * window.Across.U) + (row * window.Down.U),
            window.First.V + (column * window.Across.V) + (row * window.Down.V)
        );

    private static IEnumerable<PointPx> Corners(
        (Homography Map, (int U, int V) First, (int U, int V) Across, (int U, int V) Down) window,
        int columns,
        int rows
    ) => [At(window, -0.5, -0.5), At(window, columns - 0.5, -0.5), At(window, columns - 0.5, rows - 0.5), At(window, -0.5, rows - 0.5)];

    /// <summary>Mean ΔE₀₀ between the patches and the card, each channel scaled so that they agree in the middle; infinite where patches
    /// lie outside of the picture.</summary>
    private static double Off(
        ColourPicture picture,
        FileColour colour,
        (Homography Map, (int U, int V) First, (int U, int V) Across, (int U, int V) Down) window,
        int columns,
        int rows,
        FileRgb?[] target
    )
    {
        var seen = new List<(FileRgb Seen, FileRgb Known)>();
        for (var i = 0; i < target.Length; i++)
        {
            if (target[i] is not { } known)
                continue;
            double r = 0,
                g = 0,
                b = 0;
            for (var k = 0; k < 9; k++)
            {
                var p = At(window, (i % columns) + (0.15 * ((k % 3) - 1)), (i / columns) + (0.15 * ((k / 3) - 1)));
                var (x, y) = ((int)Math.Round(p.X), (int)Math.Round(p.Y));
                if (x < 0 || y < 0 || x >= picture.Width || y >= picture.Height)
                    return double.PositiveInfinity;
                var light = picture.LightAt((y * picture.Width) + x);
                (r, g, b) = (r + (light.R / 9), g + (light.G / 9), b + (light.B / 9));
            }

            seen.Add((new(Math.Max(r, 1e-4), Math.Max(g, 1e-4), Math.Max(b, 1e-4)), known));
        }

        if (seen.Count < 4)
            return double.PositiveInfinity;
        var gain = new double[3];
        for (var channel = 0; channel < 3; channel++)
        {
            var c = channel;
            var logs = seen.Where(pair => pair.Known[c] > 0.03).Select(pair => Math.Log(pair.Seen[c] / pair.Known[c])).Order().ToArray();
            if (logs.Length < 2)
                return double.PositiveInfinity;
            gain[c] = Math.Exp((logs[(logs.Length - 1) / 2] + logs[logs.Length / 2]) / 2);
        }

        return seen.Average(pair =>
            Math.Min(
                30,
                Difference.Ciede2000(
                    Lab.FromXyz(colour.ToXyz(new(pair.Seen.R / gain[0], pair.Seen.G / gain[1], pair.Seen.B / gain[2]))),
                    Lab.FromXyz(colour.ToXyz(pair.Known))
                )
            )
        );
    }

    private static bool Contains(IReadOnlyList<PointPx> outline, PointPx point)
    {
        var inside = false;
        for (int i = 0, j = outline.Count - 1; i < outline.Count; j = i++)
        {
            var (a, b) = (outline[i], outline[j]);
            if (a.Y > point.Y != b.Y > point.Y && point.X < ((b.X - a.X) * (point.Y - a.Y) / (b.Y - a.Y)) + a.X)
                inside = !inside;
        }

        return inside;
    }
}
