using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Response;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>Everything of the notebook that was painted and read and can be compared: samples by their codes, then batches.</summary>
public sealed class ListSquares(NotebookDb db) : IUseCase
{
    /// <summary>What a batch is called in the list.</summary>
    public static string LabelOfBatch(string code) => $"batch {code}";

    /// <param name="trials">The samples.</param>
    public async Task<IReadOnlyList<ComparedSquares>> HandleAsync(TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(trials);
        var batches = await (
            from reading in db.BatchReadings.AsNoTracking().Counting()
            join batch in db.Batches.Counting() on reading.BatchId equals batch.Id
            join recipe in db.Recipes on batch.RecipeId equals recipe.Id
            join painted in db.Swatches on recipe.SwatchId equals painted.Id into swatches
            from swatch in swatches.DefaultIfEmpty()
            orderby batch.Number, reading.Id
            select new
            {
                batch.Code,
                reading.Colour,
                Swatch = (Swatch?)swatch,
            }
        ).ToListAsync(cancel);
        return
        [
            .. trials
                .PaintedRows.GroupBy(LabelOf, StringComparer.OrdinalIgnoreCase)
                .Select(rows => new ComparedSquares(rows.Key, [.. rows.Select(ComparedSquare.Of)])),
            // A batch's square is painted as its recipe's was.
            .. batches
                .GroupBy(one => one.Code)
                .Select(all => new ComparedSquares(
                    LabelOfBatch(all.Key),
                    [
                        .. all.Select(one => new ComparedSquare(
                            Lab.FromXyz(one.Colour),
                            new("dry", null, one.Swatch?.Wash ?? 1, one.Swatch?.Coats ?? 1),
                            null
                        )),
                    ]
                )),
        ];
    }

    private static string LabelOf(TrialRow row) =>
        row.Point.Paper.Length > 0 ? $"{row.Point.Sample} on {row.Point.Paper}" : row.Point.Sample;
}
