using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;
using Photo = Dyewort.Notebook.Photo;

namespace Dyewort.Workshop.Charts;

/// <summary>Takes a photo of a chart in: keeps it, reads it, and writes a reading for every swatch. A picture whose swatches cannot be
/// found is kept all the same, so that the maker can point to them.</summary>
public sealed class SendPhoto(NotebookDb db, PhotoShelf shelf, MadeShelf made, ReadPhoto reader, TimeProvider clock) : IUseCase
{
    /// <param name="number">The chart's number.</param>
    /// <param name="picture">The file as it came; empty when none was chosen.</param>
    public async Task<Outcome<SendPhotoSent>> HandleAsync(int number, byte[] picture, SendPhotoForm form, CancellationToken cancel)
    {
        if (await db.Charts.Counting().SingleOrDefaultAsync(one => one.Number == number, cancel) is not { } chart)
            return Outcome.Refused<SendPhotoSent>("Picture", $"There is no chart C{number} in this notebook.", "Go back to the charts.");
        var layout = ChartSheet.LayoutOf(chart);
        if (picture.Length == 0)
            return Outcome.Refused<SendPhotoSent>(
                "Picture",
                "No picture came.",
                layout.Markers.Count > 0
                    ? "Take a photo of the whole sheet, with all its corner markers."
                    : "Take a photo of all swatches, with bare paper around them."
            );
        var entered = new Entered();
        var now = clock.GetUtcNow();
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var takenOn = entered.PastDay(nameof(form.TakenOn), form.TakenOn, today, today);
        var state = entered.OneOf(nameof(form.State), form.State, SwatchState.Dry);
        var source = entered.OneOf(nameof(form.Source), form.Source, ReadingSource.Photo);
        if (source is not (ReadingSource.Photo or ReadingSource.Scan))
            entered.Refuse(nameof(form.Source), "A picture is a photo or a scan.", "Choose one of the two.");
        var paper = string.IsNullOrWhiteSpace(form.PaperColour)
            ? null
            : entered.Take(ColourText.Parse(nameof(form.PaperColour), form.PaperColour));
        var strip = await StripAsync(form.Strip, entered, cancel);
        var exposed = state == SwatchState.Exposed;
        CoveredHalf? covered =
            exposed && !string.IsNullOrWhiteSpace(form.Covered)
                ? entered.OneOf(nameof(form.Covered), form.Covered, CoveredHalf.Left)
                : null;
        var hours = exposed ? entered.Hours(nameof(form.ExposedHours), form.ExposedHours, 0.01, 200_000) : null;
        var light = exposed ? entered.OptionalWords(nameof(form.ExposedTo), form.ExposedTo, 120) : null;
        Photo Entry(string sha256, string extension, Imaging.OpenPhoto? seen) =>
            new()
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Sha256 = sha256,
                Extension = extension,
                ChartId = chart.Id,
                TakenAt = TakenAt.Of(takenOn, today, now),
                State = state,
                Source = source,
                PaperColour = paper?.Colour,
                Covered = covered,
                ExposedHours = hours,
                ExposedTo = light,
                StripId = strip,
                WidthPx = seen?.Width,
                HeightPx = seen?.Height,
            };
        async Task<Photo> KeptAsync(Imaging.OpenPhoto seen)
        {
            var extension = PhotoNames.Extension(seen.Kind);
            var photo = Entry(await shelf.KeepAsync(picture, extension, cancel), extension, seen);
            db.Add(photo);
            return photo;
        }

        if (!entered.Sound)
            return Outcome.Refused<SendPhotoSent>(entered.Problems);

        var chartReader = new ChartReader(db, made, reader, clock);
        var why =
            layout.Markers.Count == 0 ? "This chart has no printed sheet: look whether the swatches were found rightly."
            : form.Point is not null ? "Now show where the swatches are."
            : null;
        if (why is null)
        {
            var outcome = await chartReader.ReadAsync(chart, Entry("", "", null), picture, cancel);
            if (outcome.TryGet(out var answer))
            {
                using (answer)
                {
                    var photo = await KeptAsync(answer.Photo);
                    await chartReader.WriteAsync(chart, photo, answer, cancel);
                    await db.SaveChangesAsync(cancel);
                    return Outcome.Of(new SendPhotoSent(photo.Id, IsRead: true));
                }
            }

            why = outcome.Problems[0].What;
        }

        // A file that is no picture, or the page of another chart, is not kept; anything else can still be pointed to.
        var opened = PhotoFile.Open("Picture", picture);
        if (!opened.TryGet(out var seen))
            return Outcome.Refused<SendPhotoSent>(opened.Problems);
        using (seen)
        {
            if (layout.Markers.Count > 0 && form.Point is null && FindPage.ShowsAnother(seen, layout))
                return Outcome.Refused<SendPhotoSent>(
                    "Picture",
                    why,
                    "Choose the chart that belongs to this photo, or photograph the right page."
                );
            var photo = await KeptAsync(seen);
            photo.WhyNotRead = why;
            await db.SaveChangesAsync(cancel);
            return Outcome.Of(new SendPhotoSent(photo.Id, IsRead: false));
        }
    }

    private async Task<Guid?> StripAsync(string? text, Entered entered, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        if (Guid.TryParse(text, out var id) && await db.HouseStrips.Counting().AnyAsync(one => one.Id == id, cancel))
            return id;
        entered.Refuse(nameof(SendPhotoForm.Strip), "This strip or card is not in the notebook.", "Choose one of those shown.");
        return null;
    }
}

/// <param name="Id">The photo's key.</param>
/// <param name="IsRead">False when the maker has to point to something on it first.</param>
public sealed record SendPhotoSent(Guid Id, bool IsRead);

public sealed record SendPhotoForm
{
    public string? State { get; init; }

    /// <summary>"Photo" or "Scan".</summary>
    public string? Source { get; init; }

    /// <summary>The bare paper's own colour, when it is known.</summary>
    public string? PaperColour { get; init; }

    /// <summary>The day it was taken; now when empty.</summary>
    public string? TakenOn { get; init; }

    /// <summary>The half that had been covered, where one had.</summary>
    public string? Covered { get; init; }

    /// <summary>Hours of light.</summary>
    public string? ExposedHours { get; init; }

    /// <summary>Which light.</summary>
    public string? ExposedTo { get; init; }

    /// <summary>The house strip or card in the picture, by its key; none when empty.</summary>
    public string? Strip { get; init; }

    /// <summary>Anything when the maker wants to point to the swatches whatever the markers say.</summary>
    public string? Point { get; init; }
}
