using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>What a jar and its trial say of pH, of sights and of amounts meant in another kitchen.</summary>
public sealed class BenchWordsPageTests
{
    private const string Pot = "/pots/BB25-1";

    [Fact]
    public async Task An_earlier_pH_and_an_earlier_sight_stay_readable_with_their_time_and_the_trial_says_before_what_the_pH_was_tested()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var posting = new Posting(own.Address);
        var trial = await SplitAsync(posting);
        var jar = $"{Pot}/jars/{trial[^1..]}1";
        await AddAsync(own, posting, jar, "alum", "¼ tsp");
        await posting.PostAsync(jar, $"{jar}/seen", new Dictionary<string, string> { ["Ph"] = "4.5", ["Saw"] = "fizzed" });
        var first = await GetAsync(posting, jar);
        Assert.Contains("pH 4.5 by strip", first, StringComparison.Ordinal);
        Assert.DoesNotContain("before, ", first, StringComparison.Ordinal);

        await posting.PostAsync(
            jar,
            $"{jar}/seen",
            new Dictionary<string, string>
            {
                ["Ph"] = "5",
                ["PhBy"] = "Meter",
                ["Words"] = "clear by noon",
            }
        );
        var second = await GetAsync(posting, jar);
        Assert.Contains("<span class=\"measured\">pH 5 by meter</span>", second, StringComparison.Ordinal);
        Assert.Contains("<span class=\"said\">clear by noon</span>", second, StringComparison.Ordinal);
        Assert.Matches(@"before, \d+ \w+ \d{4}, \d\d:\d\d: pH 4.5 by strip", second);
        Assert.Matches(@"before, \d+ \w+ \d{4}, \d\d:\d\d: fizzed", second);

