using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>One photo of a chart: what was read where, on what it stands, and what to do about it.</summary>
public sealed class ShowPhoto(NotebookDb db) : IUseCase
{
    /// <param name="Cell">The cell.</param>
    /// <param name="Jar">The jar painted there.</param>
    public sealed record Place(string Cell, string Jar);

    /// <param name="Cell">The cell.</param>
    /// <param name="Reading">What was read.</param>
    /// <param name="Advice">What to know about it, in sentences.</param>
    public sealed record Read(string Cell, Reading Reading, IReadOnlyList<string> Advice);

    public async Task<ShowPhotoAnswer?> HandleAsync(int number, Guid id, CancellationToken cancel)
    {
        var found = await (
            from one in db.Photos.AsNoTracking()
            join chart in db.Charts on one.ChartId equals chart.Id
            where one.Id == id && chart.Number == number
            select new { Photo = one, Chart = chart }
        ).SingleOrDefaultAsync(cancel);
        if (found is null)
            return null;
        var places = await (
            from swatch in db.Swatches.AsNoTracking().Counting()
            join sample in db.Samples on swatch.SampleId equals sample.Id
            where swatch.ChartId == found.Chart.Id
            orderby swatch.Id
            select new
            {
                swatch.Id,
                swatch.Cell,
                sample.Jar,
            }
        ).ToListAsync(cancel);
        var readings = await db
            .Readings.AsNoTracking()
            .Counting()
            .Where(reading => reading.PhotoId == id)
            .OrderBy(reading => reading.Id)
            .ToListAsync(cancel);
        var corrected = readings.Select(reading => reading.CorrectsId).OfType<Guid>().ToHashSet();
        var report = PhotoReport.Of(found.Photo);
        return new(
            found.Chart,
            found.Photo,
            ChartSheet.LayoutOf(found.Chart),
            [.. places.Select(place => new Place(place.Cell, place.Jar))],
            Placing.FromJson(found.Photo.PlacingJson),
            found.Photo.StripId is { } strip ? await db.HouseStrips.AsNoTracking().SingleAsync(one => one.Id == strip, cancel) : null,
            [
                .. from place in places
                from reading in readings
                where reading.SwatchId == place.Id && !corrected.Contains(reading.Id)
                select new Read(place.Cell, reading, report?.AdviceFor(place.Cell, reading.State) ?? []),
            ],
            report,
            found.Chart.PaperId is { } paper ? (await db.Materials.AsNoTracking().SingleAsync(one => one.Id == paper, cancel)).Name : null
        );
    }
}

public sealed record ShowPhotoAnswer(
    Chart Chart,
    Photo Photo,
    SheetLayout Layout,
    IReadOnlyList<ShowPhoto.Place> Places,
    Placing? Placing,
    HouseStrip? Strip,
    IReadOnlyList<ShowPhoto.Read> Swatches,
    PhotoReport? Report,
    string? Paper
)
{
    /// <summary>True when the chart has a printed sheet with markers.</summary>
    public bool HasSheet => Layout.Markers.Count > 0;

    /// <summary>True when nothing stands that was read from this photo.</summary>
    public bool Waits => Swatches.Count == 0;
}

/// <summary>What the reader said about a whole photo.</summary>
/// <param name="Method">"paper", "card" or "strip".</param>
/// <param name="Form">The correction's form in words.</param>
/// <param name="Paper">The bare paper that readings stand on.</param>
/// <param name="PaperKnown">False where it is a guess.</param>
/// <param name="LeaveOneOutDe00">How well the reference foretold its own patches, ΔE₀₀; null with paper alone.</param>
/// <param name="Warnings">What concerns the whole photo, in sentences.</param>
/// <param name="Corners">The page's corners, pixels; empty where none was looked for.</param>
public sealed record PhotoReport(
    string Method,
    string Form,
    Lab Paper,
    bool PaperKnown,
    double? LeaveOneOutDe00,
    IReadOnlyList<string> Warnings,
    IReadOnlyList<PointPx> Corners
)
{
    private readonly Dictionary<(string Cell, bool IsCovered), IReadOnlyList<string>> advice = [];

    /// <summary>What to know about a cell, in sentences.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="state">Its state: of a half-covered swatch, the covered half is the aged one.</param>
    public IReadOnlyList<string> AdviceFor(string cell, SwatchState state) =>
        state == SwatchState.Aged && advice.TryGetValue((cell, true), out var covered)
            ? covered
            : advice.GetValueOrDefault((cell, false)) ?? [];

    /// <summary>What a photo's entry keeps of its reading; null where it was not read.</summary>
    internal static PhotoReport? Of(Photo photo)
    {
        if (photo.ReadingJson is not { } json)
            return null;
        using var document = JsonDocument.Parse(json);
        var root = document.RootElement;
        var calibration = root.GetProperty("calibration");
        var report = new PhotoReport(
            calibration.GetProperty("method").GetString()!,
            calibration.TryGetProperty("form", out var form) ? form.GetString()! : "white balance",
            calibration.TryGetProperty("paperLab", out var paper) && paper.GetArrayLength() == 3
                ? new Lab(paper[0].GetDouble(), paper[1].GetDouble(), paper[2].GetDouble())
                : new Lab(95.3, -0.6, 3),
            calibration.TryGetProperty("paperKnown", out var known) && known.GetBoolean(),
            calibration.TryGetProperty("leaveOneOutDe00", out var one) && one.ValueKind == JsonValueKind.Number ? one.GetDouble() : null,
            Texts(root, "warnings"),
            root.TryGetProperty("page", out var page)
                ?
                [
                    .. page.GetProperty("cornersPx")
                        .EnumerateArray()
                        .Select(corner => new PointPx(corner[0].GetDouble(), corner[1].GetDouble())),
                ]
                : []
        );
        foreach (var swatch in root.GetProperty("swatches").EnumerateArray())
        {
            var covered = swatch.TryGetProperty(ReadingJson.Covered, out var half) && half.GetBoolean();
            report.advice[(swatch.GetProperty("id").GetString()!, covered)] = Texts(swatch, "advice");
        }

        return report;
    }

    private static IReadOnlyList<string> Texts(JsonElement element, string name) =>
        element.TryGetProperty(name, out var texts) ? [.. texts.EnumerateArray().Select(text => text.GetString() ?? "")] : [];
}
