using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Recipes;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class BatchTests : IAsyncLifetime
{
    private Bench bench = null!;

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task A_kept_square_becomes_a_recipe_with_its_dry_colour_and_every_step()
    {
        var code = await KeepAsync();
        var view = (await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(code, default)))!.View;
        Assert.Equal(("R1", "C3 B2", 20.0, 1.2), (code, view.Recipe.ChartPosition, view.Recipe.BaseVolumeMl, view.Recipe.UncertaintyDe00));
        Assert.Equal(Bench.Dusk.ToXyz(), view.Recipe.Colour);
        Assert.Collection(
            view.Counting,
            line => Assert.Equal(("alum", "⅛ tsp", 0.6), (line.Step.Name, line.Step.Amount.Text, line.Step.Amount.Grams!.Value)),
            line => Assert.Equal(("white vinegar 5 %", "2 drops"), (line.Step.Name, line.Step.Amount.Text))
        );
        Assert.Contains(view.Cautions, caution => caution.Of.StartsWith("elder", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Kept_from_the_jars_own_page_it_has_the_colour_that_was_read_of_it_as_it_stands()
    {
        var sample = new KeepRecipeForm { Sample = bench.Jar.ToString(), Name = "From the jar" };
        var choice = (await bench.DoAsync<KeepRecipe, KeepRecipe.RecipeChoice?>(keep => keep.LookAsync(sample, default)))!;
        Assert.Equal(bench.Square, choice.Swatch!.Id);
        var code = await bench.DoneAsync<KeepRecipe, string>(keep => keep.HandleAsync(sample, default));
        var view = (await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(code, default)))!.View;
        Assert.Equal(("C3 B2", 1.2), (view.Recipe.ChartPosition, view.Recipe.UncertaintyDe00));
        Assert.Equal(Bench.Dusk.ToXyz(), view.Recipe.Colour);

        // With something more in the jar, that square says nothing of it any more.
        await using (var db = bench.Read())
        {
            var alum = await db.Materials.SingleAsync(one => one.Name == "alum");
            await bench.DoneAsync<Trials.AddToSample, Guid>(add =>
                add.HandleAsync(bench.Pot, "A2", new() { Material = alum.Id.ToString(), Amount = "0.2 g" }, default)
            );
        }

        Assert.Null((await bench.DoAsync<KeepRecipe, KeepRecipe.RecipeChoice?>(keep => keep.LookAsync(sample, default)))!.Swatch);
    }

    [Fact]
    public async Task A_material_that_was_renamed_is_called_by_its_name_of_today_and_found_by_both()
    {
        var batch = await BatchAsync("100 ml");
        await using (var db = bench.Read())
        {
            (await db.Materials.SingleAsync(material => material.Name == "alum")).Name = "potash alum";
            await db.SaveChangesAsync();
        }

        var recipe = (await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync("R1", default)))!.View;
        Assert.Equal([("potash alum", "alum"), ("white vinegar 5 %", null)], recipe.Lines.Select(line => (line.Step.Name, line.WrittenAs)));
        Assert.Equal("potash alum", Done(await ScaleAsync("R1", "200 ml")).Scaled.Lines[0].Name);
        var made = (await bench.DoAsync<ShowBatch, ShowBatchAnswer?>(show => show.HandleAsync(batch, default)))!.View;
        Assert.Equal(("potash alum", "alum"), (made.Steps[0].Step.Name, made.Steps[0].WrittenAs));
        await FillAsync(batch, new() { FillMl = "29" });
        var labels = await bench.DoneAsync<LabelBottles, PrintLabelsAnswer>(label => label.HandleAsync(batch, [], null, new(), default));
        Assert.Contains("with potash alum 3 g", labels.Labels[0].Recipe, StringComparison.Ordinal);

        foreach (var asked in (string[])["potash", "alum"])
        {
            var found = await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync(asked, default));
            var hit = Assert.Single(found.ByWords, hit => hit.Thing == Thing.Recipe("R1"));
            Assert.Contains("with potash alum", hit.Detail, StringComparison.Ordinal);
        }

        // What was written stands in the notebook as it was written.
        await using var after = bench.Read();
        Assert.Contains(await after.RecipeSteps.Select(step => step.Name).ToListAsync(), name => name == "alum");
    }

    [Theory]
    [InlineData("1.5 L", 75)]
    [InlineData("90 ml", 4.5)]
    [InlineData("10 ml", 0.5)]
    public async Task Scaling_keeps_the_proportions(string to, double factor)
    {
        var code = await KeepAsync();
        var scaled = Done(await ScaleAsync(code, to)).Scaled;
        Assert.Equal(factor, scaled.Factor, 1e-9);

        // ⅛ teaspoon of 4.8 g alum in 20 ml is 3 g in 100 ml, at every volume.
        Assert.Equal(0.03, scaled.Lines[0].Grams!.Value.Grams / scaled.To.Millilitres, 1e-9);
        Assert.Equal(2 * factor, scaled.Lines[1].Amount.Number, 1e-9);
        Assert.Equal(AmountUnit.Drop, scaled.Lines[1].Amount.Unit);
    }

    [Fact]
    public async Task A_recipe_remembers_the_spoon_it_was_measured_with_when_the_pantry_is_corrected_later()
    {
        var code = await KeepAsync();
        await using (var db = bench.Read())
        {
            (await db.Materials.SingleAsync(material => material.Name == "alum")).GramsPerTeaspoon = 4;
            await db.SaveChangesAsync();
        }

        var scaled = Done(await ScaleAsync(code, "200 ml")).Scaled;
        Assert.Equal(6, scaled.Lines[0].Grams!.Value.Grams, 1e-9);
    }

    [Fact]
    public async Task A_line_added_for_another_volume_is_carried_to_the_recipes_own_and_taken_out_without_a_trace_lost()
    {
        var code = await KeepAsync();
        string vinegar;
        await using (var db = bench.Read())
            vinegar = (await db.Materials.SingleAsync(material => material.Name == "white vinegar 5 %")).Id.ToString();
        await bench.DoneAsync<CorrectRecipe, string>(correct =>
            correct.AddLineAsync(
                code,
                new()
                {
                    Material = vinegar,
                    Amount = "10 ml",
                    For = "100 ml",
                },
                default
            )
        );
        await bench.DoneAsync<CorrectRecipe, string>(correct => correct.TakeOutAsync(code, 2, default));
        var view = (await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(code, default)))!.View;
        Assert.Equal([(1, "⅛ tsp"), (3, "2 ml")], view.Counting.Select(line => (line.Step.Step, line.Step.Amount.Text)));
        Assert.Equal("taken out of the recipe", view.Lines[1].Step.WithdrawnWhy);
    }

    [Fact]
    public async Task A_correction_keeps_what_it_corrected()
    {
        var batch = await BatchAsync("400 ml");
        await MeasureAsync(batch, "12.4 g");
        bench.Clock.Pass(TimeSpan.FromMinutes(20));
        await MeasureAsync(batch, "12.1 g");
        var answer = (await bench.DoAsync<ShowBatch, ShowBatchAnswer?>(show => show.HandleAsync(batch, default)))!;
        var alum = answer.View.Steps[0];
        Assert.Equal(("12 g", "12.1 g"), (alum.Step.Planned.Text, alum.Step.Measured!.Text));
        Assert.Equal(100 * ((12.1 / 12) - 1), alum.OffPercent!.Value, 1e-6);
        var text = Assert.Single(answer.Corrections, one => one.Field == "MeasuredText");
        Assert.Equal(
            ("\"12.4 g\"", "\"12.1 g\"", TimeSpan.FromMinutes(20)),
            (text.Before, text.After, text.CorrectedAt - text.BeforeWrittenAt)
        );
    }

    [Fact]
    public async Task A_batch_takes_its_liquor_from_the_pot_and_is_refused_when_the_pot_has_less()
    {
        var batch = await BatchAsync("400 ml");
        Assert.Equal("AAA", batch);
        Guid pot;
        await using (var db = bench.Read())
            pot = (await db.Pots.SingleAsync()).Id;

        // 790 strained, three jars of 20, a batch of 400.
        Assert.Equal(330, (await bench.DoAsync<LiquorLeft, double?>(left => left.HandleAsync(pot, default)))!.Value, 1e-9);
        await bench.DoneAsync<MeasureBatch, string>(measure =>
            measure.HandleAsync(batch, new() { LiquorMl = "410" }, new Dictionary<int, string?>(), default)
        );
        Assert.Equal(320, (await bench.DoAsync<LiquorLeft, double?>(left => left.HandleAsync(pot, default)))!.Value, 1e-9);
        var refused = await bench.DoAsync<StartBatch, Outcome<string>>(start => start.HandleAsync("R1", new() { Volume = "1 L" }, default));
        Assert.Equal("1 L are wanted of pot EB25-1; 320 ml are left.", Assert.Single(refused.Problems).What);
    }

    [Fact]
    public async Task A_bottles_trace_reaches_the_lot_of_the_plant_and_the_lot_reaches_every_bottle()
    {
        var batch = await BatchAsync("400 ml");
        Assert.Equal(13, await FillAsync(batch, new() { FillMl = "29", KeptBackMl = "15" }));
        var code = BottleCode.ForBottle(1, 13);
        var bottle = (
            await bench.DoAsync<ShowBottle, ShowBottleAnswer?>(show =>
                show.HandleAsync(code.Replace("-", "", StringComparison.Ordinal).ToLowerInvariant(), default)
            )
        )!;
        Assert.Equal(
            ["elderberry", "Pot EB25-1", "Trial A", "Chart C3", "Recipe R1", "Batch AAA", $"Bottle {code}"],
            bottle.Thread.Select(step => step.Name)
        );
        var origin = Assert.Single(bottle.View.Pours).Origin;
        Assert.Equal(("elderberry", "the hedge", new DateOnly(2025, 9, 5)), (origin.Plant.Name, origin.Lot.Place, origin.Lot.GatheredOn));
        Assert.Equal(new Thing(ThingKind.Lot, origin.Lot.Id.ToString()), bottle.Thread[0].Thing);

        var lot = (await bench.DoAsync<TraceLot, TraceLotAnswer?>(trace => trace.HandleAsync(origin.Lot.Id, default)))!;
        var made = Assert.Single(lot.Batches);
        Assert.Equal(13, made.Bottles.Count);
        Assert.Contains(made.Bottles, one => one.Code == code);
        Assert.Equal("R1", Assert.Single(lot.Recipes).Code);
    }

    [Theory]
    [InlineData("29", "40", "Count")]
    [InlineData("31", "", "FillMl")]
    [InlineData("0", "", "FillMl")]
    [InlineData("lots", "", "FillMl")]
    public async Task Bottles_that_cannot_be_are_refused_beside_their_field(string fill, string count, string field)
    {
        var batch = await BatchAsync("400 ml");
        string container;
        await using (var db = bench.Read())
            container = (await db.Materials.SingleAsync(material => material.Kind == MaterialKind.Container)).Id.ToString();
        var refused = await bench.DoAsync<FillBottles, Outcome<int>>(bottles =>
            bottles.HandleAsync(
                batch,
                new()
                {
                    Container = container,
                    FillMl = fill,
                    Count = count,
                },
                default
            )
        );
        Assert.Equal(field, Assert.Single(refused.Problems).Field);
        await using var read = bench.Read();
        Assert.Empty(await read.Bottles.ToListAsync());
    }

    [Fact]
    public async Task A_bottle_is_due_after_a_fortnight_then_after_three_months_and_at_once_when_it_fails()
    {
        var batch = await BatchAsync("100 ml");
        await FillAsync(batch, new() { FillMl = "29", KeepBy = "2026-09-06" });
        Assert.Empty((await ShelfAsync()).Due);
        bench.Clock.Pass(TimeSpan.FromDays(14));
        Assert.Equal(3, (await ShelfAsync()).Due.Count);
        foreach (var number in (int[])[1, 2, 3])
            await bench.DoneAsync<LookAfterBottle, string>(look =>
                look.LookAsync(BottleCode.ForBottle(1, number), new() { Passed = "yes" }, default)
            );
        Assert.Equal(3, (await ShelfAsync()).Standing.Count);
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await bench.DoneAsync<LookAfterBottle, string>(look =>
            look.LookAsync(BottleCode.ForBottle(1, 2), new() { Passed = "no", Seen = "fur under the cap" }, default)
        );
        Assert.True(Assert.Single((await ShelfAsync()).Due).Failed);
        var beside = (await bench.DoAsync<ShowBottle, ShowBottleAnswer?>(show => show.HandleAsync(BottleCode.ForBottle(1, 1), default)))!;
        Assert.Equal(BottleCode.ForBottle(1, 2), Assert.Single(beside.FailedBeside).Code);
        Assert.Equal(new DateOnly(2025, 12, 6), beside.LookAgainOn);
    }

    [Fact]
    public async Task Looking_at_a_whole_batch_passes_every_bottle_but_the_one_that_failed()
    {
        var batch = await BatchAsync("100 ml");
        await FillAsync(batch, new() { FillMl = "29", KeepBy = "2026-09-06" });
        bench.Clock.Pass(TimeSpan.FromDays(14));
        await bench.DoneAsync<LookAfterBottle, string>(look =>
            look.LookAsync(BottleCode.ForBottle(1, 2), new() { Passed = "no", Seen = "fur under the cap" }, default)
        );
        Assert.Equal(2, await bench.DoneAsync<LookAfterBottle, int>(look => look.LookAtBatchAsync(batch, default)));
        Assert.Equal(BottleCode.ForBottle(1, 2), Assert.Single((await ShelfAsync()).Due).Bottle.Code);
        Assert.Single((await bench.DoAsync<LookAfterBottle, Outcome<int>>(look => look.LookAtBatchAsync("XYZ", default))).Problems);
    }

    [Fact]
    public async Task Withdrawing_a_batch_takes_only_what_still_stands_off_the_shelf()
    {
        var batch = await BatchAsync("100 ml");
        await FillAsync(batch, new() { FillMl = "29" });
        await bench.DoneAsync<LookAfterBottle, string>(look =>
            look.LeaveAsync(BottleCode.ForBottle(1, 1), new() { Why = "sold" }, default)
        );
        Assert.Equal(
            2,
            await bench.DoneAsync<LookAfterBottle, int>(look => look.WithdrawBatchAsync(batch, new() { Why = "mould" }, default))
        );
        Assert.Equal(
            ["sold", "mould", "mould"],
            (await ShelfAsync()).Gone.OrderBy(line => line.Bottle.Number).Select(line => line.Bottle.GoneWhy)
        );
        var again = await bench.DoAsync<LookAfterBottle, Outcome<string>>(look =>
            look.LeaveAsync(BottleCode.ForBottle(1, 1), new() { Why = "used up" }, default)
        );
        Assert.Equal("It left the shelf already: sold.", Assert.Single(again.Problems).What);
    }

    [Fact]
    public async Task A_label_names_what_is_in_it_and_points_to_its_page()
    {
        var batch = await BatchAsync("100 ml");
        await FillAsync(batch, new() { FillMl = "29", KeepBy = "2026-09-06" });
        var answer = await bench.DoneAsync<LabelBottles, PrintLabelsAnswer>(label =>
            label.HandleAsync(batch, [], thing => new Uri($"http://192.168.1.7:5077/b/{thing.Code}"), new(), default)
        );
        Assert.Equal(3, answer.Labels.Count);
        var text = answer.Labels[0];
        Assert.Equal($"http://192.168.1.7:5077/b/{BottleCode.ForBottle(1, 1)}", text.Square);
        Assert.Equal("elderberry EB25-1 with alum 3 g and white vinegar 5 % 10 drops to 100 ml", text.Recipe);
        Assert.Contains(text.Warnings, warning => warning.Contains("alum", StringComparison.Ordinal));
        Assert.Contains("chart C3 B2", text.Facts);
        Assert.Equal("%PDF"u8.ToArray(), answer.Pdf[..4]);
    }

    [Theory]
    [InlineData("eb25-1", ThingKind.Pot, "EB25-1", "")]
    [InlineData("EB25-1 a2", ThingKind.Jar, "EB25-1", "A2")]
    [InlineData("c3", ThingKind.Chart, "C3", "")]
    [InlineData("C3 B2", ThingKind.Chart, "C3", "")]
    [InlineData("r1", ThingKind.Recipe, "R1", "")]
    [InlineData("aaa", ThingKind.Batch, "AAA", "")]
    public async Task A_code_leads_straight_to_what_bears_it(string typed, ThingKind kind, string code, string part)
    {
        await BatchAsync("100 ml");
        Assert.Equal(
            new Thing(kind, code, part),
            (await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync(typed, default))).Straight
        );
    }

    [Fact]
    public async Task A_colour_finds_what_is_near_it_and_words_find_what_was_said()
    {
        await KeepAsync();
        var near = (
            await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync(CssColour.LabText(Bench.Dusk.ToXyz()), default))
        ).ByColour;
        Assert.Equal(["recipe", "swatch"], near.Select(hit => hit.Kind).Order(StringComparer.Ordinal));
        Assert.All(near, hit => Assert.True(hit.De00 < 0.5));
        Assert.Empty((await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync("lab(90 0 0)", default))).ByColour);
        var said = (await bench.DoAsync<FindAnything, FindAnythingAnswer>(find => find.HandleAsync("VIOLET", default))).ByWords;
        Assert.Contains(said, hit => hit is { Kind: "swatch", Said: "dusk violet" });
    }

    [Fact]
    public async Task A_name_is_given_once_and_nonsense_is_refused()
    {
        await KeepAsync();
        var twice = await bench.DoAsync<KeepRecipe, Outcome<string>>(keep =>
            keep.HandleAsync(new() { Swatch = bench.Square.ToString(), Name = "dusk ELDER" }, default)
        );
        Assert.Equal(nameof(KeepRecipeForm.Name), Assert.Single(twice.Problems).Field);
        var nothing = await bench.DoAsync<KeepRecipe, Outcome<string>>(keep =>
            keep.HandleAsync(new() { Swatch = "x", Name = "Another" }, default)
        );
        Assert.Equal(nameof(KeepRecipeForm.Sample), Assert.Single(nothing.Problems).Field);
        foreach (var bad in (string[])["-3 ml", "0 ml", "lots", "3 cloves", "900000000 L"])
            Assert.NotEmpty((await ScaleAsync("R1", bad)).Problems);
    }

    private async Task<Outcome<ScaleRecipeAnswer>> ScaleAsync(string code, string to)
    {
        var view = (await bench.DoAsync<ShowRecipe, ShowRecipeAnswer?>(show => show.HandleAsync(code, default)))!.View;
        var form = ScaleRecipeForm.Of(view, to, Teaspoon.Metric);
        return form.TryGet(out var asked) ? new ScaleRecipe().Handle(asked) : Outcome.Refused<ScaleRecipeAnswer>(form.Problems);
    }

    private static ScaleRecipeAnswer Done(Outcome<ScaleRecipeAnswer> outcome) =>
        outcome.TryGet(out var answer) ? answer : throw new InvalidOperationException(outcome.Problems[0].ToString());

    private Task<string> KeepAsync() =>
        bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = bench.Square.ToString(), Name = "Dusk Elder" }, default)
        );

    private async Task<string> BatchAsync(string volume)
    {
        var code = await KeepAsync();
        return await bench.DoneAsync<StartBatch, string>(start => start.HandleAsync(code, new() { Volume = volume }, default));
    }

    private Task<string> MeasureAsync(string batch, string alum) =>
        bench.DoneAsync<MeasureBatch, string>(measure =>
            measure.HandleAsync(batch, new(), new Dictionary<int, string?> { [1] = alum, [2] = "" }, default)
        );

    private Task<int> FillAsync(string batch, FillBottlesForm form) =>
        bench.DoneAsync<FillBottles, int>(fill => fill.HandleAsync(batch, form, default));

    private Task<ListBottlesAnswer> ShelfAsync() => bench.DoAsync<ListBottles, ListBottlesAnswer>(list => list.HandleAsync(default));
}
