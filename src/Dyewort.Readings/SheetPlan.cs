using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Readings;

/// <summary>A rectangle on a page, millimetres from the page's top left.</summary>
/// <param name="X">Left edge.</param>
/// <param name="Y">Top edge.</param>
/// <param name="Width">Width.</param>
/// <param name="Height">Height.</param>
public readonly record struct RectMm(double X, double Y, double Width, double Height)
{
    /// <summary>Right edge.</summary>
    public double Right => X + Width;

    /// <summary>Bottom edge.</summary>
    public double Bottom => Y + Height;

    /// <summary>The corners, clockwise from the top left.</summary>
    public IReadOnlyList<PointMm> Corners => [new(X, Y), new(Right, Y), new(Right, Bottom), new(X, Bottom)];
}

/// <summary>What a maker asks of a sheet.</summary>
public sealed record SheetWish
{
    /// <summary>The page.</summary>
    public required PageSize Page { get; init; }

    /// <summary>Columns of cells, 1 to 26.</summary>
    public required int Columns { get; init; }

    /// <summary>Rows of cells, 1 to 99.</summary>
    public required int Rows { get; init; }

    /// <summary>Unprinted edge in millimetres, 5 to 40; most home printers cannot print nearer to the edge than 5 mm (common practice, no
    /// source).</summary>
    public double MarginMm { get; init; } = 8;

    /// <summary>True for a frame: windows to cut out instead of cells to paint in.</summary>
    public bool Frame { get; init; }

    /// <summary>The chart's code in words; printed, and held in the square code.</summary>
    public required string Code { get; init; }

    /// <summary>The chart's number, 0 to 139: its corner markers are 4k to 4k + 3.</summary>
    public int Number { get; init; }

    /// <summary>Cells of a lettered grid that stay empty: marked with a small circle and left out of the layout.</summary>
    public IReadOnlyCollection<string> Blank { get; init; } = [];

    /// <summary>
    /// The cells' own codes in reading order, such as those of the jars that are painted there; the grid's cells beyond them stay empty.
    /// Null for a grid that is lettered A1, B1 ….
    /// </summary>
    public IReadOnlyList<string>? Names { get; init; }

    /// <summary>Lines of print that fit below every cell, 1 to 3: its code with a caption, and room for more.</summary>
    public int CaptionLines { get; init; } = 1;
}

/// <summary>Where everything on a printed sheet lies.</summary>
/// <remarks>
/// <para>Corner markers stand in the four corners inside the margin, edge markers in the middles of the edges when the page is longer than
/// 215 mm (over A5) and the edge has room for one. The white around every marker is at least 5 mm wide. Markers are 5.4 % of the longer
/// side and at least 12 mm (edge markers: four fifths of that, at least 12 mm), which is about 150 pixels in an 8-megapixel photo that the
/// page fills to 85 %.</para>
/// <para>The painted area is the cell itself; two painted areas are never nearer than <see cref="SmallestGapMm"/>, so that at least 5 mm of
/// bare paper lies on every side of each; below a cell the gap also holds its code and is wider.</para>
/// <para>The sizes are our own choice; that a photo is read from such a sheet is shown by the reading tests.</para>
/// </remarks>
public sealed record SheetPlan
{
    /// <summary>The last chart number that has markers of its own.</summary>
    public const int LastNumber = 139;

    /// <summary>The first edge marker; the others follow clockwise from the middle of the top edge.</summary>
    public const int FirstEdgeMarker = 560;

    /// <summary>The smallest side a cell may have, in millimetres: below it there is too little to paint evenly and to read (common
    /// practice, no source).</summary>
    public const double SmallestCellMm = 8;

    /// <summary>Bare paper between two painted areas, in millimetres.</summary>
    public const double SmallestGapMm = 5;

    /// <summary>Height that a cell's code takes below it, in millimetres.</summary>
    public const double CodeLineMm = 4;

    private const double LargestCellMm = 50;
    private const double ClearMm = 5;
    private const double LongestWithoutEdgeMarkersMm = 215;

    private SheetPlan() { }

    /// <summary>What the plan was made for.</summary>
    public required SheetWish Wish { get; init; }

    /// <summary>Markers and cells, as a reader needs them.</summary>
    public required SheetLayout Layout { get; init; }

