using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Writes down what the maker calls a swatch's colour.</summary>
public sealed class NameSwatch(NotebookDb db) : IUseCase
{
    /// <returns>The cell.</returns>
    public async Task<Outcome<string>> HandleAsync(int number, string? cell, string? said, CancellationToken cancel)
    {
        var swatch = await (
            from one in db.Swatches.Counting()
            join chart in db.Charts on one.ChartId equals chart.Id
            where chart.Number == number && one.Cell == cell
            select one
        ).SingleOrDefaultAsync(cancel);
        if (swatch is null)
            return Outcome.Refused<string>("Said", $"Chart C{number} has no swatch {cell}.", "Load the page again.");
        var entered = new Entered();
        var words = entered.OptionalWords("Said", said, 80);
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        swatch.Said = words;
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(swatch.Cell);
    }
}
