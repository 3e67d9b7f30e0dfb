using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;
using Photo = Dyewort.Notebook.Photo;

namespace Dyewort.Workshop.Charts;

/// <summary>Takes a photo of a chart in: keeps it, reads it, and writes a reading for every swatch.</summary>
public sealed class SendPhoto(NotebookDb db, PhotoShelf shelf, MadeShelf made, ReadPhoto reader, TimeProvider clock) : IUseCase
{
    /// <summary>Pixels along a crop's side.</summary>
    private const int CropSide = 192;

    public sealed record Form
    {
        public string? State { get; init; }

        /// <summary>The bare paper's own colour, when it is known.</summary>
        public string? PaperColour { get; init; }

        /// <summary>The day it was taken; now when empty.</summary>
        public string? TakenOn { get; init; }
    }

    /// <param name="number">The chart's number.</param>
    /// <param name="picture">The file as it came; empty when none was chosen.</param>
    /// <returns>The photo's key.</returns>
    public async Task<Outcome<Guid>> HandleAsync(int number, byte[] picture, Form form, CancellationToken cancel)
    {
        if (await db.Charts.SingleOrDefaultAsync(one => one.Number == number && one.WithdrawnAt == null, cancel) is not { } chart)
            return Outcome.Refused<Guid>("Picture", $"There is no chart C{number} in this notebook.", "Go back to the charts.");
        if (picture.Length == 0) return Outcome.Refused<Guid>("Picture", "No picture came.", "Take a photo of the whole sheet, with all its corner markers.");
        var entered = new Entered();
        var now = clock.GetUtcNow();
        var state = entered.OneOf(nameof(form.State), form.State, SwatchState.Dry);
        var takenOn = entered.Day(nameof(form.TakenOn), form.TakenOn, DateOnly.FromDateTime(clock.GetLocalNow().DateTime));
        Lab? paper = string.IsNullOrWhiteSpace(form.PaperColour)
            ? null
            : entered.Take(ColourText.Parse(nameof(form.PaperColour), form.PaperColour)) is { } named ? Lab.FromXyz(named.Colour) : null;
        if (paper is null && chart.PaperId is { } paperId && (await db.Materials.AsNoTracking().SingleAsync(one => one.Id == paperId, cancel)).BareColour is { } bare) paper = Lab.FromXyz(bare);
        if (!entered.Sound) return Outcome.Refused<Guid>(entered.Problems);

        var outcome = reader.Handle(new ReadPhoto.Request { Picture = picture, Layout = ChartSheet.LayoutOf(chart), Paper = paper });
        if (!outcome.TryGet(out var answer)) return Outcome.Refused<Guid>([.. outcome.Problems.Select(problem => problem with { Field = "Picture" })]);
        using (answer)
        {
            var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
            var taken = takenOn == today ? now : new DateTimeOffset(takenOn.ToDateTime(new TimeOnly(12, 0)), TimeSpan.Zero);
            var extension = PhotoNames.Extension(answer.Photo.Kind);
            var photo = new Photo
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Sha256 = await shelf.KeepAsync(picture, extension, cancel),
                Extension = extension,
                ChartId = chart.Id,
                TakenAt = taken,
                State = state,
                ReadingJson = ReadingJson.Write(answer.Result),
            };
            db.Add(photo);
            chart.PaintedOn ??= takenOn;
            var swatches = await db.Swatches.AsNoTracking().Where(swatch => swatch.ChartId == chart.Id && swatch.WithdrawnAt == null).ToListAsync(cancel);
            foreach (var read in answer.Result.Swatches)
            {
                if (swatches.Find(swatch => swatch.Cell == read.Id) is not { } swatch || !double.IsFinite(read.Colour.Y)) continue;
                var reading = new Notebook.Reading
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    SwatchId = swatch.Id,
                    At = taken,
                    State = state,
                    Colour = read.Colour,
                    UncertaintyDe00 = read.UncertaintyDe00,
                    Source = ReadingSource.Photo,
                    PhotoId = photo.Id,
                    PolygonJson = Polygon(read.OutlinePx),
                    Method = answer.Result.Calibration.Method,
                    Warnings = read.Warnings.Count == 0 ? null : string.Join(' ', read.Warnings.Select(warning => warning.Code)),
                };
                db.Add(reading);
                if (CellCrop.Cut(answer.Photo, read.OutlinePx, read.SampledPx, read.Colour, CropSide) is { } crop) await made.KeepAsync($"{reading.Id}.jpg", crop, cancel);
            }

            await db.SaveChangesAsync(cancel);
            return Outcome.Of(photo.Id);
        }
    }

    private static string Polygon(IReadOnlyList<PointPx> outline) =>
        JsonSerializer.Serialize(outline.Select(point => new[] { Math.Round(point.X, 1), Math.Round(point.Y, 1) }));
}
