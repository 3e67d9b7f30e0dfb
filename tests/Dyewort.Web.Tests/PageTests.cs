using System.Net;
using Deque.AxeCore.Playwright;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Every page on a phone's screen: readable by everybody, nothing sticking out, nothing asked of other machines.</summary>
public sealed class PageTests(SeasonNotebook notebook, Browser browser) : IClassFixture<SeasonNotebook>, IClassFixture<Browser>
{
    private static readonly string[] Pages =
    [
        "/",
        "/settings",
        "/pantry",
        "/pantry/new",
        "/pots",
        "/pots/new",
        "/pots/new?again=BB25-1",
        "/pots/BB25-1/repeat",
        "/pots/BB25-1",
        "/pots/BB25-1/trials/new",
        "/pots/BB25-1/trials/A",
        "/pots/BB25-1/jars/A2",
        "/pots/BB25-1/trials/A/sheet",
        "/charts",
        "/charts/C1",
        "/wanted",
        "/wanted?c=%236a7390&volume=1%20L",
        "/wanted?recipe=R1",
        "/plants",
        "/plants/black%20bean",
        "/choose",
        "/choose?count=3",
        "/differ",
        "/differ?one=BB25-1%20A1%20on%20cotton%20paper%20300%20g&other=BB25-1%20A2%20on%20cotton%20paper%20300%20g",
        "/plants/black%20bean/doubts",
        "/pots/BB25-1/harvest",
        "/pots/BB25-1/plan",
        "/pots/BB25-1/plan?kind=next&jars=3&volume=20",
        "/recipes",
        "/batches",
        "/bottles",
        "/find",
        "/find?q=bean",
        "/nowhere",
        "/charts/C1/instrument",
        "/charts/C1/photos/{photo}",
        "/charts/C1/photos/{photo}/place",
        "/charts/C1/photos/{photo}/strip",
        "/strips",
        "/charts/C1/photos/{photo}/place?Way=Spots",
        "/pantry/{paper}",
        "/pantry/{paper}/paper",
        "/pots/BB25-1/jars/A2/steps/{step}",
        "/pots/BB25-1/change",
        "/pots/BB25-1/log/{line}/change",
        "/pots/BB25-1/trials/A/change",
        "/pots/BB25-1/jars/A2/change",
        "/recipes/R1/change",
        "/batches/AAA/change",
        "/lots",
        "/lots/{lot}/change",
    ];

