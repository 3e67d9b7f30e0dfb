using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>A real browser taps twice, loads again and goes back.</summary>
public sealed class BackButtonTests(Browser browser) : IClassFixture<Browser>
{
    [Theory]
    [InlineData("Elderberry", false)]
    [InlineData("Weld", true)]
    public async Task Tapping_twice_and_loading_again_make_one_pot(string plant, bool script)
    {
        var page = await browser.OpenAsync(script: script);
        await page.GotoAsync("/pots/new");
        var name = page.GetByLabel("Plant", new() { Exact = true });
        var send = page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" });
        await name.FillAsync(plant);
        await send.DblClickAsync();
        await Assertions.Expect(page.Locator("#log")).ToBeVisibleAsync();
        var made = page.Url;
        await page.ReloadAsync();
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var pots = await (
            from pot in db.Pots
            join lot in db.PlantLots on pot.LotId equals lot.Id
            join material in db.Materials on lot.PlantId equals material.Id
            where material.Name == plant
            select pot.Code
        ).ToListAsync();
        Assert.EndsWith($"/{Assert.Single(pots)}", made, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_written_is_not_written_again_by_going_back_and_sending_what_stands_there()
    {
        var page = await browser.OpenAsync();
        await page.GotoAsync("/pots/new");
        await page.GetByLabel("Plant", new() { Exact = true }).FillAsync("Buckthorn");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" }).ClickAsync();
        await page.GetByLabel("What you see or do").FillAsync("seen once");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).DblClickAsync();
        await Assertions.Expect(page.Locator("#log")).ToContainTextAsync("seen once");
        await page.GoBackAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await page.WaitForLoadStateAsync();
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        Assert.Equal(1, await db.PotLog.CountAsync(entry => entry.Said == "seen once"));
    }
}
