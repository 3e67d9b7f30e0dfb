using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>An area of a photo that looks like a painted swatch.</summary>
/// <param name="OutlinePx">Its convex outline with at most eight corners, clockwise, upright pixels.</param>
/// <param name="Confidence">0 to 1: how much it looks like paint on paper. A number of our own making, not a probability.</param>
public sealed record FoundSwatch(IReadOnlyList<PointPx> OutlinePx, double Confidence);

/// <summary>What was found on a photo without markers.</summary>
/// <param name="Swatches">In reading order: rows from the top, each from the left.</param>
/// <param name="PaperPx">Outline of the paper they lie on.</param>
public sealed record FoundSwatches(IReadOnlyList<FoundSwatch> Swatches, IReadOnlyList<PointPx> PaperPx);

/// <summary>Proposes swatches on paper without any markers.</summary>
/// <remarks>Paper is a large light area in which the light changes slowly; a swatch is an area enclosed by it that differs from the paper's
/// own light there. Areas that are only darker, with a soft edge, are shadows; areas that reach the paper's edge are not enclosed.
/// The thresholds are our own, tried on simulated photos (docs/accuracy.md).</remarks>
public static class FindSwatches
{
    private const int LongSide = 900;

    /// <summary>Least part of the paper that a swatch covers: 5 mm square on A4.</summary>
    private const double LeastShare = 0.0004;

    /// <summary>Largest part of the paper that one swatch covers.</summary>
    private const double MostShare = 0.4;

    /// <summary>Looks for swatches.</summary>
    /// <returns>Nothing where there is no light paper, or nothing painted on it.</returns>
    public static FoundSwatches In(OpenPhoto photo)
    {
        var picture = ColourPicture.Reduce(photo, LongSide).Blurred(1);
        var slopes = picture.Slopes();
        var (width, height) = (picture.Width, picture.Height);
        var calm = slopes.Order().ElementAt(slopes.Length * 3 / 10);
        var steep = Math.Clamp(4 * calm, 1.4, 3.5);
        var flat = new bool[slopes.Length];
        for (var i = 0; i < flat.Length; i++)
            flat[i] = slopes[i] < steep;
        var areas = Regions.Of(flat, width, height);
        var best = new FoundSwatches([], []);
        double most = 0;
        foreach (
            var area in areas
                .All.Where(area => area.Area > 0.015 * flat.Length)
                .OrderByDescending(area => area.Area * Math.Pow(Light(picture, area), 2))
                .Take(4)
        )
        {
            if (Light(picture, area) < 30)
                continue;
            var found = OnPaper(picture, slopes, areas, area);
            var sum = found.Swatches.Sum(swatch => swatch.Confidence) * Math.Pow(Light(picture, area) / 100, 2);
            if (sum > most || best.PaperPx.Count == 0)
                (best, most) = (found, Math.Max(sum, most));
        }

        return best;
    }

    private static double Light(ColourPicture picture, Region area)
    {
        double sum = 0;
        var n = 0;
        for (var i = 0; i < area.Places.Count; i += 7)
        {
            sum += picture[1][area.Places[i]];
            n++;
        }

        return sum / n;
    }

    private static FoundSwatches OnPaper(ColourPicture picture, float[] slopes, Regions areas, Region paper)
    {
        var (width, height) = (picture.Width, picture.Height);
        var isPaper = new bool[slopes.Length];
        foreach (var place in paper.Places)
            isPaper[place] = true;

        // The page is the paper with everything it encloses.
        var beyond = Regions.Of([.. isPaper.Select(value => !value)], width, height);
        var page = (bool[])isPaper.Clone();
        foreach (var hole in beyond.All.Where(hole => !hole.TouchesRim))
        {
            foreach (var place in hole.Places)
                page[place] = true;
        }

        var pageArea = page.Count(value => value);
        var light = PaperLight(picture, isPaper, paper, width, height);
        if (light is null)
            return new([], []);

        // How far each pixel of the page is from bare paper: hue counts double, because shadows have little.
        var off = new float[slopes.Length];
        var hue = new float[slopes.Length];
        var sample = new List<float>();
        for (var i = 0; i < page.Length; i++)
        {
            if (!page[i])
                continue;
            var (r, g, b) = (picture[0][i] - light[0][i], picture[1][i] - light[1][i], picture[2][i] - light[2][i]);
            var mean = (r + g + b) / 3;
            hue[i] = MathF.Sqrt(((r - mean) * (r - mean)) + ((g - mean) * (g - mean)) + ((b - mean) * (b - mean)));
            off[i] = MathF.Sqrt((mean * mean) + (4 * hue[i] * hue[i]));
            if (isPaper[i] && i % 5 == 0)
                sample.Add(off[i]);
        }

        sample.Sort();
        var noise = sample.Count == 0 ? 0.5f : sample[sample.Count / 2];
        var limit = Math.Max(2.2f, 4 * noise);
        var painted = new bool[page.Length];
        for (var i = 0; i < page.Length; i++)
            painted[i] = page[i] && off[i] > limit;
        painted = Regions.Grown(Regions.Shrunk(painted, width, height, 1), width, height, 1);
        painted = Regions.Shrunk(Regions.Grown(painted, width, height, 2), width, height, 2);
        var found = new List<(FoundSwatch Swatch, double X, double Y, double Size)>();
        foreach (var blob in Regions.Of(painted, width, height).All)
        {
            if (blob.TouchesRim || blob.Area < LeastShare * pageArea || blob.Area > MostShare * pageArea)
                continue;
            if (Judge(picture, slopes, blob, page, isPaper, off, hue, noise, width) is not { } judged)
                continue;
            found.Add((judged, blob.X, blob.Y, Math.Sqrt(blob.Area)));
        }

        var outline = Regions.Simplified(
            Regions.Hull(paper.Places.Select(place => ((double)(place % width), (double)(place / width)))),
            12
        );
        return new([.. InReadingOrder(Alike(found)).Select(one => one.Swatch)], [.. outline.Select(p => picture.ToPhoto(p.X, p.Y))]);
    }

