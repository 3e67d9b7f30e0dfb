using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Puts a chart right: its title, its paper, the day it was painted; takes back a sheet that was printed by mistake, with its
/// squares, while nothing was read from it.</summary>
public sealed class ChangeChart(NotebookDb db, TimeProvider clock) : EntryChange<Chart, ChangeChartForm>(db, clock), IUseCase
{
    /// <summary>Papers of the pantry, to choose from.</summary>
    public async Task<IReadOnlyList<Material>> PapersAsync(CancellationToken cancel) =>
        await Db
            .Materials.AsNoTracking()
            .Counting()
            .Where(one => one.Kind == MaterialKind.Paper)
            .OrderBy(one => one.Name)
            .ToListAsync(cancel);

    protected override async Task<Chart?> FindAsync(Thing thing, CancellationToken cancel) =>
        thing.Code is ['C' or 'c', .. var digits] && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? await Db.Charts.SingleOrDefaultAsync(one => one.Number == number, cancel)
            : null;

    protected override async Task<Action> ReadAsync(Entered entered, Chart entry, ChangeChartForm form, CancellationToken cancel)
    {
        var title = entered.Words(nameof(form.Title), form.Title, "The title", 80);
        var today = DateOnly.FromDateTime(Clock.GetLocalNow().DateTime);
        var painted = entered.OptionalPastDay(nameof(form.PaintedOn), form.PaintedOn, today, entry.PaintedOn);
        Guid? paper = null;
        if (!string.IsNullOrWhiteSpace(form.Paper))
        {
            if (
                Guid.TryParse(form.Paper, out var id)
                && await Db.Materials.AnyAsync(one => one.Id == id && one.Kind == MaterialKind.Paper, cancel)
            )
                paper = id;
            else
                entered.Refuse(nameof(form.Paper), "This paper is not in the pantry.", "Choose one of those shown.");
        }

        return () => (entry.Title, entry.PaperId, entry.PaintedOn) = (title, paper, painted);
    }

    protected override async Task<IReadOnlyList<InTheWay>> InTheWayAsync(Chart entry, CancellationToken cancel)
    {
        var photos = await Db
            .Photos.AsNoTracking()
            .Counting()
            .Where(one => one.ChartId == entry.Id)
            .OrderBy(one => one.Id)
            .ToListAsync(cancel);
        var squares = await Db.Swatches.AsNoTracking().Counting().Where(one => one.ChartId == entry.Id).ToListAsync(cancel);
        var ids = squares.ConvertAll(one => one.Id);
        var typed = await Db.Readings.Counting().CountAsync(one => ids.Contains(one.SwatchId) && one.PhotoId == null, cancel);
        var recipes = await Db
            .Recipes.AsNoTracking()
            .Counting()
            .Where(one => one.SwatchId != null && ids.Contains(one.SwatchId.Value))
            .OrderBy(one => one.Id)
            .ToListAsync(cancel);
        return
        [
            .. photos.Select(one => new InTheWay(
                string.Create(CultureInfo.InvariantCulture, $"A photo sent on {one.WrittenAt:d MMM yyyy} shows it."),
                "Take the photo back first.",
                Thing.Chart(entry.Code)
            )),
            .. typed > 0
                ? (InTheWay[])[new($"{typed} of its colours were measured with an instrument.", "They stand on it; the chart stays.")]
                : [],
            .. recipes.Select(one => new InTheWay(
                $"Recipe {one.Code}, “{one.Name}”, was kept from it.",
                "Take the recipe back first.",
                Thing.Recipe(one.Code)
            )),
        ];
    }

    protected override async Task<IReadOnlyList<Entry>> WithAsync(Chart entry, CancellationToken cancel) =>
        await Db.Swatches.Where(one => one.ChartId == entry.Id).ToListAsync(cancel);

    protected override async Task<Problem?> NotBackAsync(Chart entry, CancellationToken cancel) =>
        entry.TrialId is not { } trial || await Db.Trials.Counting().AnyAsync(one => one.Id == trial, cancel)
            ? null
            : new(nameof(WithdrawForm.Why), "Its trial was taken back.", "Put the trial back first.");
}

public sealed record ChangeChartForm : IDoubtable
{
    public string? Title { get; init; }

    /// <summary>A paper's key; empty when it is not known.</summary>
    public string? Paper { get; init; }

    public string? PaintedOn { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
