using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Readings;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>One swatch has one colour, wherever it is asked for.</summary>
public sealed class StandingColourTests : IAsyncLifetime
{
    private static readonly Lab Measured = new(36, 13, -20);

    private Bench bench = null!;

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task Chart_jar_recipe_list_search_and_model_give_a_swatch_the_same_colour()
    {
        // Measured by an instrument, then photographed once more: the instrument stands.
        await ReadAsync(Measured, ReadingSource.Instrument, days: 8);
        await ReadAsync(new(40, 11, -17), ReadingSource.Photo, days: 9);
        await GiveTheChartASheetAsync();

        var chart = (await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(3, default)))!;
        Same(chart.Cells.Single().Best!.Colour);
        var jar = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, "A2", default)))!;
        Same(jar.Jar.In(SwatchState.Dry)!.Colour);
        var charts = await bench.DoAsync<ListCharts, IReadOnlyList<ListChartsLine>>(list => list.HandleAsync(default));
        Same(charts.Single().Colours.Single().Colour);
        var trials = await bench.DoAsync<NotebookTrials, TrialSource>(notebook => notebook.HandleAsync(default));
        Same(trials.Painted.Single(one => one.Row.Point.State == "dry").Row.Colour.ToXyz());
        var found = await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync("36,13,-20", default));
        Same(found.ByColour.Single(hit => hit.Kind == "swatch").Colour!.Value);

        var code = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = bench.Square.ToString(), Name = "dusk" }, default)
        );
        await using var db = bench.Read();
        Same((await db.Recipes.SingleAsync(one => one.Code == code)).Colour!.Value);
    }

    private static void Same(Xyz colour)
    {
        var lab = Lab.FromXyz(colour);
        Assert.Equal((Measured.L, Measured.A, Measured.B), (Math.Round(lab.L, 6), Math.Round(lab.A, 6), Math.Round(lab.B, 6)));
    }

    private async Task GiveTheChartASheetAsync()
    {
        await using var db = bench.Read();
        var layout = new SheetLayout(50, 50, [], [new("B2", [new(27, 27), new(47, 27), new(47, 47), new(27, 47)])]).ToJson();
        await db.Database.ExecuteSqlAsync($"UPDATE charts SET layout_json = {layout}");
    }

    private async Task ReadAsync(Lab lab, ReadingSource source, int days)
    {
        await using var db = bench.Read();
        var at = bench.Clock.GetUtcNow().AddDays(days);
        db.Add(
            new Reading
            {
                Id = Guid.CreateVersion7(at),
                WrittenAt = at,
                SwatchId = bench.Square,
                At = at,
                State = SwatchState.Dry,
                Colour = lab.ToXyz(),
                UncertaintyDe00 = 0.5,
                Source = source,
            }
        );
        await db.SaveChangesAsync();
    }
}
