using System.Net;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>After a form was posted, the next page says how its quantities were understood, in the maker's kitchen, once.</summary>
public sealed class AsPeopleSayPageTests(SeasonNotebook notebook) : IClassFixture<SeasonNotebook>
{
    [Fact]
    public async Task A_pot_says_what_was_typed_and_what_it_came_to()
    {
        using var posting = Reader();
        await KitchenAsync(posting, "UsCustomary");
        var (status, _, next) = await posting.PostAsync(
            "/pots/new",
            "/pots/new",
            new Dictionary<string, string>
            {
                ["Plant"] = "weld",
                ["PlantGrams"] = "14 oz",
                ["LiquidMl"] = "6 cups",
            }
        );
        Assert.Equal(HttpStatusCode.Found, status);
        var page = WebUtility.HtmlDecode(await posting.Client.GetStringAsync(next));
        Assert.Contains("“6 cups” is 1.42 L.", page, StringComparison.Ordinal);
        Assert.Contains("1.42 L (6 cups), said as “6 cups”", page, StringComparison.Ordinal);
        Assert.Contains("397 g (14 oz), said as “14 oz”", page, StringComparison.Ordinal);
        Assert.Contains("Gathered", page, StringComparison.Ordinal);
        Assert.Contains("day not known", page, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"understood\"", await posting.Client.GetStringAsync(next), StringComparison.Ordinal);
        await posting.PostAsync(next!, $"{next}/log", new Dictionary<string, string> { ["Celsius"] = "185F", ["At"] = "2025-01-02T08:15" });
        var log = WebUtility.HtmlDecode(await posting.Client.GetStringAsync(next));
        Assert.Contains("“185F” is 85 °C.", log, StringComparison.Ordinal);
        Assert.Contains("85 °C (185 °F)", log, StringComparison.Ordinal);
        Assert.Contains("2 Jan 2025, 08:15", log, StringComparison.Ordinal);
        await KitchenAsync(posting, "Metric");
    }

    [Theory]
    [InlineData("/batches/AAA", "/batches/AAA/measured", "Step1", "1 tsp + ¼ tsp")]
    [InlineData("/batches/AAA", "/batches/AAA/measured", "LiquorMl", "2 tbsp + 1 tsp")]
    [InlineData("/pots/BB25-1", "/pots/BB25-1/log", "Ml", "1 cup + 2 tbsp")]
    [InlineData("/pots/BB25-1/jars/A1", "/pots/BB25-1/jars/A1/change", "VolumeMl", "1 tbsp and 1 tsp")]
    public async Task A_field_takes_what_is_measured_in_several_spoons(string page, string action, string field, string said)
    {
        using var posting = Reader();
        var (status, body, next) = await posting.PostAsync(
            page,
            action,
            new Dictionary<string, string>
            {
                [field] = said,
                ["Meant"] = "yes",
                ["MoreThanWritten"] = "yes",
            }
        );
        Assert.True(status == HttpStatusCode.Found, body);
        if (field == "Step1")
            Assert.Contains("1 tsp + ¼ tsp", WebUtility.HtmlDecode(await posting.Client.GetStringAsync(next)), StringComparison.Ordinal);
    }

    [Fact]
    public void An_amount_of_another_kitchen_names_it()
    {
        Assert.True(Quantities.Amount.Parse("amount", "½ tsp").TryGet(out var said));
        var kept = Notebook.MeasuredAmount.Of(said.In(Quantities.Teaspoon.Metric), null);
        Assert.Equal("½ tsp", Words.Amount(kept));
        Words.Kitchen = Quantities.Teaspoon.UsCustomary;
        Assert.Equal("½ metric tsp", Words.Amount(kept));
        Assert.Equal("½ metric tsp", Words.Amount(Notebook.MeasuredAmount.Of(said.In(Quantities.Teaspoon.Metric), null)));
    }

    [Theory]
    [InlineData("Metric", 1419.53, "1.42 L")]
    [InlineData("UsCustomary", 1419.53, "1.42 L (6 cups)")]
    [InlineData("UsCustomary", 90, "90 ml (3.04 fl oz)")]
    [InlineData("UsCustomary", 4.93, "4.93 ml (1 tsp)")]
    [InlineData("Imperial", 568.26, "568 ml (1 pint)")]
    [InlineData("Imperial", 9092.18, "9.09 L (2 gallons)")]
    public void A_volume_is_said_in_the_makers_kitchen_too(string kitchen, double ml, string says)
    {
        Words.Kitchen = Enum.Parse<Quantities.Teaspoon>(kitchen);
        Assert.Equal(says, Words.Ml(ml));
    }

    [Fact]
    public void Weights_and_temperatures_are_too()
    {
        Words.Kitchen = Quantities.Teaspoon.UsCustomary;
        Assert.Equal(
            ("0.5 g", "397 g (14 oz)", "907 g (2 lb)", "85 °C (185 °F)"),
            (Words.Grams(0.5), Words.Grams(396.9), Words.Grams(907.2), Words.Celsius(85))
        );
        Words.Kitchen = Quantities.Teaspoon.Metric;
        Assert.Equal(("397 g", "85 °C"), (Words.Grams(396.9), Words.Celsius(85)));
    }

    [Fact]
    public async Task Half_a_head_stands_on_the_pots_page_as_it_was_said()
    {
        using var posting = Reader();
        var (_, _, next) = await posting.PostAsync(
            "/pots/new",
            "/pots/new",
            new Dictionary<string, string>
            {
                ["Plant"] = "red cabbage",
                ["PlantGrams"] = "½ head",
                ["LiquidMl"] = "4 L",
            }
        );
        Assert.Contains("½ head", WebUtility.HtmlDecode(await posting.Client.GetStringAsync(next)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_field_that_was_typed_as_another_kind_says_which_is_wanted_and_keeps_it()
    {
        using var posting = Reader();
        var (status, body, _) = await posting.PostAsync(
            "/pots/new",
            "/pots/new",
            new Dictionary<string, string> { ["Plant"] = "weld", ["LiquidMl"] = "400 g" }
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("“400 g” is a weight; here a volume is wanted, such as 1.5 L.", body, StringComparison.Ordinal);
        Assert.Contains("value=\"400 g\"", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Keys_for_a_quantity_have_letters_and_those_for_a_number_do_not()
    {
        using var posting = Reader();
        var page = await posting.Client.GetStringAsync("/pots/BB25-1");
        Assert.DoesNotMatch("name=\"Celsius\"[^>]*inputmode", page);
        Assert.Matches("name=\"Ph\"[^>]*inputmode=\"decimal\"", page);
    }

    [Fact]
    public async Task Settings_say_that_they_were_saved_and_what_a_kitchen_holds()
    {
        using var posting = Reader();
        await KitchenAsync(posting, "Imperial");
        var page = WebUtility.HtmlDecode(await posting.Client.GetStringAsync("/settings"));
        Assert.Contains("Saved. A teaspoon is 5.92 ml, a tablespoon 17.8 ml", page, StringComparison.Ordinal);
        await KitchenAsync(posting, "Metric");
        Assert.Contains(
            "a pint 500 ml, a quart 1 L, a gallon 4 L",
            await posting.Client.GetStringAsync("/settings"),
            StringComparison.Ordinal
        );
    }

    private static async Task KitchenAsync(Posting posting, string kitchen) =>
        Assert.Equal(
            HttpStatusCode.Found,
            (await posting.PostAsync("/settings", "/settings", new Dictionary<string, string> { ["Teaspoon"] = kitchen })).Status
        );

    private Posting Reader()
    {
        var posting = new Posting(notebook.Address);
        posting.Client.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        return posting;
    }
}