    /// <summary>Every cell in reading order, blank ones too.</summary>
    public required IReadOnlyList<(string Id, RectMm Box, bool IsBlank)> Cells { get; init; }

    /// <summary>Every marker's black square.</summary>
    public required IReadOnlyList<(int Id, RectMm Box)> Markers { get; init; }

    /// <summary>Room for print between the top markers, from left to right: one box, or two with the edge marker between them.</summary>
    public required IReadOnlyList<RectMm> Head { get; init; }

    /// <summary>Room for print between the bottom markers, from left to right.</summary>
    public required IReadOnlyList<RectMm> Foot { get; init; }

    /// <summary>Lays a sheet out, or says why it cannot be.</summary>
    /// <param name="wish">What is asked for.</param>
    public static Outcome<SheetPlan> Make(SheetWish wish)
    {
        var problems = Check(wish);
        if (problems.Count > 0)
            return Outcome.Refused<SheetPlan>(problems);
        var area = Area(wish.Page, wish.MarginMm);
        var betweenMarkers = Math.Min(wish.Page.WidthMm, wish.Page.HeightMm) - (2 * (wish.MarginMm + MarkerSize(wish.Page)));
        if (betweenMarkers < ClearMm || area.Width < SmallestCellMm || area.Height < SmallestCellMm + CodeLineMm)
        {
            return Outcome.Refused<SheetPlan>(
                "page",
                $"A page of {wish.Page.Name} has no room between its markers.",
                $"Take a larger page{(wish.MarginMm > 8 ? " or a smaller margin" : "")}."
            );
        }

        var captionMm = wish.CaptionLines * CodeLineMm;
        if (Grid(area, wish.Columns, wish.Rows, captionMm) is not { } grid)
            return DoesNotFit(wish, area);

        var cells = new List<(string Id, RectMm Box, bool IsBlank)>();
        for (var row = 0; row < wish.Rows; row++)
        {
            for (var column = 0; column < wish.Columns; column++)
            {
                var place = (row * wish.Columns) + column;
                var id =
                    wish.Names is null ? CellId(column, row)
                    : place < wish.Names.Count ? wish.Names[place]
                    : "";
                var box = new RectMm(
                    Round(grid.Left + (column * grid.StepX)),
                    Round(grid.Top + (row * grid.StepY)),
                    Round(grid.CellWidth),
                    Round(grid.CellHeight)
                );
                cells.Add((id, box, id.Length == 0 || wish.Blank.Contains(id, StringComparer.OrdinalIgnoreCase)));
            }
        }

        var markers = MarkerBoxes(wish);
        return Outcome.Of(
            new SheetPlan
            {
                Wish = wish,
                Cells = cells,
                Markers = markers,
                Head = Band(wish, markers, 0, 1, FirstEdgeMarker),
                Foot = Band(wish, markers, 3, 2, FirstEdgeMarker + 2),
                Layout = new SheetLayout(
                    wish.Page.WidthMm,
                    wish.Page.HeightMm,
                    [.. markers.Select(marker => new SheetMarker(marker.Id, marker.Box.Corners))],
                    [.. cells.Where(cell => !cell.IsBlank).Select(cell => new SheetCell(cell.Id, cell.Box.Corners))]
                )
                {
                    Code = wish.Code,
                    IsFrame = wish.Frame,
                    CaptionLines = wish.CaptionLines,
                },
            }
        );
    }

    /// <summary>The code of a cell: a letter for the column, a number for the row.</summary>
    /// <param name="column">0 to 25, from the left.</param>
    /// <param name="row">0 or more, from the top.</param>
    public static string CellId(int column, int row) => string.Create(CultureInfo.InvariantCulture, $"{(char)('A' + column)}{row + 1}");

    private static double MarkerSize(PageSize page) =>
        Math.Max(12, Math.Round(0.054 * Math.Max(page.WidthMm, page.HeightMm), MidpointRounding.AwayFromZero));

    private static double EdgeMarkerSize(PageSize page) => Math.Max(12, Math.Round(0.8 * MarkerSize(page), MidpointRounding.AwayFromZero));

    /// <summary>Whether an edge of this length carries a marker: the page must be a large one, and its corner markers must leave
    /// room.</summary>
    private static bool HasEdgeMarker(PageSize page, double edgeMm, double margin) =>
        Math.Max(page.WidthMm, page.HeightMm) > LongestWithoutEdgeMarkersMm
        && edgeMm - (2 * (margin + MarkerSize(page) + ClearMm)) >= EdgeMarkerSize(page);

