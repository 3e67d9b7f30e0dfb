using CsCheck;
using Dyewort.Chemistry;
using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Making.Tests;

public sealed class ScalingTests
{
    private static RecipeCard Card(string text)
    {
        var outcome = RecipeCard.Parse("recipe", text);
        Assert.True(outcome.TryGet(out var card), string.Join(" ", outcome.Problems));
        // Spoon weights of the invented season's own jars, metric spoon.
        var spoons = new Dictionary<string, double>
        {
            ["alum"] = 4.7,
            ["bicarbonate of soda"] = 4.8,
            ["copperas"] = 5.3,
        };
        return card with
        {
            Lines =
            [
                .. card.Lines.Select(line =>
                    line with
                    {
                        Weighs = spoons.TryGetValue(line.Name, out var grams) ? Spooned(line.Name, grams) : null,
                    }
                ),
            ],
        };
    }

    private static NamedSubstance Spooned(string name, double grams) => new(Substance.Own(name).Weighed(grams), null, false);

    private static ScaledRecipe Scale(string text, double millilitres)
    {
        var outcome = ScaledRecipe.Make(Card(text), Volume.FromMillilitres(millilitres), Teaspoon.Metric);
        Assert.True(outcome.TryGet(out var scaled), string.Join(" ", outcome.Problems));
        return scaled;
    }

    [Fact]
    public void A_wine_glass_is_carried_to_a_bucket()
    {
        // 1500/90 = 16⅔ times ¼ tsp = 4.1667 tsp = 20 g of soda at 4.8 g a spoon.
        var scaled = Scale("90ml: bicarbonate of soda=1/4 tsp", 1500);
        var line = Assert.Single(scaled.Lines);
        Assert.Equal(20, line.Grams!.Value.Grams, 1e-9);
        Assert.Equal("1 tbsp + 1⅛ tsp", line.Spoons!.ToString());
        Assert.Equal(-1, line.SpoonErrorPercent!.Value, 0.001);
        Assert.Equal(1440, scaled.Nearby!.Volume.Millilitres, 1e-9);
        Assert.Equal("bicarbonate of soda 1 tbsp + 1 tsp", Assert.Single(scaled.Nearby.Lines));
    }

    [Fact]
    public void Tablespoons_come_out_whole_as_three_teaspoons_each()
    {
        // 2 tbsp in 90 ml is a teaspoon in 15 ml: 67 teaspoons, 22 tablespoons and one, in 1005 ml.
        var nearby = Scale("90ml: alum=2 tbsp", 1000).Nearby!;
        Assert.Equal(1005, nearby.Volume.Millilitres, 1e-9);
        Assert.Equal("alum 22 tbsp + 1 tsp", Assert.Single(nearby.Lines));
    }

    [Fact]
    public void No_volume_is_offered_that_is_more_than_a_tenth_away() => Assert.Null(Scale("100ml: cloves=1 clove", 150).Nearby);

    [Fact]
    public void A_scale_weighs_in_whole_steps()
    {
        // 24.36 g on a scale that shows tenths: 24.4 g, 0.04 of 24.36 too much.
        var line = Assert.Single(Scale("100ml: alum=2 g", 1218).Lines);
        var (weighed, error) = line.OnAScale(Mass.FromGrams(0.1))!.Value;
        Assert.Equal(24.4, weighed.Grams, 1e-9);
        Assert.Equal(100 * 0.04 / 24.36, error, 1e-9);
        Assert.Null(Assert.Single(Scale("100ml: honey=1 tsp", 200).Lines).OnAScale(Mass.FromGrams(0.1)));
    }

    [Fact]
    public void The_invented_season_s_blend_comes_out_as_its_sums_say()
    {
        // Invented worked sums: 1218 ml with alum 2 g, gum solution 10 ml per 100 ml; 1354 ml with 2 drops of clove oil per 100 ml.
        var scaled = Scale("100ml: alum=2 g, gum solution=10 ml", 1218);
        Assert.Equal(24.4, scaled.Lines[0].Grams!.Value.Grams, 0.05);
        Assert.Equal(122, scaled.Lines[1].Millilitres!.Value.Millilitres, 0.5);
        Assert.Equal(27, Scale("100ml: clove oil=2 drops", 1354).Lines[0].Amount.Number, 0.1);
    }