        Assert.DoesNotContain("before bicarbonate", await GetAsync(posting, trial), StringComparison.Ordinal);
        await AddAsync(own, posting, jar, "bicarbonate of soda", "1 pinch");
        Assert.Contains("pH 5 before bicarbonate of soda", Plain(await GetAsync(posting, trial)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_metric_step_is_said_and_repeated_as_metric_in_a_US_kitchen()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var posting = new Posting(own.Address);
        var trial = await SplitAsync(posting);
        var jar = $"{Pot}/jars/{trial[^1..]}1";
        await AddAsync(own, posting, jar, "alum", "½ tsp");
        await posting.PostAsync("/settings", "/settings", new Dictionary<string, string> { ["Teaspoon"] = "UsCustomary" });

        var page = await GetAsync(posting, jar);
        Assert.Contains("Again: alum ½ metric tsp", Plain(page), StringComparison.Ordinal);
        var again = PageForm.Of(page, jar).First(form => form.Fields.Any(field => field.Value == "½ metric tsp"));
        await posting.PostAsync(jar, again.Action, Fields(again));
        var steps = await own.LookAsync(async db =>
        {
            var sample = await db.Samples.SingleAsync(one => one.Jar == jar.Substring(jar.LastIndexOf('/') + 1));
            return await db.Additions.Where(one => one.SampleId == sample.Id).OrderBy(one => one.Step).ToListAsync();
        });
        Assert.Equal(2, steps.Count);
        Assert.Equal(steps[0].Amount.Ml, steps[1].Amount.Ml);
        Assert.Equal(steps[0].Amount.Grams, steps[1].Amount.Grams);
        Assert.Contains("alum 1 metric tsp", Plain(await GetAsync(posting, trial)), StringComparison.Ordinal);

        // Kept as it stands, a step stays what it was.
        var step = $"{jar}/steps/{steps[0].Id}";
        var form = PageForm.Of(await GetAsync(posting, step), step).First(one => one.Action == step);
        Assert.Contains(form.Fields, field => field is { Name: "Amount", Value: "½ metric tsp" });
        await posting.PostAsync(step, step, Fields(form));
        var kept = await own.LookAsync(db => db.Additions.SingleAsync(one => one.Id == steps[0].Id));
        Assert.Equal(steps[0].Amount, kept.Amount);
    }

    [Fact]
    public async Task Taking_a_step_back_in_all_jars_names_the_painted_squares_of_all_of_them()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var posting = new Posting(own.Address);
        var trial = await SplitAsync(posting);
        var letter = trial[^1..];
        var jar = $"{Pot}/jars/{letter}1";
        await AddAsync(own, posting, jar, "alum", "¼ tsp", everywhere: true);
        var (_, _, chart) = await posting.PostAsync($"{trial}/sheet", $"{trial}/sheet", new Dictionary<string, string>());
        var code = chart![(chart!.LastIndexOf('/') + 1)..];
        Assert.DoesNotContain("Taken back in all jars", await GetAsync(posting, jar), StringComparison.Ordinal);
        await posting.PostAsync(trial, $"{trial}/painted", new Dictionary<string, string>());
        var page = Plain(await GetAsync(posting, jar));
        Assert.Contains($"It was in when {code} {letter}1 was painted", page, StringComparison.Ordinal);
        Assert.Contains($"Taken back in all jars, it is not in {code} {letter}2 either.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mixture_says_that_each_of_its_inks_is_kept_and_asks_for_no_name()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var posting = new Posting(own.Address);
        var trial = await SplitAsync(posting);
        var letter = trial[^1..];
        var (_, body, mixed) = await posting.PostAsync(
            "/wanted",
            "/wanted/mix",
            new Dictionary<string, string>
            {
                ["First"] = $"BB25-1 {letter}1",
                ["Second"] = $"BB25-1 {letter}2",
                ["Share"] = "0.75",
            }
        );
        Assert.True(mixed is not null, body);
        var square = await own.LookAsync(async db =>
        {
            var jar = await db.Samples.SingleAsync(one => one.MixedWithId != null);
            return await db.Swatches.FirstAsync(one => one.SampleId == jar.Id);
        });
        var page = await GetAsync(posting, $"/recipes/keep?swatch={square.Id}");
        Assert.DoesNotContain(PageForm.Of(page, "/recipes/keep"), form => form.Posts);
        Assert.Contains($"15 ml of {letter}1 + 5 ml of {letter}2", Plain(page), StringComparison.Ordinal);
        Assert.Contains($">Keep jar {letter}2</a>", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_here_says_the_way_on_and_a_litre_is_a_litre_everywhere()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var posting = new Posting(own.Address);
        using var answer = await posting.Client.GetAsync(new Uri("/plants/moonweed", UriKind.Relative));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        var missing = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains("Nothing of “moonweed” was painted", missing, StringComparison.Ordinal);
        Assert.Contains("href=\"/plants\"", missing, StringComparison.Ordinal);

        var (_, _, pot) = await posting.PostAsync(
            "/pots/new?again=BB25-1",
            "/pots/new",
            new Dictionary<string, string> { ["Plant"] = "black bean", ["Again"] = "BB25-1" }
        );
        await posting.PostAsync(pot!, $"{pot}/log", new Dictionary<string, string> { ["Ml"] = "1260", ["Kind"] = "Strained" });
        var page = Plain(await GetAsync(posting, pot!));
        Assert.Contains("1.26 L left", page, StringComparison.Ordinal);
        Assert.DoesNotContain("1260 ml", page, StringComparison.Ordinal);
    }

    private static async Task<string> SplitAsync(Posting posting)
    {
        var (_, body, next) = await posting.PostAsync(
            $"{Pot}/trials/new",
            $"{Pot}/trials/new",
            new Dictionary<string, string>
            {
                ["Jars"] = "2",
                ["VolumeMl"] = "20",
                ["Title"] = "said twice",
                ["MoreThanWritten"] = "yes",
            }
        );
        Assert.True(next is not null, body);
        return next!;
    }

    private static async Task AddAsync(
        OwnNotebook own,
        Posting posting,
        string jar,
        string material,
        string amount,
        bool everywhere = false
    )
    {
        var id = await own.LookAsync(async db => (await db.Materials.SingleAsync(one => one.Name == material)).Id);
        var fields = new Dictionary<string, string>
        {
            ["Material"] = id.ToString(),
            ["Amount"] = amount,
            ["Meant"] = "yes",
        };
        if (everywhere)
            fields["All"] = "yes";
        var (status, body, _) = await posting.PostAsync(jar, $"{jar}/add", fields);
        Assert.True(status == HttpStatusCode.Redirect, body);
    }

    // The token is the posting's own.
    private static Dictionary<string, string> Fields(PageForm form) =>
        form.AsItStands().Where(pair => !pair.Key.StartsWith("__", StringComparison.Ordinal)).ToDictionary();

    private static async Task<string> GetAsync(Posting posting, string path) =>
        WebUtility.HtmlDecode(await posting.Client.GetStringAsync(new Uri(path, UriKind.Relative)));

    private static string Plain(string html) => Regex.Replace(Regex.Replace(html, "<[^>]*>", ""), @"\s+", " ");
}