    [Fact]
    public async Task Every_page_is_accessible_fits_a_phone_and_stays_at_home()
    {
        var page = await browser.OpenAsync();
        var faults = new List<string>();
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(notebook.Address.ToString(), StringComparison.Ordinal))
                faults.Add($"asks {request.Url}");
        };
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning" && !message.Text.Contains("404", StringComparison.Ordinal))
                faults.Add($"{page.Url}: {message.Text}");
        };
        var ids = await IdsAsync();
        foreach (var template in Pages)
        {
            var path = ids.Aggregate(template, (sofar, id) => sofar.Replace(id.Key, id.Value.ToString(), StringComparison.Ordinal));
            await page.GotoAsync(new Uri(notebook.Address, path).ToString());
            var result = await page.RunAxe();
            faults.AddRange(
                result.Violations.Select(violation =>
                    $"{path}: {violation.Id}, {violation.Help}: {string.Join(" | ", violation.Nodes.Take(3).Select(node => node.Html))}"
                )
            );
            var width = await page.EvaluateAsync<int>("document.scrollingElement.scrollWidth");
            if (width > 390)
                faults.Add($"{path}: {width} pixels wide on a screen of 390");
        }

        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults));
    }

    private async Task<IReadOnlyDictionary<string, Guid>> IdsAsync()
    {
        await using var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var jar = await db.Samples.FirstAsync(one => one.Jar == "A2");
        return new Dictionary<string, Guid>
        {
            ["{photo}"] = (await db.Photos.FirstAsync(one => one.Covered != null)).Id,
            ["{paper}"] = (await db.Materials.FirstAsync(one => one.Kind == Notebook.MaterialKind.Paper)).Id,
            ["{step}"] = (await db.Additions.FirstAsync(one => one.SampleId == jar.Id)).Id,
            ["{line}"] = (await db.PotLog.FirstAsync()).Id,
            ["{lot}"] = (await db.PlantLots.FirstAsync()).Id,
        };
    }

    [Fact]
    public async Task A_plan_becomes_a_jar_whose_step_waits_as_a_button_and_a_colour_out_of_reach_is_said_to_be()
    {
        using var posting = new Posting(notebook.Address);
        var plan = WebUtility.HtmlDecode(
            await posting.Client.GetStringAsync(new Uri("/pots/BB25-1/plan?kind=next&jars=1&volume=20&measure=0.1", UriKind.Relative))
        );
        var jar = System
            .Text.RegularExpressions.Regex.Match(
                plan,
                "name=\"Jar\" value=\"(?<jar>[^\"]+)\"",
                System.Text.RegularExpressions.RegexOptions.ExplicitCapture,
                TimeSpan.FromSeconds(1)
            )
            .Groups["jar"]
            .Value;
        Assert.Contains("=", jar, StringComparison.Ordinal);
        var (status, _, next) = await posting.PostAsync(
            "/pots/BB25-1/plan?kind=next&jars=1&volume=20&measure=0.1",
            "/pots/BB25-1/plan/make",
            new Dictionary<string, string>
            {
                ["Title"] = "the next",
                ["VolumeMl"] = "20",
                ["Kind"] = "Free",
                ["Jar"] = jar,
            }
        );
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.StartsWith("/pots/BB25-1/trials/", next, StringComparison.Ordinal);
        Assert.Contains(
            "to add: ",
            WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri(next!, UriKind.Relative))),
            StringComparison.Ordinal
        );
        Assert.Contains(
            $"Added: {MaterialOf(plan)}",
            WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri($"/pots/BB25-1/jars/{next![^1]}1", UriKind.Relative))),
            StringComparison.Ordinal
        );
        Assert.Equal("%PDF-"u8.ToArray(), (await posting.Client.GetByteArrayAsync(new Uri($"{next}/tags.pdf", UriKind.Relative)))[..5]);
        Assert.Contains(
            "cannot be reached",
            await posting.Client.GetStringAsync(new Uri("/wanted?c=%23ff2000", UriKind.Relative)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_mixture_is_planned_from_a_wanted_colour_and_a_batchs_colour_is_kept_and_taken_back()
    {
        using var posting = new Posting(notebook.Address);
        var (status, _, next) = await posting.PostAsync(
            "/wanted?c=%236a7390",
            "/wanted/mix",
            new Dictionary<string, string>
            {
                ["First"] = "BB25-1 A1",
                ["Second"] = "BB25-1 A2",
                ["Share"] = "0.5",
            }
        );
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Contains(
            "to mix: 10 ml of BB25-1 A1 + 10 ml of BB25-1 A2",
            WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri(next!, UriKind.Relative))),
            StringComparison.Ordinal
        );
        Assert.Equal(
            HttpStatusCode.UnprocessableEntity,
            (
                await posting.PostAsync(
                    "/wanted?c=%236a7390",
                    "/wanted/mix",
                    new Dictionary<string, string> { ["First"] = "BB25-1 A1", ["Second"] = "nothing" }
                )
            ).Status
        );

        (status, _, next) = await posting.PostAsync(
            "/batches/AAA/correct?c=40,20,-15",
            "/batches/AAA/colour",
            new Dictionary<string, string> { ["C"] = "40,20,-15" }
        );
        Assert.Equal((HttpStatusCode.Redirect, "/batches/AAA/correct"), (status, next));
        Assert.Contains(
            "The mean of 1 square",
            WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri(next!, UriKind.Relative))),
            StringComparison.Ordinal
        );
        Assert.Contains("batch AAA", await posting.Client.GetStringAsync(new Uri("/differ", UriKind.Relative)), StringComparison.Ordinal);
    }

    private static string MaterialOf(string plan) =>
        System
            .Text.RegularExpressions.Regex.Match(
                plan,
                "<ol class=\"plan\">.*?<p>(?<name>[a-z ]+) <b>",
                System.Text.RegularExpressions.RegexOptions.ExplicitCapture | System.Text.RegularExpressions.RegexOptions.Singleline,
                TimeSpan.FromSeconds(1)
            )
            .Groups["name"]
            .Value;

    [Fact]
    public async Task The_bench_works_without_scripts()
    {
        var page = await browser.OpenAsync(script: false);
        await page.GotoAsync(new Uri(notebook.Address, "/pots/BB25-1/trials/A").ToString());
        await page.GetByRole(AriaRole.Link, new() { Name = "A1", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "iron sulfate", Exact = true }).ClickAsync();
        await page.GetByLabel("Another amount").FillAsync("half a shoe");
        await page.GetByRole(AriaRole.Button, new() { Name = "Added", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".field.wrong")).ToHaveCountAsync(1);

        // The whole caution before the amount is chosen, one line of it once it is in.
        await Assertions.Expect(page.GetByText("Harmful if swallowed").First).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "1 pinch" }).ClickAsync();
        await Assertions.Expect(page.Locator(".bench")).ToContainTextAsync("iron sulfate");
        await Assertions.Expect(page.Locator("summary", new() { HasText = "Iron sulfate – Warning" }).First).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("Harmful if swallowed").First).ToBeHiddenAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take back: iron sulfate 1 pinch" }).ClickAsync();
        await Assertions.Expect(page.Locator(".bench")).ToContainTextAsync("nothing added yet");
    }
}
