using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>A step written wrong is put right: amount, time, jar, material, or never; nothing it said is lost.</summary>
public sealed class ChangeStepTests : IAsyncLifetime
{
    private Bench bench = null!;

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task An_amount_is_weighed_anew_and_the_painted_square_says_so_before_and_after()
    {
        var alum = await StepAsync("alum");
        var shown = await ShowAsync("A2", alum.Id);
        Assert.Equal([("C3", "B2")], shown.Touched.Squares.Select(square => (square.Chart, square.Cell)));
        bench.Clock.Pass(TimeSpan.FromMinutes(10));
        await DoneAsync(change => change.CorrectAsync(bench.Pot, "A2", alum.Id, new() { Amount = "¼ tsp", Seen = "cloudy" }, default));

        // A level teaspoon of this maker's alum weighs 4.8 g.
        var jar = await JarAsync("A2");
        Assert.Equal(
            ("¼ tsp", 1.2, "cloudy"),
            (jar.Steps[0].Addition.Amount.Text, jar.Totals[0].Sum.Grams!.Value, jar.Steps[0].Addition.Seen)
        );
        Assert.Equal(1.2, jar.Swatches.Single().Totals[0].Sum.Grams!.Value, 1e-9);
        var painted = (await bench.DoAsync<NotebookTrials, TrialSource>(trials => trials.HandleAsync(default))).Painted;
        Assert.All(painted, one => Assert.Equal(60, one.Row.Point.Dose("alum"), 1e-9));
        var kept = (await ShowAsync("A2", alum.Id)).Corrections;
        Assert.Contains(kept, one => one is { Field: "AmountText", Before: "\"\\u215B tsp\"", After: "\"\\u00BC tsp\"" });

        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync(change => change.UndoAsync(bench.Pot, "A2", alum.Id, default));
        var undone = (await JarAsync("A2")).Steps[0].Addition;
        Assert.Equal(("⅛ tsp", 0.6, null), (undone.Amount.Text, undone.Amount.Grams!.Value, undone.Seen));
        Assert.Equal(AmountUnit.Teaspoon, undone.Amount.Unit);
    }

    [Fact]
    public async Task A_corrected_spoon_is_the_makers_own_teaspoon()
    {
        await bench.DoneAsync<NotebookSettings, Guid>(settings =>
            settings.SaveAsync(new() { Teaspoon = nameof(Teaspoon.Imperial) }, default)
        );
        var vinegar = await StepAsync("white vinegar 5 %");
        await DoneAsync(change => change.CorrectAsync(bench.Pot, "A2", vinegar.Id, new() { Amount = "1 tsp" }, default));
        Assert.Equal(5.919, (await StepAsync("white vinegar 5 %")).Amount.Ml!.Value, 0.001);
    }

    [Fact]
    public async Task A_step_gets_its_own_time_and_keeps_its_place()
    {
        var alum = await StepAsync("alum");
        await DoneAsync(change =>
            change.CorrectAsync(bench.Pot, "A2", alum.Id, new() { Amount = "⅛ tsp", At = "2025-09-06T08:30" }, default)
        );
        var moved = await StepAsync("alum");
        Assert.Equal((new DateTimeOffset(2025, 9, 6, 8, 30, 0, TimeSpan.Zero), 1, alum.Amount), (moved.At, moved.Step, moved.Amount));
        Assert.Equal("2025-09-06T08:30", (await ShowAsync("A2", alum.Id)).At);
    }

    [Theory]
    [InlineData("0 g", null, nameof(ChangeStepForm.Amount))]
    [InlineData("", null, nameof(ChangeStepForm.Amount))]
    [InlineData("lots", null, nameof(ChangeStepForm.Amount))]
    [InlineData("1 g", "2026-09-06T08:30", nameof(ChangeStepForm.At))]
    [InlineData("1 g", "yesterday", nameof(ChangeStepForm.At))]
    public async Task What_cannot_be_is_refused_and_changes_nothing(string amount, string? at, string field)
    {
        var alum = await StepAsync("alum");
        var refused = await bench.DoAsync<ChangeStep, Outcome<Guid>>(change =>
            change.CorrectAsync(bench.Pot, "A2", alum.Id, new() { Amount = amount, At = at }, default)
        );
        Assert.Equal(field, Assert.Single(refused.Problems).Field);
        Assert.Empty((await ShowAsync("A2", alum.Id)).Corrections);
    }

    [Fact]
    public async Task A_step_written_into_the_wrong_jar_moves_and_comes_back()
    {
        var alum = await StepAsync("alum");
        var first = (await JarAsync("A1")).Sample.Id;
        Assert.Contains((await ShowAsync("A2", alum.Id)).Places, place => place.Key == first.ToString() && place.Words == "A1");
        bench.Clock.Pass(TimeSpan.FromMinutes(10));
        await DoneAsync(change => change.MoveAsync(bench.Pot, "A2", alum.Id, first.ToString(), default));
        var (from, to) = (await JarAsync("A2"), await JarAsync("A1"));
        Assert.Equal(["white vinegar 5 %"], from.Totals.Select(total => total.Material.Name));
        Assert.Equal("moved to A1", from.Steps[0].Addition.WithdrawnWhy);
        var moved = Assert.Single(to.Counting).Addition;
        Assert.Equal((alum.At, alum.Amount, 1), (moved.At, moved.Amount, moved.Step));

        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync(change => change.UndoAsync(bench.Pot, "A2", alum.Id, default));
        Assert.Equal(2, (await JarAsync("A2")).Counting.Count());
        Assert.Empty((await JarAsync("A1")).Counting);

        // Undone twice, it stands in the other jar again.
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync(change => change.UndoAsync(bench.Pot, "A2", alum.Id, default));
        Assert.Single((await JarAsync("A2")).Counting);
        Assert.Single((await JarAsync("A1")).Counting);
    }

