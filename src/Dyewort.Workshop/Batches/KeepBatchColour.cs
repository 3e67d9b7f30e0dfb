using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>Keeps the colour of a dry square painted from a batch, so that it can be put right and compared with other batches.</summary>
public sealed class KeepBatchColour(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>What a loose photo may be off by, and a figure that was typed, ΔE₀₀ (common practice, no source).</summary>
    internal const double PhotoDoubtDe00 = 3;
    internal const double TypedDoubtDe00 = 1.5;

    /// <returns>The batch's code.</returns>
    public async Task<Outcome<string>> HandleAsync(string code, KeepBatchColourForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (await db.Batches.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } batch)
            return Outcome.Refused<string>(nameof(form.C), $"There is no batch {code} in this notebook.", "Go back to the batches.");
        var typed = ColourText.Parse(nameof(form.C), form.C);
        if (!typed.TryGet(out var read))
            return Outcome.Refused<string>(typed.Problems);
        var now = clock.GetUtcNow();
        var photo = !string.IsNullOrEmpty(form.From);
        db.Add(
            new BatchReading
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                BatchId = batch.Id,
                At = now,
                Colour = read.Colour,
                UncertaintyDe00 = photo ? PhotoDoubtDe00 : TypedDoubtDe00,
                Source = photo ? ReadingSource.Photo : ReadingSource.Instrument,
            }
        );
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(code);
    }

    /// <summary>Takes a kept colour back; it stays readable among the corrections.</summary>
    /// <returns>The batch's code.</returns>
    public async Task<Outcome<string>> TakeBackAsync(string code, string? reading, CancellationToken cancel)
    {
        var found = Guid.TryParse(reading, out var id)
            ? await (
                from one in db.BatchReadings.Counting()
                join batch in db.Batches on one.BatchId equals batch.Id
                where one.Id == id && batch.Code == code
                select one
            ).SingleOrDefaultAsync(cancel)
            : null;
        if (found is null)
            return Outcome.Refused<string>("Reading", "That colour is not kept with this batch.", "Load the page again.");
        (found.WithdrawnAt, found.WithdrawnWhy) = (clock.GetUtcNow(), "taken back");
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(code);
    }
}

public sealed record KeepBatchColourForm
{
    /// <summary>The colour in any notation.</summary>
    public string? C { get; init; }

    /// <summary>Anything where it was taken from a loose photo.</summary>
    public string? From { get; init; }
}
