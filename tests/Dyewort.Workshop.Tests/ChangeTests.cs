using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Bench;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Pots, trials, jars, recipes, batches, lots and log lines are put right, taken back and put back; what was taken back is in no
/// sum, and stays readable.</summary>
public sealed class ChangeTests : IAsyncLifetime
{
    private static readonly WithdrawForm Mistake = new() { Why = "the wrong pot" };

    private Bench bench = null!;

    private Thing Pot => Thing.Pot(bench.Pot);

    private Thing Trial => Thing.Trial(bench.Pot, "A");

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task A_pot_is_corrected_and_says_what_it_said()
    {
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync<ChangePot>(change =>
            change.CorrectAsync(
                Pot,
                new()
                {
                    PlantGrams = "920",
                    LiquidMl = "300",
                    Vessel = "copper kettle",
                    MadeOn = "2025-09-05",
                },
                default
            )
        );
        var shown = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!;
        Assert.Equal(
            (920.0, 300.0, "copper kettle", new DateOnly(2025, 9, 5)),
            (shown.Pot.PlantGrams, shown.Pot.LiquidMl, shown.Pot.Vessel, shown.Pot.MadeOn)
        );
        Assert.Contains(shown.Corrections, one => one is { Field: nameof(Notebook.Pot.PlantGrams), Before: "900", After: "920" });
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync<ChangePot>(change => change.UndoAsync(Pot, default));
        shown = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!;
        Assert.Equal((900.0, null, new DateOnly(2025, 9, 6)), (shown.Pot.PlantGrams, shown.Pot.Vessel, shown.Pot.MadeOn));
    }

    [Theory]
    [InlineData("2025-09-04", nameof(ChangePotForm.MadeOn))]
    [InlineData("2025-10-04", nameof(ChangePotForm.MadeOn))]
    public async Task A_day_that_cannot_be_is_refused(string day, string field)
    {
        var refused = await bench.DoAsync<ChangePot, Outcome<Thing>>(change => change.CorrectAsync(Pot, new() { MadeOn = day }, default));
        Assert.Equal(field, Assert.Single(refused.Problems).Field);
        await using var db = bench.Read();
        Assert.Equal(900, (await db.Pots.SingleAsync()).PlantGrams);
    }

    [Fact]
    public async Task A_pot_that_something_stands_on_says_what()
    {
        var recipe = await KeepAsync();
        var batch = await BatchAsync(recipe, "400 ml");
        var way = (await bench.DoAsync<ChangePot, ChangeAnswer<Pot>?>(change => change.ShowAsync(Pot, default)))!.InTheWay;
        Assert.Equal([Trial, Thing.Recipe(recipe), Thing.Batch(batch)], way.Select(one => one.Where));
        var refused = await bench.DoAsync<ChangePot, Outcome<Thing>>(change => change.WithdrawAsync(Pot, Mistake, default));
        Assert.Equal(way.Select(one => one.What), refused.Problems.Select(problem => problem.What));
        await using var db = bench.Read();
        Assert.True((await db.Pots.SingleAsync()).Counts);
    }

