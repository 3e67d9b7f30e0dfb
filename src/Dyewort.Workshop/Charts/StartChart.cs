using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Lays the samples of a trial out on a sheet: a new chart, still to be printed and painted.</summary>
public sealed class StartChart(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>Shares of liquor that a form offers beside undiluted.</summary>
    public static IReadOnlyList<double> Washes { get; } = [0.5, 0.25, 0.125];

    /// <returns>The chart's code.</returns>
    public async Task<Outcome<string>> HandleAsync(string code, string letter, StartChartForm form, CancellationToken cancel)
    {
        var trial = await (
            from one in db.Trials.Counting()
            join pot in db.Pots on one.PotId equals pot.Id
            where pot.Code == code && one.Letter == letter
            select one
        ).SingleOrDefaultAsync(cancel);
        if (trial is null)
            return Outcome.Refused<string>(nameof(form.Page), $"Pot {code} has no trial {letter}.", "Go back to the pot.");
        var entered = new Entered();
        var page = entered.Take(PageSize.Parse(nameof(form.Page), string.IsNullOrWhiteSpace(form.Page) ? "A5" : form.Page));
        var coats = string.IsNullOrWhiteSpace(form.Coats) ? 1 : entered.Whole(nameof(form.Coats), form.Coats, "How many coats", 1, 20, 1);
        var repeats = string.IsNullOrWhiteSpace(form.Repeats)
            ? 1
            : entered.Whole(nameof(form.Repeats), form.Repeats, "How often each is painted", 1, 6, 1);
        var title = entered.OptionalWords(nameof(form.Title), form.Title, 80) ?? trial.Title;
        var washes = new List<double> { 1 };
        foreach (var text in form.Wash)
        {
            if (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var wash) && wash is > 0 and < 1)
                washes.Add(wash);
            else
                entered.Refuse(nameof(form.Wash), $"“{text}” is not a wash.", "Tick one of those shown.");
        }

        var paper = await PaperAsync(form.Paper, entered, cancel);
        var samples = await db
            .Samples.AsNoTracking()
            .Counting()
            .Where(sample => sample.TrialId == trial.Id)
            .OrderBy(sample => sample.Id)
            .ToListAsync(cancel);
        var painted = (
            from sample in samples
            from wash in washes.Distinct()
            from repeat in Enumerable.Range(0, repeats)
            select (Sample: sample, Wash: wash)
        ).ToList();
        var columns = string.IsNullOrWhiteSpace(form.Columns)
            ? Columns(painted.Count, washes.Count * repeats, page)
            : entered.Whole(nameof(form.Columns), form.Columns, "Columns", 1, 26, 4);
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);

        var rows = (painted.Count + columns - 1) / columns;
        var number = (await db.Charts.MaxAsync(chart => (int?)chart.Number, cancel) ?? 0) + 1;
        var ids = Codes.Cells(columns, rows).ToList();
        if (form.Free is not null && rows > 99)
            return Outcome.Refused<string>(nameof(form.Columns), $"{painted.Count} swatches make more than 99 rows.", "Give more columns.");
        var planned = form.Free is not null
            ? Outcome.Of(FreeLayout(columns, ids.Take(painted.Count)))
            : Laid(
                new SheetWish
                {
                    Page = page!,
                    Columns = columns,
                    Rows = rows,
                    Code = $"C{number}",
                    Number = number % (SheetPlan.LastNumber + 1),
                    Frame = form.Frame is not null,
                    Blank = [.. ids.Skip(painted.Count)],
                }
            );
        if (!planned.TryGet(out var layout))
            return Outcome.Refused<string>([.. planned.Problems.Select(problem => problem with { Field = nameof(form.Page) })]);

        var now = clock.GetUtcNow();
        var chart = new Chart
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Number = number,
            TrialId = trial.Id,
            PaperId = paper?.Id,
            Title = title,
            LayoutJson = layout.ToJson(),
            Page = form.Free is null ? page!.Name : "none",
        };
        db.Add(chart);
        foreach (var ((sample, wash), index) in painted.Select((one, index) => (one, index)))
        {
            db.Add(
                new Swatch
                {
                    Id = Guid.CreateVersion7(now.AddMilliseconds(index)),
                    WrittenAt = now,
                    ChartId = chart.Id,
                    Cell = ids[index],
                    SampleId = sample.Id,
                    Coats = coats,
                    Wash = wash,
                }
            );
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(chart.Code);
    }

    private static Outcome<SheetLayout> Laid(SheetWish wish) =>
        SheetPlan.Make(wish) is var made && made.TryGet(out var plan)
            ? Outcome.Of(plan.Layout)
            : Outcome.Refused<SheetLayout>(made.Problems);

    /// <summary>Swatches in rows as they were painted, on no page in particular: 25 mm from one to the next, and no markers.</summary>
    private static SheetLayout FreeLayout(int columns, IEnumerable<string> cells)
    {
        const double Step = 25,
            Side = 20;
        var places = cells
            .Select(id =>
            {
                var (x, y) = ((Step * (id[0] - 'A')) + 2.5, (Step * (int.Parse(id.AsSpan(1), CultureInfo.InvariantCulture) - 1)) + 2.5);
                return new SheetCell(id, [new(x, y), new(x + Side, y), new(x + Side, y + Side), new(x, y + Side)]);
            })
            .ToList();
        return new(Step * columns, places.Max(cell => cell.PolygonMm[2].Y) + 2.5, [], places);
    }

    private async Task<Material?> PaperAsync(string? text, Entered entered, CancellationToken cancel)
    {
        if (string.IsNullOrWhiteSpace(text))
            return null;
        var paper = Guid.TryParse(text, out var id)
            ? await db.Materials.SingleOrDefaultAsync(one => one.Id == id && one.Kind == MaterialKind.Paper, cancel)
            : null;
        if (paper is null)
            entered.Refuse(nameof(StartChartForm.Paper), "This paper is not in the pantry.", "Choose one of those shown.");
        return paper;
    }

    // A jar's washes and repeats stay side by side where the row has room for them; cells near to square read best.
    private static int Columns(int cells, int together, PageSize? page)
    {
        var shape = page is null ? 0.7 : page.WidthMm / page.HeightMm;
        var columns = Math.Clamp((int)Math.Round(Math.Sqrt(cells * shape)), 1, 26);
        if (together > 1 && together <= 8)
            columns = Math.Max(together, columns / together * together);
        return Math.Max(1, Math.Min(columns, cells));
    }
}

public sealed record StartChartForm
{
    public string? Page { get; init; }

    public string? Columns { get; init; }

    public string? Paper { get; init; }

    public string? Coats { get; init; }

    public IReadOnlyList<string> Wash { get; init; } = [];

    public string? Repeats { get; init; }

    public string? Frame { get; init; }

    /// <summary>Anything for swatches that were painted without a printed page.</summary>
    public string? Free { get; init; }

    public string? Title { get; init; }
}