    /// <summary>What bare paper would look like at every pixel: a smooth surface through the paper, then what is left of it
    /// smoothed.</summary>
    private static float[][]? PaperLight(ColourPicture picture, bool[] isPaper, Region paper, int width, int height)
    {
        var samples = new List<PaperSample>();
        var step = Math.Max(1, paper.Area / 1500);
        for (var i = 0; i < paper.Area; i += step)
        {
            var place = paper.Places[i];
            samples.Add(new(place % width, place / width, picture.LightAt(place), 0.01, 0));
        }

        if (LightMap.Fit(samples) is not { } map)
            return null;
        var result = new float[3][];
        for (var channel = 0; channel < 3; channel++)
            result[channel] = new float[isPaper.Length];
        const int Coarse = 4;
        for (var y = 0; y < height; y += Coarse)
        {
            for (var x = 0; x < width; x += Coarse)
            {
                var at = map.At(x + 1.5, y + 1.5);
                for (var channel = 0; channel < 3; channel++)
                {
                    var value = (float)((116 * Math.Cbrt(Math.Clamp(at[channel], 1e-4, 1.5))) - 16);
                    for (var v = y; v < Math.Min(height, y + Coarse); v++)
                        Array.Fill(result[channel], value, (v * width) + x, Math.Min(Coarse, width - x));
                }
            }
        }

        // Paint that leaked into the paper differs in hue, or by much: it has no say in what is left.
        var radius = Math.Max(4, (int)(Math.Sqrt(paper.Area) / 14));
        var weight = new float[isPaper.Length];
        foreach (var place in paper.Places)
        {
            var (r, g, b) = (
                picture[0][place] - result[0][place],
                picture[1][place] - result[1][place],
                picture[2][place] - result[2][place]
            );
            var mean = (r + g + b) / 3;
            if (Math.Abs(r - mean) + Math.Abs(b - mean) < 3 && Math.Abs(mean) < 14)
                weight[place] = 1;
        }

        var sums = ColourPicture.Blur(weight, width, height, radius);
        for (var channel = 0; channel < 3; channel++)
        {
            var rest = new float[isPaper.Length];
            for (var i = 0; i < rest.Length; i++)
                rest[i] = weight[i] * (picture[channel][i] - result[channel][i]);
            var smooth = ColourPicture.Blur(rest, width, height, radius);
            for (var i = 0; i < rest.Length; i++)
                result[channel][i] += smooth[i] / (sums[i] + 0.02f);
        }

        return result;
    }

