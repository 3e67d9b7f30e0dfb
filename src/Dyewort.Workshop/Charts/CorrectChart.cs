using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Corrects what was said of a chart: its title, its paper, the day it was painted.</summary>
public sealed class CorrectChart(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <returns>The chart's code.</returns>
    public async Task<Outcome<string>> HandleAsync(int number, CorrectChartForm form, CancellationToken cancel)
    {
        if (await db.Charts.Counting().SingleOrDefaultAsync(one => one.Number == number, cancel) is not { } chart)
            return Outcome.Refused<string>(nameof(form.Title), $"There is no chart C{number} in this notebook.", "Go back to the charts.");
        var entered = new Entered();
        var title = entered.Words(nameof(form.Title), form.Title, "The title", 80);
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var painted = entered.OptionalPastDay(nameof(form.PaintedOn), form.PaintedOn, today);
        Guid? paper = null;
        if (!string.IsNullOrWhiteSpace(form.Paper))
        {
            if (
                Guid.TryParse(form.Paper, out var id)
                && await db.Materials.AnyAsync(one => one.Id == id && one.Kind == MaterialKind.Paper, cancel)
            )
                paper = id;
            else
                entered.Refuse(nameof(form.Paper), "This paper is not in the pantry.", "Choose one of those shown.");
        }

        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        (chart.Title, chart.PaperId, chart.PaintedOn) = (title, paper, painted);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(chart.Code);
    }
}

public sealed record CorrectChartForm
{
    public string? Title { get; init; }

    /// <summary>A paper's key; empty when it is not known.</summary>
    public string? Paper { get; init; }

    public string? PaintedOn { get; init; }
}
