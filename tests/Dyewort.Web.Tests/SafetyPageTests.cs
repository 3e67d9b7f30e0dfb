using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Cautions as a hand meets them, on a phone's screen and without script.</summary>
public sealed class SafetyPageTests(Browser browser) : IClassFixture<Browser>
{
    [Fact]
    public async Task What_must_not_meet_is_asked_for_its_reason_and_the_reason_stays_with_the_step()
    {
        var page = await browser.OpenAsync(script: false);
        foreach (var (name, kind) in new[] { ("hydrogen peroxide 3 %", "Addition"), ("vinegar", "Addition"), ("moon dust", "Addition") })
        {
            await page.GotoAsync("/pantry/new");
            await page.GetByLabel("Name", new() { Exact = true }).FillAsync(name);
            await page.Locator("[name=Kind]").SelectOptionAsync(kind);
            await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        }

        await page.GotoAsync("/pantry");
        await page.Locator("summary", new() { HasText = "Moon dust" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Not in my list").First).ToBeVisibleAsync();

        // A pot of oak galls, one jar of it.
        await page.GotoAsync("/pots/new");
        await page.Locator("[name=Plant]").FillAsync("oak gall");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" }).ClickAsync();
        var pot = new Uri(page.Url).AbsolutePath;
        await page.GotoAsync($"{pot}/trials/new");
        await page.Locator("[name=Jars]").FillAsync("1");
        await page.Locator("[name=VolumeMl]").FillAsync("90");
        await page.GetByRole(AriaRole.Button, new() { Name = "Pour them" }).ClickAsync();
        await page.GotoAsync($"{pot}/jars/A1");
        await AddAsync(page, "hydrogen peroxide 3 %", "1 ml");
        await page.GetByRole(AriaRole.Link, new() { Name = "Something else" }).ClickAsync();

        // The caution stands there before the amount is chosen.
        await page.GetByRole(AriaRole.Link, new() { Name = "vinegar", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#add .note.stop")).ToContainTextAsync("peracetic acid");
        await page.GetByLabel("Another amount").FillAsync("1 ml");
        await page.GetByRole(AriaRole.Button, new() { Name = "Added", Exact = true }).Last.ClickAsync();
        await Assertions.Expect(page.Locator("#add [role=alert]")).ToContainTextAsync("Do not add it to A1.");
        Assert.Equal("1 ml", await page.GetByLabel("Another amount").InputValueAsync());
        await page.Locator("#add").GetByLabel("Why it went in all the same").FillAsync("it was poured before I looked");
        await page.GetByRole(AriaRole.Button, new() { Name = "Added", Exact = true }).Last.ClickAsync();
        await Assertions.Expect(page.Locator("ol.log")).ToContainTextAsync("because: it was poured before I looked");
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 390, "The page is wider than the phone.");
    }

    [Fact]
    public async Task The_safety_page_has_the_makers_own_number_and_no_barrier()
    {
        var page = await browser.OpenAsync();
        await page.GotoAsync("/safety");
        await page.GetByRole(AriaRole.Link, new() { Name = "Write your poison centre's number down now" }).ClickAsync();
        await page.GetByLabel("My poison centre's telephone number").FillAsync("0 12 34 56 (invented)");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await page.GotoAsync("/safety");
        await Assertions.Expect(page.GetByText("Poison centre: 0 12 34 56 (invented)")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("What is not in these lists is not safe")).ToBeVisibleAsync();
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 390, "The page is wider than the phone.");
        var found = await page.RunAxe();
        Assert.True(
            found.Violations.Length == 0,
            string.Join("; ", found.Violations.Select(violation => $"{violation.Id}: {violation.Help}"))
        );
    }

    private static async Task AddAsync(IPage page, string material, string amount)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = material, Exact = true }).ClickAsync();
        await page.GetByLabel("Another amount").FillAsync(amount);
        await page.GetByRole(AriaRole.Button, new() { Name = "Added", Exact = true }).Last.ClickAsync();
    }
}
