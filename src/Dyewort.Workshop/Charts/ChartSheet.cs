using Dyewort.Notebook;
using Dyewort.Print;
using Dyewort.Readings;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>The page of a chart to print and paint on.</summary>
public sealed class ChartSheet(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <param name="number">The chart's number.</param>
    /// <param name="link">The address of the chart's page, for the square code.</param>
    /// <returns>The PDF; null where there is no such chart, or none with a sheet.</returns>
    public async Task<byte[]?> HandleAsync(int number, Uri link, CancellationToken cancel)
    {
        if (
            await db.Charts.AsNoTracking().SingleOrDefaultAsync(one => one.Number == number, cancel) is not { } chart
            || LayoutOf(chart).Markers.Count == 0
        )
            return null;
        var plan = PlanOf(chart);
        var painted = await (
            from swatch in db.Swatches.AsNoTracking().Counting()
            join sample in db.Samples on swatch.SampleId equals sample.Id
            where swatch.ChartId == chart.Id
            select new
            {
                swatch.Cell,
                swatch.Wash,
                sample.Jar,
            }
        ).ToListAsync(cancel);
        var pot = chart.TrialId is { } trialId
            ? await (
                from trial in db.Trials
                join one in db.Pots on trial.PotId equals one.Id
                where trial.Id == trialId
                select one.Code
            ).SingleOrDefaultAsync(cancel)
            : null;
        var paper = chart.PaperId is { } paperId
            ? (await db.Materials.AsNoTracking().SingleAsync(one => one.Id == paperId, cancel)).Name
            : null;
        var words = new SheetWords
        {
            Title = chart.Title,
            Link = link.ToString(),
            Paper = paper,
            Pot = pot,
            Captions = painted.ToDictionary(
                one => one.Cell,
                one => one.Wash < 1 ? $"jar {one.Jar}, {WashWords.Short(one.Wash)}" : $"jar {one.Jar}"
            ),
        };
        return SheetPdf.Draw(plan, words, DateOnly.FromDateTime(clock.GetLocalNow().DateTime));
    }

    /// <summary>The plan that a chart's layout was made from.</summary>
    /// <exception cref="InvalidOperationException">The notebook's layout cannot be laid out any more: a fault of ours.</exception>
    internal static SheetPlan PlanOf(Chart chart)
    {
        var layout = LayoutOf(chart);
        var ids = layout.Cells.Select(cell => cell.Id).ToList();
        var columns = ids.Max(id => id[0]) - 'A' + 1;
        var rows = ids.Max(id => int.Parse(id.AsSpan(1), System.Globalization.CultureInfo.InvariantCulture));
        return SheetPlan
            .Make(
                new SheetWish
                {
                    Page = new PageSize(chart.Page, layout.WidthMm, layout.HeightMm),
                    Columns = columns,
                    Rows = rows,
                    Code = chart.Code,
                    Number = chart.Number % (SheetPlan.LastNumber + 1),
                    Frame = layout.IsFrame,
                    Blank = [.. Codes.Cells(columns, rows).Except(ids)],
                }
            )
            .TryGet(out var plan)
            ? plan
            : throw new InvalidOperationException($"The sheet of chart {chart.Code} cannot be laid out again.");
    }

    internal static SheetLayout LayoutOf(Chart chart) =>
        SheetLayout.Parse("chart", chart.LayoutJson).TryGet(out var layout)
            ? layout
            : throw new InvalidOperationException($"The layout of chart {chart.Code} is damaged.");
}
