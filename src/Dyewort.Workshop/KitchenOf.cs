using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop;

/// <summary>Whose spoons, cups and pints a notebook means.</summary>
internal static class KitchenOf
{
    /// <summary>The kitchen of the settings; metric while nothing was said.</summary>
    public static async Task<Teaspoon> KitchenAsync(this NotebookDb db, CancellationToken cancel) =>
        await db
            .Settings.AsNoTracking()
            .Where(one => one.Id == Settings.OnlyId)
            .Select(one => (Teaspoon?)one.Teaspoon)
            .SingleOrDefaultAsync(cancel)
        ?? Teaspoon.Metric;
}