    private static double Round(double millimetres) => Math.Round(millimetres, 2, MidpointRounding.AwayFromZero);

    private static List<Problem> Check(SheetWish wish)
    {
        var problems = new List<Problem>();
        if (wish.Columns is < 1 or > 26 || wish.Rows is < 1 or > 99)
            problems.Add(
                new("cells", $"A grid of {wish.Columns}x{wish.Rows} cannot be lettered.", "Take 1 to 26 columns and 1 to 99 rows.")
            );
        if (wish.MarginMm is not (>= 5 and <= 40))
            problems.Add(
                new(
                    "margin",
                    string.Create(CultureInfo.InvariantCulture, $"A margin of {wish.MarginMm} mm is outside 5 to 40 mm."),
                    "Most printers leave about 5 mm white."
                )
            );
        if (wish.CaptionLines is < 1 or > 3)
            problems.Add(new("cells", $"{wish.CaptionLines} lines below a cell are outside 1 to 3.", "Take one, two or three."));
        if (wish.Number is < 0 or > LastNumber)
            problems.Add(new("chart", $"Chart number {wish.Number} has no markers of its own.", $"Take a number from 0 to {LastNumber}."));
        if (string.IsNullOrWhiteSpace(wish.Code) || wish.Code.Length > 40)
            problems.Add(new("chart", "The chart's code is empty or longer than 40 signs.", "Take a short code, such as EB25-1/3."));
        if (problems.Count > 0)
            return problems;
        if (wish.Names is { } names)
        {
            if (names.Count == 0 || names.Count > wish.Columns * wish.Rows)
                problems.Add(
                    new("cells", $"{names.Count} cells do not fill a grid of {wish.Columns}x{wish.Rows}.", "Give more columns or rows.")
                );
            if (names.FirstOrDefault(string.IsNullOrWhiteSpace) is not null)
                problems.Add(new("cells", "A cell has no code.", "Give every cell a code, such as A3."));
            if (names.Distinct(StringComparer.OrdinalIgnoreCase).Count() < names.Count)
                problems.Add(new("cells", "Two cells have one code.", "Give every cell a code of its own."));
            return problems;
        }

        var known = Enumerable
            .Range(0, wish.Rows)
            .SelectMany(row => Enumerable.Range(0, wish.Columns).Select(column => CellId(column, row)))
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
        if (wish.Blank.FirstOrDefault(id => !known.Contains(id)) is { } stranger)
            problems.Add(
                new(
                    "blank",
                    $"“{stranger}” is not a cell of a {wish.Columns}x{wish.Rows} grid.",
                    $"Its cells are A1 to {CellId(wish.Columns - 1, wish.Rows - 1)}."
                )
            );
        else if (known.Count == wish.Blank.Distinct(StringComparer.OrdinalIgnoreCase).Count())
            problems.Add(new("blank", "Every cell is left blank.", "Leave at least one to paint in."));
        return problems;
    }

    /// <summary>Where cells and their codes may lie.</summary>
    private static RectMm Area(PageSize page, double margin)
    {
        var top = margin + MarkerSize(page) + ClearMm;
        var side = HasEdgeMarker(page, page.HeightMm, margin) ? margin + EdgeMarkerSize(page) + ClearMm : margin;
        return new RectMm(side, top, page.WidthMm - (2 * side), page.HeightMm - (2 * top));
    }

    private static (double Left, double Top, double StepX, double StepY, double CellWidth, double CellHeight)? Grid(
        RectMm area,
        int columns,
        int rows,
        double captionMm
    )
    {
        var (width, stepX) = Share(area.Width, columns, SmallestGapMm, 0);
        var (height, stepY) = Share(area.Height, rows, SmallestGapMm + captionMm, captionMm);
        if (width < SmallestCellMm || height < SmallestCellMm)
            return null;
        var usedX = ((columns - 1) * stepX) + width;
        var usedY = ((rows - 1) * stepY) + height + captionMm;
        return (area.X + ((area.Width - usedX) / 2), area.Y + ((area.Height - usedY) / 2), stepX, stepY, width, height);
    }