    [Fact]
    public void Two_spooned_additions_come_out_whole_together()
    {
        // ⅓ tsp and ½ tsp in 100 ml: both whole only at multiples of 600 ml.
        var scaled = Scale("100ml: alum=1/3 tsp, bicarbonate of soda=1/2 tsp", 1250);
        Assert.Equal(1200, scaled.Nearby!.Volume.Millilitres, 1e-6);
        Assert.Equal(["alum 1 tbsp + 1 tsp", "bicarbonate of soda 2 tbsp"], scaled.Nearby.Lines);
    }

    [Fact]
    public void Cloves_come_out_whole_too()
    {
        var scaled = Scale("80ml: alum=1/2 tsp, whole cloves=2 cloves", 1000);
        Assert.Equal("25 cloves", scaled.Lines[1].Amount.ToString());
        Assert.Equal(960, scaled.Nearby!.Volume.Millilitres, 1e-9);
        Assert.Equal(["alum 2 tbsp", "whole cloves 24 cloves"], scaled.Nearby.Lines);
    }

    [Fact]
    public void Nothing_is_near_when_the_spoons_are_whole_already_or_nothing_is_spooned()
    {
        Assert.Null(Scale("90ml: alum=1/4 tsp", 1440).Nearby);
        Assert.Null(Scale("90ml: alum=2 g", 1500).Nearby);
        Assert.Null(Scale("90ml: alum=0.37 tsp, bicarbonate of soda=0.41 tsp", 100).Nearby);
    }

