using System.Globalization;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Readings;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>A printed strip for a pot's drops, and one photo of it that gives every drop its colour.</summary>
public sealed class DropStrip(NotebookDb db, PhotoShelf shelf, PrintSheet printer, ReadPhoto reader, TimeProvider clock) : IUseCase
{
    /// <summary>Drops on one strip.</summary>
    public const int Places = Columns * Rows;

    private const int Columns = 4;
    private const int Rows = 3;

    /// <summary>The marker number that strips carry, so that a photo of a chart is not taken for one.</summary>
    private const int StripNumber = 139;

    /// <summary>Less of a place than this under ink is a place nobody dripped on.</summary>
    private const double LeastCoverage = 0.1;

    /// <summary>The strip as a PDF; null when there is no such pot.</summary>
    public async Task<byte[]?> PrintAsync(string code, CancellationToken cancel) =>
        await db.Pots.AnyAsync(one => one.Code == code, cancel) ? Make(code).Pdf : null;

    /// <summary>Where the places of a pot's strip lie.</summary>
    public SheetLayout LayoutOf(string code) => Make(code).Layout;

    /// <summary>Reads a photo of the strip and writes down a drop for every minute.</summary>
    /// <returns>How many drops were written.</returns>
    public async Task<Outcome<int>> ReadAsync(string code, byte[] picture, DropStripForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(form);
        if (await db.Pots.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return Outcome.Refused<int>("Strip", $"There is no pot {code}.", "Go back to the pots.");
        var problems = new List<Problem>();
        if (picture.Length == 0)
            problems.Add(new("Strip", "No picture came.", "Take a photo of the whole strip, with its four corner markers."));
        var minutes = Minutes(form.DropMinutes, problems);
        if (problems.Count > 0)
            return Outcome.Refused<int>(problems);

        var sheet = await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == pot.Id, cancel);
        var layout = LayoutOf(code);
        var outcome = reader.Handle(
            new ReadPhotoRequest
            {
                Picture = picture,
                Layout = layout,
                Paper = sheet?.DropPaper is { } paper ? Lab.FromXyz(paper) : null,
            }
        );
        if (!outcome.TryGet(out var answer))
            return Outcome.Refused<int>([.. outcome.Problems.Select(problem => problem with { Field = "Strip" })]);
        using (answer)
        {
            var read = answer.Result.Swatches.ToDictionary(swatch => swatch.Id);
            var now = clock.GetUtcNow();
            var drops = new List<PotDrop>();
            foreach (var (minute, cell) in minutes.Zip(Codes.Cells(Columns, Rows)))
            {
                if (!read.TryGetValue(cell, out var swatch) || !double.IsFinite(swatch.Colour.Y) || swatch.Coverage < LeastCoverage)
                    problems.Add(
                        new(
                            nameof(DropStripForm.DropMinutes),
                            string.Create(CultureInfo.InvariantCulture, $"Place {cell}, minute {minute:0.##}, looks bare in the photo."),
                            "Give one minute for each drop, in the order of the places: A1, B1, C1 and on."
                        )
                    );
                else
                    drops.Add(
                        new PotDrop
                        {
                            Id = Guid.CreateVersion7(now),
                            WrittenAt = now,
                            PotId = pot.Id,
                            Minute = minute,
                            Colour = swatch.Colour,
                            RadiusDe00 = swatch.UncertaintyDe00,
                            Said = $"strip, {cell}",
                        }
                    );
            }

            if (problems.Count > 0)
                return Outcome.Refused<int>(problems);
            await shelf.KeepAsync(picture, PhotoNames.Extension(answer.Photo.Kind), cancel);
            db.AddRange(drops);
            await db.SaveChangesAsync(cancel);
            return Outcome.Of(drops.Count);
        }
    }

    private PrintSheetAnswer Make(string code)
    {
        var form = new PrintSheetForm
        {
            Cells = $"{Columns}x{Rows}",
            Page = "A6",
            Chart = $"{code}/{StripNumber}",
            Title = "Drops",
            Pot = code,
        };
        return printer.Handle(form).TryGet(out var sheet)
            ? sheet
            : throw new InvalidOperationException("The strip's own grid must fit its page.");
    }

    private static List<double> Minutes(string? typed, List<Problem> problems)
    {
        List<double> minutes = [];
        foreach (
            var word in (typed ?? "").Split(
                [' ', ';', '\n', '\t', '\r'],
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            )
        )
        {
            var number = word.TrimEnd(',').Replace(',', '.');
            if (
                double.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var minute)
                && minute is >= 0 and <= 100_000
            )
                minutes.Add(minute);
            else
                problems.Add(
                    new(
                        nameof(DropStripForm.DropMinutes),
                        $"“{word}” is not a minute.",
                        "Type the minutes with spaces between them, such as 5 10 20 40."
                    )
                );
        }

        if (minutes.Count == 0 && problems.TrueForAll(problem => problem.Field != nameof(DropStripForm.DropMinutes)))
            problems.Add(
                new(
                    nameof(DropStripForm.DropMinutes),
                    "The minutes are missing.",
                    "Type the minute of each drop with spaces between them, such as 5 10 20 40."
                )
            );
        if (minutes.Count > Places)
            problems.Add(
                new(
                    nameof(DropStripForm.DropMinutes),
                    $"{minutes.Count} minutes are more than the strip's {Places} places.",
                    "Send the strips one by one."
                )
            );
        return minutes;
    }
}

public sealed record DropStripForm
{
    /// <summary>The minute of each drop in the order of the places, separated by spaces.</summary>
    public string? DropMinutes { get; init; }
}
