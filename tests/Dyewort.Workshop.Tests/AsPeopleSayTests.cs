using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>A maker types a quantity as people say it; it is kept as ml, g, °C, and shown back as it was understood.</summary>
public sealed class AsPeopleSayTests
{
    [Fact]
    public async Task A_pot_is_told_in_ounces_and_cups_of_the_makers_kitchen()
    {
        await using var bench = await Bench.SetUpAsync();
        await KitchenAsync(bench, Teaspoon.UsCustomary);
        var started = await bench.DoAsync<StartPot, Outcome<string>>(start =>
            start.HandleAsync(
                new()
                {
                    Plant = "walnut",
                    PlantGrams = "14 oz",
                    LiquidMl = "6 cups",
                },
                default
            )
        );
        Assert.Contains("“6 cups” is 1.42 L.", started.Understood);
        Assert.Contains("“14 oz” is 397 g.", started.Understood);
        await using var db = bench.Read();
        var pot = await db.Pots.SingleAsync(one => one.Code != bench.Pot);
        Assert.Equal((1419.53, 396.89), (Math.Round(pot.LiquidMl!.Value, 2), Math.Round(pot.PlantGrams!.Value, 2)));
        Assert.Equal(("6 cups", "14 oz"), (pot.LiquidSaid, pot.PlantSaid));
    }

    [Theory]
    [InlineData("1,5", 1.5, "“1,5” without a unit is 1.5 ml.")]
    [InlineData("1.5", 1.5, "“1.5” without a unit is 1.5 ml.")]
    [InlineData("1500", 1500, "“1500” without a unit is 1.5 L.")]
    [InlineData("1,5 L", 1500, "“1,5 L” is 1.5 L.")]
    [InlineData("260", 260, null)]
    [InlineData("260 ml", 260, null)]
    public async Task What_a_bare_number_was_taken_for_is_said(string typed, double ml, string? says)
    {
        await using var bench = await Bench.SetUpAsync();
        var started = await bench.DoAsync<StartPot, Outcome<string>>(start =>
            start.HandleAsync(new() { Plant = "walnut", LiquidMl = typed }, default)
        );
        Assert.Equal(says is null ? [] : [says], started.Understood);
        await using var db = bench.Read();
        Assert.Equal(ml, (await db.Pots.SingleAsync(one => one.Code != bench.Pot)).LiquidMl);
    }

    [Theory]
    [InlineData("½ head", null)]
    [InlineData("3-4 cloves", null)]
    [InlineData("2 handfuls", 60.0)]
    public async Task Plant_is_kept_as_it_was_said(string said, double? grams)
    {
        await using var bench = await Bench.SetUpAsync();
        var started = await bench.DoAsync<StartPot, Outcome<string>>(start =>
            start.HandleAsync(
                new()
                {
                    Plant = "red cabbage",
                    PlantGrams = said,
                    LiquidMl = "4 L",
                },
                default
            )
        );
        Assert.Contains(started.Understood, sentence => sentence.StartsWith($"“{said}”", StringComparison.Ordinal));
        await using var db = bench.Read();
        var pot = await db.Pots.SingleAsync(one => one.Code != bench.Pot);
        Assert.Equal((said, grams, 4000.0), (pot.PlantSaid, pot.PlantGrams, pot.LiquidMl!.Value));
    }

    [Fact]
    public async Task A_line_of_the_log_takes_fahrenheit_and_quarts()
    {
        await using var bench = await Bench.SetUpAsync();
        var id = await bench.DoneAsync<AddToLog, Guid>(log =>
            log.HandleAsync(bench.Pot, new() { Celsius = "185F", Ml = "½ US quart" }, default)
        );
        await using var db = bench.Read();
        var line = await db.PotLog.SingleAsync(one => one.Id == id);
        Assert.Equal(85, line.Celsius!.Value, 1e-9);
        Assert.Equal(473.17645, line.Ml!.Value, 1e-9);
    }