    [Fact]
    public async Task A_copy_whose_step_moved_back_cannot_count_again_and_a_pH_keeps_its_tool()
    {
        var alum = await StepAsync("alum");
        var first = (await JarAsync("A1")).Sample.Id;
        await DoneAsync(change =>
            change.CorrectAsync(
                bench.Pot,
                "A2",
                alum.Id,
                new()
                {
                    Amount = alum.Amount.Text,
                    Ph = "4.1",
                    PhBy = "Meter",
                },
                default
            )
        );
        bench.Clock.Pass(TimeSpan.FromMinutes(10));
        await DoneAsync(change => change.MoveAsync(bench.Pot, "A2", alum.Id, first.ToString(), default));
        var copy = Assert.Single((await JarAsync("A1")).Counting).Addition;
        Assert.Equal((4.1, PhTool.Meter), (copy.Ph!.Value, copy.PhBy!.Value));

        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync(change => change.PutBackAsync(bench.Pot, "A2", alum.Id, default));
        var refused = await bench.DoAsync<ChangeStep, Outcome<Guid>>(change => change.PutBackAsync(bench.Pot, "A1", copy.Id, default));
        Assert.Contains("moved back to A2", Assert.Single(refused.Problems).What, StringComparison.Ordinal);
        Assert.Empty((await JarAsync("A1")).Counting);
        Assert.Equal(2, (await JarAsync("A2")).Counting.Count());
    }

    [Fact]
    public async Task A_step_moves_in_front_of_what_was_painted_there()
    {
        var jar = await JarAsync("A1");
        await using (var db = bench.Read())
            await bench.DoneAsync<AddToSample, Guid>(add =>
                add.HandleAsync(
                    bench.Pot,
                    "A1",
                    new() { Material = db.Materials.First(one => one.Name == "alum").Id.ToString(), Amount = "1 g" },
                    default
                )
            );
        var step = Assert.Single((await JarAsync("A1")).Counting).Addition;
        var place = (await ShowAsync("A1", step.Id)).Places.Single(one =>
            one.Words.EndsWith("when C3 B2 was painted", StringComparison.Ordinal)
        );
        await DoneAsync(change => change.MoveAsync(bench.Pot, "A1", step.Id, place.Key, default));
        var square = (await JarAsync("A2")).Swatches.Single();
        Assert.Equal(1.6, square.Totals.Single(total => total.Material.Name == "alum").Sum.Grams!.Value, 1e-9);
        Assert.Equal(jar.Sample.Id, step.SampleId);
    }

    [Fact]
    public async Task Any_step_is_taken_back_with_its_reason_and_put_back_into_the_stage_it_was_in()
    {
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = bench.Square.ToString(), Name = "Dusk" }, default)
        );
        var alum = await StepAsync("alum");
        await DoneAsync(change => change.WithdrawAsync(bench.Pot, "A2", alum.Id, new() { Why = "that was salt for supper" }, default));
        var without = await JarAsync("A2");
        Assert.Equal("that was salt for supper", without.Steps[0].Addition.WithdrawnWhy);
        Assert.Equal(["white vinegar 5 %"], without.Swatches.Single().Totals.Select(total => total.Material.Name));
        Assert.Equal(recipe, Assert.Single((await ShowAsync("A2", alum.Id)).Touched.Recipes).Code);
        await using (var db = bench.Read())
            Assert.Equal(2, await db.RecipeSteps.CountAsync());
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync(change => change.PutBackAsync(bench.Pot, "A2", alum.Id, default));
        Assert.Equal(2, (await JarAsync("A2")).Swatches.Single().Totals.Count);
        var twice = await bench.DoAsync<ChangeStep, Outcome<Guid>>(change => change.PutBackAsync(bench.Pot, "A2", alum.Id, default));
        Assert.NotEmpty(twice.Problems);
    }

    [Fact]
    public async Task Another_material_is_written_in_the_place_of_the_wrong_one()
    {
        var (alum, vinegar) = (await StepAsync("alum"), await StepAsync("white vinegar 5 %"));
        bench.Clock.Pass(TimeSpan.FromMinutes(5));
        await DoneAsync(change =>
            change.CorrectAsync(bench.Pot, "A2", alum.Id, new() { Amount = "⅛ tsp", Material = vinegar.MaterialId.ToString() }, default)
        );
        var jar = await JarAsync("A2");
        Assert.Equal("it was white vinegar 5 %", jar.Steps.Single(step => step.Addition.Id == alum.Id).Addition.WithdrawnWhy);
        Assert.Equal([1, 2], jar.Counting.Select(step => step.Addition.Step));
        Assert.Single(jar.Swatches.Single().Totals);
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await DoneAsync(change => change.UndoAsync(bench.Pot, "A2", alum.Id, default));
        Assert.Equal([alum.Id, vinegar.Id], (await JarAsync("A2")).Counting.Select(step => step.Addition.Id));
    }

    private Task<Guid> DoneAsync(Func<ChangeStep, Task<Outcome<Guid>>> work) => bench.DoneAsync(work);

    private async Task<ShowStepAnswer> ShowAsync(string jar, Guid id) =>
        (await bench.DoAsync<ShowStep, ShowStepAnswer?>(show => show.HandleAsync(bench.Pot, jar, id, default)))!;

    private async Task<JarView> JarAsync(string jar) =>
        (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, jar, default)))!.Jar;

    private async Task<Addition> StepAsync(string material) =>
        (await JarAsync("A2")).Counting.First(step => step.Material.Name == material).Addition;
}
