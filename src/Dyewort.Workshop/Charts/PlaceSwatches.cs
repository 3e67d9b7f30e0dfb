using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Reads a kept photo where the maker points.</summary>
public sealed class PlaceSwatches(NotebookDb db, PhotoShelf shelf, MadeShelf made, ReadPhoto reader, TimeProvider clock) : IUseCase
{
    /// <returns>The photo's key.</returns>
    public async Task<Outcome<Guid>> HandleAsync(int number, Guid photoId, PlaceSwatchesForm form, CancellationToken cancel)
    {
        if (await ChartReader.FindAsync(db, number, photoId, cancel) is not var (photo, chartOf))
            return Outcome.Refused<Guid>(nameof(form.Way), "This photo is not in the notebook.", "Go back to the chart.");
        var entered = new Entered();
        var cells = await db
            .Swatches.AsNoTracking()
            .Counting()
            .Where(swatch => swatch.ChartId == chartOf.Id)
            .OrderBy(swatch => swatch.Id)
            .Select(swatch => swatch.Cell)
            .ToListAsync(cancel);
        var placing = Read(form, cells, entered);
        var strip = photo.StripId is null ? [] : FourCorners(nameof(form.StripCorner), form.StripCorner, "the strip or card", entered);
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        photo.PlacingJson = placing?.ToJson();
        photo.StripCornersJson = strip.Count == 4 ? Placing.PointsJson(strip) : null;
        return await ReadAsync(chartOf, photo, nameof(form.Way), cancel);
    }

    /// <summary>Reads a photo again where it was read before, with what the notebook knows now about its paper.</summary>
    public async Task<Outcome<Guid>> AgainAsync(int number, Guid photoId, CancellationToken cancel) =>
        await ChartReader.FindAsync(db, number, photoId, cancel) is var (photo, chart)
            ? await ReadAsync(chart, photo, "Photo", cancel)
            : Outcome.Refused<Guid>("Photo", "This photo is not in the notebook.", "Go back to the chart.");

    private async Task<Outcome<Guid>> ReadAsync(Chart chart, Photo photo, string field, CancellationToken cancel)
    {
        var path = shelf.PathOf(photo.Sha256, photo.Extension);
        if (!File.Exists(path))
            return Outcome.Refused<Guid>(field, "The picture is no longer on the shelf beside the notebook.", "Send it again.");
        var chartReader = new ChartReader(db, made, reader, clock);
        var outcome = await chartReader.ReadAsync(chart, photo, await File.ReadAllBytesAsync(path, cancel), cancel);
        if (!outcome.TryGet(out var answer))
            return Outcome.Refused<Guid>([.. outcome.Problems.Select(problem => problem with { Field = FieldOf(problem.Field, field) })]);
        using (answer)
        {
            await chartReader.WriteAsync(chart, photo, answer, cancel);
            await db.SaveChangesAsync(cancel);
            return Outcome.Of(photo.Id);
        }
    }

    private static string FieldOf(string field, string otherwise) =>
        field switch
        {
            "corners" => nameof(PlaceSwatchesForm.Corner),
            "grid" => nameof(PlaceSwatchesForm.Columns),
            "card-corners" => nameof(PlaceSwatchesForm.StripCorner),
            _ => otherwise,
        };

    private static Placing? Read(PlaceSwatchesForm form, List<string> cells, Entered entered)
    {
        // Only a strip to show: the markers say the rest.
        if (string.IsNullOrWhiteSpace(form.Way))
            return null;
        var way = entered.OneOf(nameof(form.Way), form.Way, PlacingWay.Grid);
        if (way != PlacingWay.Spots)
        {
            var grid = way == PlacingWay.Grid;
            return new()
            {
                Way = way,
                Corners = FourCorners(nameof(form.Corner), form.Corner, grid ? "the swatches" : "the sheet", entered),
                Columns = grid ? entered.Whole(nameof(form.Columns), form.Columns, "How many swatches lie side by side", 1, 26, 4) : 0,
                Rows = grid ? entered.Whole(nameof(form.Rows), form.Rows, "How many rows there are", 1, 99, 6) : 0,
            };
        }

        var side = entered.OptionalNumber(nameof(form.Side), form.Side, "pixels", 4, 20_000, "120");
        var spots = new List<ReadPhoto.Spot>();
        foreach (var cell in cells)
        {
            var text = form.Spots.GetValueOrDefault(cell);
            if (string.IsNullOrWhiteSpace(text))
                continue;
            var field = $"Spot-{cell}";
            switch (Placing.Parse(text))
            {
                case [var middle]:
                    if (side is { } pixels)
                        spots.Add(new(cell, Placing.Square(middle, pixels)));
                    else if (entered.Sound)
                        entered.Refuse(nameof(form.Side), "How large a swatch is was not said.", "Give its side in pixels, such as 120.");
                    break;
                case { Count: >= 3 } outline:
                    spots.Add(new(cell, outline));
                    break;
                default:
                    entered.Refuse(
                        field,
                        $"“{(text.Length > 40 ? text[..40] + "…" : text)}” is no place on the photo.",
                        "Give two numbers, pixels from the left and from the top, such as 812, 1040."
                    );
                    break;
            }
        }

        if (spots.Count == 0 && entered.Sound)
            entered.Refuse(nameof(form.Way), "No swatch was pointed to.", "Tap at least one, or type its place.");
        return new() { Way = way, Spots = spots };
    }

    private static IReadOnlyList<PointPx> FourCorners(string field, IReadOnlyList<string> texts, string what, Entered entered)
    {
        var corners = texts.Select(Placing.Parse).ToList();
        if (corners.Count == 4 && corners.TrueForAll(corner => corner is { Count: 1 }))
            return [.. corners.Select(corner => corner![0])];
        entered.Refuse(
            field,
            $"Four corners of {what} are needed, each with two numbers.",
            "Tap them, or type pixels from the left and from the top, such as 812, 1040."
        );
        return [];
    }
}

public sealed record PlaceSwatchesForm
{
    /// <summary>One of <see cref="PlacingWay"/>.</summary>
    public string? Way { get; init; }

    /// <summary>Four corners, "x, y" each, clockwise from the top left.</summary>
    public IReadOnlyList<string> Corner { get; init; } = [];

    public string? Columns { get; init; }

    public string? Rows { get; init; }

    /// <summary>By cell: the swatch's middle, "x, y", or its corners one after the other; empty for a swatch that is not in the
    /// picture.</summary>
    public IReadOnlyDictionary<string, string> Spots { get; init; } = new Dictionary<string, string>();

    /// <summary>Side of a swatch of which only the middle was given, pixels.</summary>
    public string? Side { get; init; }

    /// <summary>The four corners of the house strip or card; empty where none lies in the picture.</summary>
    public IReadOnlyList<string> StripCorner { get; init; } = [];
}
