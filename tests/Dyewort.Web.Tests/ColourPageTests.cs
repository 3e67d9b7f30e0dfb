using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The page of one colour, on a phone's screen.</summary>
public sealed class ColourPageTests(Browser browser) : IClassFixture<Browser>
{
    [Fact]
    public async Task A_typed_colour_is_shown_in_all_its_ways_without_script()
    {
        var page = await browser.OpenAsync(script: false);
        await page.GotoAsync("/colour");
        await page.GetByLabel("Colour", new() { Exact = true }).FillAsync("dark greyish purpel");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Did you mean “dark grayish purple”?")).ToBeVisibleAsync();

        await page.GetByLabel("Colour", new() { Exact = true }).FillAsync("5P 4/8");
        await page.GetByLabel("Beside another colour").FillAsync("#d9b94a");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show it" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "moderate purple" })).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("dl.facts")).ToContainTextAsync("5P 4/8");
        await Assertions.Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = "1 part in 4" })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Rowheader, new() { Name = "1 to 1" })).ToBeVisibleAsync();
        Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 390, "The page is wider than the phone.");
    }

    [Fact]
    public async Task The_page_of_a_colour_has_no_barrier_that_a_machine_can_find()
    {
        var page = await browser.OpenAsync();
        await page.GotoAsync("/colour?c=%235b3f7a&with=5Y%208/8");
        var found = await page.RunAxe();
        Assert.True(
            found.Violations.Length == 0,
            string.Join("; ", found.Violations.Select(violation => $"{violation.Id}: {violation.Help}"))
        );
    }
}
