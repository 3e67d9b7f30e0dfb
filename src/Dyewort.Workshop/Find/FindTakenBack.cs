using System.Globalization;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Find;

/// <summary>What was taken back, to be shown struck out where it stood.</summary>
public sealed class FindTakenBack(NotebookDb db) : IUseCase
{
    /// <summary>Pots, newest first.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> PotsAsync(CancellationToken cancel) =>
        Lines(
            await db.Pots.AsNoTracking().OrderByDescending(one => one.Id).ToListAsync(cancel),
            pot => pot.Code,
            pot => Thing.Pot(pot.Code)
        );

    /// <summary>Lots of plant, newest first.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> LotsAsync(CancellationToken cancel)
    {
        var plants = await db.Materials.AsNoTracking().ToDictionaryAsync(one => one.Id, one => one.Name, cancel);
        return Lines(
            await db.PlantLots.AsNoTracking().OrderByDescending(one => one.Id).ToListAsync(cancel),
            lot =>
                lot.GatheredOn is { } day
                    ? string.Create(CultureInfo.InvariantCulture, $"{plants[lot.PlantId]}, {day:d MMM yyyy}")
                    : plants[lot.PlantId],
            lot => new Thing(ThingKind.Lot, lot.Id.ToString())
        );
    }

    /// <summary>Trials of a pot.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> TrialsAsync(Pot pot, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        return Lines(
            await db.Trials.AsNoTracking().Where(one => one.PotId == pot.Id).OrderBy(one => one.Id).ToListAsync(cancel),
            trial => $"{trial.Letter}: {trial.Title}",
            trial => Thing.Trial(pot.Code, trial.Letter)
        );
    }

    /// <summary>Jars of a trial.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> JarsAsync(Pot pot, Trial trial, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        ArgumentNullException.ThrowIfNull(trial);
        return Lines(
            await db.Samples.AsNoTracking().Where(one => one.TrialId == trial.Id).OrderBy(one => one.Id).ToListAsync(cancel),
            jar => $"jar {jar.Jar}",
            jar => Thing.Jar(pot.Code, jar.Jar)
        );
    }

    /// <summary>Recipes, newest first.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> RecipesAsync(CancellationToken cancel) =>
        Lines(
            await db.Recipes.AsNoTracking().OrderByDescending(one => one.Id).ToListAsync(cancel),
            recipe => $"{recipe.Code}, {recipe.Name}",
            recipe => Thing.Recipe(recipe.Code)
        );

    /// <summary>Batches, newest first.</summary>
    /// <param name="recipeId">Those of one recipe; all when it is null.</param>
    /// <param name="cancel">Ends the reading early.</param>
    public async Task<IReadOnlyList<TakenBackLine>> BatchesAsync(Guid? recipeId, CancellationToken cancel)
    {
        var recipes = await db.Recipes.AsNoTracking().ToDictionaryAsync(one => one.Id, one => one.Name, cancel);
        return Lines(
            await db
                .Batches.AsNoTracking()
                .Where(one => recipeId == null || one.RecipeId == recipeId)
                .OrderByDescending(one => one.Number)
                .ToListAsync(cancel),
            batch => $"{recipes[batch.RecipeId]}, batch {batch.Code}",
            batch => Thing.Batch(batch.Code)
        );
    }

    /// <summary>Drops of a pot, by their minute.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> DropsAsync(Pot pot, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        return Lines(
            await db.PotDrops.AsNoTracking().Where(one => one.PotId == pot.Id).OrderBy(one => one.Minute).ToListAsync(cancel),
            drop => $"drop of minute {Figures.Say(drop.Minute)}",
            drop => new Thing(ThingKind.Drop, pot.Code, drop.Id.ToString())
        );
    }

    /// <summary>Timers of a pot, as they are up.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> TimersAsync(Pot pot, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        return Lines(
            await db.PotTimers.AsNoTracking().Where(one => one.PotId == pot.Id).OrderBy(one => one.DueAt).ToListAsync(cancel),
            timer => timer.Name,
            timer => new Thing(ThingKind.Timer, pot.Code, timer.Id.ToString())
        );
    }

    /// <summary>Charts, newest first.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> ChartsAsync(CancellationToken cancel) =>
        Lines(
            await db.Charts.AsNoTracking().OrderByDescending(one => one.Number).ToListAsync(cancel),
            chart => $"{chart.Code}, {chart.Title}",
            chart => Thing.Chart(chart.Code)
        );

    /// <summary>House strips and cards, by name.</summary>
    public async Task<IReadOnlyList<TakenBackLine>> StripsAsync(CancellationToken cancel) =>
        Lines(
            await db.HouseStrips.AsNoTracking().OrderBy(one => one.Name).ToListAsync(cancel),
            strip => strip.Name,
            strip => new Thing(ThingKind.Strip, strip.Id.ToString())
        );

    /// <summary>Bottles of a batch, by number.</summary>
    public static IReadOnlyList<TakenBackLine> Bottles(IEnumerable<Bottle> bottles) =>
        Lines(bottles, bottle => $"bottle {bottle.Code}", bottle => Thing.Bottle(bottle.Code));

    private static IReadOnlyList<TakenBackLine> Lines<T>(IEnumerable<T> entries, Func<T, string> title, Func<T, Thing> thing)
        where T : Entry => [.. entries.Where(entry => !entry.Counts).Select(entry => new TakenBackLine(title(entry), thing(entry), entry))];
}

/// <param name="Title">What it was.</param>
/// <param name="Thing">Where it can still be read, and put back.</param>
/// <param name="Entry">When and why it was taken back.</param>
public sealed record TakenBackLine(string Title, Thing Thing, Entry Entry);
