using Dyewort.Chemistry;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Making.Tests;

/// <summary>From a jar worth keeping to the words on its bottles.</summary>
public sealed class ThreadTests
{
    private static readonly DateTimeOffset Now = new(2025, 10, 18, 9, 0, 0, TimeSpan.Zero);
    private int ids;

    private Guid NewId() => new(++ids, 0, 0, [0, 0, 0, 0, 0, 0, 0, 1]);

    private (Recipe Recipe, IReadOnlyList<RecipeStep> Steps, Dictionary<Guid, Material> Pantry) Kept()
    {
        Material Stock(string name, double? spoon, double? piece = null) =>
            new()
            {
                Id = NewId(),
                WrittenAt = Now,
                Name = name,
                Kind = MaterialKind.Addition,
                GramsPerTeaspoon = spoon,
                GramsPerPiece = piece,
            };
        var (alum, soda, clove) = (Stock("alum", 4.7), Stock("bicarbonate of soda", 4.8), Stock("whole cloves", null, 0.08));
        var sample = new Sample
        {
            Id = NewId(),
            WrittenAt = Now,
            PotId = NewId(),
            TrialId = NewId(),
            Jar = "A3",
            VolumeMl = 90,
            PouredAt = Now,
        };
        Addition Add(Material material, int step, string text, double? grams) =>
            new()
            {
                Id = NewId(),
                WrittenAt = Now,
                SampleId = sample.Id,
                MaterialId = material.Id,
                Step = step,
                At = Now,
                Amount = Said(text, grams),
            };
        var wrong = Add(soda, 2, "1 tsp", 4.8);
        wrong.WithdrawnAt = Now;
        var chart = new Chart
        {
            Id = NewId(),
            WrittenAt = Now,
            Number = 3,
            Title = "Elder by dose",
            LayoutJson = "{}",
            Page = "A5",
        };
        var swatch = new Swatch
        {
            Id = NewId(),
            WrittenAt = Now,
            ChartId = chart.Id,
            Cell = "B2",
            SampleId = sample.Id,
            Coats = 1,
            Wash = 1,
        };
        var reading = new Reading
        {
            Id = NewId(),
            WrittenAt = Now,
            SwatchId = swatch.Id,
            At = Now,
            State = SwatchState.Dry,
            Colour = new Lab(35, 14, -21).ToXyz(),
            UncertaintyDe00 = 1.2,
            Source = ReadingSource.Photo,
        };
        Addition[] additions = [Add(soda, 3, "¼ tsp", 1.2), Add(alum, 1, "2 g", 2), wrong, Add(clove, 4, "2 cloves", 0.16)];
        var (recipe, steps) = RecipeKeeper.Keep(
            new RecipeKeeper.Kept
            {
                Sample = sample,
                Parts = Proportions.Of(sample, new Dictionary<Guid, Sample>(), _ => additions, _ => false),
                Materials = new[] { alum, soda, clove }.ToDictionary(one => one.Id),
                Liquor = "elderberry EB25-1",
                Swatch = swatch,
                Chart = chart,
                Reading = reading,
            },
            RecipeKeeper.NextCode(6),
            "Dusk Elder",
            NewId,
            Now
        );
        return (recipe, steps, new[] { alum, soda, clove }.ToDictionary(one => one.Id));
    }

