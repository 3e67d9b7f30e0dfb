using System.Net;
using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Putting right, taking back and undoing, as a browser without script does it.</summary>
public sealed class ChangePageTests(SeasonNotebook notebook) : IClassFixture<SeasonNotebook>
{
    private const string Jar = "/pots/BB25-1/jars/A2";

    [Fact]
    public async Task Each_line_of_a_jar_leads_to_its_step_which_names_the_squares_it_touches_and_can_be_undone()
    {
        using var posting = new Posting(notebook.Address);
        var step = await StepAsync();
        var own = $"{Jar}/steps/{step}";
        Assert.Contains(own, await GetAsync(posting, Jar), StringComparison.Ordinal);
        var page = await GetAsync(posting, own);
        Assert.Contains("Put this step right", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/charts/C1#", page, StringComparison.Ordinal);
        Assert.Contains("keeps what it kept", page, StringComparison.Ordinal);

        var (status, body, _) = await posting.PostAsync(own, own, new Dictionary<string, string> { ["Amount"] = "heaps" });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("value=\"heaps\"", body, StringComparison.Ordinal);

        (status, _, var next) = await posting.PostAsync(own, own, new Dictionary<string, string> { ["Amount"] = "0.25 g" });
        Assert.Equal((HttpStatusCode.Redirect, own), (status, next));
        Assert.Contains("0.25 g", await GetAsync(posting, Jar), StringComparison.Ordinal);
        var corrected = await GetAsync(posting, own);
        Assert.Contains("Undo the last change: amount", corrected, StringComparison.Ordinal);
        Assert.DoesNotContain("AmountText", corrected, StringComparison.Ordinal);
        await posting.PostAsync(own, $"{own}/undo", new Dictionary<string, string>());
        Assert.DoesNotContain("0.25 g", await GetAsync(posting, Jar), StringComparison.Ordinal);

        await posting.PostAsync(own, $"{own}/withdraw", new Dictionary<string, string> { ["Why"] = "spilt beside it" });
        Assert.Contains("spilt beside it", await GetAsync(posting, Jar), StringComparison.Ordinal);
        await posting.PostAsync(own, $"{own}/back", new Dictionary<string, string>());
        await using var db = await OpenAsync();
        Assert.True((await db.Additions.SingleAsync(one => one.Id == step)).Counts);
    }

    [Theory]
    [InlineData("/pots/BB25-1", "Trial A")]
    [InlineData("/pots/BB25-1/trials/A", "was painted from jar")]
    [InlineData("/pots/BB25-1/jars/A2", "was painted from jar A2")]
    [InlineData("/recipes/R1", "Batch AAA was made of it")]
    [InlineData("/batches/AAA", "It filled")]
    public async Task What_stands_in_the_way_is_said_and_nothing_is_taken_back(string thing, string way)
    {
        using var posting = new Posting(notebook.Address);
        Assert.Contains($"{thing}/change", await GetAsync(posting, thing), StringComparison.Ordinal);
        Assert.Contains(way, await GetAsync(posting, $"{thing}/change"), StringComparison.Ordinal);
        var (status, body, _) = await posting.PostAsync(
            $"{thing}/change",
            $"{thing}/change/withdraw",
            new Dictionary<string, string> { ["Why"] = "oops" }
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains(way, body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_trial_taken_back_is_struck_out_on_its_pots_page_and_its_own_offers_to_put_it_back()
    {
        using var posting = new Posting(notebook.Address);
        var (_, _, next) = await posting.PostAsync(
            "/pots/BB25-1/trials/new",
            "/pots/BB25-1/trials/new",
            new Dictionary<string, string>
            {
                ["Jars"] = "2",
                ["VolumeMl"] = "5",
                ["Title"] = "poured twice",
            }
        );
        await posting.PostAsync($"{next}/change", $"{next}/change/withdraw", new Dictionary<string, string> { ["Why"] = "one too many" });
        var pot = await GetAsync(posting, "/pots/BB25-1");
        Assert.Contains("one too many", pot, StringComparison.Ordinal);
        Assert.Contains("poured twice</a></s>", pot, StringComparison.Ordinal);
        Assert.Contains("Put it back", await GetAsync(posting, next!), StringComparison.Ordinal);
        await posting.PostAsync($"{next}/change", $"{next}/change/undo", new Dictionary<string, string>());
        Assert.DoesNotContain("poured twice</a></s>", await GetAsync(posting, "/pots/BB25-1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_short_pot_is_said_on_the_form_refused_and_let_through_by_a_tick()
    {
        using var posting = new Posting(notebook.Address);
        var page = await GetAsync(posting, "/recipes/R1?to=500+L");
        Assert.Contains("BB25-1 has only", page, StringComparison.Ordinal);
        Assert.Contains("would be left", await GetAsync(posting, "/recipes/R1?to=10+ml"), StringComparison.Ordinal);
        var (status, body, _) = await posting.PostAsync(
            "/recipes/R1?to=500+L",
            "/recipes/R1/batches",
            new Dictionary<string, string> { ["Volume"] = "500 L", ["Pot"] = "BB25-1" }
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("fit. Take less", body, StringComparison.Ordinal);
        (status, _, var next) = await posting.PostAsync(
            "/recipes/R1?to=500+L",
            "/recipes/R1/batches",
            new Dictionary<string, string>
            {
                ["Volume"] = "500 L",
                ["Pot"] = "BB25-1",
                ["MoreThanWritten"] = "yes",
            }
        );
        Assert.Equal(HttpStatusCode.Redirect, status);
        (status, _, _) = await posting.PostAsync(
            $"{next}/change",
            $"{next}/change/withdraw",
            new Dictionary<string, string> { ["Why"] = "" }
        );
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Contains("written by mistake", await GetAsync(posting, "/batches"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_pot_is_started_again_from_the_page_that_says_how_it_was_made()
    {
        using var posting = new Posting(notebook.Address);
        Assert.Contains("/pots/new?again=BB25-1", await GetAsync(posting, "/pots/BB25-1/repeat"), StringComparison.Ordinal);
        var page = await GetAsync(posting, "/pots/new?again=BB25-1");
        Assert.Contains("Pot BB25-1 again", page, StringComparison.Ordinal);
        Assert.Contains("value=\"black bean\"", page, StringComparison.Ordinal);
        var (status, body, _) = await posting.PostAsync(
            "/pots/new?again=BB25-1",
            "/pots/new",
            new Dictionary<string, string>
            {
                ["Plant"] = "black bean",
                ["Again"] = "BB25-1",
                ["LiquidMl"] = "lots",
            }
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("name=\"Again\" value=\"BB25-1\"", body, StringComparison.Ordinal);
        (status, _, var next) = await posting.PostAsync(
            "/pots/new?again=BB25-1",
            "/pots/new",
            new Dictionary<string, string> { ["Plant"] = "black bean", ["Again"] = "BB25-1" }
        );
        Assert.Equal(HttpStatusCode.Redirect, status);
        await using var db = await OpenAsync();
        var made = await db.Pots.SingleAsync(one => one.Code == next!.Replace("/pots/", "", StringComparison.Ordinal));
        var old = await db.Pots.SingleAsync(one => one.Code == "BB25-1");
        Assert.Equal(old.Id, (await db.PotSheets.SingleAsync(one => one.PotId == made.Id)).RepeatsPotId);
        await posting.PostAsync($"{next}/change", $"{next}/change/withdraw", new Dictionary<string, string> { ["Why"] = "" });
    }

    private static async Task<string> GetAsync(Posting posting, string path) =>
        WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri(path, UriKind.Relative)));

    private async Task<Guid> StepAsync()
    {
        await using var db = await OpenAsync();
        var jar = await db.Samples.SingleAsync(one => one.Jar == "A2");
        return (await db.Additions.Where(one => one.SampleId == jar.Id).OrderBy(one => one.Step).FirstAsync()).Id;
    }

    private async Task<NotebookDb> OpenAsync() =>
        (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
}
