using System.Globalization;
using Dyewort.Quantities;
using Dyewort.Readings;

namespace Dyewort.Imaging;

/// <summary>A page found in a photo.</summary>
/// <param name="Pose">Millimetres to pixels.</param>
/// <param name="Markers">The markers it was found by.</param>
/// <param name="Warnings">What to know.</param>
public sealed record FoundPage(
    PagePose Pose,
    IReadOnlyList<(SheetMarker Printed, SeenMarker Seen)> Markers,
    IReadOnlyList<ReadingWarning> Warnings
);

/// <summary>Finds a printed sheet by its markers.</summary>
public static class FindPage
{
    /// <summary>Finds the page of a layout; two markers suffice at need, three give a good fit.</summary>
    public static Outcome<FoundPage> ByMarkers(string field, OpenPhoto photo, SheetLayout layout)
    {
        var seen = FindMarkers.In(photo, Math.Min(layout.Markers.Count, 4), layout.Markers.Count);
        var printed = layout.Markers.ToDictionary(marker => marker.Id);
        var corners = layout.Markers.Where(marker => marker.Id < 560).Select(marker => marker.Id).ToHashSet();
        var strangers = seen.Where(marker => marker.Id < 560 && !corners.Contains(marker.Id)).ToList();
        var own = seen.Where(marker => printed.ContainsKey(marker.Id)).ToList();
        var pairs = own.GroupBy(marker => marker.Id)
            .Select(group => group.OrderBy(marker => marker.WrongCells).ThenByDescending(marker => marker.Side).First())
            .Select(marker => (Printed: printed[marker.Id], Seen: marker))
            .ToList();

        var ownCorners = pairs.Count(pair => pair.Printed.Id < 560);
        if (ownCorners == 0 && corners.Count > 0 && strangers.Count > 0)
        {
            var number = strangers.GroupBy(marker => marker.Id / 4).OrderByDescending(group => group.Count()).First().Key;
            return Outcome.Refused<FoundPage>(
                field,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The page in this photo is another chart (its markers say number {number}, expected {corners.Min() / 4})."
                ),
                "Choose the chart that belongs to this photo, or photograph the right page."
            );
        }

        if (pairs.Count < 2 && Unreadable(field, photo) is { } unreadable)
            return unreadable;
        if (pairs.Count < 2)
        {
            return Outcome.Refused<FoundPage>(
                field,
                pairs.Count == 0
                    ? "No page was found in this photo: none of its corner markers can be seen."
                    : "Only one of the page's markers can be seen; that is too few to find its cells.",
                "Photograph the whole page, sharp and without glare, with at least three of its black-and-white corner markers free."
            );
        }

        var pose = CameraPose.Fit(layout, photo, pairs);
        if (pose is null || !Plausible(pose, layout))
        {
            return Outcome.Refused<FoundPage>(
                field,
                "The markers in this photo do not fit together as one page.",
                "Photograph one page at a time, lying flat."
            );
        }

        if (pose.ResidualPx > 0.25 * pairs.Average(pair => pair.Seen.Side))
        {
            return Outcome.Refused<FoundPage>(
                field,
                "The markers in this photo lie elsewhere than on the sheet that was named.",
                "Choose the sheet's own layout, and lay the page flat."
            );
        }

