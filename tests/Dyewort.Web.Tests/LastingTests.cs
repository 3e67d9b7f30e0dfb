using System.Net;
using System.Text.RegularExpressions;
using Dyewort.Making;
using Dyewort.Notebook;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Nothing that stands in the notebook breaks a page for good, and what hardly anybody means is asked about before it stands
/// there.</summary>
public sealed partial class LastingTests
{
    [Fact]
    public async Task A_jar_asks_before_it_takes_what_hardly_anybody_means_and_keeps_it_on_a_yes()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var alum = await own.LookAsync(db => db.Materials.FirstAsync(one => one.Name == "alum"));
        var before = await own.LookAsync(db => db.Additions.CountAsync());
        var page = $"/pots/BB25-1/jars/A1?add={alum.Id}";
        var form =
            (await tab.FindAsync(page, "/add")) is var first && first.Fields.Any(field => field.Name == "Other")
                ? first
                : PageForm.Of((await tab.LoadAsync(page)).Body, page).First(one => one.Fields.Any(field => field.Name == "Other"));
        Assert.DoesNotContain(form.Fields, field => field.Name == "Meant");
        var asked = await tab.PostAsync(form.Action, form.With(("Amount", ""), ("Other", "60 g")));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, asked.Status);
        Assert.Contains(" dissolve.", asked.Body, StringComparison.Ordinal);
        Assert.Equal(before, await own.LookAsync(db => db.Additions.CountAsync()));

        var again = PageForm.Of(asked.Body, page).First(one => one.Fields.Any(field => field.Name == "Other"));
        Assert.Equal("60 g", again.Fields.Single(field => field.Name == "Other").Value);
        var done = await tab.PostAsync(again.Action, again.With(("Amount", ""), ("Meant", "yes")));
        Assert.Equal(HttpStatusCode.Found, done.Status);
        Assert.Equal(
            60,
            await own.LookAsync(db => db.Additions.OrderByDescending(one => one.Id).Select(one => one.Amount.Grams).FirstAsync())
        );
        Assert.DoesNotContain("Yes, I mean that", (await tab.LoadAsync(done.Next!)).Body, StringComparison.Ordinal);

        var beyond = await tab.PostAsync(again.Action, form.With(("Amount", ""), ("Other", "1000 kg"), ("Meant", "yes")));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, beyond.Status);
        Assert.Contains("No jar holds 1000 kg.", beyond.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_recipe_takes_no_line_that_no_tank_holds()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var recipe = await own.LookAsync(db => db.Recipes.FirstAsync());
        var alum = await own.LookAsync(db => db.Materials.FirstAsync(one => one.Name == "alum"));
        var form = await tab.FindAsync($"/recipes/{recipe.Code}", "/lines");
        foreach (var amount in new[] { "99999 l", "99999 kg", "99999 tbsp" })
        {
            var refused = await tab.PostAsync(form.Action, form.With(("Material", $"{alum.Id}"), ("Amount", amount), ("For", "20 ml")));
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
            Assert.Contains("more than any pot holds", refused.Body, StringComparison.Ordinal);
        }
    }

    /// <summary>What earlier programs let in.</summary>
    [Fact]
    public async Task Every_page_opens_although_a_jar_a_recipe_and_a_batch_hold_what_cannot_be()
    {
        await using var own = await OwnNotebook.OpenAsync(patience: TimeSpan.FromSeconds(1));
        var recipe = await own.LookAsync(async db =>
        {
            var now = TimeProvider.System.GetUtcNow();
            var alum = await db.Materials.FirstAsync(one => one.Name == "alum");
            var jar = await db.Samples.FirstAsync(one => one.Jar == "A2");
            var kept = await db.Recipes.FirstAsync();
            var batch = await db.Batches.FirstAsync();
            db.AddRange(
                new Addition
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    SampleId = jar.Id,
                    MaterialId = alum.Id,
                    Step = 90,
                    At = now,
                    Amount = Amount("1000 kg", 1e6, null),
                },
                new RecipeStep
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    RecipeId = kept.Id,
                    Step = 90,
                    MaterialId = alum.Id,
                    Name = "alum",
                    Amount = Amount("99999 l", 99_999_000, 99_999_000),
                },
                new BatchStep
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    BatchId = batch.Id,
                    Step = 90,
                    MaterialId = alum.Id,
                    Name = "alum",
                    Planned = Amount("99999 l", null, 99_999_000),
                    Measured = Amount("99999 kg", 99_999_000, null),
                }
            );
            await db.SaveChangesAsync();
            return kept.Code;
        });
        using var tab = new Tab(own.Address);
        var todo = new Queue<string>([
            $"/recipes/{recipe}",
            $"/recipes/{recipe}?to=1000000%20ml",
            $"/recipes/{recipe}?to=0.0001%20ml",
            "/wanted?c=%236a7390",
            "/plants/black%20bean",
            "/pots/BB25-1/plan",
            "/",
        ]);
        var seen = todo.ToHashSet(StringComparer.Ordinal);
        var broken = new List<string>();
        while (todo.TryDequeue(out var page))
        {
            using var answer = await tab.Client.GetAsync(page);
            if ((int)answer.StatusCode >= 500)
                broken.Add(page);
            if (answer.Content.Headers.ContentType?.MediaType != "text/html")
                continue;
            var body = await answer.Content.ReadAsStringAsync();
            foreach (var link in Link().Matches(body).Select(match => WebUtility.HtmlDecode(match.Groups["to"].Value)))
            {
                if (seen.Count < 140 && Uri.UnescapeDataString(link).Split('/') is { Length: < 7 } && seen.Add(link))
                    todo.Enqueue(link);
            }
        }

        Assert.True(seen.Count > 80, $"Only {seen.Count} pages were found.");
        Assert.True(broken.Count == 0, $"Broken: {string.Join(", ", broken)}.");
    }

    private static MeasuredAmount Amount(string text, double? grams, double? ml)
    {
        Assert.True(Quantities.Amount.Parse("amount", text).TryGet(out var amount));
        return MeasuredAmount.Of(amount, grams, ml: ml);
    }

    [GeneratedRegex("href=\"(?<to>/(?!assets)[^\"#]*)", RegexOptions.ExplicitCapture, 5000)]
    private static partial Regex Link();
}
