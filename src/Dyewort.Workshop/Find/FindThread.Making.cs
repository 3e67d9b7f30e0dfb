using System.Globalization;
using Dyewort.Making;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Find;

/// <content>The way as seen from recipes, batches and bottles.</content>
public sealed partial class FindThread
{
    /// <summary>Seen from a recipe.</summary>
    public async Task<IReadOnlyList<ThreadStep>> OfRecipeAsync(RecipeOrigin recipe, CancellationToken cancel) =>
        [
            .. Origins(recipe?.Origin is { } origin ? [origin] : []),
            .. Chosen(recipe!, recipe!.Origin is { } own ? [own] : [], here: true),
            .. await MadeOfAsync([recipe!.Recipe.Id], cancel),
        ];

    /// <summary>Seen from a batch.</summary>
    /// <param name="batch">The batch.</param>
    /// <param name="recipe">What it was made by.</param>
    /// <param name="pots">Where its liquor came from.</param>
    public async Task<IReadOnlyList<ThreadStep>> OfBatchAsync(
        Batch batch,
        RecipeOrigin recipe,
        IReadOnlyList<Origin> pots,
        CancellationToken cancel
    ) => [.. Origins(pots), .. Chosen(recipe, pots, here: false), BatchStep(batch, here: true), await BottlesStepAsync([batch], cancel)];

    /// <summary>Seen from a bottle.</summary>
    /// <param name="bottle">The bottle.</param>
    /// <param name="filled">How many the batch filled.</param>
    /// <param name="batch">Its batch.</param>
    /// <param name="recipe">What that was made by.</param>
    /// <param name="pots">Where the batch's liquor came from.</param>
    public static IReadOnlyList<ThreadStep> OfBottle(
        Bottle bottle,
        int filled,
        Batch batch,
        RecipeOrigin recipe,
        IReadOnlyList<Origin> pots
    )
    {
        ArgumentNullException.ThrowIfNull(bottle);
        return
        [
            .. Origins(pots),
            .. Chosen(recipe, pots, here: false),
            BatchStep(batch, here: false),
            new($"Bottle {bottle.Code}", $"number {bottle.Number} of {filled}", Thing.Bottle(bottle.Code), Here: true),
        ];
    }

    private static IEnumerable<ThreadStep> Origins(IReadOnlyList<Origin> origins)
    {
        if (origins.Count == 0)
        {
            yield return new("Plant", null);
            yield return new("Pot", null);
            yield break;
        }

        var lots = origins.Select(origin => origin.Lot).DistinctBy(lot => lot.Id).ToList();
        yield return new(
            string.Join(", ", origins.Select(origin => origin.Plant.Name).Distinct(StringComparer.OrdinalIgnoreCase)),
            lots.Count == 1 ? LotOf(lots[0]) : $"{lots.Count} lots",
            new(ThingKind.Lot, lots[0].Id.ToString())
        );
        yield return origins.Count == 1
            ? new(
                $"Pot {origins[0].Pot.Code}",
                string.Create(CultureInfo.InvariantCulture, $"made {origins[0].Pot.MadeOn:d MMM yyyy}"),
                Thing.Pot(origins[0].Pot.Code)
            )
            : new($"{origins.Count} pots", string.Join(" + ", origins.Select(origin => origin.Pot.Code)), Thing.Pot(origins[0].Pot.Code));
    }

    // A batch may take another pot's liquor than that the recipe was found in: whose trial it was is then said.
    private static IEnumerable<ThreadStep> Chosen(RecipeOrigin view, IReadOnlyList<Origin> pots, bool here)
    {
        yield return view is { Trial: { } trial, Sample: { } sample, Origin: { } origin }
            ? new(
                $"Trial {trial.Letter}{(pots.Any(one => one.Pot.Id == origin.Pot.Id) ? "" : $" of {origin.Pot.Code}")}",
                $"jar {sample.Jar}",
                Thing.Jar(origin.Pot.Code, sample.Jar)
            )
            : new("Trial", null);
        yield return view.Recipe.ChartPosition is { } position
            ? new(
                $"Chart {position.Split(' ')[0]}",
                position.Contains(' ', StringComparison.Ordinal) ? $"square {position.Split(' ')[1]}" : "chosen here",
                Thing.Chart(position.Split(' ')[0])
            )
            : new("Chart", null);
        yield return new($"Recipe {view.Recipe.Code}", view.Recipe.Name, Thing.Recipe(view.Recipe.Code), here);
    }

    private static ThreadStep BatchStep(Batch batch, bool here) =>
        new(
            $"Batch {batch.Code}",
            string.Create(CultureInfo.InvariantCulture, $"{batch.MadeOn:d MMM yyyy}"),
            Thing.Batch(batch.Code),
            here
        );

    // A pot's liquor goes into batches of other pots' recipes too; a trial's only into those of its own.
    private async Task<IReadOnlyList<ThreadStep>> AfterChartAsync(Guid potId, List<Guid> trialIds, bool all, CancellationToken cancel)
    {
        var recipes = await (
            from recipe in db.Recipes.AsNoTracking().Counting()
            join sample in db.Samples on recipe.SampleId equals sample.Id
            where sample.PotId == potId && trialIds.Contains(sample.TrialId)
            orderby recipe.Id
            select recipe
        ).ToListAsync(cancel);
        ThreadStep kept = recipes switch
        {
            [] => new("Recipe", null),
            [var only] => new($"Recipe {only.Code}", only.Name, Thing.Recipe(only.Code)),
            _ => new($"{recipes.Count} recipes", string.Join(", ", recipes.Select(recipe => recipe.Code)), new Thing(ThingKind.Recipes)),
        };
        return [kept, .. await MadeOfAsync(recipes.ConvertAll(recipe => recipe.Id), cancel, all ? potId : null)];
    }

    private async Task<IReadOnlyList<ThreadStep>> MadeOfAsync(List<Guid> recipeIds, CancellationToken cancel, Guid? potId = null)
    {
        var drawn = potId is null
            ? []
            : await db
                .BatchLiquors.AsNoTracking()
                .Counting()
                .Where(liquor => liquor.PotId == potId)
                .Select(liquor => liquor.BatchId)
                .ToListAsync(cancel);
        var batches = await db
            .Batches.AsNoTracking()
            .Counting()
            .Where(batch => recipeIds.Contains(batch.RecipeId) || drawn.Contains(batch.Id))
            .OrderBy(batch => batch.Number)
            .ToListAsync(cancel);
        ThreadStep made = batches switch
        {
            [] => new("Batch", null),
            [var only] => BatchStep(only, here: false),
            _ => new($"{batches.Count} batches", string.Join(", ", batches.Select(batch => batch.Code)), new Thing(ThingKind.Batches)),
        };
        return [made, await BottlesStepAsync(batches, cancel)];
    }

    private async Task<ThreadStep> BottlesStepAsync(List<Batch> batches, CancellationToken cancel)
    {
        var ids = batches.ConvertAll(batch => batch.Id);
        var gone = await db
            .Bottles.AsNoTracking()
            .Counting()
            .Where(bottle => ids.Contains(bottle.BatchId))
            .Select(bottle => bottle.GoneOn != null)
            .ToListAsync(cancel);
        return gone.Count == 0
            ? new("Bottles", null)
            : new(
                $"{gone.Count} {(gone.Count == 1 ? "bottle" : "bottles")}",
                $"{gone.Count(one => !one)} on the shelf",
                batches is [var only] ? new Thing(ThingKind.Bottles, only.Code) : new Thing(ThingKind.Bottles)
            );
    }
}
