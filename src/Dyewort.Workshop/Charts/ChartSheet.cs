using Dyewort.Notebook;
using Dyewort.Print;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>The page of a chart to print and paint on.</summary>
public sealed class ChartSheet(NotebookDb db, NotebookSettings settings, TimeProvider clock) : IUseCase
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
        var samples = await (
            from swatch in db.Swatches.AsNoTracking().Counting()
            join sample in db.Samples on swatch.SampleId equals sample.Id
            where swatch.ChartId == chart.Id
            select sample
        )
            .Distinct()
            .ToListAsync(cancel);
        var jars = await JarView.LoadAsync(db, samples, (await settings.ReadAsync(cancel)).Teaspoon, cancel);
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
            Captions = jars.SelectMany(jar => jar.Swatches.Where(one => one.Swatch.ChartId == chart.Id).Select(one => (jar, one)))
                .ToDictionary(pair => pair.one.Swatch.Cell, pair => Caption(pair.jar, pair.one)),
        };
        return SheetPdf.Draw(plan, words, DateOnly.FromDateTime(clock.GetLocalNow().DateTime));
    }

    // A square that waits behind the jar's next one will hold what nobody knows yet: its lines stay free.
    private static string Caption(JarView jar, JarPainted square)
    {
        var name = Codes.IsSquareOf(jar.Sample.Jar, square.Swatch.Cell.Split('/')[0]) ? "" : $"jar {jar.Sample.Jar}";
        var wash = square.Swatch.Wash < 1 ? WashWords.Short(square.Swatch.Wash) : "";
        var holds =
            square.Swatch.AfterStep is null && !jar.Waiting.Contains(square) ? ""
            : square.Totals.Count > 0 ? string.Join(", ", square.Totals.Select(total => $"{total.Material.Name} {total.Sum.Said}"))
            : jar.Plan ?? "";
        return string.Join(", ", new[] { name, wash, holds }.Where(part => part.Length > 0));
    }

    /// <summary>The plan that a chart's layout was made from.</summary>
    /// <exception cref="InvalidOperationException">The notebook's layout cannot be laid out any more: a fault of ours.</exception>
    internal static SheetPlan PlanOf(Chart chart)
    {
        var layout = LayoutOf(chart);
        return SheetPlan
            .Make(
                new SheetWish
                {
                    Page = new PageSize(chart.Page, layout.WidthMm, layout.HeightMm),
                    Columns = layout.Columns,
                    Rows = layout.Rows,
                    Code = chart.Code,
                    Number = chart.Number % (SheetPlan.LastNumber + 1),
                    Frame = layout.IsFrame,
                    Names = [.. layout.Cells.Select(cell => cell.Id)],
                    CaptionLines = layout.CaptionLines,
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
