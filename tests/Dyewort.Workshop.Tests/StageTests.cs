using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>¼ teaspoon, stir, paint a square, another ¼ teaspoon, paint again: what a square says was in its jar stays.</summary>
public sealed class StageTests : IAsyncLifetime
{
    private Bench bench = null!;

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task Each_square_of_a_jar_keeps_what_was_in_it_whatever_goes_in_later()
    {
        var chart = await SheetAsync(squaresEach: 3);
        Assert.Equal($"C{chart} A1", await PaintedAsync("A1"));
        await AddAsync("A1", "¼ tsp");
        Assert.Equal($"C{chart} A1.2", await PaintedAsync("A1"));
        await AddAsync("A1", "¼ tsp");
        Assert.Equal($"C{chart} A1.3", await PaintedAsync("A1"));
        await MeasureAsync(chart, "A1", "A1.2", "A1.3");
        await AddAsync("A1", "1 tsp");

        // The chart: nothing, ¼ and ½ teaspoon of 4.8 g; the jar holds 1½.
        var cells = (await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(chart, default)))!.Cells;
        var squares = cells.Where(cell => cell.Jar.Sample.Jar == "A1").ToList();
        Assert.Equal(["A1", "A1.2", "A1.3"], squares.Select(cell => cell.Painted.Swatch.Cell));
        Assert.Equal([0, 1.2, 2.4], squares.Select(cell => Math.Round(cell.Painted.Totals.Sum(total => total.Sum.Grams!.Value), 9)));
        Assert.Equal(7.2, squares[0].Jar.Totals.Single().Sum.Grams!.Value, 1e-9);

        // The model, and the plain liquor among its rows.
        var rows = (await TrialsAsync()).Painted.Where(one => one.Chart.Number == chart).ToList();
        Assert.Equal(["EB25-1 A1", "EB25-1 A1.2", "EB25-1 A1.3"], rows.Select(one => one.Row.Point.Sample));
        Assert.Equal([0, 60, 120], rows.Select(one => Math.Round(one.Row.Point.Dose("alum"), 9)));
        Assert.Empty(rows[0].Row.Point.GramsPerLitre);

