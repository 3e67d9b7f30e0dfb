using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>What could not be put right before: a batch's planned volume, a pot's lot, the kind of a line, bottles and charts.</summary>
public sealed class ChangeMoreTests : IAsyncLifetime
{
    private static readonly WithdrawForm Mistake = new() { Why = "a slip" };

    private Bench bench = null!;

    private Thing Pot => Thing.Pot(bench.Pot);

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task A_batchs_planned_volume_carries_its_amounts_and_its_liquor_and_undoing_it_takes_all_back()
    {
        var batch = await BatchAsync("200 ml");
        var before = await AmountsAsync();
        Assert.Equal(200, before.Ml);
        await DoneAsync<ChangeBatch>(change => change.CorrectAsync(batch, new() { MadeOn = "2025-09-06", PlannedMl = "300 ml" }, default));
        var after = await AmountsAsync();
        Assert.Equal(300, after.Ml);
        Assert.Equal(before.Grams.ConvertAll(grams => grams * 1.5), after.Grams, (one, other) => Math.Abs(one - other) < 1e-9);
        await DoneAsync<ChangeBatch>(change => change.UndoAsync(batch, default));
        Assert.Equal(before.Ml, (await AmountsAsync()).Ml);
        Assert.Equal(before.Grams, (await AmountsAsync()).Grams);

        var refused = await bench.DoAsync<ChangeBatch, Outcome<Thing>>(change =>
            change.CorrectAsync(batch, new() { MadeOn = "2025-09-06", PlannedMl = "20 L" }, default)
        );
        Assert.Equal(nameof(ChangeBatchForm.PlannedMl), Assert.Single(refused.Problems).Field);
        await DoneAsync<ChangeBatch>(change =>
            change.CorrectAsync(
                batch,
                new()
                {
                    MadeOn = "2025-09-06",
                    PlannedMl = "20 L",
                    MoreThanWritten = "yes",
                },
                default
            )
        );
        Assert.Equal(20_000, (await AmountsAsync()).Ml);
    }

    [Fact]
    public async Task A_pot_is_moved_to_another_lot_of_its_plant_and_to_no_other()
    {
        await using var db = bench.Read();
        var pot = await db.Pots.SingleAsync();
        var own = await db.PlantLots.SingleAsync(one => one.Id == pot.LotId);
        async Task<Guid> LotOfAsync(string plant, string day)
        {
            var code = await bench.DoneAsync<StartPot, string>(start =>
                start.HandleAsync(
                    new()
                    {
                        Plant = plant,
                        MadeOn = "2025-09-06",
                        GatheredOn = day,
                    },
                    default
                )
            );
            await using var look = bench.Read();
            return await look.Pots.Where(one => one.Code == code).Select(one => one.LotId).SingleAsync();
        }

        var plant = await db.Materials.Where(one => one.Id == own.PlantId).Select(one => one.Name).SingleAsync();
        var (other, weld) = (await LotOfAsync(plant, "2025-09-01"), await LotOfAsync("weld", "2025-09-01"));
        var form = new ChangePotForm { MadeOn = $"{pot.MadeOn:yyyy-MM-dd}", Lot = other.ToString() };
        await DoneAsync<ChangePot>(change => change.CorrectAsync(Pot, form, default));
        Assert.Equal(other, await LotAsync());
        var refused = await bench.DoAsync<ChangePot, Outcome<Thing>>(change =>
            change.CorrectAsync(Pot, form with { Lot = weld.ToString() }, default)
        );
        Assert.Contains("no lot of this pot's plant", Assert.Single(refused.Problems).What, StringComparison.Ordinal);
        await DoneAsync<ChangePot>(change => change.UndoAsync(Pot, default));
        Assert.Equal(own.Id, await LotAsync());
    }

