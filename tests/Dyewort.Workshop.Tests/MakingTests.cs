using Dyewort.Quantities;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Recipes;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class MakingTests
{
    internal static Outcome<ScaleRecipeAnswer> Scale(string recipe, string to, string? teaspoon = null, string? step = null)
    {
        var form = ScaleRecipeForm.Parse(recipe, to, teaspoon, step);
        return form.TryGet(out var asked) ? new ScaleRecipe().Handle(asked) : Outcome.Refused<ScaleRecipeAnswer>(form.Problems);
    }

    [Fact]
    public void A_recipe_is_scaled_with_the_tables_spoon_weights_and_cautions()
    {
        Assert.True(Scale("90ml: bicarbonate of soda=1/4 tsp, copperas=1/8 tsp, moon dust=1 tsp", "1.5L").TryGet(out var answer));
        // 4.6 g in a level teaspoon, published portion weight: 1500/90 × ¼ × 4.6 g.
        Assert.Equal(1500.0 / 90 * 0.25 * 4.6, answer.Scaled.Lines[0].Grams!.Value.Grams, 1e-6);
        Assert.Null(answer.Scaled.Lines[2].Grams);
        Assert.Contains(answer.Cautions, caution => caution.StartsWith("copperas: Warning.", StringComparison.Ordinal));
        Assert.Contains("safety data sheet", answer.Cautions[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void The_teaspoon_changes_the_grams()
    {
        var grams = new[] { "metric", "US", "imperial" }
            .Select(kind =>
            {
                Assert.True(Scale("100ml: alum=1 tsp", "100ml", kind).TryGet(out var answer));
                return answer.Scaled.Lines[0].Grams!.Value.Grams;
            })
            .ToList();
        // Published weights are for a metric or a US spoon alike.
        Assert.Equal(1, grams[0] / grams[1], 1e-12);
        Assert.Equal(5.919388 / 4.93, grams[2] / grams[0], 1e-6);
    }

    [Theory]
    [InlineData("90ml: alum=2 g", "-1 L", "", "to")]
    [InlineData("90ml: alum=2 g", "0 ml", "", "to")]
    [InlineData("90ml: alum=2 g", "", "", "to")]
    [InlineData("90ml: alum=2 g", "900 L", "", "")]
    [InlineData("90ml: alum=lots", "1 L", "", "recipe")]
    [InlineData("90ml: alum=2 g", "1 L", "wooden", "teaspoon")]
    public void What_cannot_be_scaled_is_refused(string recipe, string to, string teaspoon, string field)
    {
        var outcome = Scale(recipe, to, teaspoon);
        if (field.Length == 0)
            Assert.True(outcome.TryGet(out _));
        else
            Assert.Equal(field, Assert.Single(outcome.Problems).Field);
    }

    [Fact]
    public void What_a_scale_rounds_away_is_said()
    {
        Assert.True(Scale("90ml: alum=2 g, copperas=0.02 g", "1.5L", null, "1 g").TryGet(out var answer));
        var (alum, copperas) = (
            answer.Scaled.Lines[0].OnAScale(answer.ScaleStep!.Value)!.Value,
            answer.Scaled.Lines[1].OnAScale(answer.ScaleStep!.Value)!.Value
        );
        // 33.33 g is weighed as 33 g, 1 % too little; 0.33 g is not weighed at all.
        Assert.Equal(33, alum.Weighed.Grams, 1e-9);
        Assert.Equal(-1, alum.ErrorPercent, 1e-9);
        Assert.Equal((0, -100), (copperas.Weighed.Grams, copperas.ErrorPercent));
        Assert.Equal("scale", Assert.Single(Scale("90ml: alum=2 g", "1.5L", null, "0 g").Problems).Field);
        Assert.Equal("scale", Assert.Single(Scale("90ml: alum=2 g", "1.5L", null, "fine").Problems).Field);
    }

    [Fact]
    public void Bottles_share_what_is_said_once()
    {
        const string Json = """
            {"name":"Dusk","liquor":"elderberry","additions":[{"name":"alum","amount":"2 g"},
            {"name":"copperas","amount":"0.1 g"}],
            "made":"2025-10-18","keepMonths":12,
             "link":"http://localhost:5077/bottles/{code}","colour":"#5b3f7a",
            "bottles":[{"code":"AAC-AAH"},{"code":"AAC-AC4","name":"Dusk, second pot","keepBy":"2026-01-01"}]}
            """;
        Assert.True(new PrintLabels(TimeProvider.System).Handle(new() { Bottles = Json }).TryGet(out var answer));
        Assert.Equal(["Dusk", "Dusk, second pot"], answer.Labels.Select(label => label.Name));
        Assert.Equal("http://localhost:5077/bottles/AAC-AC4", answer.Labels[1].Square);
        Assert.Contains("keep by 2026-10-18", answer.Labels[0].Facts);
        Assert.Contains("keep by 2026-01-01", answer.Labels[1].Facts);
        Assert.Contains("Contains alum 2 % and copperas 0.1 %.", answer.Labels[0].Warnings);
        Assert.Equal("elderberry with alum 2 g and copperas 0.1 g to 100 ml", answer.Labels[0].Recipe);
    }

    [Theory]
    [InlineData("", "not readable")]
    [InlineData("[", "not readable")]
    [InlineData("[]", "no bottle")]
    [InlineData("""[{"name":"Dusk"}]""", "no code")]
    [InlineData("""[{"code":"A1"}]""", "no name")]
    [InlineData("""[{"code":"A1","name":"Dusk","made":"18.10.2025"}]""", "not a day")]
    [InlineData("""[{"code":"A1","name":"Dusk","colour":"sort of blue"}]""", "sort of blue")]
    [InlineData("""[{"code":"A1","name":"Dusk"},{"code":"a1","name":"Dusk"}]""", "Two bottles")]
    [InlineData("""[{"code":"A1","name":"Dusk","made":"2025-10-18","keepMonths":0}]""", "0 months")]
    [InlineData("[null]", "no code")]
    public void Bottles_that_are_none_are_refused(string json, string part) =>
        Assert.Contains(
            part,
            string.Join(
                " ",
                new PrintLabels(TimeProvider.System).Handle(new() { Bottles = json }).Problems.Select(problem => problem.What)
            ),
            StringComparison.Ordinal
        );
}
