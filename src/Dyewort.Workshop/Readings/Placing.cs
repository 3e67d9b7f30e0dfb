using System.Globalization;
using System.Text.Json;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Readings;

namespace Dyewort.Workshop.Readings;

/// <summary>How a maker points to the swatches on a photo.</summary>
public enum PlacingWay
{
    /// <summary>The four corners of the printed sheet, because its markers cannot be seen.</summary>
    Sheet,

    /// <summary>The four outer corners of swatches that lie in rows, and how many there are each way.</summary>
    Grid,

    /// <summary>Each swatch by itself.</summary>
    Spots,
}

/// <summary>Where a maker pointed to the swatches on a photo, in pixels of the upright picture.</summary>
public sealed record Placing
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    public PlacingWay Way { get; init; }

    /// <summary>Four corners, clockwise from the top left; empty where each swatch was pointed to.</summary>
    public IReadOnlyList<PointPx> Corners { get; init; } = [];

    public int Columns { get; init; }

    public int Rows { get; init; }

    /// <summary>Outline of each swatch by its cell.</summary>
    public IReadOnlyList<ReadPhoto.Spot> Spots { get; init; } = [];

    public string ToJson() =>
        JsonSerializer.Serialize(
            new Shape(
                Way.ToString(),
                Pairs(Corners),
                Columns,
                Rows,
                [.. Spots.Select(spot => new SpotShape(spot.Id, Pairs(spot.PolygonPx)))]
            ),
            Options
        );

    /// <summary>Reads what <see cref="ToJson"/> wrote; null for null.</summary>
    public static Placing? FromJson(string? json) =>
        json is null || JsonSerializer.Deserialize<Shape>(json, Options) is not { } shape
            ? null
            : new()
            {
                Way = Enum.Parse<PlacingWay>(shape.Way),
                Corners = Points(shape.Corners),
                Columns = shape.Columns,
                Rows = shape.Rows,
                Spots = [.. shape.Spots.Select(spot => new ReadPhoto.Spot(spot.Id, Points(spot.Polygon)))],
            };

    /// <summary>Points as JSON, [[x,y],…], tenths of a pixel.</summary>
    internal static string PointsJson(IReadOnlyList<PointPx> points) => JsonSerializer.Serialize(Pairs(points), Options);

    /// <summary>Points out of JSON; none for null.</summary>
    public static IReadOnlyList<PointPx> PointsOf(string? json) =>
        json is null ? [] : Points(JsonSerializer.Deserialize<double[][]>(json, Options)!);

    /// <summary>A point as a form's field says it: "812, 1040".</summary>
    public static string Say(PointPx point) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(point.X)}, {Math.Round(point.Y)}");

    /// <summary>Points as a form's field says them, one after the other.</summary>
    public static string Say(IReadOnlyList<PointPx> points) => string.Join("  ", points.Select(Say));

    /// <summary>Reads points as they are typed: pairs of numbers with anything but a digit, a point or a minus between them.</summary>
    /// <returns>Null where the text holds an odd number of numbers or something that is none.</returns>
    public static IReadOnlyList<PointPx>? Parse(string? text)
    {
        var parts = (text ?? "").Split([' ', ',', ';', '\t', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length % 2 == 1)
            return null;
        var points = new PointPx[parts.Length / 2];
        for (var i = 0; i < parts.Length; i++)
        {
            if (
                !double.TryParse(
                    parts[i],
                    NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
                    CultureInfo.InvariantCulture,
                    out var number
                )
                || Math.Abs(number) > 100_000
            )
                return null;
            points[i / 2] = i % 2 == 0 ? points[i / 2] with { X = number } : points[i / 2] with { Y = number };
        }

        return points;
    }

    /// <summary>A square about a point, clockwise from its top left.</summary>
    public static IReadOnlyList<PointPx> Square(PointPx middle, double side) =>
        [
            new(middle.X - (side / 2), middle.Y - (side / 2)),
            new(middle.X + (side / 2), middle.Y - (side / 2)),
            new(middle.X + (side / 2), middle.Y + (side / 2)),
            new(middle.X - (side / 2), middle.Y + (side / 2)),
        ];

    /// <summary>The outline of every cell on the photo.</summary>
    /// <param name="cells">The chart's cells, in its order.</param>
    /// <param name="layout">The chart's sheet.</param>
    /// <returns>Null where four corners do not make a page.</returns>
    public IReadOnlyList<ReadPhoto.Spot>? Outlines(IReadOnlyList<string> cells, SheetLayout layout)
    {
        switch (Way)
        {
            case PlacingWay.Spots:
                return Spots;
            case PlacingWay.Sheet:
                PointMm[] page = [new(0, 0), new(layout.WidthMm, 0), new(layout.WidthMm, layout.HeightMm), new(0, layout.HeightMm)];
                return PagePose.FromPoints(page, Corners) is { } pose
                    ?
                    [
                        .. layout
                            .Cells.Where(cell => cells.Contains(cell.Id))
                            .Select(cell => new ReadPhoto.Spot(cell.Id, pose.Project(cell.PolygonMm))),
                    ]
                    : null;
            default:
                if (ReadPhoto.GridSpots(Corners, Columns, Rows) is not { } places)
                    return null;
                if (Columns == layout.Columns && Rows == layout.Rows)
                    return
                    [
                        .. places
                            .Zip(layout.Cells, (place, cell) => new ReadPhoto.Spot(cell.Id, place.PolygonPx))
                            .Where(place => cells.Contains(place.Id)),
                    ];

                // Another arrangement than the chart's: along the rows, as one reads.
                return [.. places.Zip(cells, (place, cell) => new ReadPhoto.Spot(cell, place.PolygonPx))];
        }
    }

    /// <summary>Four corners that stand for an outline, clockwise from the top left: of a round one, the square inside.</summary>
    internal static IReadOnlyList<PointPx> Quad(IReadOnlyList<PointPx> outline) =>
        outline.Count == 4
            ? outline
            : [outline.MinBy(p => p.X + p.Y), outline.MaxBy(p => p.X - p.Y), outline.MaxBy(p => p.X + p.Y), outline.MinBy(p => p.X - p.Y)];

    /// <summary>The covered and the open half of an outline.</summary>
    internal static (IReadOnlyList<PointPx> Covered, IReadOnlyList<PointPx> Open) Halves(
        IReadOnlyList<PointPx> outline,
        CoveredHalf covered
    )
    {
        var quad = Quad(outline);
        PointPx Middle(int a, int b) => new((quad[a].X + quad[b].X) / 2, (quad[a].Y + quad[b].Y) / 2);
        IReadOnlyList<PointPx> left = [quad[0], Middle(0, 1), Middle(3, 2), quad[3]],
            right = [Middle(0, 1), quad[1], quad[2], Middle(3, 2)];
        IReadOnlyList<PointPx> upper = [quad[0], quad[1], Middle(1, 2), Middle(0, 3)],
            lower = [Middle(0, 3), Middle(1, 2), quad[2], quad[3]];
        return covered switch
        {
            CoveredHalf.Left => (left, right),
            CoveredHalf.Right => (right, left),
            CoveredHalf.Upper => (upper, lower),
            _ => (lower, upper),
        };
    }

    private static double[][] Pairs(IReadOnlyList<PointPx> points) =>
        [.. points.Select(point => new[] { Math.Round(point.X, 1), Math.Round(point.Y, 1) })];

    private static IReadOnlyList<PointPx> Points(double[][] pairs) => [.. pairs.Select(pair => new PointPx(pair[0], pair[1]))];

    private sealed record Shape(string Way, double[][] Corners, int Columns, int Rows, IReadOnlyList<SpotShape> Spots);

    private sealed record SpotShape(string Id, double[][] Polygon);
}
