using System.Text.Json;
using System.Text.Json.Serialization;
using Dyewort.Quantities;

namespace Dyewort.Readings;

/// <summary>A point on a page, millimetres from the page's top left, x right, y down.</summary>
/// <param name="X">Millimetres from the left edge.</param>
/// <param name="Y">Millimetres from the top edge.</param>
public readonly record struct PointMm(double X, double Y);

/// <summary>A printed marker: its number in the 36h11 family and its black outline.</summary>
/// <param name="Id">0 to 586.</param>
/// <param name="CornersMm">Four corners of the black square, clockwise from the one that is top left when the page is upright.</param>
public sealed record SheetMarker(int Id, IReadOnlyList<PointMm> CornersMm);

/// <summary>A place to paint in: a cell of a sheet, or a window of a frame.</summary>
/// <param name="Id">Its code: that of the jar painted there ("A3", "A3.2"), or on a sheet without jars a letter for the column and a
/// number for the row.</param>
/// <param name="PolygonMm">Its outline, clockwise.</param>
public sealed record SheetCell(string Id, IReadOnlyList<PointMm> PolygonMm)
{
    /// <summary>True for the half of a cell that was kept covered from light; the open half has the same code. Never printed.</summary>
    public bool IsCovered { get; init; }
}

/// <summary>What a reader must know of a printed page to find its cells in a photo.</summary>
/// <param name="WidthMm">Page width in millimetres.</param>
/// <param name="HeightMm">Page height in millimetres.</param>
/// <param name="Markers">Every marker printed on it.</param>
/// <param name="Cells">Every cell.</param>
public sealed record SheetLayout(double WidthMm, double HeightMm, IReadOnlyList<SheetMarker> Markers, IReadOnlyList<SheetCell> Cells)
{
    /// <summary>The chart's code in words, as the page prints it; null when the sheet is nobody's yet.</summary>
    public string? Code { get; init; }

    /// <summary>True when the cells are windows cut out of the page.</summary>
    public bool IsFrame { get; init; }

    /// <summary>Lines of print below every cell, 1 to 3.</summary>
    public int CaptionLines { get; init; } = 1;

    /// <summary>Cells side by side in the fullest row, by where they lie.</summary>
    public int Columns => Cells.GroupBy(Top).Max(row => row.Count());

    /// <summary>Rows of cells, by where they lie.</summary>
    public int Rows => Cells.Select(Top).Distinct().Count();

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    /// <summary>The layout as the JSON text that <c>dyewort sheet --layout</c> writes.</summary>
    public string ToJson() =>
        JsonSerializer.Serialize(
            new FileShape(
                new(WidthMm, HeightMm),
                [.. Markers.Select(marker => new FileMarker(marker.Id, Pairs(marker.CornersMm)))],
                [.. Cells.Select(cell => new FileCell(cell.Id, Pairs(cell.PolygonMm)))],
                Code,
                IsFrame ? true : null,
                CaptionLines == 1 ? null : CaptionLines
            ),
            Options
        );

    /// <summary>Reads the JSON text of a layout.</summary>
    /// <param name="field">The option or field that the text came from, for the refusal.</param>
    /// <param name="json">The text.</param>
    public static Outcome<SheetLayout> Parse(string field, string json)
    {
        const string Remedy = "Use a file that “dyewort sheet --layout” wrote.";
        FileShape? file;
        try
        {
            file = JsonSerializer.Deserialize<FileShape>(json, Options);
        }
        catch (JsonException problem)
        {
            return Outcome.Refused<SheetLayout>(field, $"The layout is not readable JSON (line {problem.LineNumber + 1}).", Remedy);
        }

        if (file?.Page is not { WidthMm: > 0 and < 5000, HeightMm: > 0 and < 5000 })
            return Outcome.Refused<SheetLayout>(field, "The layout does not say how wide and high its page is, in millimetres.", Remedy);
        if (file.Markers is null || file.Cells is not { Count: > 0 })
            return Outcome.Refused<SheetLayout>(field, "The layout lists no cells or no markers.", Remedy);
        if (file.Markers.FirstOrDefault(marker => marker.CornersMm is not { Count: 4 } || !Sound(marker.CornersMm)) is { } badMarker)
            return Outcome.Refused<SheetLayout>(field, $"Marker {badMarker.Id} of the layout does not have four corners.", Remedy);
        if (
            file.Cells.FirstOrDefault(cell =>
                string.IsNullOrWhiteSpace(cell.Id) || cell.PolygonMm is not { Count: >= 3 } || !Sound(cell.PolygonMm)
            ) is
            { } badCell
        )
            return Outcome.Refused<SheetLayout>(
                field,
                $"Cell “{badCell.Id}” of the layout has no code, or fewer than three corners.",
                Remedy
            );
        if (file.Cells.GroupBy(cell => cell.Id).FirstOrDefault(group => group.Count() > 1) is { } twice)
            return Outcome.Refused<SheetLayout>(field, $"The layout has two cells with the code “{twice.Key}”.", Remedy);
        return Outcome.Of(
            new SheetLayout(
                file.Page.WidthMm,
                file.Page.HeightMm,
                [.. file.Markers.Select(marker => new SheetMarker(marker.Id, Points(marker.CornersMm!)))],
                [.. file.Cells.Select(cell => new SheetCell(cell.Id!, Points(cell.PolygonMm!)))]
            )
            {
                Code = file.Code,
                IsFrame = file.Frame ?? false,
                CaptionLines = file.CaptionLines ?? 1,
            }
        );
    }

    private static double Top(SheetCell cell) => Math.Round(cell.PolygonMm.Min(point => point.Y), 1);

    private static bool Sound(IReadOnlyList<double[]> corners) =>
        corners.All(corner => corner is { Length: 2 } && corner.All(double.IsFinite));

    private static IReadOnlyList<double[]> Pairs(IReadOnlyList<PointMm> points) => [.. points.Select(point => new[] { point.X, point.Y })];

    private static IReadOnlyList<PointMm> Points(IReadOnlyList<double[]> pairs) => [.. pairs.Select(pair => new PointMm(pair[0], pair[1]))];

    private sealed record FilePage(double WidthMm, double HeightMm);

    private sealed record FileMarker(int Id, IReadOnlyList<double[]>? CornersMm);

    private sealed record FileCell(string? Id, IReadOnlyList<double[]>? PolygonMm);

    private sealed record FileShape(
        FilePage? Page,
        IReadOnlyList<FileMarker>? Markers,
        IReadOnlyList<FileCell>? Cells,
        string? Code,
        bool? Frame,
        int? CaptionLines
    );
}