        // A recipe of the middle one, and what is carried from it.
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = squares[1].Swatch.Id.ToString(), Name = "one spoon" }, default)
        );
        await using var db = bench.Read();
        var kept = await db.Recipes.SingleAsync(one => one.Code == recipe);
        Assert.Equal(1.2, (await db.RecipeSteps.SingleAsync(step => step.RecipeId == kept.Id)).Amount.Grams!.Value, 1e-9);
        Assert.Equal(1, kept.AfterStep);
        var point = await bench.DoAsync<NotebookTrials, Dyewort.Response.TrialPoint?>(trials =>
            trials.PointAsync(kept.SampleId!.Value, kept.AfterStep, default)
        );
        Assert.Equal(60, point!.Dose("alum"), 1e-9);

        // The jar's own line: painted before anything, after the first, after the second; none after the third.
        var jar = (await JarAsync("A1")).Jar;
        Assert.Equal(["A1"], jar.PaintedAfter(null).Select(square => square.Swatch.Cell));
        Assert.Equal(
            ["A1.2", "A1.3", ""],
            jar.Counting.Select(step => string.Join(' ', jar.PaintedAfter(step.Addition).Select(square => square.Swatch.Cell)))
        );
        Assert.Empty(jar.Waiting);
    }

    [Fact]
    public async Task The_same_jar_is_kept_once_for_each_stage()
    {
        var chart = await SheetAsync(squaresEach: 2);
        await PaintedAsync("A1");
        await AddAsync("A1", "¼ tsp");
        await PaintedAsync("A1");
        await MeasureAsync(chart, "A1", "A1.2");
        var cells = (await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(chart, default)))!.Cells;
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = cells[0].Swatch.Id.ToString(), Name = "plain" }, default)
        );
        async Task<string?> KeptAsAsync(Guid swatch) =>
            (
                await bench.DoAsync<KeepRecipe, KeepRecipe.RecipeChoice?>(keep =>
                    keep.LookAsync(new KeepRecipeForm { Swatch = swatch.ToString() }, default)
                )
            )!.KeptAs;
        Assert.Equal(recipe, await KeptAsAsync(cells[0].Swatch.Id));
        Assert.Null(await KeptAsAsync(cells[1].Swatch.Id));
    }

    [Fact]
    public async Task Where_nobody_said_it_the_first_reading_fixes_the_stage_and_the_next_leaves_it()
    {
        var chart = await SheetAsync(squaresEach: 1);
        Assert.Null((await SquareAsync(chart, "A1")).AfterStep);
        await AddAsync("A1", "¼ tsp");
        await MeasureAsync(chart, "A1");
        await AddAsync("A1", "¼ tsp");
        await MeasureAsync(chart, "A1");
        var square = await SquareAsync(chart, "A1");
        Assert.Equal((1, null), (square.AfterStep, square.StageSaidAt));
        Assert.Equal(60, (await TrialsAsync()).Painted.Single(one => one.Chart.Number == chart).Row.Point.Dose("alum"), 1e-9);
    }

    [Fact]
    public async Task A_maker_corrects_what_a_square_was_painted_from_and_the_correction_is_kept()
    {
        var chart = await SheetAsync(squaresEach: 1);
        await AddAsync("A1", "¼ tsp");
        await AddAsync("A1", "¼ tsp");
        await MeasureAsync(chart, "A1");
        Assert.Equal("A1", await bench.DoneAsync<PaintSquare, string>(paint => paint.SayAsync(chart, "A1", "1", default)));
        var square = await SquareAsync(chart, "A1");
        Assert.Equal((1, true), (square.AfterStep, square.StageSaidAt is not null));
        await using var db = bench.Read();
        var corrections = await db
            .Corrections.Where(one => one.EntryId == square.Id && one.Field == nameof(Swatch.AfterStep))
            .ToListAsync();
        Assert.Contains(corrections, one => (one.Before, one.After) == ("2", "1"));

        foreach (var wrong in (string[])["7", "-1", "x", ""])
            Assert.False(
                (await bench.DoAsync<PaintSquare, Outcome<string>>(paint => paint.SayAsync(chart, "A1", wrong, default))).TryGet(out _)
            );
        Assert.False((await bench.DoAsync<PaintSquare, Outcome<string>>(paint => paint.SayAsync(chart, "Z9", "1", default))).TryGet(out _));
        await bench.DoneAsync<PaintSquare, string>(paint => paint.SayAsync(chart, "A1", "0", default));
        Assert.Equal(0, (await SquareAsync(chart, "A1")).AfterStep);
    }

    [Fact]
    public async Task A_step_written_up_late_is_placed_before_the_painting_by_hand()
    {
        var chart = await SheetAsync(squaresEach: 1);
        await MeasureAsync(chart, "A1");
        await AddAsync("A1", "¼ tsp", before: (await SquareAsync(chart, "A1")).Id);
        await AddAsync("A1", "¼ tsp");
        Assert.Equal(60, (await TrialsAsync()).Painted.Single(one => one.Chart.Number == chart).Row.Point.Dose("alum"), 1e-9);
        Assert.Equal(2.4, (await JarAsync("A1")).Jar.Totals.Single().Sum.Grams!.Value, 1e-9);

        var alum = (await AlumAsync()).ToString();
        var refused = await bench.DoAsync<AddToSample, Outcome<Guid>>(add =>
            add.HandleAsync(
                bench.Pot,
                "A1",
                new()
                {
                    Material = alum,
                    Amount = "1 g",
                    Before = bench.Square.ToString(),
                },
                default
            )
        );
        Assert.Equal("Before", Assert.Single(refused.Problems).Field);
    }

    [Fact]
    public async Task Painting_all_takes_the_jars_that_are_new_and_all_of_them_when_none_is()
    {
        var chart = await bench.DoneAsync<StartChart, string>(start =>
            start.HandleAsync(bench.Pot, "A", new() { Repeats = "4", Page = "A4" }, default)
        );
        Task<int> AllAsync() => bench.DoneAsync<PaintSquare, int>(paint => paint.AllAsync(bench.Pot, "A", default));

        // A2 was painted as it stands on an earlier sheet.
        Assert.Equal(2, await AllAsync());

        // One jar goes on: the others were painted as they stand.
        var alum = (await bench.Read().Materials.SingleAsync(one => one.Name == "alum")).Id;
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A1", new() { Material = alum.ToString(), Amount = "¼ tsp" }, default)
        );
        Assert.Equal(1, await AllAsync());

        // Once more of each shows how much the hand varies.
        Assert.Equal(3, await AllAsync());
        await using var db = bench.Read();
        var painted = await db
            .Swatches.Where(one => one.AfterStep != null)
            .OrderBy(one => one.Cell)
            .Select(one => new { one.Cell, one.AfterStep })
            .ToListAsync();
        Assert.Equal(
            [("A1", 0), ("A1.2", 1), ("A1.3", 1), ("A2", 2), ("A3", 0), ("A3.2", 0)],
            painted.Where(one => one.Cell[0] == 'A').Select(one => (one.Cell, one.AfterStep!.Value))
        );
        Assert.StartsWith("C", chart, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_tap_paints_every_wash_of_a_stage_and_none_is_left_says_so()
    {
        var chart = await SheetAsync(squaresEach: 2, wash: "0.5");
        Assert.Equal($"C{chart} A1, A1/2", await PaintedAsync("A1"));
        Assert.Equal($"C{chart} A1.2, A1.2/2", await PaintedAsync("A1"));
        var refused = await bench.DoAsync<PaintSquare, Outcome<string>>(paint => paint.HandleAsync(bench.Pot, "A1", default));
        Assert.Contains("No square waits", Assert.Single(refused.Problems).What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_jar_that_was_taken_back_is_not_painted_whichever_way_is_asked()
    {
        await SheetAsync(squaresEach: 1);
        await bench.DoneAsync<ChangeJar, Thing>(change =>
            change.WithdrawAsync(Thing.Jar(bench.Pot, "A1"), new() { Why = "spilt" }, default)
        );
        var refused = await bench.DoAsync<PaintSquare, Outcome<string>>(paint => paint.HandleAsync(bench.Pot, "A1", default));
        Assert.Contains("No square waits for jar A1", Assert.Single(refused.Problems).What, StringComparison.Ordinal);
        await bench.DoneAsync<PaintSquare, int>(paint => paint.AllAsync(bench.Pot, "A", default));
        await using var db = bench.Read();
        var jar = await db.Samples.SingleAsync(one => one.Jar == "A1");
        Assert.Null((await db.Swatches.SingleAsync(one => one.SampleId == jar.Id)).AfterStep);
    }

    private async Task<int> SheetAsync(int squaresEach, string? wash = null)
    {
        var code = await bench.DoneAsync<StartChart, string>(start =>
            start.HandleAsync(
                bench.Pot,
                "A",
                new()
                {
                    Page = "A4",
                    Columns = (squaresEach * (wash is null ? 1 : 2)).ToString(CultureInfo.InvariantCulture),
                    Repeats = squaresEach.ToString(CultureInfo.InvariantCulture),
                    Wash = wash is null ? [] : [wash],
                },
                default
            )
        );
        bench.Clock.Pass(TimeSpan.FromMinutes(10));
        return int.Parse(code[1..], CultureInfo.InvariantCulture);
    }

    private async Task<string> PaintedAsync(string jar)
    {
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        return await bench.DoneAsync<PaintSquare, string>(paint => paint.HandleAsync(bench.Pot, jar, default));
    }

    private async Task AddAsync(string jar, string amount, Guid? before = null)
    {
        bench.Clock.Pass(TimeSpan.FromMinutes(5));
        var alum = (await AlumAsync()).ToString();
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(
                bench.Pot,
                jar,
                new()
                {
                    Material = alum,
                    Amount = amount,
                    Before = before?.ToString(),
                },
                default
            )
        );
    }

    // An instrument's figures, so that no photo must be drawn.
    private async Task MeasureAsync(int chart, params string[] cells)
    {
        bench.Clock.Pass(TimeSpan.FromDays(1));
        await bench.DoneAsync<AddInstrumentReadings, int>(add =>
            add.HandleAsync(chart, new() { Illuminant = "D65", Values = cells.ToDictionary(cell => cell, _ => "40 10 -20") }, default)
        );
    }

    private async Task<Guid> AlumAsync()
    {
        await using var db = bench.Read();
        return (await db.Materials.SingleAsync(one => one.Name == "alum")).Id;
    }

    private async Task<Swatch> SquareAsync(int chart, string cell)
    {
        await using var db = bench.Read();
        return await (
            from swatch in db.Swatches
            join one in db.Charts on swatch.ChartId equals one.Id
            where one.Number == chart && swatch.Cell == cell
            select swatch
        ).SingleAsync();
    }

    private async Task<ShowJarAnswer> JarAsync(string jar) =>
        (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, jar, default)))!;

    private Task<TrialSource> TrialsAsync() => bench.DoAsync<NotebookTrials, TrialSource>(trials => trials.HandleAsync(default));
}
