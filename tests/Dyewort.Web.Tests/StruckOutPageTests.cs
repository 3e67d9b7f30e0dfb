using System.Net;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>What was taken back says so, leads to where it is put back, and shows nothing that would be refused.</summary>
public sealed class StruckOutPageTests(SeasonNotebook notebook) : IClassFixture<SeasonNotebook>
{
    [Fact]
    public async Task A_pot_its_trial_its_jars_and_its_sheet_taken_back_say_so_and_ask_for_nothing()
    {
        using var posting = new Posting(notebook.Address);
        var (_, _, pot) = await posting.PostAsync(
            "/pots/new?again=BB25-1",
            "/pots/new",
            new Dictionary<string, string> { ["Plant"] = "black bean", ["Again"] = "BB25-1" }
        );
        await posting.PostAsync($"{pot}", $"{pot}/log", new Dictionary<string, string> { ["Ml"] = "300", ["Kind"] = "Strained" });
        await posting.PostAsync(
            $"{pot}/stove",
            $"{pot}/drops",
            new Dictionary<string, string> { ["Minute"] = "10", ["DropSaid"] = "pale violet" }
        );
        var (_, _, trial) = await posting.PostAsync(
            $"{pot}/trials/new",
            $"{pot}/trials/new",
            new Dictionary<string, string>
            {
                ["Jars"] = "2",
                ["VolumeMl"] = "5",
                ["Title"] = "poured by mistake",
            }
        );
        var (_, _, chart) = await posting.PostAsync($"{trial}/sheet", $"{trial}/sheet", new Dictionary<string, string>());
        Assert.StartsWith("/charts/C", chart, StringComparison.Ordinal);
        var jar = $"{pot}/jars/{trial![^1..]}1";
        foreach (var page in (string[])[jar, chart!])
            Assert.NotEmpty(Posts(await GetAsync(posting, page), page));

        await TakeBackAsync(posting, trial);
        await AsksNothingAsync(posting, trial, "This trial", trial);
        await AsksNothingAsync(posting, jar, "The trial of this jar", trial);
        await AsksNothingAsync(posting, chart!, $"Trial {trial[^1..]}, which this chart belongs to,", trial);

        await TakeBackAsync(posting, pot!);
        foreach (
            var below in (string[])["", "/stove", "/curve", "/water", "/repeat", "/harvest", "/plan", "/plan?kind=ladder", "/trials/new"]
        )
            await AsksNothingAsync(posting, $"{pot}{below}", "This pot", pot!);
        Assert.Contains("pale violet", await GetAsync(posting, $"{pot}/stove"), StringComparison.Ordinal);

        // Put back, everything asks again.
        await posting.PostAsync($"{pot}/change", $"{pot}/change/back", new Dictionary<string, string>());
        await posting.PostAsync($"{trial}/change", $"{trial}/change/back", new Dictionary<string, string>());
        foreach (var page in (string[])[jar, chart!, $"{pot}/stove", $"{pot}/trials/new"])
            Assert.NotEmpty(Posts(await GetAsync(posting, page), page));
        await TakeBackAsync(posting, jar);
        await AsksNothingAsync(posting, jar, "This jar", jar);
        await posting.PostAsync($"{jar}/change", $"{jar}/change/back", new Dictionary<string, string>());
    }

    [Fact]
    public async Task A_recipe_and_a_batch_taken_back_say_so_and_ask_for_nothing()
    {
        using var posting = new Posting(notebook.Address);
        await using var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var pot = await db.Pots.SingleAsync(one => one.Code == "BB25-1");
        var jar = await db.Samples.SingleAsync(one => one.PotId == pot.Id && one.Jar == "A2");
        var (_, _, recipe) = await posting.PostAsync(
            $"/recipes/keep?sample={jar.Id}",
            "/recipes/keep",
            new Dictionary<string, string> { ["Sample"] = $"{jar.Id}", ["Name"] = "Kept in haste" }
        );
        var (_, _, batch) = await posting.PostAsync(
            $"{recipe}?to=20+ml",
            $"{recipe}/batches",
            new Dictionary<string, string>
            {
                ["Volume"] = "20 ml",
                ["Pot"] = "BB25-1",
                ["MoreThanWritten"] = "yes",
            }
        );
        Assert.StartsWith("/batches/", batch, StringComparison.Ordinal);
        Assert.NotEmpty(Posts(await GetAsync(posting, $"{recipe}?to=20+ml"), recipe!));
        await TakeBackAsync(posting, batch!);
        await AsksNothingAsync(posting, batch!, "This batch", batch!);
        Assert.Contains("liquor in all, planned", await GetAsync(posting, batch!), StringComparison.Ordinal);
        await TakeBackAsync(posting, recipe!);
        await AsksNothingAsync(posting, $"{recipe}?to=20+ml", "This recipe", recipe!);
    }

    private static async Task TakeBackAsync(Posting posting, string thing)
    {
        var (status, body, _) = await posting.PostAsync(
            $"{thing}/change",
            $"{thing}/change/withdraw",
            new Dictionary<string, string> { ["Why"] = "by mistake" }
        );
        Assert.True(status == HttpStatusCode.Redirect, body);
    }

    private static async Task AsksNothingAsync(Posting posting, string page, string what, string putBack)
    {
        var html = await GetAsync(posting, page);
        Assert.Contains($"<b>{what} was taken back</b> on ", html, StringComparison.Ordinal);
        Assert.Contains($"href=\"{putBack}/change\">Put it back</a>", html, StringComparison.Ordinal);
        Assert.Empty(Posts(html, page));
    }

    private static List<string> Posts(string html, string page) =>
        [.. PageForm.Of(html, page).Where(form => form.Posts).Select(form => form.Action)];

    private static async Task<string> GetAsync(Posting posting, string path) =>
        WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri(path, UriKind.Relative)));
}