    private static MeasuredAmount Said(string text, double? grams)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        return MeasuredAmount.Of(amount, grams);
    }

    private static NamedSubstance Weighs(Material material) =>
        new(Substance.Own(material.Name).Weighed(material.GramsPerTeaspoon, material.GramsPerPiece), null, false);

    [Fact]
    public void A_recipe_keeps_order_amounts_colour_and_parents()
    {
        var (recipe, steps, _) = Kept();
        Assert.Equal(("R7", "C3 B2", 90.0, 1.2), (recipe.Code, recipe.ChartPosition, recipe.BaseVolumeMl, recipe.UncertaintyDe00));
        Assert.Equal(
            [(1, "alum", "2 g"), (2, "bicarbonate of soda", "¼ tsp"), (3, "whole cloves", "2 cloves")],
            steps.Select(step => (step.Step, step.Name, step.Amount.Text))
        );
        Assert.All(steps, step => Assert.Equal(recipe.Id, step.RecipeId));
        Assert.NotNull(recipe.SampleId);
        Assert.NotNull(recipe.Colour);
    }

    [Fact]
    public void A_batch_is_bottled_and_its_labels_know_where_it_came_from()
    {
        var (recipe, steps, pantry) = Kept();
        recipe.KeepMonths = 12;
        var card = RecipeKeeper.Card(recipe, steps, step => Weighs(pantry[step.MaterialId!.Value]));
        Assert.True(ScaledRecipe.Make(card, Volume.FromMillilitres(1500), Teaspoon.Metric).TryGet(out var scaled));
        var (batch, planned) = BatchMaker.Plan(recipe, steps, scaled, 3, new DateOnly(2025, 10, 18), NewId, Now);
        Assert.Equal(["33.3 g", "20 g", "33⅓ cloves"], planned.Select(step => step.Planned.Text));
        Assert.Equal(new DateOnly(2026, 10, 18), batch.KeepBy);

        Assert.True(
            BatchMaker.Fill(batch, 0, 44, Volume.FromMillilitres(29), null, new DateOnly(2025, 10, 19), NewId, Now).TryGet(out var bottles)
        );
        Assert.Equal(44, bottles.Select(bottle => bottle.Code).Distinct().Count());
        Assert.Equal(BottleCode.ForBottle(3, 44), bottles[^1].Code);
        Assert.True(
            BatchMaker.Fill(batch, 44, 2, Volume.FromMillilitres(29), null, new DateOnly(2025, 10, 19), NewId, Now).TryGet(out var more)
        );
        Assert.Equal(45, more[0].Number);

        planned[0].Measured = Said("34 g", 34);
        var label = LabelText.Of(
            BatchMaker.Facts(
                bottles[0],
                batch,
                planned,
                recipe,
                ["elderberry"],
                ["elderberry EB26-1"],
                name => SubstanceCatalogue.Standard.Find("name", name).TryGet(out var found) ? found.Substance.Hazard : null,
                "http://localhost/bottles/x"
            )
        );
        // The recipe was found in EB25-1; this batch took the liquor of another year.
        Assert.Equal("elderberry EB26-1 with alum 2.27 g, bicarbonate of soda 1.33 g and whole cloves 2.22 cloves to 100 ml", label.Recipe);
        Assert.Equal(["chart C3 B2", "29 ml", "made 2025-10-18", "keep by 2026-10-18"], label.Facts);
        Assert.StartsWith("Contains alum 2.3 %, bicarbonate of soda 1.3 % and whole cloves ", label.Warnings[1], StringComparison.Ordinal);
        Assert.Equal("http://localhost/bottles/x", label.Square);
    }

    [Fact]
    public void A_jar_poured_from_a_jar_keeps_the_proportions_of_both()
    {
        var alum = new Material
        {
            Id = NewId(),
            WrittenAt = Now,
            Name = "alum",
            Kind = MaterialKind.Addition,
        };
        var first = new Sample
        {
            Id = NewId(),
            WrittenAt = Now,
            PotId = NewId(),
            TrialId = NewId(),
            Jar = "A1",
            VolumeMl = 90,
            PouredAt = Now,
        };
        var second = new Sample
        {
            Id = NewId(),
            WrittenAt = Now,
            PotId = first.PotId,
            TrialId = first.TrialId,
            ParentId = first.Id,
            Jar = "A2",
            VolumeMl = 30,
            PouredAt = Now.AddHours(1),
        };
        Addition Add(Sample sample, string text, double grams) =>
            new()
            {
                Id = NewId(),
                WrittenAt = Now,
                SampleId = sample.Id,
                MaterialId = alum.Id,
                Step = 1,
                At = sample.PouredAt,
                Amount = Said(text, grams),
            };
        var steps = new Dictionary<Guid, Addition[]> { [first.Id] = [Add(first, "2 g", 2)], [second.Id] = [Add(second, "1/4 tsp", 1.2)] };
        var (recipe, kept) = RecipeKeeper.Keep(
            new RecipeKeeper.Kept
            {
                Sample = second,
                Parts = Proportions.Of(second, new Dictionary<Guid, Sample> { [first.Id] = first }, id => steps[id], _ => false),
                Materials = new Dictionary<Guid, Material> { [alum.Id] = alum },
            },
            "R1",
            "Twice",
            NewId,
            Now
        );
        // 2 g were for 90 ml; ¼ tsp and its 1.2 g were for 30 ml, so 90 ml take three times as much: 3.6 g, 5.6 g together.
        Assert.Equal(90, recipe.BaseVolumeMl);
        Assert.Equal([("5.6 g", 5.6)], kept.Select(step => (step.Amount.Text, Math.Round(step.Amount.Grams!.Value, 9))));
    }

    [Fact]
    public void What_cannot_be_filled_is_refused()
    {
        var (recipe, steps, pantry) = Kept();
        var card = RecipeKeeper.Card(recipe, steps, step => Weighs(pantry[step.MaterialId!.Value]));
        Assert.True(ScaledRecipe.Make(card, Volume.FromMillilitres(1500), Teaspoon.Metric).TryGet(out var scaled));
        var (batch, _) = BatchMaker.Plan(recipe, steps, scaled, 1, new DateOnly(2025, 10, 18), NewId, Now);
        Assert.Equal(
            "bottles",
            Assert.Single(BatchMaker.Fill(batch, 0, 0, Volume.FromMillilitres(29), null, batch.MadeOn, NewId, Now).Problems).Field
        );
        Assert.Equal(
            "bottles",
            Assert.Single(BatchMaker.Fill(batch, 500, 30, Volume.FromMillilitres(29), null, batch.MadeOn, NewId, Now).Problems).Field
        );
        Assert.Equal(
            "fill",
            Assert.Single(BatchMaker.Fill(batch, 0, 1, Volume.FromMillilitres(0), null, batch.MadeOn, NewId, Now).Problems).Field
        );
        Assert.Equal(
            "filledOn",
            Assert
                .Single(BatchMaker.Fill(batch, 0, 1, Volume.FromMillilitres(29), null, new DateOnly(2025, 10, 17), NewId, Now).Problems)
                .Field
        );
    }
}
