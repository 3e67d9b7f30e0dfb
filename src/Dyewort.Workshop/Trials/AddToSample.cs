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

        /// <summary>One of <see cref="PhTool"/>'s names; by strip when empty.</summary>
        public string? PhBy { get; init; }

        /// <summary>Ticked words of <see cref="UsualSights"/>.</summary>
        public IReadOnlyList<string>? Saw { get; init; }

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

        if (!string.IsNullOrWhiteSpace(form.Planned) && await IsInAsync(sample, form.Planned, material, cancel))
            return Outcome.Refused<Guid>(
                nameof(form.Planned),
                $"What was planned of {material.Name} is in jar {sample.Jar} already: another window wrote it down.",
                "If it went in twice, write it as another step."
            );
        var entered = new Entered(asked: form);
        var ph = entered.Ph(nameof(form.Ph), form.Ph);
        var by = entered.OneOf(nameof(form.PhBy), form.PhBy, PhTool.Strip);
        var seen = SeenWords(entered, form.Saw, form.Words);
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);

        var now = clock.GetUtcNow();
        var teaspoon = (await settings.ReadAsync(cancel)).Teaspoon;
        var weighed = KnownMaterials.Measured(material).Weigh(amount, teaspoon, factor: 1);
        Guid? squareId = null;
        if (!string.IsNullOrWhiteSpace(form.Before))
        {
            squareId = Guid.TryParse(form.Before, out var given) ? given : Guid.Empty;
            if (form.All is not null)
                return Outcome.Refused<Guid>(
                    nameof(form.Before),
                    "A step that is written up late belongs to one jar.",
                    "Write it up in each jar, or say that it goes in now."
                );
        }

        // What goes into every jar at once is measured out once for each; what was seen was seen in this one.
        var jars = form.All is null
            ? [sample]
            : await db.Samples.Counting().Where(one => one.TrialId == sample.TrialId).OrderBy(one => one.Id).ToListAsync(cancel);
        Addition? own = null;
        var all = new List<Addition>();
        var reason = entered.OptionalWords(nameof(form.Reason), form.Reason, 200);
        var holding = await JarView.LoadAsync(db, jars, (await settings.ReadAsync(cancel)).Teaspoon, cancel);
        foreach (var one in jars)
        {
            var why = Caution.WhyNot(material, holding.First(jar => jar.Sample.Id == one.Id).Holds);
            if (why is not null && reason is null)
                entered.Refuse(
                    nameof(form.Reason),
                    $"Do not add it to {one.Jar}. {why}",
                    "Leave it out. If it went in all the same, write why; the reason is kept with the step."
                );
            Doubt(entered, field, weighed, material, one.VolumeMl);
            if (!entered.Sound)
                return Outcome.Refused<Guid>(entered.Problems);
            var place = await NextPlaceAsync(one, squareId, cancel);
            if (place is not { } step)
                return Outcome.Refused<Guid>(
                    nameof(form.Before),
                    "This square was not painted from this jar.",
                    "Choose one of those shown, or say that it went in now."
                );
            var addition = new Addition
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                SampleId = one.Id,
                MaterialId = material.Id,
                Step = step,
                At = now,
                Amount = weighed,
                Reason = why is null ? null : reason,
            };
            if (one.Id == sample.Id)
                (own, addition.Ph, addition.PhBy, addition.Seen) = (addition, ph, ph is null ? null : by, seen);
            all.Add(addition);
        }

        db.AddRange(all);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(own!.Id);
    }

    /// <summary>Words that a tap says, so that nobody types them with wet hands.</summary>
    public static IReadOnlyList<string> UsualSights { get; } =
    ["fizzed", "cloudy", "went clear", "changed colour", "darker", "lighter", "no change"];

    /// <summary>Refuses what no jar holds, and asks once more about what hardly anybody means.</summary>
    internal static void Doubt(Entered entered, string field, MeasuredAmount amount, Material material, double jarMl)
    {
        if (Doubtful.IsBeyondAnyJar(amount))
        {
            entered.Refuse(field, $"No jar holds {amount.Text}.", "Check the number and its unit.");
            return;
        }

        entered.Doubt(KnownMaterials.Doubt(amount, material, material.Name, jarMl));
    }

    /// <summary>True where a planned step was done or taken out of the plan since the page that offered it was loaded.</summary>
    private async Task<bool> IsInAsync(Sample sample, string planned, Material material, CancellationToken cancel) =>
        !Guid.TryParse(planned, out var id)
        || !await db
            .PlannedSteps.Counting()
            .AnyAsync(step => step.Id == id && step.SampleId == sample.Id && step.MaterialId == material.Id, cancel)
        || await db.Additions.Counting().AnyAsync(step => step.SampleId == sample.Id && step.MaterialId == material.Id, cancel);

    /// <summary>The number of the next step; of one that is written up late, that of the last step that stood when its square was painted,
    /// so that it lies in that stage; null where the square is not this jar's.</summary>
    private async Task<int?> NextPlaceAsync(Sample sample, Guid? squareId, CancellationToken cancel) =>
        squareId is { } square
            ? (await db.Swatches.Counting().SingleOrDefaultAsync(one => one.Id == square && one.SampleId == sample.Id, cancel))?.AfterStep
            : 1
                + (
                    await db.Additions.Where(addition => addition.SampleId == sample.Id).MaxAsync(addition => (int?)addition.Step, cancel)
                    ?? 0
                );

    private static string? SeenWords(Entered entered, IReadOnlyList<string>? ticked, string? typed)
    {
        var words = entered.OptionalWords("Words", typed, 200);
        var known = (ticked ?? []).Where(one => UsualSights.Contains(one, StringComparer.Ordinal)).Distinct().ToList();
        return known.Count == 0 ? words : string.Join(", ", words is null ? known : [.. known, words]);
    }

    /// <summary>Takes back the last addition that still counts; it stays readable as withdrawn.</summary>
    /// <param name="everywhere">In every jar that it was put into at the same time.</param>
    public async Task<Outcome<Guid>> UndoAsync(string code, string jar, bool everywhere, CancellationToken cancel)
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
        var given = everywhere ? await SameDeedAsync(db, sample, last, cancel) : [last];
        foreach (var addition in given)
            (addition.WithdrawnAt, addition.WithdrawnWhy) = (clock.GetUtcNow(), "taken back at the bench");
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(last.Id);
    }

    /// <summary>The steps that were written down together with one: the same addition into other jars of its trial, itself among
    /// them.</summary>
    internal static Task<List<Addition>> SameDeedAsync(NotebookDb db, Sample sample, Addition step, CancellationToken cancel) =>
        (
            from addition in db.Additions.Counting()
            join jar in db.Samples.Counting() on addition.SampleId equals jar.Id
            where jar.TrialId == sample.TrialId && addition.MaterialId == step.MaterialId && addition.WrittenAt == step.WrittenAt
            select addition
        ).ToListAsync(cancel);

    /// <summary>Writes what was seen after the last addition: pH by strip, fizz, a colour's name.</summary>
    public async Task<Outcome<Guid>> NoteAsync(string code, string jar, Seen form, CancellationToken cancel)
    {
        if (await FindAsync(code, jar, cancel) is not { } sample)
            return Outcome.Refused<Guid>(nameof(form.Ph), $"There is no jar {jar} of pot {code}.", "Go back to the trial.");
        var entered = new Entered();
        var ph = entered.Ph(nameof(form.Ph), form.Ph);
        var by = entered.OneOf(nameof(form.PhBy), form.PhBy, PhTool.Strip);
        var words = SeenWords(entered, form.Saw, form.Words);
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
            if (ph is not null)
                (last.Ph, last.PhBy) = (ph, by);
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

public sealed record AddToSampleForm : IDoubtable
{
    public string? Material { get; init; }

    public string? Amount { get; init; }

    /// <summary>The text beside the big buttons; used when no button's amount came.</summary>
    public string? Other { get; init; }

    /// <summary>pH as it was read after it; may be empty.</summary>
    public string? Ph { get; init; }

    /// <summary>One of <see cref="PhTool"/>'s names; by strip when empty.</summary>
    public string? PhBy { get; init; }

    /// <summary>What was seen, in ticked words.</summary>
    public IReadOnlyList<string>? Saw { get; init; }

    /// <summary>What was seen, in typed words.</summary>
    public string? Words { get; init; }

    /// <summary>Anything when the same goes into every jar of the trial.</summary>
    public string? All { get; init; }

    /// <summary>The jar that the maker goes on to; empty to stay.</summary>
    public string? On { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }

    /// <summary>The planned step that this is; empty for one that nobody planned.</summary>
    public string? Planned { get; init; }

    /// <summary>Why it goes in though it must not; asked for only then.</summary>
    public string? Reason { get; init; }

    /// <summary>A square that was painted after it, for a step that is written up late; empty for one that goes in now.</summary>
    public string? Before { get; init; }
}
