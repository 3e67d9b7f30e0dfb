using Dyewort.Making;
using Dyewort.Store.Sqlite;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Names as long as they may be, without a gap to break at, on the narrowest phone.</summary>
public sealed class LongNameTests(Browser browser) : IClassFixture<Browser>
{
    private const int Narrow = 360;

    [Fact]
    public async Task The_longest_names_stay_within_the_narrowest_page_and_the_trail_within_its_column()
    {
        var page = await browser.OpenAsync(Narrow, 740);
        await page.GotoAsync("/pots/new");
        await page.GetByLabel("Plant", new() { Exact = true }).FillAsync(new string('W', 60));
        await page.GetByLabel("How much plant").FillAsync("900");
        await page.GetByLabel("How much liquid").FillAsync("260");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" }).ClickAsync();
        var pot = new Uri(page.Url).AbsolutePath;
        Assert.StartsWith("/pots/", pot, StringComparison.Ordinal);
        await using (var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb())
        {
            var now = TimeProvider.System.GetUtcNow();
            db.Add(
                new Recipe
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    Code = "R1",
                    Name = new string('M', 40),
                    BaseVolumeMl = 90,
                    Liquor = new string('W', 60),
                }
            );
            await db.SaveChangesAsync();
        }

        foreach (var path in (string[])["/recipes", "/recipes/R1", "/recipes/R1?to=1.5+L", "/pots", pot])
        {
            await page.GotoAsync(path);
            Assert.True(
                await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= Narrow,
                $"{path} is {await page.EvaluateAsync<int>("document.documentElement.scrollWidth")} px wide"
            );
            Assert.True(
                await page.EvaluateAsync<bool>(
                    "[...document.querySelectorAll('.thread li, .cards > li')].every(one => one.scrollWidth <= one.clientWidth + 1)"
                ),
                $"something sticks out on {path}"
            );
        }
    }
}
