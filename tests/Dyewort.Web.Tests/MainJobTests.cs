using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Readings;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The whole main job by hand on a phone's screen, from an empty notebook.</summary>
public sealed class MainJobTests(Browser browser) : IClassFixture<Browser>
{
    private static readonly Dictionary<string, Lab> Wet = new()
    {
        ["A1"] = new(38, 22, -8),
        ["B1"] = new(34, 16, -22),
        ["A2"] = new(44, -8, -6),
        ["B2"] = new(62, 20, 40),
    };

    private static readonly Dictionary<string, Lab> Dry = new()
    {
        ["A1"] = new(43, 17, -9),
        ["B1"] = new(38, 13, -21),
        ["A2"] = new(48, -6, 2),
        ["B2"] = new(66, 18, 38),
    };

    [Fact]
    public async Task From_an_empty_notebook_to_a_label_whose_code_opens_the_bottle()
    {
        var page = await browser.OpenAsync();
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning" && !message.Text.Contains("422", StringComparison.Ordinal))
                complaints.Add(message.Text);
        };

        // The pantry.
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Stock the pantry" }).ClickAsync();
        foreach (var name in (string[])["alum", "iron sulfate", "cotton paper 300 g", "bottle 30 ml"])
            await page.GetByLabel(name, new() { Exact = true }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "I have these" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Additions" })).ToBeVisibleAsync();

        // A pot; a slip is told beside its field, and what was typed stays.
        await page.GotoAsync("/pots/new");
        await page.GetByLabel("Plant", new() { Exact = true }).FillAsync("Elderberry");
        await page.GetByLabel("How much plant").FillAsync("plenty");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" }).ClickAsync();
        await Assertions.Expect(page.Locator("#f-PlantGrams-why")).ToContainTextAsync("“plenty” does not say how many.");
        await Assertions.Expect(page.GetByLabel("Plant", new() { Exact = true })).ToHaveValueAsync("Elderberry");
        await page.GetByLabel("How much plant").FillAsync("900");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the pot" }).ClickAsync();
        var potAddress = page.Url;
        await page.GetByLabel("Liquor there is now").FillAsync("1540");
        await page.GetByLabel("What you see or do").FillAsync("dark purple-red");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
        await Assertions.Expect(page.Locator("#log")).ToContainTextAsync("dark purple-red");

        // Four samples.
        await page.GetByRole(AriaRole.Link, new() { Name = "Split into samples" }).ClickAsync();
        await page.GetByLabel("How many jars").FillAsync("4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Pour them" }).ClickAsync();
        await Assertions.Expect(page.Locator(".jar")).ToHaveCountAsync(4);

