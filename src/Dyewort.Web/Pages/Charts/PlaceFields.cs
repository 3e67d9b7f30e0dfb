using Dyewort.Readings;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Readings;
using Microsoft.AspNetCore.Http;

namespace Dyewort.Web.Pages.Charts;

/// <summary>The fields of the page on which a maker points to swatches.</summary>
internal static class PlaceFields
{
    public const string Spot = "Spot-";

    public static string[] Corners { get; } = ["Corner1", "Corner2", "Corner3", "Corner4"];

    public static string[] StripCorners { get; } = ["Strip1", "Strip2", "Strip3", "Strip4"];

    /// <summary>The way that the page shows: as asked, else as it was done before, else what suits the chart.</summary>
    public static string WayOf(ShowPhotoAnswer answer, string? asked)
    {
        if (asked == "" && answer is { HasSheet: true, Strip: not null })
            return "";
        if (Enum.TryParse<PlacingWay>(asked, out var way) && Enum.IsDefined(way) && (way != PlacingWay.Sheet || answer.HasSheet))
            return way.ToString();
        if (answer.Placing is { } placing)
            return placing.Way.ToString();
        if (answer.HasSheet)
            return answer.Strip is null ? nameof(PlacingWay.Sheet) : "";
        return nameof(PlacingWay.Spots);
    }

    public static IReadOnlyList<PointField> Of(
        ShowPhotoAnswer answer,
        string way,
        IReadOnlyDictionary<string, IReadOnlyList<PointPx>> proposed,
        Func<string, string?> value
    )
    {
        var (width, height) = (answer.Photo.WidthPx ?? 1600, answer.Photo.HeightPx ?? 1600);
        var points = new List<PointField>();
        if (way == nameof(PlacingWay.Spots))
        {
            var before = answer.Placing?.Spots.ToDictionary(spot => spot.Id, spot => spot.PolygonPx) ?? [];
            points.AddRange(
                answer.Places.Select(place => new PointField(
                    Spot + place.Cell,
                    $"{place.Cell}, jar {place.Jar}",
                    place.Cell,
                    value(Spot + place.Cell)
                        ?? Placing.Say(before.GetValueOrDefault(place.Cell) ?? proposed.GetValueOrDefault(place.Cell) ?? [])
                ))
            );
        }
        else if (way.Length > 0)
        {
            var before =
                answer.Placing is { Corners.Count: 4 } placing && placing.Way.ToString() == way ? placing.Corners
                : way == nameof(PlacingWay.Sheet) && answer.Report?.Corners is { Count: 4 } seen ? seen
                : PointField.Inside(width, height);
            points.AddRange(PointField.Quad("Corner", PointField.CornersOfPage, before, value));
        }

        if (answer.Strip is not null)
        {
            var at = Placing.PointsOf(answer.Photo.StripCornersJson) is { Count: 4 } known
                ? known
                : PointField.Inside(width, height, 0.3, 0.02, 0.7, 0.1);
            points.AddRange(
                PointField.Quad(
                    "Strip",
                    [
                        .. new[] { "the corner of its first patch", "second corner", "third corner", "fourth corner" }.Select(corner =>
                            $"{(answer.Strip.IsCard ? "Card" : "Strip")}, {corner}"
                        ),
                    ],
                    at,
                    value
                )
            );
        }

        return points;
    }

    public static PlaceSwatchesForm Read(IFormCollection form) =>
        new()
        {
            Way = form["Way"],
            Corner = [.. Corners.Select(name => form[name].ToString())],
            Columns = form["Columns"],
            Rows = form["Rows"],
            Side = form["Side"],
            StripCorner = [.. StripCorners.Select(name => form[name].ToString())],
            Spots = form.Where(pair => pair.Key.StartsWith(Spot, StringComparison.Ordinal))
                .ToDictionary(pair => pair.Key[Spot.Length..], pair => pair.Value.ToString()),
        };
}
