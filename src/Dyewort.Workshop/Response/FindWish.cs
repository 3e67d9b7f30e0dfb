using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>A colour of the notebook that is wanted again.</summary>
public sealed class FindWish(NotebookDb db) : IUseCase
{
    /// <summary>The colour a swatch was read with.</summary>
    public async Task<Outcome<Wish>> OfSwatchAsync(Guid swatchId, CancellationToken cancel)
    {
        var found = await (
            from swatch in db.CountingSwatches().AsNoTracking()
            join chart in db.Charts on swatch.ChartId equals chart.Id
            where swatch.Id == swatchId
            select new { swatch, chart }
        ).SingleOrDefaultAsync(cancel);
        if (found is null || await RecipeView.StandingAsync(db, swatchId, cancel) is not { } reading)
            return Outcome.Refused<Wish>("Swatch", "This swatch has no reading.", "Send a photo of its chart first, or type a colour.");
        return Outcome.Of(
            new Wish(
                reading.Colour,
                $"{found.chart.Code} {found.swatch.Cell}, as it was read",
                reading.UncertaintyDe00,
                Thing.Swatch(found.chart.Code, found.swatch.Cell)
            )
        );
    }

    /// <summary>The colour a recipe was kept for.</summary>
    public async Task<Outcome<Wish>> OfRecipeAsync(string code, CancellationToken cancel)
    {
        var recipe = await db.Recipes.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel);
        return recipe?.Colour is { } colour
            ? Outcome.Of(new Wish(colour, $"{recipe.Name}, as it was kept", recipe.UncertaintyDe00, Thing.Recipe(recipe.Code)))
            : Outcome.Refused<Wish>("Recipe", "This recipe has no colour.", "Type a colour instead.");
    }
}