    /// <summary>Divides a length among cells: about a fifth of each step stays bare, more where cells would be larger than anybody
    /// paints.</summary>
    private static (double Cell, double Step) Share(double length, int count, double smallestGap, double after)
    {
        var gap = Math.Clamp(0.2 * length / count, smallestGap, smallestGap + 5);
        var cell = Math.Floor(100 * (length - after - ((count - 1) * gap)) / count) / 100;
        if (cell <= LargestCellMm)
            return (cell, cell + gap);
        var wide = (length - after - (count * LargestCellMm)) / count;
        return (LargestCellMm, LargestCellMm + Math.Max(gap, wide));
    }

    private static Outcome<SheetPlan> DoesNotFit(SheetWish wish, RectMm area)
    {
        var captionMm = wish.CaptionLines * CodeLineMm;
        var columns = Most(26, count => Grid(area, count, 1, captionMm) is not null);
        var rows = Most(99, count => Grid(area, 1, count, captionMm) is not null);
        var holder = PageSize
            .Named.SelectMany(page => new[] { page, page.Turned })
            .FirstOrDefault(page => Grid(Area(page, wish.MarginMm), wish.Columns, wish.Rows, captionMm) is not null);
        var instead = holder is null ? "share the samples among several sheets." : $"{holder.Name} holds {wish.Columns}x{wish.Rows}.";
        var remedy = $"At most {columns} columns and {rows} rows fit on it; {instead}";
        return Outcome.Refused<SheetPlan>(
            "cells",
            string.Create(
                CultureInfo.InvariantCulture,
                $"A grid of {wish.Columns}x{wish.Rows} does not fit on {wish.Page.Name}: its cells would be under "
                    + $"{SmallestCellMm:0} mm, too small to paint and read."
            ),
            remedy
        );
    }

    private static int Most(int ceiling, Func<int, bool> fits)
    {
        var most = 0;
        while (most < ceiling && fits(most + 1))
            most++;
        return most;
    }

    private static List<(int Id, RectMm Box)> MarkerBoxes(SheetWish wish)
    {
        var (width, height) = (wish.Page.WidthMm, wish.Page.HeightMm);
        var size = MarkerSize(wish.Page);
        var (near, right, bottom) = (wish.MarginMm, width - wish.MarginMm - size, height - wish.MarginMm - size);
        var first = 4 * wish.Number;
        List<(int Id, RectMm Box)> boxes =
        [
            (first, new RectMm(near, near, size, size)),
            (first + 1, new RectMm(Round(right), near, size, size)),
            (first + 2, new RectMm(Round(right), Round(bottom), size, size)),
            (first + 3, new RectMm(near, Round(bottom), size, size)),
        ];
        var edge = EdgeMarkerSize(wish.Page);
        var (middleX, middleY) = (Round((width - edge) / 2), Round((height - edge) / 2));
        var (farX, farY) = (Round(width - wish.MarginMm - edge), Round(height - wish.MarginMm - edge));
        var across = HasEdgeMarker(wish.Page, width, wish.MarginMm);
        var along = HasEdgeMarker(wish.Page, height, wish.MarginMm);
        if (across)
            boxes.Add((FirstEdgeMarker, new RectMm(middleX, near, edge, edge)));
        if (along)
            boxes.Add((FirstEdgeMarker + 1, new RectMm(farX, middleY, edge, edge)));
        if (across)
            boxes.Add((FirstEdgeMarker + 2, new RectMm(middleX, farY, edge, edge)));
        if (along)
            boxes.Add((FirstEdgeMarker + 3, new RectMm(near, middleY, edge, edge)));
        return boxes;
    }

    private static List<RectMm> Band(SheetWish wish, List<(int Id, RectMm Box)> markers, int left, int right, int middle)
    {
        var (from, to) = (markers[left].Box, markers[right].Box);
        var start = from.Right + ClearMm;
        var end = to.X - ClearMm;
        if (markers.FindIndex(marker => marker.Id == middle) is var found and >= 4)
        {
            var between = markers[found].Box;
            return
            [
                new(start, from.Y, between.X - ClearMm - start, from.Height),
                new(between.Right + ClearMm, from.Y, end - between.Right - ClearMm, from.Height),
            ];
        }

        return end - start > 0 ? [new(start, from.Y, end - start, from.Height)] : [];
    }
}
