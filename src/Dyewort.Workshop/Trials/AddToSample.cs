using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>Writes down one step on a sample: what went in, how much, what was seen; and takes the last one back.</summary>
public sealed class AddToSample(NotebookDb db, TimeProvider clock, NotebookSettings settings) : IUseCase
{
    public sealed record Seen
    {
        public string? Ph { get; init; }

        public string? Words { get; init; }

        public string? Said { get; init; }
    }

    public async Task<Outcome<Guid>> HandleAsync(string code, string jar, AddToSampleForm form, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, cancel) is not { } sample)
            return Outcome.Refused<Guid>(nameof(form.Amount), $"There is no jar {jar} of pot {code}.", "Go back to the trial.");
        var material = Guid.TryParse(form.Material, out var id)
            ? await db.Materials.Counting().SingleOrDefaultAsync(one => one.Id == id, cancel)
            : null;
        if (material is null)
            return Outcome.Refused<Guid>(nameof(form.Material), "What went in was not chosen.", "Choose a material first.");
        var field = string.IsNullOrWhiteSpace(form.Amount) ? nameof(form.Other) : nameof(form.Amount);
        if (!Quantities.Amount.Parse(field, field == nameof(form.Amount) ? form.Amount : form.Other).TryGet(out var amount))
            return Outcome.Refused<Guid>(Quantities.Amount.Parse(field, field == nameof(form.Amount) ? form.Amount : form.Other).Problems);
        if (amount.Number <= 0)
            return Outcome.Refused<Guid>(field, "Nothing at all cannot be added.", "Type an amount above zero, such as ¼ tsp.");

        var now = clock.GetUtcNow();
        var teaspoon = (await settings.ReadAsync(cancel)).Teaspoon;
        var known = KnownMaterials.Of(material);
        var weighed = KnownMaterials.Measured(material).Weigh(amount, teaspoon, factor: 1);
        if (Doubtful.IsBeyondAnyJar(weighed))
            return Outcome.Refused<Guid>(field, $"No jar holds {amount.Text}.", "Check the number and its unit.");
        var isPoured = amount.IsPoured || (known is not null && KnownMaterials.IsPoured(known.Substance));
        if (string.IsNullOrWhiteSpace(form.Meant) && Doubtful.InJar(weighed, material.Name, sample.VolumeMl, isPoured) is { } doubt)
            return Outcome.Refused<Guid>(nameof(form.Meant), doubt, "Check the number and its unit; if it is so, tick “Yes, I mean that”.");
        var last =
            await db.Additions.Where(addition => addition.SampleId == sample.Id).MaxAsync(addition => (int?)addition.Step, cancel) ?? 0;
        var place = last + 1;
        if (!string.IsNullOrWhiteSpace(form.Before))
        {
            // Written up late: it takes the number of the last step that stood when the square was painted, and so lies in its stage.
            if (
                !Guid.TryParse(form.Before, out var squareId)
                || await db.Swatches.Counting().SingleOrDefaultAsync(one => one.Id == squareId && one.SampleId == sample.Id, cancel)
                    is not { AfterStep: { } painted }
            )
                return Outcome.Refused<Guid>(
                    nameof(form.Before),
                    "This square was not painted from this jar.",
                    "Choose one of those shown, or say that it went in now."
                );
            place = painted;
        }

        var step = new Addition
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            SampleId = sample.Id,
            MaterialId = material.Id,
            Step = place,
            At = now,
            Amount = weighed,
        };
        db.Add(step);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(step.Id);
    }

    /// <summary>Takes back the last addition that still counts; it stays readable as withdrawn.</summary>
    public async Task<Outcome<Guid>> UndoAsync(string code, string jar, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, cancel) is not { } sample)
            return Outcome.Refused<Guid>("Amount", $"There is no jar {jar} of pot {code}.", "Go back to the trial.");
        var last = await db
            .Additions.Counting()
            .Where(addition => addition.SampleId == sample.Id)
            .OrderByDescending(addition => addition.Step)
            .ThenByDescending(addition => addition.Id)
            .FirstOrDefaultAsync(cancel);
        if (last is null)
            return Outcome.Refused<Guid>("Amount", "Nothing is in this jar yet.", "There is nothing to take back.");
        last.WithdrawnAt = clock.GetUtcNow();
        last.WithdrawnWhy = "taken back at the bench";
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(last.Id);
    }

    /// <summary>Writes what was seen after the last addition: pH by strip, fizz, a colour's name.</summary>
    public async Task<Outcome<Guid>> NoteAsync(string code, string jar, Seen form, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, cancel) is not { } sample)
            return Outcome.Refused<Guid>(nameof(form.Ph), $"There is no jar {jar} of pot {code}.", "Go back to the trial.");
        var entered = new Entered();
        var ph = entered.OptionalNumber(nameof(form.Ph), form.Ph, "a pH", 0, 14, "3.5");
        var words = entered.OptionalWords(nameof(form.Words), form.Words, 200);
        var said = entered.OptionalWords(nameof(form.Said), form.Said, 80);
        if (entered.Sound && ph is null && words is null && said is null)
            entered.Refuse(nameof(form.Words), "Nothing was said.", "Give a pH, or say what you see.");
        var last = await db
            .Additions.Counting()
            .Where(addition => addition.SampleId == sample.Id)
            .OrderByDescending(addition => addition.Step)
            .ThenByDescending(addition => addition.Id)
            .FirstOrDefaultAsync(cancel);
        if (entered.Sound && last is null && (ph is not null || words is not null))
            entered.Refuse(
                ph is not null ? nameof(form.Ph) : nameof(form.Words),
                "Nothing is in this jar yet, so this belongs to the pot.",
                "Write it into the pot's log."
            );
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        if (last is not null)
        {
            last.Ph = ph ?? last.Ph;
            last.Seen = words ?? last.Seen;
        }

        sample.Said = said ?? sample.Said;
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(sample.Id);
    }

    private async Task<Sample?> FindAsync(string code, string jar, CancellationToken cancel) =>
        await (
            from sample in db.Samples.Counting()
            join pot in db.Pots on sample.PotId equals pot.Id
            where pot.Code == code && sample.Jar == jar
            select sample
        ).SingleOrDefaultAsync(cancel);
}

public sealed record AddToSampleForm
{
    public string? Material { get; init; }

    public string? Amount { get; init; }

    /// <summary>The text beside the big buttons; used when no button's amount came.</summary>
    public string? Other { get; init; }

    /// <summary>Anything when an amount that hardly anybody means is meant.</summary>
    public string? Meant { get; init; }

    /// <summary>A square that was painted after it, for a step that is written up late; empty for one that goes in now.</summary>
    public string? Before { get; init; }
}