    [Fact]
    public async Task The_kind_of_a_line_is_corrected_and_the_liquor_follows()
    {
        var line = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!.Log.Single();
        var thing = new Thing(ThingKind.LogLine, bench.Pot, line.Id.ToString());
        await DoneAsync<ChangeLogLine>(change =>
            change.CorrectAsync(thing, new() { Kind = nameof(LogKind.ToppedUp), Ml = $"{line.Ml}" }, default)
        );
        var shown = (await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!;
        Assert.Equal(LogKind.ToppedUp, shown.Log.Single().Kind);
        Assert.Null(shown.LeftMl);
        await DoneAsync<ChangeLogLine>(change => change.UndoAsync(thing, default));
        Assert.NotNull((await bench.DoAsync<ShowPot, ShowPotAnswer?>(show => show.HandleAsync(bench.Pot, default)))!.LeftMl);
    }

    [Fact]
    public async Task A_bottle_that_was_never_filled_gives_its_ink_back_and_holds_no_more_than_was_made()
    {
        var batch = await BatchAsync("100 ml");
        await bench.DoneAsync<FillBottles, int>(fill => fill.HandleAsync(batch.Code, new() { FillMl = "40", Count = "2" }, default));
        async Task<BatchView> ViewAsync() =>
            (await bench.DoAsync<ShowBatch, ShowBatchAnswer?>(show => show.HandleAsync(batch.Code, default)))!.View;
        var bottles = (await ViewAsync()).Bottles;
        var first = Thing.Bottle(bottles[0].Code);
        var form = new ChangeBottleForm { FillMl = "2 L", FilledOn = $"{bottles[0].FilledOn:yyyy-MM-dd}" };
        var doubted = await bench.DoAsync<ChangeBottle, Outcome<Thing>>(change => change.CorrectAsync(first, form, default));
        Assert.Equal(nameof(ChangeBottleForm.Meant), Assert.Single(doubted.Problems).Field);
        await DoneAsync<ChangeBottle>(change => change.CorrectAsync(first, form with { FillMl = "50" }, default));
        Assert.Equal(90, (await ViewAsync()).FilledMl);
        await DoneAsync<ChangeBottle>(change => change.WithdrawAsync(first, Mistake, default));
        Assert.Equal(40, (await ViewAsync()).FilledMl);
        await bench.DoneAsync<FillBottles, int>(fill => fill.HandleAsync(batch.Code, new() { FillMl = "50", Count = "1" }, default));
        var full = await bench.DoAsync<ChangeBottle, Outcome<Thing>>(change => change.PutBackAsync(first, default));
        Assert.Contains("Other bottles hold 90 ml", Assert.Single(full.Problems).What, StringComparison.Ordinal);
        await bench.DoneAsync<LookAfterBottle, string>(look => look.LeaveAsync(bottles[1].Code, new() { Why = "sold" }, default));
        var sold = await bench.DoAsync<ChangeBottle, Outcome<Thing>>(change =>
            change.WithdrawAsync(Thing.Bottle(bottles[1].Code), Mistake, default)
        );
        Assert.Equal("It left the shelf: sold.", Assert.Single(sold.Problems).What);
    }

    [Fact]
    public async Task A_sheet_that_was_printed_by_mistake_goes_with_its_squares_and_comes_back_with_them()
    {
        var code = await bench.DoneAsync<StartChart, string>(start =>
            start.HandleAsync(bench.Pot, "A", new() { Page = "A4", Columns = "2" }, default)
        );
        async Task<int> SquaresAsync() =>
            (await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(int.Parse(code[1..]), default)))!.Cells.Count;
        var squares = await SquaresAsync();
        Assert.True(squares > 0);
        await DoneAsync<ChangeChart>(change => change.WithdrawAsync(Thing.Chart(code), Mistake, default));
        Assert.Equal(0, await SquaresAsync());
        await DoneAsync<ChangeChart>(change => change.PutBackAsync(Thing.Chart(code), default));
        Assert.Equal(squares, await SquaresAsync());
    }

    private async Task DoneAsync<TChange>(Func<TChange, Task<Outcome<Thing>>> work)
        where TChange : notnull
    {
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await bench.DoneAsync(work);
    }

    private async Task<Thing> BatchAsync(string volume)
    {
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = bench.Square.ToString(), Name = "Dusk" }, default)
        );
        return Thing.Batch(
            await bench.DoneAsync<StartBatch, string>(start =>
                start.HandleAsync(recipe, new() { Volume = volume, MadeOn = "2025-09-06" }, default)
            )
        );
    }

    private async Task<(double Ml, List<double> Grams)> AmountsAsync()
    {
        await using var db = bench.Read();
        return (
            await db.BatchLiquors.Select(one => one.Ml).SingleAsync(),
            [.. (await db.BatchSteps.OrderBy(one => one.Step).ToListAsync()).Select(one => one.Planned.Grams ?? one.Planned.Number)]
        );
    }

    private async Task<Guid> LotAsync()
    {
        await using var db = bench.Read();
        return await db.Pots.Where(one => one.Code == bench.Pot).Select(one => one.LotId).SingleAsync();
    }
}
