using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Batches;

/// <summary>Writes what was really weighed and measured beside what was planned; an empty field leaves what stands there.</summary>
public sealed class MeasureBatch(NotebookDb db, NotebookSettings settings, DoubtBatch doubt) : IUseCase
{
    /// <summary>The field of a step's measured amount.</summary>
    public static string FieldOf(int step) => FormattableString.Invariant($"Step{step}");

    /// <param name="code">The batch.</param>
    /// <param name="form">What was measured of the whole.</param>
    /// <param name="amounts">What was measured of a step, by its number.</param>
    /// <returns>The batch's code.</returns>
    public async Task<Outcome<string>> HandleAsync(
        string code,
        MeasureBatchForm form,
        IReadOnlyDictionary<int, string?> amounts,
        CancellationToken cancel
    )
    {
        if (await db.Batches.Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } batch)
            return Outcome.Refused<string>(nameof(form.LiquorMl), $"There is no batch {code} in this notebook.", "Go back to the batches.");
        var teaspoon = (await settings.ReadAsync(cancel)).Teaspoon;
        var entered = new Entered(teaspoon, form);
        var liquor = entered.Volume(nameof(form.LiquorMl), form.LiquorMl, 0.1) ?? batch.MeasuredLiquorMl;
        var made = entered.Volume(nameof(form.MadeMl), form.MadeMl, 0.1) ?? batch.MadeMl;
        var filtered = entered.Volume(nameof(form.FilteredMl), form.FilteredMl, 0.1) ?? batch.FilteredMl;
        var kept = entered.Volume(nameof(form.KeptBackMl), form.KeptBackMl) ?? batch.KeptBackMl;
        var ph = entered.Ph(nameof(form.Ph), form.Ph) ?? batch.Ph;
        var note = entered.OptionalWords(nameof(form.Note), form.Note) ?? batch.Note;

        await doubt.HandleAsync(entered, batch, liquor, made, filtered, cancel);

        // A jug is read to about one part in fifty; more than that is a slip.
        if (filtered > made * 1.02)
            entered.Refuse(nameof(form.FilteredMl), "After filtering there is more than before.", "Check the two volumes.");
        if (kept > (filtered ?? made))
            entered.Refuse(nameof(form.KeptBackMl), "More is kept back than there is.", "Check the two volumes.");

        var steps = await db.BatchSteps.Counting().Where(step => step.BatchId == batch.Id).ToListAsync(cancel);
        var materials = (await db.Materials.AsNoTracking().ToListAsync(cancel)).ToDictionary(material => material.Id);
        var found = new List<(BatchStep Step, MeasuredAmount Amount)>();
        foreach (var (number, text) in amounts)
        {
            if (string.IsNullOrWhiteSpace(text))
                continue;
            var step = steps.Find(one => one.Step == number);
            if (step is null)
            {
                entered.Refuse(FieldOf(number), "That line is not in the batch.", "Load the page again.");
                continue;
            }

            if (entered.Take(Amount.Parse(FieldOf(number), text)) is not { } amount)
                continue;
            var what = step.MaterialId is { } id ? KnownMaterials.Measured(materials[id]) : KnownMaterials.Measured(step.Name);
            var weighed = what.Weigh(amount, teaspoon, factor: 1);
            if (Doubtful.IsBeyondAnyJar(weighed))
                entered.Refuse(FieldOf(number), $"No batch holds {amount.Text}.", "Check the number and its unit.");
            else
            {
                entered.Doubt(Doubtful.Step(step.Name, weighed, step.Planned));
                found.Add((step, weighed));
            }
        }

        var pours = await db.BatchLiquors.Counting().Where(one => one.BatchId == batch.Id).ToListAsync(cancel);
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        foreach (var (step, amount) in found)
            step.Measured = amount;
        (batch.MeasuredLiquorMl, batch.MadeMl, batch.FilteredMl, batch.KeptBackMl, batch.Ph, batch.Note) = (
            liquor,
            made,
            filtered,
            kept,
            ph,
            note
        );

        // With one pot, what was measured is what was drawn from it.
        if (liquor is { } poured && pours is [var only])
            only.Ml = poured;
        await db.SaveChangesAsync(cancel);
        return entered.Made(batch.Code);
    }
}

public sealed record MeasureBatchForm : IDoubtable
{
    public string? LiquorMl { get; init; }

    public string? MadeMl { get; init; }

    public string? FilteredMl { get; init; }

    public string? KeptBackMl { get; init; }

    public string? Ph { get; init; }

    public string? Note { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