    private static FoundSwatch? Judge(
        ColourPicture picture,
        float[] slopes,
        Region blob,
        bool[] page,
        bool[] isPaper,
        float[] off,
        float[] hue,
        float noise,
        int width
    )
    {
        var hull = Regions.Hull(
            blob.Places.SelectMany(place =>
            {
                var (x, y) = (place % width, place / width);
                return new[] { (x - 0.5, y - 0.5), (x + 0.5, y - 0.5), (x - 0.5, y + 0.5), (x + 0.5, y + 0.5) };
            })
        );
        var hullArea = Regions.AreaOf(hull);
        var solid = blob.Area / Math.Max(1, hullArea);
        var (spanX, spanY) = (hull.Max(p => p.X) - hull.Min(p => p.X), hull.Max(p => p.Y) - hull.Min(p => p.Y));

        // Lines of writing and creases are thin: the area over the square of the longest way across tells.
        var longest = hull.Max(p => hull.Max(q => Math.Sqrt(((p.X - q.X) * (p.X - q.X)) + ((p.Y - q.Y) * (p.Y - q.Y)))));
        var stout = blob.Area / (longest * longest);
        if (solid < 0.5 || stout < 0.1 || Math.Min(spanX, spanY) < 5)
            return null;

        double depth = 0,
            colour = 0;
        foreach (var place in blob.Places)
        {
            depth += off[place];
            colour += hue[place];
        }

        depth /= blob.Area;
        colour /= blob.Area;

        // Around the blob: is it paper, and how sharp is the edge?
        var inside = blob.Places.ToHashSet();
        var edges = new List<float>();
        int rim = 0,
            paperRim = 0;
        foreach (var place in blob.Places)
        {
            var open =
                !inside.Contains(place - 1)
                || !inside.Contains(place + 1)
                || !inside.Contains(place - width)
                || !inside.Contains(place + width);
            if (!open)
                continue;
            var (x, y) = (place % width, place / width);
            var (dx, dy) = (x - blob.X, y - blob.Y);
            var length = Math.Max(1, Math.Sqrt((dx * dx) + (dy * dy)));
            var steepest = 0f;
            for (var k = -2; k <= 2; k++)
            {
                var at = At(x + (k * dx / length), y + (k * dy / length));
                if (at >= 0)
                    steepest = Math.Max(steepest, slopes[at]);
            }

            edges.Add(steepest);
            rim++;
            var outer = At(x + (6 * dx / length), y + (6 * dy / length));
            if (outer >= 0 && page[outer] && (isPaper[outer] || off[outer] < 5 * noise))
                paperRim++;
        }

        edges.Sort();
        var sharp = edges[edges.Count / 2] / Math.Max(2, depth);
        var enclosed = paperRim / (double)rim;
        if (enclosed < 0.6)
            return null;

        // A shadow is dark without hue, and fades out.
        if (colour < 0.06 * depth && sharp < 0.12)
            return null;
        var confidence =
            Ramp(depth / Math.Max(0.4, noise), 4, 14)
            * Ramp(solid, 0.5, 0.85)
            * Ramp(enclosed, 0.55, 0.9)
            * Ramp(sharp, 0.02, 0.25)
            * Ramp(stout, 0.08, 0.3);
        return new(
            [.. Regions.Simplified(hull, 8).Select(p => picture.ToPhoto(p.X, p.Y))],
            Math.Round(Math.Clamp(Math.Pow(confidence, 0.5), 0.01, 0.99), 2)
        );

        int At(double x, double y)
        {
            var (column, row) = ((int)Math.Round(x), (int)Math.Round(y));
            return column < 0 || row < 0 || column >= width || row >= slopes.Length / width ? -1 : (row * width) + column;
        }
    }

    private static double Ramp(double value, double from, double to) => Math.Clamp((value - from) / (to - from), 0.05, 1);

    /// <summary>Specks far smaller than the rest are doubted.</summary>
    private static List<(FoundSwatch Swatch, double X, double Y, double Size)> Alike(
        List<(FoundSwatch Swatch, double X, double Y, double Size)> found
    )
    {
        if (found.Count < 3)
            return found;
        var usual = found
            .Where(one => one.Swatch.Confidence > 0.3)
            .Select(one => one.Size)
            .DefaultIfEmpty(found.Max(one => one.Size))
            .Order()
            .ToArray();
        var middle = usual[usual.Length / 2];
        return
        [
            .. found
                .Where(one => one.Size > 0.3 * middle)
                .Select(one =>
                    one.Size < 0.5 * middle
                        ? one with
                        {
                            Swatch = one.Swatch with { Confidence = Math.Round(one.Swatch.Confidence * 0.5, 2) },
                        }
                        : one
                ),
        ];
    }

    /// <summary>Rows from the top, each from the left, on paper that may lie a little turned.</summary>
    private static List<(FoundSwatch Swatch, double X, double Y, double Size)> InReadingOrder(
        List<(FoundSwatch Swatch, double X, double Y, double Size)> found
    )
    {
        if (found.Count < 2)
            return found;

        // Neighbours of a grid lie along two directions at a right angle: the mean of four times the angle tells the turn.
        double sin = 0,
            cos = 0;
        foreach (var one in found)
        {
            var near = found.Where(other => other != one).MinBy(other => Math.Pow(other.X - one.X, 2) + Math.Pow(other.Y - one.Y, 2));
            var angle = 4 * Math.Atan2(near.Y - one.Y, near.X - one.X);
            sin += Math.Sin(angle);
            cos += Math.Cos(angle);
        }

        var turn = Math.Sqrt((sin * sin) + (cos * cos)) > 0.6 * found.Count ? Math.Atan2(sin, cos) / 4 : 0;
        var (s, c) = Math.SinCos(-turn);
        var turned = found
            .Select(one => (One: one, X: (one.X * c) - (one.Y * s), Y: (one.X * s) + (one.Y * c)))
            .OrderBy(one => one.Y)
            .ToList();
        var size = found.Select(one => one.Size).Order().ElementAt(found.Count / 2);
        var rows = new List<List<((FoundSwatch Swatch, double X, double Y, double Size) One, double X, double Y)>>();
        foreach (var one in turned)
        {
            if (rows.Count > 0 && one.Y - rows[^1].Average(other => other.Y) < 0.6 * size)
                rows[^1].Add(one);
            else
                rows.Add([one]);
        }

        return [.. rows.SelectMany(row => row.OrderBy(one => one.X)).Select(one => one.One)];
    }
}
