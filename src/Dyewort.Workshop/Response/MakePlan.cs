using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Print;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Sets a plan out in the notebook: the jars with what is to go into them, and the sheet to paint them on; and prints the
/// tags.</summary>
public sealed class MakePlan(
    NotebookDb db,
    SplitPot split,
    StartChart start,
    PrintJarTags tags,
    NotebookSettings settings,
    TimeProvider clock
) : IUseCase
{
    /// <returns>The trial's letter.</returns>
    public async Task<Outcome<string>> HandleAsync(string code, MakePlanForm form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var entered = new Entered();
        if (form.Jar.Count == 0)
            entered.Refuse(nameof(form.Jar), "The plan has no jar.", "Plan it again.");
        var materials = await db.Materials.AsNoTracking().Counting().ToDictionaryAsync(material => material.Id, cancel);
        var plans = new List<List<(Material Material, Amount Amount)>>();
        foreach (var jar in form.Jar)
        {
            var steps = new List<(Material, Amount)>();
            foreach (var step in jar.Split('|', StringSplitOptions.RemoveEmptyEntries))
            {
                var cut = step.IndexOf('=', StringComparison.Ordinal);
                var material = cut > 0 && Guid.TryParse(step.AsSpan(0, cut), out var id) ? materials.GetValueOrDefault(id) : null;
                if (material is null || !Amount.Parse(nameof(form.Jar), step[(cut + 1)..]).TryGet(out var amount))
                    entered.Refuse(nameof(form.Jar), "A step of the plan cannot be read.", "Plan it again.");
                else
                    steps.Add((material, amount));
            }

            if (Caution.WhyNever(steps.Select(step => step.Item1)) is { } never)
                entered.Refuse(nameof(form.Jar), $"That is not planned. {never}", "Leave one of them out, and plan again.");
            plans.Add(steps);
        }

        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        var poured = await split.HandleAsync(
            code,
            new()
            {
                Title = form.Title,
                Kind = form.Kind,
                Jars = form.Jar.Count.ToString(CultureInfo.InvariantCulture),
                VolumeMl = form.VolumeMl,
            },
            cancel
        );
        if (!poured.TryGet(out var letter))
            return poured;
        var samples = await (
            from sample in db.Samples
            join trial in db.Trials on sample.TrialId equals trial.Id
            join pot in db.Pots on trial.PotId equals pot.Id
            where pot.Code == code && trial.Letter == letter
            orderby sample.Id
            select sample
        ).ToListAsync(cancel);
        var now = clock.GetUtcNow();
        var teaspoon = (await settings.ReadAsync(cancel)).Teaspoon;
        foreach (var (sample, plan) in samples.Zip(plans))
        {
            db.AddRange(
                plan.Select(
                    (step, index) =>
                        new PlannedStep
                        {
                            Id = Guid.CreateVersion7(now),
                            WrittenAt = now,
                            SampleId = sample.Id,
                            MaterialId = step.Material.Id,
                            Step = index + 1,
                            Amount = KnownMaterials.Measured(step.Material).Weigh(step.Amount, teaspoon, factor: 1),
                        }
                )
            );
        }

        await db.SaveChangesAsync(cancel);
        var sheet = await start.HandleAsync(code, letter, new() { Page = form.Jar.Count > 24 ? "A4" : "A5", Paper = form.Paper }, cancel);
        return sheet.TryGet(out _) ? Outcome.Of(letter) : Outcome.Refused<string>(sheet.Problems);
    }

    public sealed record Mixture
    {
        /// <summary>The two inks: samples by their codes, "EB25-1 A5".</summary>
        public string? First { get; init; }

        public string? Second { get; init; }

        /// <summary>Share of the first by volume, between 0 and 1.</summary>
        public string? Share { get; init; }

        /// <summary>Volume of the mixture; 20 when empty.</summary>
        public string? VolumeMl { get; init; }

        public string? Title { get; init; }
    }

    /// <summary>Sets a jar out for a mixture of two painted inks, with its sheet.</summary>
    /// <returns>The pot of the first ink, and the trial's letter.</returns>
    public async Task<Outcome<(string Pot, string Letter)>> MixAsync(Mixture form, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(form);
        var entered = new Entered(await db.KitchenAsync(cancel));
        var first = await SampleAsync(entered, nameof(form.First), form.First, cancel);
        var second = await SampleAsync(entered, nameof(form.Second), form.Second, cancel);
        var share = entered.Number(nameof(form.Share), form.Share, "The first ink's share", "of the whole", 0.01, 0.99, "0.5");
        var volume = entered.Volume(nameof(form.VolumeMl), form.VolumeMl, 1, 10_000) ?? 20;
        var title = entered.OptionalWords(nameof(form.Title), form.Title, 80);
        if (first is { } one && second is { } other && one.Sample.Id == other.Sample.Id)
            entered.Refuse(nameof(form.Second), "An ink mixed with itself stays as it is.", "Choose two.");
        if (!entered.Sound || first is not { } ink || second is not { } added)
            return Outcome.Refused<(string, string)>(entered.Problems);
        var poured = await JarView.LoadAsync(db, [ink.Sample, added.Sample], (await settings.ReadAsync(cancel)).Teaspoon, cancel);
        if (Caution.WhyNever(poured.SelectMany(jar => jar.Holds)) is { } never)
            return Outcome.Refused<(string, string)>(
                nameof(form.Second),
                $"These two are not mixed. {never}",
                "Choose another ink, or pour them beside each other."
            );

        var now = clock.GetUtcNow();
        var trial = new Trial
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = ink.Sample.PotId,
            Letter = Codes.TrialLetter(await db.Trials.CountAsync(one => one.PotId == ink.Sample.PotId, cancel)),
            Title = title ?? "two inks mixed",
            Kind = TrialKind.Free,
            SetOutOn = DateOnly.FromDateTime(clock.GetLocalNow().DateTime),
        };
        var mixedMl = volume * (1 - share);
        db.AddRange(
            trial,
            new Sample
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                PotId = ink.Sample.PotId,
                TrialId = trial.Id,
                ParentId = ink.Sample.Id,
                MixedWithId = added.Sample.Id,
                MixedMl = mixedMl,
                Jar = $"{trial.Letter}1",
                VolumeMl = volume,
                PouredAt = now,
            }
        );
        await db.SaveChangesAsync(cancel);
        var sheet = await start.HandleAsync(ink.Pot, trial.Letter, new() { Page = "A5" }, cancel);
        return sheet.TryGet(out _) ? Outcome.Of((ink.Pot, trial.Letter)) : Outcome.Refused<(string, string)>(sheet.Problems);
    }

    private async Task<(Sample Sample, string Pot, string Code)?> SampleAsync(
        Entered entered,
        string field,
        string? code,
        CancellationToken cancel
    )
    {
        if (
            (code ?? "").Trim().Split(' ') is [var potCode, var jar]
            && await (
                from sample in db.Samples.AsNoTracking().Counting()
                join pot in db.Pots on sample.PotId equals pot.Id
                where pot.Code == potCode && sample.Jar == jar
                select sample
            ).SingleOrDefaultAsync(cancel)
                is { } found
        )
            return (found, potCode, $"{potCode} {jar}");
        entered.Refuse(field, $"There is no jar “{code}” in this notebook.", "Start again from the wanted colour.");
        return null;
    }

    /// <summary>Tags for the jars of a trial: what is in them, or what is to go in.</summary>
    /// <returns>Null where there is no such trial.</returns>
    public async Task<Outcome<byte[]>?> TagsAsync(string code, string letter, CancellationToken cancel)
    {
        var samples = await (
            from sample in db.Samples.AsNoTracking().Counting()
            join trial in db.Trials on sample.TrialId equals trial.Id
            join pot in db.Pots on trial.PotId equals pot.Id
            where pot.Code == code && trial.Letter == letter
            orderby sample.Id
            select sample
        ).ToListAsync(cancel);
        if (samples.Count == 0)
            return null;
        var jars = await JarView.LoadAsync(db, samples, (await settings.ReadAsync(cancel)).Teaspoon, cancel);
        return tags.Handle(
            [
                .. jars.Select(jar => new JarTag(
                    jar.Sample.Jar,
                    $"{Volume.Say(jar.Sample.VolumeMl)}{(jar.Mixture is null ? $" of {code}" : ", two inks mixed")}",
                    jar.Counting.Any()
                            ? [.. jar.Counting.Select(step => $"{step.Material.Name} {step.Addition.Amount.TextIn(jar.Kitchen)}")]
                        : jar.Plan is { } plan ? plan.Split(" + ")
                        : []
                )),
            ],
            sheet: null
        );
    }
}

public sealed record MakePlanForm
{
    public string? Title { get; init; }

    public string? VolumeMl { get; init; }

    /// <summary>The paper to paint on, a material's key; may be empty.</summary>
    public string? Paper { get; init; }

    public string? Kind { get; init; }

    /// <summary>One entry per jar: steps as "material key=amount", separated by "|"; empty for the plain liquor.</summary>
    public IReadOnlyList<string> Jar { get; init; } = [];
}