    [Fact]
    public void Too_little_for_a_spoon_is_said_so_with_its_grams()
    {
        var line = Scale("1.5L: copperas=1/4 tsp", 90).Lines[0];
        Assert.Null(line.Spoons);
        Assert.Equal(0.0795, line.Grams!.Value.Grams, 1e-9);
        Assert.Contains("weigh", line.Remark!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_material_never_weighed_gets_no_grams_and_a_word_why()
    {
        var line = Scale("90ml: ash=1 tsp", 180).Lines[0];
        Assert.Null(line.Grams);
        Assert.Equal("2 tsp", line.Spoons!.ToString());
        Assert.Contains("level teaspoon", line.Remark!, StringComparison.Ordinal);
    }

    [Fact]
    public void Scaling_there_and_back_gives_the_same_recipe() =>
        Gen.Select(Gen.Double[1, 5000], Gen.Double[1, 5000], Gen.Int[1, 64])
            .Sample(
                (from, to, eighths) =>
                {
                    var card = new RecipeCard(
                        "",
                        Volume.FromMillilitres(from),
                        [new("alum", Amount.Of(eighths / 8.0, AmountUnit.Teaspoon), Spooned("alum", 4.7))]
                    );
                    if (!ScaledRecipe.Make(card, Volume.FromMillilitres(to), Teaspoon.Metric).TryGet(out var there))
                        return true;
                    var back = new RecipeCard("", there.To, [new("alum", there.Lines[0].Amount)]);
                    return ScaledRecipe.Make(back, card.Volume, Teaspoon.Metric).TryGet(out var again)
                        && Math.Abs((again.Lines[0].Amount.Number / (eighths / 8.0)) - 1) < 1e-12;
                },
                iter: 2000
            );

    [Fact]
    public void Spoons_are_the_nearest_there_are_and_their_error_is_stated_truly() =>
        Gen.Double[0.0625, 300]
            .Sample(
                teaspoons =>
                {
                    var spoons = Spoons.Nearest(teaspoons)!;
                    var off = Math.Abs(spoons.Teaspoons - teaspoons);
                    return (off <= 1.0 / 16 + 1e-9 || off <= 0.01 * teaspoons + 1e-9)
                        && Math.Abs(spoons.ErrorPercent(teaspoons) - (100 * (spoons.Teaspoons - teaspoons) / teaspoons)) < 1e-9
                        && Amount.Parse("a", spoons.ToString().Split(" + ")[0]).TryGet(out _);
                },
                iter: 5000
            );

    [Theory]
    [InlineData(0.125, "⅛ tsp", 1)]
    [InlineData(0.875, "⅞ tsp", 3)]
    [InlineData(3, "1 tbsp", 1)]
    [InlineData(37.3, "12 tbsp + 1 tsp", 13)]
    [InlineData(37.5, "12 tbsp + 1½ tsp", 14)]
    [InlineData(4.1667, "1 tbsp + 1⅛ tsp", 3)]
    public void Spoons_are_said_as_people_dip_them(double teaspoons, string words, int scoops)
    {
        var spoons = Spoons.Nearest(teaspoons)!;
        Assert.Equal(words, spoons.ToString());
        Assert.Equal(scoops, spoons.Scoops);
    }

    [Theory]
    [InlineData("", "no recipe")]
    [InlineData("alum=2 g", "what volume")]
    [InlineData("-90ml: alum=2 g", "“-90ml”")]
    [InlineData("0 ml: alum=2 g", "no liquor")]
    [InlineData("90ml: alum", "“alum”")]
    [InlineData("90ml: alum=lots", "alum: “lots”")]
    [InlineData("90ml: =2 g", "no name")]
    [InlineData("90 g: alum=2 g", "a volume is wanted")]
    [InlineData("{\"volume\":", "JSON")]
    [InlineData("{\"volume\":\"90ml\",\"additions\":[null]}", "no name")]
    public void A_recipe_that_is_none_is_refused(string text, string part)
    {
        var outcome = RecipeCard.Parse("recipe", text);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains(part, string.Join(" ", outcome.Problems.Select(problem => problem.What)), StringComparison.Ordinal);
    }

    [Fact]
    public void A_recipe_reads_as_text_and_as_json()
    {
        Assert.True(RecipeCard.Parse("recipe", "90ml: bicarbonate of soda=1/4 tsp, alum=2,5 g").TryGet(out var text));
        Assert.True(
            RecipeCard
                .Parse(
                    "recipe",
                    """{"name":"Dusk","volume":"90ml","additions":[{"name":"bicarbonate of soda","amount":"1/4 tsp"},"""
                        + """{"name":"alum","amount":"2.5 g"}]}"""
                )
                .TryGet(out var json)
        );
        Assert.Equal(text.Lines.Select(line => (line.Name, line.Amount)), json.Lines.Select(line => (line.Name, line.Amount)));
        Assert.Equal("Dusk", json.Name);
        Assert.Equal("90 ml: bicarbonate of soda=¼ tsp, alum=2.5 g", text.ToString());
        Assert.True(RecipeCard.Parse("recipe", "90 ml:").TryGet(out var plain));
        Assert.Empty(plain.Lines);
    }

    [Fact]
    public void No_volume_is_refused() =>
        Assert.Single(ScaledRecipe.Make(Card("90ml: alum=2 g"), Volume.FromMillilitres(0), Teaspoon.Metric).Problems);

    [Theory]
    [InlineData("20ml: vinegar=99999 l", 20)]
    [InlineData("20ml: alum=900 kg", 40)]
    [InlineData("20ml: alum=90000 tsp", 60)]
    public void What_no_scale_and_no_tank_holds_is_refused_in_words(string text, double millilitres)
    {
        var outcome = ScaledRecipe.Make(Card(text), Volume.FromMillilitres(millilitres), Teaspoon.Metric);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains("more than", Assert.Single(outcome.Problems).What, StringComparison.Ordinal);
    }

    [Fact]
    public void A_step_of_a_scale_beyond_a_tonne_gives_no_weight() =>
        Assert.Null(Scale("100ml: alum=900 kg", 100).Lines[0].OnAScale(Mass.FromGrams(600_000)));

    [Fact]
    public void A_volume_nearby_is_not_offered_beyond_what_a_volume_can_be() =>
        Assert.Null(Scale("100ml: cloves=3 cloves", 1_000_000 / 1.02).Nearby is { Volume.Millilitres: > 1_000_000 } beyond ? beyond : null);
}
