using System.Globalization;
using Dyewort.Making;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Find;

/// <content>The way as seen from recipes, batches and bottles.</content>
public sealed partial class FindThread
{
    /// <summary>Seen from a recipe.</summary>
    public async Task<IReadOnlyList<ThreadStep>> OfRecipeAsync(RecipeView view, CancellationToken cancel) =>
        [
            .. Origins(view.Origin is { } origin ? [origin] : []),
            .. Chosen(view, here: true),
            .. await MadeOfAsync([view.Recipe.Id], cancel),
        ];

    /// <summary>Seen from a batch.</summary>
    public async Task<IReadOnlyList<ThreadStep>> OfBatchAsync(BatchView view, CancellationToken cancel) =>
        [
            .. Origins([.. view.Pours.Select(pour => pour.Origin)]),
            .. Chosen(view.Recipe, here: false),
            BatchStep(view.Batch, here: true),
            await BottlesStepAsync([view.Batch], cancel),
        ];

    /// <summary>Seen from a bottle.</summary>
    public Task<IReadOnlyList<ThreadStep>> OfBottleAsync(BatchView view, Bottle bottle, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        IReadOnlyList<ThreadStep> steps =
        [
            .. Origins([.. view.Pours.Select(pour => pour.Origin)]),
            .. Chosen(view.Recipe, here: false),
            BatchStep(view.Batch, here: false),
            new(
                $"Bottle {bottle.Code}",
                $"number {bottle.Number} of {view.Bottles.Count(one => one.Counts)}",
                $"/b/{bottle.Code}",
                Here: true
            ),
        ];
        return Task.FromResult(steps);
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
            lots.Count == 1 ? string.Create(CultureInfo.InvariantCulture, $"lot of {lots[0].GatheredOn:d MMM yyyy}") : $"{lots.Count} lots",
            $"/lots/{lots[0].Id}"
        );
        yield return origins.Count == 1
            ? new(
                $"Pot {origins[0].Pot.Code}",
                string.Create(CultureInfo.InvariantCulture, $"made {origins[0].Pot.MadeOn:d MMM yyyy}"),
                $"/pots/{origins[0].Pot.Code}"
            )
            : new($"{origins.Count} pots", string.Join(" + ", origins.Select(origin => origin.Pot.Code)), $"/pots/{origins[0].Pot.Code}");
    }

    private static IEnumerable<ThreadStep> Chosen(RecipeView view, bool here)
    {
        yield return view is { Trial: { } trial, Sample: { } sample, Origin: { } origin }
            ? new($"Trial {trial.Letter}", $"jar {sample.Jar}", $"/pots/{origin.Pot.Code}/jars/{sample.Jar}")
            : new("Trial", null);
        yield return view.Recipe.ChartPosition is { } position
            ? new(
                $"Chart {position.Split(' ')[0]}",
                position.Contains(' ', StringComparison.Ordinal) ? $"square {position.Split(' ')[1]}" : "chosen here",
                $"/charts/{position.Split(' ')[0]}"
            )
            : new("Chart", null);
        yield return new($"Recipe {view.Recipe.Code}", view.Recipe.Name, $"/recipes/{view.Recipe.Code}", here);
    }

    private static ThreadStep BatchStep(Batch batch, bool here) =>
        new(
            $"Batch {batch.Code}",
            string.Create(CultureInfo.InvariantCulture, $"{batch.MadeOn:d MMM yyyy}"),
            $"/batches/{batch.Code}",
            here
        );

    private async Task<IReadOnlyList<ThreadStep>> AfterChartAsync(Guid potId, List<Guid> trialIds, CancellationToken cancel)
    {
        var recipes = await (
            from recipe in db.Recipes.AsNoTracking()
            join sample in db.Samples on recipe.SampleId equals sample.Id
            where sample.PotId == potId && trialIds.Contains(sample.TrialId) && recipe.WithdrawnAt == null
            orderby recipe.Id
            select recipe
        ).ToListAsync(cancel);
        ThreadStep kept = recipes switch
        {
            [] => new("Recipe", null),
            [var only] => new($"Recipe {only.Code}", only.Name, $"/recipes/{only.Code}"),
            _ => new($"{recipes.Count} recipes", string.Join(", ", recipes.Select(recipe => recipe.Code)), "/recipes"),
        };
        return [kept, .. await MadeOfAsync(recipes.ConvertAll(recipe => recipe.Id), cancel)];
    }

    private async Task<IReadOnlyList<ThreadStep>> MadeOfAsync(List<Guid> recipeIds, CancellationToken cancel)
    {
        var batches = await db
            .Batches.AsNoTracking()
            .Where(batch => recipeIds.Contains(batch.RecipeId) && batch.WithdrawnAt == null)
            .OrderBy(batch => batch.Number)
            .ToListAsync(cancel);
        ThreadStep made = batches switch
        {
            [] => new("Batch", null),
            [var only] => BatchStep(only, here: false),
            _ => new($"{batches.Count} batches", string.Join(", ", batches.Select(batch => batch.Code)), "/batches"),
        };
        return [made, await BottlesStepAsync(batches, cancel)];
    }

    private async Task<ThreadStep> BottlesStepAsync(List<Batch> batches, CancellationToken cancel)
    {
        var ids = batches.ConvertAll(batch => batch.Id);
        var gone = await db
            .Bottles.AsNoTracking()
            .Where(bottle => ids.Contains(bottle.BatchId) && bottle.WithdrawnAt == null)
            .Select(bottle => bottle.GoneOn != null)
            .ToListAsync(cancel);
        return gone.Count == 0
            ? new("Bottles", null)
            : new(
                $"{gone.Count} {(gone.Count == 1 ? "bottle" : "bottles")}",
                $"{gone.Count(one => !one)} on the shelf",
                batches is [var only] ? $"/batches/{only.Code}#bottles" : "/bottles"
            );
    }
}