    [Theory]
    [InlineData("400 g", "“400 g” is a weight; here a volume is wanted, such as 1.5 L.")]
    [InlineData("185F", "“185F” is a temperature; here a volume is wanted, such as 1.5 L.")]
    [InlineData("1,500", "“1,500” can be read as 1.500 or as 1500.")]
    public async Task Another_kind_in_a_field_is_named(string typed, string says)
    {
        await using var bench = await Bench.SetUpAsync();
        var refused = await bench.DoAsync<AddToLog, Outcome<Guid>>(log => log.HandleAsync(bench.Pot, new() { Ml = typed }, default));
        Assert.Equal((nameof(AddToLogForm.Ml), says), (refused.FirstProblem!.Field, refused.FirstProblem.What));
    }

    [Theory]
    [InlineData("90 ml", 90)]
    [InlineData("3 fl oz", 90)]
    [InlineData("6 tbsp", 90)]
    [InlineData("½ cup", 125)]
    public async Task Jars_are_poured_in_any_measure(string each, double ml)
    {
        await using var bench = await Bench.SetUpAsync();
        var letter = await bench.DoneAsync<SplitPot, string>(split =>
            split.HandleAsync(bench.Pot, new() { Jars = "2", VolumeMl = each }, default)
        );
        await using var db = bench.Read();
        Assert.All(
            await db.Samples.Where(one => one.Jar.StartsWith(letter)).ToListAsync(),
            sample => Assert.Equal(ml, sample.VolumeMl, 1e-9)
        );
    }

    [Fact]
    public async Task A_pots_sheet_takes_quarts_inches_and_minutes()
    {
        await using var bench = await Bench.SetUpAsync();
        await bench.DoneAsync<SavePotSheet, string>(save =>
            save.HandleAsync(bench.Pot, new() { VesselMl = "4 quarts", DiameterCm = "9.5\"" }, default)
        );
        await bench.DoneAsync<SavePotSheet, string>(save =>
            save.WaterAsync(bench.Pot, new() { HoursWarm = "1 h 30", SpiltMl = "2 tbsp" }, default)
        );
        await using var db = bench.Read();
        var sheet = await db.PotSheets.SingleAsync();
        Assert.Equal(
            (4000, 24.13, 1.5, 30),
            (sheet.VesselMl!.Value, Math.Round(sheet.DiameterCm!.Value, 2), sheet.HoursWarm, sheet.SpiltMl)
        );
    }