        // Two quarter teaspoons and one taken back.
        await page.GotoAsync($"{potAddress}/jars/A2");
        await page.GetByRole(AriaRole.Link, new() { Name = "alum", Exact = true }).ClickAsync();
        await Assertions.Expect(page.GetByText("Irritates eyes")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "¼ tsp", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".bench")).ToContainTextAsync("alum 0.988 g");
        await Assertions.Expect(page.Locator(".bench")).ToContainTextAsync("4.94 g in 100 ml");
        await page.GetByRole(AriaRole.Button, new() { Name = "¼ tsp", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".bench")).ToContainTextAsync("that is ½ level teaspoon in this jar so far");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take back: alum ¼ tsp" }).ClickAsync();
        await Assertions.Expect(page.Locator(".bench")).ToContainTextAsync("alum 0.988 g");
        await Assertions.Expect(page.Locator("s")).ToContainTextAsync("alum ¼ tsp");

        // The sheet.
        await page.GotoAsync($"{potAddress}/trials/A/sheet");
        await page.GetByLabel("Paper", new() { Exact = true }).SelectOptionAsync("cotton paper 300 g");
        await page.GetByRole(AriaRole.Button, new() { Name = "Lay it out" }).ClickAsync();
        Assert.EndsWith("/charts/C1", page.Url, StringComparison.Ordinal);
        var printed = await page.APIRequest.GetAsync(new Uri(browser.Address, "/charts/C1/sheet.pdf").ToString());
        var pdf = await printed.BodyAsync();
        Assert.Equal("%PDF", System.Text.Encoding.ASCII.GetString(pdf, 0, 4));

        // Two photos of it.
        var layout = await LayoutAsync();
        foreach (var (state, paint) in new[] { ("wet", Wet), ("dry", Dry) })
        {
            await page.GetByLabel("Photo or scan")
                .SetInputFilesAsync(
                    new FilePayload
                    {
                        Name = "IMG_0001.jpg",
                        MimeType = "image/jpeg",
                        Buffer = PaintedSheet.Photograph(pdf, layout, paint),
                    }
                );
            await page.GetByLabel(state, new() { Exact = true }).CheckAsync();
            await page.GetByText("More about this photo").ClickAsync();
            await page.GetByLabel("The bare paper's colour").FillAsync("#ffffff");
            await page.GetByRole(AriaRole.Button, new() { Name = "Send it" }).ClickAsync();
            await Assertions.Expect(page.Locator(".chart")).ToBeVisibleAsync();
        }

        await Assertions.Expect(page.Locator("#A1")).ToContainTextAsync("lighter");
        await Assertions.Expect(page.Locator(".chart .pair img")).ToHaveCountAsync(8);
        await HoldsAsync(SwatchState.Wet, Wet);
        await HoldsAsync(SwatchState.Dry, Dry);

        // Keep one, carry it to a volume, make the batch, fill the bottles.
        await page.Locator("#B1").GetByRole(AriaRole.Link, new() { Name = "Keep this one" }).ClickAsync();
        await page.GetByLabel("What you call it").FillAsync("Dusk Elder");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await page.Locator("#f-to").FillAsync("1.2 L");
        await page.GetByRole(AriaRole.Button, new() { Name = "Work it out" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("59.3 g");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start the batch" }).ClickAsync();
        await page.GetByLabel("How many", new() { Exact = true }).FillAsync("3");
        await page.GetByRole(AriaRole.Button, new() { Name = "Fill them" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Print the labels" }).ClickAsync();

        // The label's code, read by others, opens the right bottle.
        var labels = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Button, new() { Name = "Make the PDF" }).ClickAsync()
        );
        var codes = PrintedCodes.Read(await File.ReadAllBytesAsync(await labels.PathAsync()));
        Assert.Equal(3, codes.Distinct(StringComparer.Ordinal).Count());
        await using (var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb())
        {
            var bottle = await db.Bottles.OrderBy(one => one.Number).LastAsync();
            await page.GotoAsync(
                Assert.Single(codes.Distinct(StringComparer.Ordinal), code => code.EndsWith($"/b/{bottle.Code}", StringComparison.Ordinal))
            );
            await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync(bottle.Code);
        }

        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("Dusk Elder");
        await Assertions.Expect(page.Locator(".thread")).ToContainTextAsync("Elderberry");
        await Assertions.Expect(page.Locator(".thread")).ToContainTextAsync("Chart C1");
        Assert.Empty(complaints);
    }

    private async Task<SheetLayout> LayoutAsync()
    {
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        Assert.True(SheetLayout.Parse("layout", (await db.Charts.SingleAsync()).LayoutJson).TryGet(out var layout));
        return layout;
    }

    private async Task HoldsAsync(SwatchState state, Dictionary<string, Lab> painted)
    {
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var read = await (
            from reading in db.Readings
            join swatch in db.Swatches on reading.SwatchId equals swatch.Id
            where reading.State == state
            select new
            {
                swatch.Cell,
                reading.Colour,
                reading.UncertaintyDe00,
            }
        ).ToListAsync();
        Assert.Equal(4, read.Count);
        foreach (var one in read)
        {
            var difference = Difference.Ciede2000(painted[one.Cell], Lab.FromXyz(one.Colour));
            Assert.True(difference <= 3, $"{one.Cell} {state}: ΔE00 {difference:0.0}, said ± {one.UncertaintyDe00:0.0}.");
        }
    }
}
