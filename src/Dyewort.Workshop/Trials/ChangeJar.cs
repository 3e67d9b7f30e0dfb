using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>Puts a jar right: how much was poured and when, and what its colour is called. Its code stays: it is printed on its sheet and
/// its tag.</summary>
public sealed class ChangeJar(NotebookDb db, TimeProvider clock, LiquorLeft liquor)
    : EntryChange<Sample, ChangeJarForm>(db, clock),
        IUseCase
{
    /// <summary>When it was poured, as a form's field holds it.</summary>
    public string PouredAt(Sample jar)
    {
        ArgumentNullException.ThrowIfNull(jar);
        return WrittenTime.Say(jar.PouredAt, Clock);
    }

    /// <summary>What says something else once its volume is corrected.</summary>
    public Task<Touched> TouchedAsync(Sample jar, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(jar);
        return Touched.ByJarAsync(Db, jar.Id, cancel);
    }

    /// <summary>Steps of a plan that are still to go in, with the names of what goes in.</summary>
    public async Task<IReadOnlyList<(PlannedStep Step, string Name)>> PlannedAsync(Sample jar, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(jar);
        var planned = await (
            from step in Db.PlannedSteps.AsNoTracking()
            join material in Db.Materials on step.MaterialId equals material.Id
            where step.SampleId == jar.Id
            orderby step.Step
            select new { step, material.Name }
        ).ToListAsync(cancel);
        return [.. planned.Select(one => (one.step, one.Name))];
    }

    /// <summary>Takes a planned step out of the plan, or puts it back.</summary>
    public async Task<Outcome<Thing>> PlanAsync(Thing thing, string? step, CancellationToken cancel)
    {
        var jar = await FindAsync(thing, cancel);
        var planned = Guid.TryParse(step, out var id)
            ? await Db.PlannedSteps.SingleOrDefaultAsync(one => one.Id == id && jar != null && one.SampleId == jar.Id, cancel)
            : null;
        if (planned is null)
            return Outcome.Refused<Thing>("Planned", "This step is not planned for this jar.", "Load the page again.");
        if (planned.Counts)
            planned.Withdraw(Clock.GetUtcNow(), "taken out of the plan");
        else
            planned.PutBack();
        await Db.SaveChangesAsync(cancel);
        return Outcome.Of(thing);
    }

    protected override Task<Sample?> FindAsync(Thing thing, CancellationToken cancel) =>
        (
            from sample in Db.Samples
            join pot in Db.Pots on sample.PotId equals pot.Id
            where pot.Code == thing.Code && sample.Jar == thing.Part
            select sample
        ).SingleOrDefaultAsync(cancel);

    protected override async Task<Action> ReadAsync(Entered entered, Sample entry, ChangeJarForm form, CancellationToken cancel)
    {
        var volume = entered.Volume(nameof(form.VolumeMl), form.VolumeMl, 0.5, 10_000, "How much was poured") ?? double.NaN;
        var at = WrittenTime.Read(entered, nameof(form.PouredAt), form.PouredAt, entry.PouredAt, Clock);
        var said = entered.OptionalWords(nameof(form.Said), form.Said, 80);
        if (entered.Sound && entry.MixedMl >= volume)
            entered.Refuse(
                nameof(form.VolumeMl),
                $"The second ink alone is {Figures.Say(entry.MixedMl!.Value)} ml of it.",
                "Type the whole of the mixture."
            );
        if (entered.Sound && entry.ParentId is null && volume > entry.VolumeMl)
        {
            var pot = await Db.Pots.AsNoTracking().SingleAsync(one => one.Id == entry.PotId, cancel);
            await liquor.CheckAsync(entered, nameof(form.VolumeMl), pot, volume - entry.VolumeMl, form.MoreThanWritten, cancel);
        }

        return () => (entry.VolumeMl, entry.PouredAt, entry.Said) = (volume, at, said);
    }

    protected override Task<IReadOnlyList<InTheWay>> InTheWayAsync(Sample entry, CancellationToken cancel) =>
        StandsOnAsync(Db, entry, cancel);

    protected override async Task<Problem?> NotBackAsync(Sample entry, CancellationToken cancel) =>
        await Db.Trials.Counting().AnyAsync(one => one.Id == entry.TrialId, cancel)
            ? null
            : new(nameof(WithdrawForm.Why), "Its trial was taken back.", "Put the trial back first.");

    /// <summary>What counts and stands on a jar: what was painted, kept or poured from it.</summary>
    internal static async Task<IReadOnlyList<InTheWay>> StandsOnAsync(NotebookDb db, Sample jar, CancellationToken cancel)
    {
        var touched = await Touched.ByJarAsync(db, jar.Id, cancel);
        var pots = await db.Pots.AsNoTracking().ToDictionaryAsync(pot => pot.Id, pot => pot.Code, cancel);
        return
        [
            .. touched
                .Squares.Where(square => square.Jar == jar.Jar)
                .Select(square => new InTheWay(
                    $"{square.Chart} {square.Cell} was painted from jar {jar.Jar}.",
                    "Say on the chart that the square was not painted; take its photo back first if it was read.",
                    Thing.Swatch(square.Chart, square.Cell)
                )),
            .. touched
                .Recipes.Where(recipe => recipe.SampleId == jar.Id)
                .Select(recipe => new InTheWay(
                    $"Recipe {recipe.Code}, “{recipe.Name}”, was kept from jar {jar.Jar}.",
                    "Take the recipe back first.",
                    Thing.Recipe(recipe.Code)
                )),
            .. touched
                .Jars.Where(other => other.ParentId == jar.Id || other.MixedWithId == jar.Id)
                .Select(other => new InTheWay(
                    $"Jar {other.Jar} of pot {pots[other.PotId]} was poured from jar {jar.Jar}.",
                    "Take that jar back first.",
                    Thing.Jar(pots[other.PotId], other.Jar)
                )),
        ];
    }
}

public sealed record ChangeJarForm : IDoubtable
{
    public string? VolumeMl { get; init; }

    /// <summary>"2025-09-06T08:05" where the maker stands.</summary>
    public string? PouredAt { get; init; }

    public string? Said { get; init; }

    /// <summary>Anything where there is more liquor than is written down.</summary>
    public string? MoreThanWritten { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
