using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>Puts a step of a jar right: corrects it, moves it to another jar, takes it back, puts it back. What it said before stays
/// readable.</summary>
/// <remarks>
/// A step's number never changes, so a painted square goes on naming the stage it was painted from, and says what that stage holds after
/// the correction.
/// </remarks>
public sealed class ChangeStep(NotebookDb db, TimeProvider clock, NotebookSettings settings) : IUseCase
{
    private const string MovedBack = "moved back to ";

    /// <summary>Corrects amount, time and what was seen; another material is written in its place, with the number of this step.</summary>
    /// <returns>The step.</returns>
    public async Task<Outcome<Guid>> CorrectAsync(string code, string jar, Guid id, ChangeStepForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (await FindAsync(code, jar, id, cancel) is not { } step)
            return Missing(nameof(form.Amount));
        if (!step.Counts)
            return Outcome.Refused<Guid>(nameof(form.Amount), "This step was taken back.", "Put it back first.");
        var entered = new Entered(asked: form);
        var was = await db.Materials.SingleAsync(one => one.Id == step.MaterialId, cancel);
        var material = was;
        if (!string.IsNullOrWhiteSpace(form.Material) && form.Material != was.Id.ToString())
        {
            material = Guid.TryParse(form.Material, out var other)
                ? await db.Materials.Counting().SingleOrDefaultAsync(one => one.Id == other, cancel)
                : null;
            if (material is null)
                entered.Refuse(nameof(form.Material), "What went in is not in the pantry.", "Choose one of those shown.");
        }

        var amount = step.Amount;
        var kitchen = (await settings.ReadAsync(cancel)).Teaspoon;
        var untouched = form.Amount?.Trim() is { } words && (words == step.Amount.Text || words == step.Amount.TextIn(kitchen));
        if (!untouched || material?.Id != was.Id)
        {
            var typed = entered.Take(Amount.Parse(nameof(form.Amount), form.Amount));
            if (typed is { Number: <= 0 })
                entered.Refuse(
                    nameof(form.Amount),
                    "Nothing at all cannot have gone in.",
                    "Type an amount above zero, such as ¼ tsp, or take the step back."
                );
            if (typed is not null && material is not null)
            {
                amount = KnownMaterials.Measured(material).Weigh(typed, kitchen, factor: 1);
                var inJar = await db.Samples.AsNoTracking().SingleAsync(one => one.Id == step.SampleId, cancel);
                AddToSample.Doubt(entered, nameof(form.Amount), amount, material, inJar.VolumeMl);
            }
        }

        var reason = entered.OptionalWords(nameof(form.Reason), form.Reason, 200);
        var why = material is null || material.Id == was.Id ? null : Caution.WhyNot(material, await HoldsAsync(step, cancel));
        if (why is not null && reason is null)
            entered.Refuse(
                nameof(form.Reason),
                $"Was it {material!.Name}? {why}",
                "Choose what it was. If it went in all the same, write why; the reason is kept with the step."
            );
        var at = WrittenTime.Read(entered, nameof(form.At), form.At, step.At, clock);
        var seen = entered.OptionalWords(nameof(form.Seen), form.Seen, 200);
        var ph = entered.Ph(nameof(form.Ph), form.Ph);

        // What an earlier program did not ask stays unsaid, unless the maker says it now.
        PhTool? by =
            ph is null ? null
            : string.IsNullOrWhiteSpace(form.PhBy) ? step.PhBy
            : entered.OneOf(nameof(form.PhBy), form.PhBy, PhTool.Strip);
        if (!entered.Sound || material is null)
            return Outcome.Refused<Guid>(entered.Problems);
        if (material.Id != was.Id)
        {
            var now = clock.GetUtcNow();
            step.Withdraw(now, $"it was {material.Name}");
            db.Add(
                new Addition
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    SampleId = step.SampleId,
                    MaterialId = material.Id,
                    Step = step.Step,
                    At = at,
                    Amount = amount,
                    Seen = seen,
                    Ph = ph,
                    PhBy = by,
                    Reason = why is null ? null : reason,
                }
            );
        }
        else
            (step.Amount, step.At, step.Seen, step.Ph, step.PhBy) = (amount, at, seen, ph, by);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(step.Id);
    }

    /// <summary>Moves it to another jar of the pot: it is taken back here and written there, with its time and what was seen.</summary>
    /// <param name="to">A sample's key for a step that goes in last there; with a colon and a square's key for one that was in already when
    /// that square was painted.</param>
    /// <returns>The step that was taken back.</returns>
    public async Task<Outcome<Guid>> MoveAsync(string code, string jar, Guid id, string? to, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, id, cancel) is not { } step)
            return Missing("To");
        if (!step.Counts)
            return Outcome.Refused<Guid>("To", "This step was taken back.", "Put it back first.");
        var parts = (to ?? "").Split(':');
        var target = Guid.TryParse(parts[0], out var sampleId)
            ? await (
                from sample in db.Samples.Counting()
                join trial in db.Trials.Counting() on sample.TrialId equals trial.Id
                join pot in db.Pots.Counting() on sample.PotId equals pot.Id
                where sample.Id == sampleId && pot.Code == code && sample.Id != step.SampleId
                select sample
            ).SingleOrDefaultAsync(cancel)
            : null;
        if (target is null)
            return Outcome.Refused<Guid>("To", "Where it belongs was not chosen.", "Choose one of the jars shown.");
        var number = 1 + (await db.Additions.Where(one => one.SampleId == target.Id).MaxAsync(one => (int?)one.Step, cancel) ?? 0);
        if (parts.Length > 1)
        {
            var square = Guid.TryParse(parts[1], out var squareId)
                ? await db.Swatches.Counting().SingleOrDefaultAsync(one => one.Id == squareId && one.SampleId == target.Id, cancel)
                : null;
            if (square?.AfterStep is not { } painted)
                return Outcome.Refused<Guid>("To", "That square was not painted from that jar.", "Choose one of those shown.");
            number = painted;
        }

        var moved = await db.Materials.AsNoTracking().SingleAsync(one => one.Id == step.MaterialId, cancel);
        if (Caution.WhyNot(moved, await HoldsAsync(target, [], cancel)) is { } why && step.Reason is null)
            return Outcome.Refused<Guid>(
                "To",
                $"It is not moved to {target.Jar}. {why}",
                "If it went in there, add it in that jar, where the reason can be written, and take it back here."
            );
        var now = clock.GetUtcNow();
        step.Withdraw(now, $"moved to {target.Jar}");
        db.Add(
            new Addition
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                SampleId = target.Id,
                MaterialId = step.MaterialId,
                Step = number,
                At = step.At,
                Amount = step.Amount with { },
                Seen = step.Seen,
                Ph = step.Ph,
                PhBy = step.PhBy,
                Reason = step.Reason,
            }
        );
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(step.Id);
    }

    /// <summary>Takes any step back, not only the last.</summary>
    public async Task<Outcome<Guid>> WithdrawAsync(string code, string jar, Guid id, WithdrawForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        if (await FindAsync(code, jar, id, cancel) is not { } step)
            return Missing(nameof(form.Why));
        var entered = new Entered();
        var why = form.Read(entered);
        if (!step.Counts)
            entered.Refuse(nameof(form.Why), "This step was taken back already.", "Load the page again.");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        step.Withdraw(clock.GetUtcNow(), why);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(step.Id);
    }

    /// <summary>Lets a step that was taken back count again; what was written in its stead is taken back.</summary>
    public async Task<Outcome<Guid>> PutBackAsync(string code, string jar, Guid id, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, id, cancel) is not { } step)
            return Missing("Why");
        if (step.Counts)
            return Outcome.Refused<Guid>("Why", "This step counts; it was not taken back.", "Load the page again.");

        // It is a copy whose original counts again: both would be one measure twice.
        if (step.WithdrawnWhy?.StartsWith(MovedBack, StringComparison.Ordinal) == true)
            return Outcome.Refused<Guid>("Why", $"This step was {step.WithdrawnWhy}, where it counts.", "Move it here from there.");
        var back = await db.Materials.AsNoTracking().SingleAsync(one => one.Id == step.MaterialId, cancel);
        if (step.Reason is null && Caution.WhyNot(back, await HoldsAsync(step, cancel)) is { } why)
            return Outcome.Refused<Guid>(
                "Why",
                $"It is not put back. {why}",
                "If it is in there, add it again in its jar, where the reason can be written."
            );
        var (since, potId) = (
            step.WithdrawnAt,
            await db.Samples.Where(one => one.Id == step.SampleId).Select(one => one.PotId).SingleAsync(cancel)
        );

        // A move, or another material, was written in the same moment.
        var instead = await (
            from one in db.Additions.Counting()
            join sample in db.Samples on one.SampleId equals sample.Id
            where sample.PotId == potId && one.WrittenAt == since
            where one.MaterialId == step.MaterialId || (one.SampleId == step.SampleId && one.Step == step.Step)
            select one
        ).ToListAsync(cancel);
        foreach (var one in instead)
            one.Withdraw(clock.GetUtcNow(), $"{MovedBack}{jar}");
        step.PutBack();
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(step.Id);
    }

    /// <summary>Undoes the last change of a step, whatever it was; undone twice, it stands again.</summary>
    public async Task<Outcome<Guid>> UndoAsync(string code, string jar, Guid id, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, id, cancel) is not { } step)
            return Missing("Why");
        var last = await LastChange.OfAsync(db, step.Id, cancel);
        if (last.Count == 0)
            return Outcome.Refused<Guid>("Why", "Nothing was changed here.", "There is nothing to undo.");
        if (LastChange.IsWithdrawal(last) && !step.Counts)
            return await PutBackAsync(code, jar, id, cancel);
        LastChange.Undo(db, step, last);
        if (LastChange.IsWithdrawal(last))
        {
            // What was taken back when this one was put back counts again.
            var with = await db
                .Corrections.AsNoTracking()
                .Where(one => one.CorrectedAt == last[0].CorrectedAt && one.EntryKind == nameof(Addition) && one.EntryId != step.Id)
                .ToListAsync(cancel);
            foreach (var change in with.GroupBy(one => one.EntryId))
                LastChange.Undo(db, await db.Additions.SingleAsync(one => one.Id == change.Key, cancel), change);
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(step.Id);
    }

    /// <summary>What else is in the jar of a step.</summary>
    private async Task<IReadOnlyList<Material>> HoldsAsync(Addition step, CancellationToken cancel) =>
        await HoldsAsync(await db.Samples.AsNoTracking().SingleAsync(one => one.Id == step.SampleId, cancel), [step.Id], cancel);

    private async Task<IReadOnlyList<Material>> HoldsAsync(Sample jar, IReadOnlyList<Guid> without, CancellationToken cancel)
    {
        var view = (await JarView.LoadAsync(db, [jar], (await settings.ReadAsync(cancel)).Teaspoon, cancel))[0];
        return [.. view.Counting.Where(one => !without.Contains(one.Addition.Id)).Select(one => one.Material), .. view.CameAlong];
    }

    private static Outcome<Guid> Missing(string field) =>
        Outcome.Refused<Guid>(
            field,
            "This step is not in the notebook, or its jar was taken back.",
            "Go back to the jar; put it back first if it was taken back."
        );

    private Task<Addition?> FindAsync(string code, string jar, Guid id, CancellationToken cancel) =>
        (
            from step in db.Additions
            join sample in db.Samples.Counting() on step.SampleId equals sample.Id
            join trial in db.Trials.Counting() on sample.TrialId equals trial.Id
            join pot in db.Pots.Counting() on sample.PotId equals pot.Id
            where pot.Code == code && sample.Jar == jar && step.Id == id
            select step
        ).SingleOrDefaultAsync(cancel);
}

public sealed record ChangeStepForm : IDoubtable
{
    /// <summary>What it was, a material's key; the step's own when it is empty.</summary>
    public string? Material { get; init; }

    public string? Amount { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }

    /// <summary>When it went in: "2025-09-06T08:05" where the maker stands.</summary>
    public string? At { get; init; }

    public string? Seen { get; init; }

    /// <summary>One of <see cref="PhTool"/>'s names; as it was when empty.</summary>
    public string? PhBy { get; init; }

    public string? Ph { get; init; }

    /// <summary>Why it went in though it must not; asked for only then.</summary>
    public string? Reason { get; init; }
}