    [Fact]
    public async Task A_pot_written_by_mistake_leaves_every_list_and_sum_and_can_come_back()
    {
        var second = await bench.DoneAsync<StartPot, string>(start =>
            start.HandleAsync(
                new()
                {
                    Plant = "elderberry",
                    PlantGrams = "500",
                    LiquidMl = "250",
                },
                default
            )
        );
        await bench.DoneAsync<AddToLog, Guid>(log =>
            log.HandleAsync(
                second,
                new()
                {
                    Kind = nameof(LogKind.Strained),
                    Ml = "300",
                    Ph = "3.6",
                },
                default
            )
        );
        var thing = Thing.Pot(second);
        await DoneAsync<ChangePot>(change => change.WithdrawAsync(thing, Mistake, default));
        Assert.DoesNotContain(await PotsAsync(), line => line.Pot.Code == second);
        Assert.Equal(
            "the wrong pot",
            Assert
                .Single(await bench.DoAsync<FindTakenBack, IReadOnlyList<TakenBackLine>>(find => find.PotsAsync(default)))
                .Entry.WithdrawnWhy
        );
        Assert.Single(
            (await bench.DoAsync<PastPots, IReadOnlyList<Dyewort.Pots.PastPot>>(past => past.HandleAsync("elderberry", default)))
        );
        Assert.DoesNotContain(
            (await bench.DoAsync<NotebookTrials, TrialSource>(trials => trials.HandleAsync(default))).Table.PointsOf("elderberry"),
            point => point.Pot == second
        );
        var found = await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync("elder", default));
        Assert.DoesNotContain(found.ByWords, hit => hit.Thing == thing);
        Assert.Equal(thing, (await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync(second, default))).Straight);
        foreach (
            var refused in new[]
            {
                (await bench.DoAsync<AddToLog, Outcome<Guid>>(log => log.HandleAsync(second, new() { Said = "boils" }, default))).Problems,
                (
                    await bench.DoAsync<SplitPot, Outcome<string>>(split =>
                        split.HandleAsync(second, new() { Jars = "2", VolumeMl = "20" }, default)
                    )
                ).Problems,
            }
        )
            Assert.NotEmpty(refused);

        await DoneAsync<ChangePot>(change => change.PutBackAsync(thing, default));
        Assert.Contains(await PotsAsync(), line => line.Pot.Code == second && line.LeftMl == 300);
    }

    [Fact]
    public async Task A_trial_is_renamed_dated_and_told_apart()
    {
        await DoneAsync<ChangeTrial>(change =>
            change.CorrectAsync(
                Trial,
                new()
                {
                    Title = "alum by the pinch",
                    Kind = nameof(TrialKind.Ladder),
                    SetOutOn = "2025-09-05",
                },
                default
            )
        );
        var shown = (await bench.DoAsync<ShowTrial, ShowTrialAnswer?>(show => show.HandleAsync(bench.Pot, "A", default)))!.Trial;
        Assert.Equal(("alum by the pinch", TrialKind.Ladder, new DateOnly(2025, 9, 5)), (shown.Title, shown.Kind, shown.SetOutOn));
        var nameless = await bench.DoAsync<ChangeTrial, Outcome<Thing>>(change =>
            change.CorrectAsync(Trial, new() { Title = " " }, default)
        );
        Assert.Equal(nameof(ChangeTrialForm.Title), Assert.Single(nameless.Problems).Field);
    }

    [Fact]
    public async Task A_painted_trial_stays_and_an_empty_one_gives_its_liquor_back_with_its_sheet()
    {
        var refused = await bench.DoAsync<ChangeTrial, Outcome<Thing>>(change => change.WithdrawAsync(Trial, Mistake, default));
        Assert.Equal("C3 B2 was painted from jar A2.", Assert.Single(refused.Problems).What);

        await bench.DoneAsync<SplitPot, string>(split =>
            split.HandleAsync(
                bench.Pot,
                new()
                {
                    Jars = "5",
                    VolumeMl = "50",
                    Title = "twice",
                },
                default
            )
        );
        await bench.DoneAsync<Charts.StartChart, string>(start => start.HandleAsync(bench.Pot, "B", new() { Page = "A5" }, default));
        Assert.Equal(480, await LeftAsync());
        var thing = Thing.Trial(bench.Pot, "B");
        await DoneAsync<ChangeTrial>(change => change.WithdrawAsync(thing, Mistake, default));
        Assert.Equal(730, await LeftAsync());
        var pot = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!;
        Assert.Equal(["A"], pot.Trials.Select(line => line.Trial.Letter));
        Assert.Equal("B: twice", Assert.Single(pot.TakenBack).Title);
        Assert.DoesNotContain(
            (await bench.DoAsync<WhatIsNext, WhatIsNextAnswer>(next => next.HandleAsync(default))).Steps,
            step => step.What.Contains("C4", StringComparison.Ordinal) || step.On == thing
        );

        // A new trial takes a new letter: B stands on printed tags.
        Assert.Equal(
            "C",
            await bench.DoneAsync<SplitPot, string>(split => split.HandleAsync(bench.Pot, new() { Jars = "2", VolumeMl = "20" }, default))
        );
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync<ChangeTrial>(change => change.UndoAsync(thing, default));
        Assert.Equal(440, await LeftAsync());
        await using var db = bench.Read();
        Assert.True((await db.Charts.SingleAsync(chart => chart.Number == 4)).Counts);
    }

    [Fact]
    public async Task A_jars_volume_carries_its_doses_and_the_recipe_keeps_what_it_kept()
    {
        var recipe = await KeepAsync();
        var jar = Thing.Jar(bench.Pot, "A2");
        var sample = (await bench.DoAsync<ChangeJar, ChangeAnswer<Sample>?>(change => change.ShowAsync(jar, default)))!.Entry;
        var touched = await bench.DoAsync<ChangeJar, Touched>(change => change.TouchedAsync(sample, default));
        Assert.Equal(("C3", "B2", recipe), (touched.Squares.Single().Chart, touched.Squares[0].Cell, touched.Recipes.Single().Code));
        await DoneAsync<ChangeJar>(change => change.CorrectAsync(jar, new() { VolumeMl = "25" }, default));
        var shown = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, "A2", default)))!.Jar;
        Assert.Equal(2.4, shown.Totals[0].Sum.GramsPer100Ml!.Value, 1e-9);
        Assert.Equal(725, await LeftAsync());
        await using var db = bench.Read();
        Assert.Equal(20, (await db.Recipes.SingleAsync()).BaseVolumeMl);

        var toomuch = await bench.DoAsync<ChangeJar, Outcome<Thing>>(change =>
            change.CorrectAsync(jar, new() { VolumeMl = "900" }, default)
        );
        Assert.Contains("At most 725 ml fit", Assert.Single(toomuch.Problems).Remedy, StringComparison.Ordinal);
        await DoneAsync<ChangeJar>(change => change.CorrectAsync(jar, new() { VolumeMl = "900", MoreThanWritten = "yes" }, default));
        Assert.Equal(-150, await LeftAsync());
    }

    [Fact]
    public async Task A_single_jar_is_taken_back_and_put_back_but_not_without_its_trial()
    {
        var jar = Thing.Jar(bench.Pot, "A3");
        await DoneAsync<ChangeJar>(change => change.WithdrawAsync(jar, Mistake, default));
        Assert.Equal(750, await LeftAsync());
        var trial = (await bench.DoAsync<ShowTrial, ShowTrialAnswer?>(show => show.HandleAsync(bench.Pot, "A", default)))!;
        Assert.Equal(["A1", "A2"], trial.Jars.Select(one => one.Sample.Jar));
        Assert.Equal("jar A3", Assert.Single(trial.TakenBack).Title);
        await DoneAsync<ChangeJar>(change => change.PutBackAsync(jar, default));
        Assert.Equal(730, await LeftAsync());

        var painted = await bench.DoAsync<ChangeJar, Outcome<Thing>>(change =>
            change.WithdrawAsync(Thing.Jar(bench.Pot, "A2"), Mistake, default)
        );
        Assert.Single(painted.Problems);
        await bench.DoneAsync<SplitPot, string>(split => split.HandleAsync(bench.Pot, new() { Jars = "1", VolumeMl = "20" }, default));
        await DoneAsync<ChangeTrial>(change => change.WithdrawAsync(Thing.Trial(bench.Pot, "B"), Mistake, default));
        var alone = await bench.DoAsync<ChangeJar, Outcome<Thing>>(change => change.PutBackAsync(Thing.Jar(bench.Pot, "B1"), default));
        Assert.Equal("Its trial was taken back.", Assert.Single(alone.Problems).What);
    }

    [Fact]
    public async Task A_batch_taken_back_leaves_its_liquor_in_the_pot()
    {
        var recipe = await KeepAsync();
        var batch = Thing.Batch(await BatchAsync(recipe, "400 ml"));
        Assert.Equal(330, await LeftAsync());
        await DoneAsync<ChangeBatch>(change =>
            change.CorrectAsync(
                batch,
                new()
                {
                    MadeOn = "2025-09-05",
                    LiquorMl = "390",
                    Note = "by the window",
                },
                default
            )
        );
        Assert.Equal(340, await LeftAsync());
        await DoneAsync<ChangeBatch>(change => change.CorrectAsync(batch, new(), default));
        Assert.Equal(330, await LeftAsync());
        await DoneAsync<ChangeBatch>(change => change.WithdrawAsync(batch, Mistake, default));
        Assert.Equal(730, await LeftAsync());
        Assert.Empty(await bench.DoAsync<ListBatches, IReadOnlyList<ListBatchesLine>>(list => list.HandleAsync(default)));
        var shown = (await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(recipe, default)))!;
        Assert.Empty(shown.Batches);
        Assert.Equal(batch, Assert.Single(shown.TakenBack).Thing);

        // Its number is not given again, and it comes back with its liquor drawn.
        Assert.Equal("AAC", await BatchAsync(recipe, "100 ml"));
        await DoneAsync<ChangeBatch>(change => change.PutBackAsync(batch, default));
        Assert.Equal(230, await LeftAsync());
        await bench.DoneAsync<FillBottles, int>(fill => fill.HandleAsync(batch.Code, new() { FillMl = "29", Count = "2" }, default));
        var bottled = await bench.DoAsync<ChangeBatch, Outcome<Thing>>(change => change.WithdrawAsync(batch, Mistake, default));
        Assert.Equal("It filled 2 bottles.", Assert.Single(bottled.Problems).What);
    }

    [Fact]
    public async Task A_recipe_is_taken_back_while_nothing_was_made_of_it_and_its_name_is_free_again()
    {
        var recipe = Thing.Recipe(await KeepAsync());
        await DoneAsync<ChangeRecipe>(change => change.WithdrawAsync(recipe, Mistake, default));
        var second = await KeepAsync();
        Assert.Equal("R2", second);
        var clash = await bench.DoAsync<ChangeRecipe, Outcome<Thing>>(change => change.PutBackAsync(recipe, default));
        Assert.Contains("is called “Dusk” now", Assert.Single(clash.Problems).What, StringComparison.Ordinal);
        await BatchAsync(second, "100 ml");
        var made = await bench.DoAsync<ChangeRecipe, Outcome<Thing>>(change =>
            change.WithdrawAsync(Thing.Recipe(second), Mistake, default)
        );
        Assert.Equal("Batch AAA was made of it.", Assert.Single(made.Problems).What);
    }

    [Fact]
    public async Task A_line_of_the_log_is_corrected_and_the_liquor_with_it()
    {
        var line = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!.Log.Single();
        var thing = new Thing(ThingKind.LogLine, bench.Pot, line.Id.ToString());
        await DoneAsync<ChangeLogLine>(change => change.CorrectAsync(thing, new() { Ml = "690", Said = "misread" }, default));
        Assert.Equal(630, await LeftAsync());
        var empty = await bench.DoAsync<ChangeLogLine, Outcome<Thing>>(change => change.CorrectAsync(thing, new(), default));
        Assert.Equal(nameof(ChangeLogLineForm.Ml), Assert.Single(empty.Problems).Field);
        await DoneAsync<ChangeLogLine>(change => change.WithdrawAsync(thing, new(), default));
        Assert.Null(await LeftAsync());
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync<ChangeLogLine>(change => change.UndoAsync(thing, default));
        Assert.Equal(630, await LeftAsync());
    }

    [Fact]
    public async Task A_lot_is_corrected_and_stands_while_a_pot_was_made_of_it()
    {
        Guid id;
        await using (var db = bench.Read())
            id = (await db.PlantLots.SingleAsync()).Id;
        var lot = new Thing(ThingKind.Lot, id.ToString());
        var late = await bench.DoAsync<ChangeLot, Outcome<Thing>>(change =>
            change.CorrectAsync(lot, new() { GatheredOn = "2025-09-07" }, default)
        );
        Assert.Equal(nameof(ChangeLotForm.GatheredOn), Assert.Single(late.Problems).Field);
        await DoneAsync<ChangeLot>(change =>
            change.CorrectAsync(
                lot,
                new()
                {
                    GatheredOn = "2025-09-04",
                    Grams = "1200",
                    Place = "the lane",
                    Condition = "frozen",
                },
                default
            )
        );
        var line = Assert.Single(await bench.DoAsync<PlantLots, IReadOnlyList<PlantLotsLine>>(lots => lots.HandleAsync(default)));
        Assert.Equal((300.0, "the lane", null), (line.LeftGrams, line.Lot.Place, line.Lot.Part));
        var stands = await bench.DoAsync<ChangeLot, Outcome<Thing>>(change => change.WithdrawAsync(lot, Mistake, default));
        Assert.Equal("Pot EB25-1 was made of it.", Assert.Single(stands.Problems).What);
    }

    [Fact]
    public async Task What_a_pot_holds_is_checked_before_anything_is_started()
    {
        var recipe = await KeepAsync();
        var asked = new StartBatchForm { Volume = "1.5 L" };
        var refused = await bench.DoAsync<StartBatch, Outcome<string>>(start => start.HandleAsync(recipe, asked, default));
        Assert.StartsWith("At most 730 ml fit.", Assert.Single(refused.Problems).Remedy, StringComparison.Ordinal);
        await bench.DoneAsync<StartBatch, string>(start => start.HandleAsync(recipe, asked with { MoreThanWritten = "yes" }, default));
        Assert.Equal(-770, await LeftAsync());
        var none = await bench.DoAsync<SplitPot, Outcome<string>>(split =>
            split.HandleAsync(bench.Pot, new() { Jars = "2", VolumeMl = "20" }, default)
        );
        Assert.Equal(LiquorLeft.MoreThanWritten, Assert.Single(none.Problems).Remedy);
        await bench.DoneAsync<SplitPot, string>(split =>
            split.HandleAsync(
                bench.Pot,
                new()
                {
                    Jars = "2",
                    VolumeMl = "20",
                    MoreThanWritten = "yes",
                },
                default
            )
        );
    }

    [Fact]
    public async Task Lists_and_the_way_from_the_plant_say_what_is_left()
    {
        await BatchAsync(await KeepAsync(), "400 ml");
        Assert.Equal(330, Assert.Single(await PotsAsync()).LeftMl);
        var pot = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!;
        Assert.Equal("330 ml left", pot.Thread[1].Detail);
    }

    private Task<Thing> DoneAsync<TChange>(Func<TChange, Task<Outcome<Thing>>> work)
        where TChange : notnull => bench.DoneAsync(work);

    private Task<IReadOnlyList<ListPotsLine>> PotsAsync() =>
        bench.DoAsync<ListPots, IReadOnlyList<ListPotsLine>>(list => list.HandleAsync(default));

    private async Task<double?> LeftAsync()
    {
        Guid pot;
        await using (var db = bench.Read())
            pot = (await db.Pots.SingleAsync(one => one.Code == bench.Pot)).Id;
        return await bench.DoAsync<LiquorLeft, double?>(left => left.HandleAsync(pot, default));
    }

    private Task<string> KeepAsync() =>
        bench.DoneAsync<KeepRecipe, string>(keep => keep.HandleAsync(new() { Swatch = bench.Square.ToString(), Name = "Dusk" }, default));

    private Task<string> BatchAsync(string recipe, string volume) =>
        bench.DoneAsync<StartBatch, string>(start => start.HandleAsync(recipe, new() { Volume = volume }, default));
}