        var warnings = new List<ReadingWarning>();
        if (pairs.Count == 2)
            warnings.Add(
                new("markers", "Only two of the page's markers could be seen, so the places of the cells are rough. Keep all corners free.")
            );
        else if (InLine(pairs, layout))
            warnings.Add(
                new(
                    "markers",
                    "All markers that could be seen lie in one line, so the places of the cells are rough. Keep the other corners free."
                )
            );
        if (strangers.Count > 0)
            warnings.Add(new("neighbour", "Another chart is in the picture too; only this page's cells were read."));
        if (pose.ResidualPx > Math.Max(2, 0.03 * pairs.Average(pair => pair.Seen.Side)))
            warnings.Add(new("bent", "The page is bent or creased, so the places of the cells are rough. Lay it flat."));
        return Outcome.Of(new FoundPage(pose, pairs, warnings));
    }

    /// <summary>True when a photo shows the markers of other charts and none of this one's.</summary>
    public static bool ShowsAnother(OpenPhoto photo, SheetLayout layout)
    {
        var own = layout.Markers.Where(marker => marker.Id < 560).Select(marker => marker.Id).ToHashSet();
        var seen = FindMarkers.In(photo, Math.Min(layout.Markers.Count, 4)).Where(marker => marker.Id < 560).ToList();
        return seen.Count > 0 && own.Count > 0 && !seen.Exists(marker => own.Contains(marker.Id));
    }

    /// <summary>True when the page is exactly as large in the picture as the resolution that the file states: only a flatbed scanner does
    /// that.</summary>
    public static bool IsScan(OpenPhoto photo, PagePose pose, double widthMm, double heightMm)
    {
        if (photo.DotsPerInch is not { } dots || dots < 100)
            return false;
        var corners = pose.Project([new(0, 0), new(widthMm, 0), new(widthMm, heightMm), new(0, heightMm)]);
        double[] sides = [widthMm, heightMm, widthMm, heightMm];
        return Enumerable.Range(0, 4).All(i => Math.Abs((corners[i].DistanceTo(corners[(i + 1) % 4]) / sides[i] * 25.4 / dots) - 1) < 0.02);
    }

    /// <summary>Says so where it is the exposure that hides the markers; null where it is not.</summary>
    private static Outcome<FoundPage>? Unreadable(string field, OpenPhoto photo)
    {
        int white = 0,
            black = 0,
            all = 0;
        var pixels = photo.Pixels;
        for (var i = 0; i < pixels.Length; i += 97, all++)
        {
            var pixel = pixels[i];
            var (red, green, blue) = (pixel & 0xFF, (pixel >> 8) & 0xFF, (pixel >> 16) & 0xFF);
            if (Math.Min(red, Math.Min(green, blue)) >= 250)
                white++;
            else if (Math.Max(red, Math.Max(green, blue)) <= 16)
                black++;
        }

        if (white > 0.6 * all)
        {
            return Outcome.Refused<FoundPage>(
                field,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"This photo is overexposed: {100.0 * white / all:0} % of it is burnt out to white, and no page can be seen."
                ),
                "Take it again darker: tap the paper on the screen and slide the exposure down until the paper looks light grey."
            );
        }

        return black > 0.8 * all
            ? Outcome.Refused<FoundPage>(
                field,
                "This photo is too dark to show a page.",
                "Take it again with more light, or slide the exposure up until the paper looks light grey."
            )
            : null;
    }

    /// <summary>True where markers tell nothing of the page's other direction: they lie within a sixth of its shorter side of one
    /// line.</summary>
    private static bool InLine(IReadOnlyList<(SheetMarker Printed, SeenMarker Seen)> pairs, SheetLayout layout)
    {
        var points = pairs
            .Select(pair => new PointMm(pair.Printed.CornersMm.Average(p => p.X), pair.Printed.CornersMm.Average(p => p.Y)))
            .ToArray();
        double widest = 0;
        for (var i = 0; i < points.Length; i++)
        {
            for (var j = i + 1; j < points.Length; j++)
            {
                var (dx, dy) = (points[j].X - points[i].X, points[j].Y - points[i].Y);
                var length = Math.Sqrt((dx * dx) + (dy * dy));
                widest = Math.Max(
                    widest,
                    length < 1 ? 0 : points.Max(p => Math.Abs(((p.X - points[i].X) * dy) - ((p.Y - points[i].Y) * dx)) / length)
                );
            }
        }

        return widest < Math.Min(layout.WidthMm, layout.HeightMm) / 6;
    }

    /// <summary>The page must be a whole, unfolded quadrilateral with the size of its markers.</summary>
    private static bool Plausible(PagePose pose, SheetLayout layout)
    {
        var corners = pose.Project([new(0, 0), new(layout.WidthMm, 0), new(layout.WidthMm, layout.HeightMm), new(0, layout.HeightMm)]);
        double? turn = null;
        for (var i = 0; i < 4; i++)
        {
            var (a, b, c) = (corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
            var cross = ((b.X - a.X) * (c.Y - b.Y)) - ((b.Y - a.Y) * (c.X - b.X));
            if (!double.IsFinite(cross) || cross <= 0 || (turn is { } t && Math.Sign(t) != Math.Sign(cross)))
                return false;
            turn = cross;
        }

        return true;
    }
}