    [Theory]
    [InlineData("250", "g", 250, "g")]
    [InlineData("½ kg", "", 500, "g")]
    [InlineData("2 pints", "", 1000, "ml")]
    [InlineData("12 galls", "", 12, "pieces")]
    public async Task What_is_left_in_the_pantry_says_its_own_unit(string typed, string beside, double left, string unit)
    {
        await using var bench = await Bench.SetUpAsync();
        var id = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(
                null,
                new()
                {
                    Name = "oak gall",
                    Stock = typed,
                    StockUnit = beside,
                },
                default
            )
        );
        await using var db = bench.Read();
        var material = await db.Materials.SingleAsync(one => one.Id == id);
        Assert.Equal((left, unit), (material.Stock, material.StockUnit));
    }

    [Fact]
    public async Task What_was_said_of_a_pot_is_not_measured_again_in_another_kitchen()
    {
        await using var bench = await Bench.SetUpAsync();
        var code = await bench.DoneAsync<StartPot, string>(start =>
            start.HandleAsync(
                new()
                {
                    Plant = "walnut",
                    PlantGrams = "½ head",
                    LiquidMl = "6 cups",
                },
                default
            )
        );
        await KitchenAsync(bench, Teaspoon.Imperial);
        await bench.DoneAsync<ChangePot, Thing>(change =>
            change.CorrectAsync(
                Thing.Pot(code),
                new()
                {
                    PlantGrams = "1 head",
                    LiquidMl = "6 cups",
                    Vessel = "S4",
                },
                default
            )
        );
        await using var db = bench.Read();
        var pot = await db.Pots.SingleAsync(one => one.Code == code);
        Assert.Equal(("1 head", null, "6 cups", 1500), (pot.PlantSaid, pot.PlantGrams, pot.LiquidSaid, pot.LiquidMl));
    }

    [Fact]
    public async Task Whole_cloves_go_into_a_jar_and_a_recipe_as_they_were_counted_and_are_scaled()
    {
        await using var bench = await Bench.SetUpAsync();
        var cloves = await bench.StockAsync("cloves", MaterialKind.Addition, null);
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A2", new() { Material = cloves.ToString(), Amount = "3-4 cloves" }, default)
        );
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Sample = bench.Jar.ToString(), Name = "Clove" }, default)
        );
        var shown = await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(recipe, default));
        Assert.True(ScaleRecipeForm.Of(shown!.View, "40 ml", Teaspoon.Metric).TryGet(out var form));
        Assert.True(new ScaleRecipe().Handle(form).TryGet(out var scaled));
        var line = scaled.Scaled.Lines.Single(one => one.Name == "cloves");
        Assert.Equal(("3-4 cloves", "6–8 cloves"), (line.Entered.Text, line.Amount.Text));
    }

    [Fact]
    public async Task Another_kitchen_changes_nothing_that_was_kept()
    {
        await using var bench = await Bench.SetUpAsync();
        var alum = await bench.StockAsync("alum powder", MaterialKind.Addition, 4.8);
        var gum = await bench.StockAsync("gum water", MaterialKind.Binder, null);
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A2", new() { Material = alum.ToString(), Amount = "½ tsp" }, default)
        );
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A2", new() { Material = gum.ToString(), Amount = "1 tsp" }, default)
        );
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Sample = bench.Jar.ToString(), Name = "Dusk" }, default)
        );
        var before = await ScaledAsync();
        var (jarBefore, batchBefore) = (await JarAsync(), await BatchAsync("20 ml"));
        await KitchenAsync(bench, Teaspoon.Imperial);
        Assert.Equal(before, await ScaledAsync());
        Assert.Equal(jarBefore, await JarAsync());
        Assert.Equal(batchBefore, await BatchAsync("20 ml"));

        async Task<List<string>> ScaledAsync()
        {
            var shown = await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(recipe, default));
            await using var db = bench.Read();
            var kitchen = (await db.Settings.SingleOrDefaultAsync())?.Teaspoon ?? Teaspoon.Metric;
            Assert.True(ScaleRecipeForm.Of(shown!.View, "1 L", kitchen).TryGet(out var form));
            Assert.True(new ScaleRecipe().Handle(form).TryGet(out var scaled));
            return
            [
                .. scaled.Scaled.Lines.Select(line =>
                    FormattableString.Invariant($"{line.Name} {line.Grams?.Grams:0.0000} g {line.Millilitres?.Millilitres:0.0000} ml")
                ),
            ];
        }

        async Task<List<double?>> JarAsync()
        {
            await using var db = bench.Read();
            var kitchen = (await db.Settings.SingleOrDefaultAsync())?.Teaspoon ?? Teaspoon.Metric;
            return
            [
                .. (await db.Additions.Where(one => one.SampleId == bench.Jar).OrderBy(one => one.Id).ToListAsync()).Select(one =>
                    one.Amount.ToAmount().ToVolume("amount", kitchen).TryGet(out var volume) ? volume.Millilitres : (double?)null
                ),
            ];
        }

        async Task<List<(string, double?)>> BatchAsync(string volume)
        {
            var code = await bench.DoneAsync<StartBatch, string>(start => start.HandleAsync(recipe, new() { Volume = volume }, default));
            await using var db = bench.Read();
            var batch = await db.Batches.SingleAsync(one => one.Code == code);
            return
            [
                .. (await db.BatchSteps.Where(one => one.BatchId == batch.Id).OrderBy(one => one.Step).ToListAsync()).Select(step =>
                    (step.Name, step.Planned.Grams is { } grams ? Math.Round(grams, 9) : (double?)null)
                ),
            ];
        }
    }

    [Fact]
    public async Task A_day_that_has_not_come_is_refused_and_tomorrow_may_be_another_zone()
    {
        await using var bench = await Bench.SetUpAsync();
        Task<Outcome<string>> StartAsync(string made, string? gathered = null) =>
            bench.DoAsync<StartPot, Outcome<string>>(start =>
                start.HandleAsync(
                    new()
                    {
                        Plant = "walnut",
                        MadeOn = made,
                        GatheredOn = gathered,
                    },
                    default
                )
            );
        var refused = await StartAsync("2025-09-08");
        Assert.Equal(
            (nameof(StartPotForm.MadeOn), "2025-09-08 has not come yet; today is 2025-09-06."),
            (refused.FirstProblem!.Field, refused.FirstProblem.What)
        );
        Assert.Equal(nameof(StartPotForm.GatheredOn), (await StartAsync("2025-09-06", "2026-09-05")).FirstProblem!.Field);
        Assert.Empty((await StartAsync("2025-09-07")).Problems);
    }

    [Fact]
    public async Task A_day_of_gathering_that_nobody_said_is_not_made_up_and_can_be_said_later()
    {
        await using var bench = await Bench.SetUpAsync();
        var code = await bench.DoneAsync<StartPot, string>(start => start.HandleAsync(new() { Plant = "walnut" }, default));
        Guid lot;
        await using (var db = bench.Read())
        {
            lot = (await db.Pots.SingleAsync(one => one.Code == code)).LotId;
            Assert.Null((await db.PlantLots.SingleAsync(one => one.Id == lot)).GatheredOn);
        }

        await bench.DoneAsync<ChangeLot, Thing>(change =>
            change.CorrectAsync(new(ThingKind.Lot, lot.ToString()), new() { GatheredOn = "2025-09-01" }, default)
        );
        await bench.DoneAsync<PlantLots, Guid>(lots => lots.SaveAsync(lot, new() { Supplier = "the market" }, default));
        await using var read = bench.Read();
        Assert.Equal(new DateOnly(2025, 9, 1), (await read.PlantLots.SingleAsync(one => one.Id == lot)).GatheredOn);
    }

    [Theory]
    [InlineData(null, "2025-09-06 09:05")]
    [InlineData("", "2025-09-06 09:05")]
    [InlineData("2025-09-05T21:15", "2025-09-05 21:15")]
    [InlineData("2025-09-05 7:30", "2025-09-05 07:30")]
    [InlineData("8:40", "2025-09-06 08:40")]
    [InlineData("23:50", "2025-09-05 23:50")]
    public async Task A_line_of_the_log_has_its_real_time(string? at, string expected)
    {
        await using var bench = await Bench.SetUpAsync();
        var id = await bench.DoneAsync<AddToLog, Guid>(log => log.HandleAsync(bench.Pot, new() { Said = "simmered", At = at }, default));
        await using var db = bench.Read();
        var local = (await db.PotLog.SingleAsync(one => one.Id == id)).At.ToOffset(bench.Clock.GetLocalNow().Offset);
        Assert.Equal(expected, local.ToString("yyyy-MM-dd HH:mm", System.Globalization.CultureInfo.InvariantCulture));
    }

    [Theory]
    [InlineData("2025-09-09T12:00", "has not come yet")]
    [InlineData("yesterday", "is not a time")]
    public async Task A_time_that_cannot_be_is_refused(string at, string says)
    {
        await using var bench = await Bench.SetUpAsync();
        var refused = await bench.DoAsync<AddToLog, Outcome<Guid>>(log =>
            log.HandleAsync(bench.Pot, new() { Said = "simmered", At = at }, default)
        );
        Assert.Equal(nameof(AddToLogForm.At), refused.FirstProblem!.Field);
        Assert.Contains(says, refused.FirstProblem.What, StringComparison.Ordinal);
    }

    private static Task<Guid> KitchenAsync(Bench bench, Teaspoon kitchen) =>
        bench.DoneAsync<NotebookSettings, Guid>(settings => settings.SaveAsync(new() { Teaspoon = kitchen.ToString() }, default));
}
