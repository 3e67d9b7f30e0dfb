using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>A pot at the stove on a phone's screen, without JavaScript: timers, drops, curve, water, the sheet to repeat it from.</summary>
public sealed class StoveTests(Browser browser) : IClassFixture<Browser>
{
    [Fact]
    public async Task A_pot_is_timed_dripped_closed_and_can_be_made_again()
    {
        var page = await browser.OpenAsync(script: false);
        await page.GotoAsync("/pots/new");
        await page.GetByLabel("Plant", new() { Exact = true }).FillAsync("Elderberry");
        await page.GetByLabel("How much plant").FillAsync("900");
        await page.GetByLabel("How much liquid").FillAsync("260");
        await page.GetByLabel("Vessel").FillAsync("S4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" }).ClickAsync();
        var pot = page.Url;

        await page.GetByRole(AriaRole.Link, new() { Name = "At the stove" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("never above 85 °C");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Raw berries sicken");
        await page.GetByRole(AriaRole.Button, new() { Name = "The plant meets the liquid now" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Minute 0");

        // A timer: refused when it is nonsense, kept as an instant when it is not.
        await page.Locator("#f-Minutes").FillAsync("soon");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the timer" }).ClickAsync();
        await Assertions.Expect(page.Locator("#f-Minutes-why")).ToContainTextAsync("“soon” is not a number.");
        await page.Locator("#f-Minutes").FillAsync("15");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the timer" }).ClickAsync();
        await Assertions.Expect(page.Locator("#timers li")).ToContainTextAsync("15 min left");

        await page.GetByLabel("Temperature").FillAsync("92");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Too hot.");

        (string Minute, string Colour)[] drops =
        [
            ("4", "lab(70 14 -4)"),
            ("10", "lab(55 20 -8)"),
            ("20", "lab(46 22 -10)"),
            ("40", "lab(42 22 -10)"),
            ("80", "lab(43 21 -9)"),
        ];
        foreach (var (minute, colour) in drops)
        {
            await page.Locator("#f-Minute").FillAsync(minute);
            await page.Locator("#f-Colour").FillAsync(colour);
            await page.GetByRole(AriaRole.Button, new() { Name = "A drop" }).ClickAsync();
        }

        await Assertions.Expect(page.Locator("#drops tbody tr")).ToHaveCountAsync(5);
        await page.GetByLabel("The pot's inside").SelectOptionAsync("Aluminium");
        await page.GetByLabel("Water from").FillAsync("tap");
        await page.GetByLabel("Its hardness").FillAsync("210");
        await page.GetByLabel("the plant was pressed").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Assertions.Expect(page.GetByLabel("Water from")).ToHaveValueAsync("tap");

        await page.GotoAsync(pot + "/curve");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("95 % of what you will get was there at");
        await Assertions.Expect(page.Locator("svg.curve circle")).ToHaveCountAsync(5);
        await Assertions.Expect(page.Locator("svg.curve polygon")).ToHaveCountAsync(1);
        Assert.Equal(390, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));

        await page.GotoAsync(pot + "/stove");
        await page.GetByLabel("Volume").FillAsync("790");
        await page.Locator("#f-Kind").SelectOptionAsync("Strained");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Too hot.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("790 ml");
        await Assertions.Expect(page.Locator("main")).Not.ToContainTextAsync("Too hot.");
        await page.GotoAsync(pot + "/water");
        await page.GetByLabel("Warm for").FillAsync("0.58");
        await page.GetByLabel("Water from the plant").FillAsync("610");
        await page.GetByLabel("Boiled off").FillAsync("60");
        await page.GetByLabel("Spilt").FillAsync("20");
        await page.GetByRole(AriaRole.Button, new() { Name = "Close the sum" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("The sum closes");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("°C this pot loses");
        await Assertions.Expect(page.Locator("main")).Not.ToContainTextAsync("0.000");

        await page.GotoAsync(pot + "/repeat");
        foreach (
            var needed in (string[])
                [
                    "900 g",
                    "260 ml",
                    "346 g to 100 ml",
                    "aluminium",
                    "hardness 210 mg/L",
                    "790 ml",
                    "an order of magnitude, not measured",
                    "pressed",
                    "the pH of the liquor",
                ]
        )
            await Assertions.Expect(page.Locator("main")).ToContainTextAsync(needed);
        Assert.Equal(390, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));

        // The lot: drawn down, and not for sale while nobody gave leave.
        await page.GotoAsync("/lots");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("0 g left");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("No permission is on file");
    }

    [Fact]
    public async Task A_plan_has_an_address_of_its_own_and_refuses_in_words()
    {
        var page = await browser.OpenAsync(script: false);
        await page.GotoAsync("/pots/plan?Plant=elderberry&Bottles=40&Fill=29ml&Pot=8L&ReduceTo=68");
        await Assertions.Expect(page.Locator("#answer h2")).ToContainTextAsync("of elderberry");
        await Assertions.Expect(page.Locator("#answer")).ToContainTextAsync("never above 85 °C");
        Assert.Equal(390, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
        var refused = await page.GotoAsync("/pots/plan?Plant=moonweed&Liquor=1%20L");
        Assert.Equal(422, refused!.Status);
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("no ratio for moonweed");
        Assert.Equal(404, (await page.GotoAsync("/pots/NO99-1/stove"))!.Status);
    }
}
