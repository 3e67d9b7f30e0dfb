using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>One jar at the bench, with what could be added to it.</summary>
public sealed class ShowJar(NotebookDb db, FindThread thread, NotebookSettings settings, JarChemistry chemistry) : IUseCase
{
    public async Task<ShowJarAnswer?> HandleAsync(string code, string jar, CancellationToken cancel)
    {
        var found = await (
            from sample in db.Samples.AsNoTracking()
            join pot in db.Pots on sample.PotId equals pot.Id
            join trial in db.Trials on sample.TrialId equals trial.Id
            where pot.Code == code && sample.Jar == jar
            select new
            {
                pot,
                sample,
                trial,
            }
        ).SingleOrDefaultAsync(cancel);
        if (found is null)
            return null;
        var kitchen = (await settings.ReadAsync(cancel)).Teaspoon;
        var view = (await JarView.LoadAsync(db, [found.sample], kitchen, cancel))[0];
        var row = await db
            .Samples.AsNoTracking()
            .Counting()
            .Where(sample => sample.TrialId == found.trial.Id)
            .OrderBy(sample => sample.Id)
            .Select(sample => sample.Jar)
            .ToListAsync(cancel);
        var place = row.IndexOf(jar);
        var last = view.Counting.LastOrDefault()?.Addition;
        var deed = last is null ? [] : await AddToSample.SameDeedAsync(db, found.sample, last, cancel);

        // What was stirred in most lately comes first: the next jar usually wants the same.
        var used = await (
            from addition in db.Additions
            join sample in db.Samples on addition.SampleId equals sample.Id
            where sample.PotId == found.pot.Id
            orderby addition.At descending
            select addition.MaterialId
        )
            .Take(200)
            .ToListAsync(cancel);
        var order = used.Distinct().Select((id, index) => (id, index)).ToDictionary(pair => pair.id, pair => pair.index);
        var materials = await db
            .Materials.AsNoTracking()
            .Counting()
            .Where(material =>
                material.Kind != MaterialKind.Plant && material.Kind != MaterialKind.Paper && material.Kind != MaterialKind.Container
            )
            .ToListAsync(cancel);
        return new(
            found.pot,
            found.trial,
            view,
            place > 0 ? row[place - 1] : null,
            place >= 0 && place + 1 < row.Count ? row[place + 1] : null,
            [
                .. materials
                    .OrderBy(material => order.GetValueOrDefault(material.Id, int.MaxValue))
                    .ThenBy(material => material.Kind)
                    .ThenBy(material => material.Name, StringComparer.OrdinalIgnoreCase),
            ],
            KitchenMeasures.TeaspoonMillilitres(kitchen),
            await thread.OfTrialAsync(found.trial, cancel)
        )
        {
            JarsInTrial = row.Count,
            Plant = (await Origin.LoadAsync(db, [found.pot.Id], cancel))[0].Plant,
            LastInto = deed.Count,
            LastHeldElsewhere = await HeldElsewhereAsync(found.sample, deed, kitchen, cancel),
            Earlier = await EarlierReading.OfAsync(db, [.. view.Steps.Select(step => step.Addition)], cancel),

            // What was poured together from other jars is not the pot's liquor any more.
            Chemistry =
                found.sample.ParentId is null && (await chemistry.HandleAsync(found.pot, view, cancel)).TryGet(out var holds)
                    ? holds
                    : null,
        };
    }

    // Taken back in all jars, it leaves their painted squares as well.
    private async Task<IReadOnlyList<string>> HeldElsewhereAsync(
        Sample own,
        List<Addition> deed,
        Teaspoon kitchen,
        CancellationToken cancel
    )
    {
        var others = deed.Where(step => step.SampleId != own.Id).ToDictionary(step => step.SampleId);
        var ids = others.Keys.ToList();
        var samples = await db
            .Samples.AsNoTracking()
            .Where(sample => ids.Contains(sample.Id))
            .OrderBy(sample => sample.Id)
            .ToListAsync(cancel);
        return
        [
            .. (await JarView.LoadAsync(db, samples, kitchen, cancel)).SelectMany(jar =>
                jar.SquaresHolding(others[jar.Sample.Id]).Select(square => $"{square.ChartCode} {square.Swatch.Cell}")
            ),
        ];
    }
}

public sealed record ShowJarAnswer(
    Pot Pot,
    Trial Trial,
    JarView Jar,
    string? Before,
    string? After,
    IReadOnlyList<Material> Materials,
    double TeaspoonMl,
    IReadOnlyList<ThreadStep> Thread
)
{
    /// <summary>The plant of the pot's liquor.</summary>
    public required Material Plant { get; init; }

    /// <summary>How many jars stand in the trial.</summary>
    public int JarsInTrial { get; init; }

    /// <summary>How many jars of the trial the last step was put into at once.</summary>
    public int LastInto { get; init; }

    /// <summary>Painted squares of the other of those jars that hold that step: "C1 A3".</summary>
    public IReadOnlyList<string> LastHeldElsewhere { get; init; } = [];

    /// <summary>What had been read and seen before something else was written for the same step, oldest first.</summary>
    public IReadOnlyList<EarlierReading> Earlier { get; init; } = [];

    /// <summary>What the jar holds by the sums of chemistry; null when they give no answer.</summary>
    public JarChemistryAnswer? Chemistry { get; init; }
}
