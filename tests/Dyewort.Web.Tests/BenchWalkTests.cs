using Dyewort.Colour;
using Dyewort.Readings;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>The ordinary loop of the trade on a phone's screen, from an empty notebook: a measure, stir, look, paint a square, another
/// measure, paint again. About 90 ml a sample and steps of ¼ teaspoon are common practice, no source.</summary>
public sealed class BenchWalkTests(Browser browser, ITestOutputHelper output) : IClassFixture<Browser>
{
    [Fact]
    public async Task Six_jars_are_stepped_painted_read_kept_scaled_and_made_again()
    {
        var page = await browser.OpenAsync();
        var walk = new Walk(page);
        await walk.GoAsync("/pantry");
        foreach (var name in (string[])["alum", "bicarbonate of soda", "cotton paper 300 g", "bottle 30 ml"])
            await page.GetByLabel(name, new() { Exact = true }).CheckAsync();
        await walk.PressAsync("I have these");

        // A pot in a kitchen's words.
        await walk.GoAsync("/pots/new");
        await walk.TypeAsync("Plant", "Red cabbage");
        await walk.TypeAsync("How much plant", "½ head");
        await walk.TypeAsync("How much liquid", "4 litres");
        await walk.PressAsync("Start the pot");
        var pot = new Uri(page.Url).AbsolutePath;
        await page.Locator("#f-Ml").FillAsync("14 cups");
        await walk.PressAsync("Write it down");
        await Assertions.Expect(page.Locator("#log")).ToContainTextAsync("3.5 L");

        // Six jars of 90 ml.
        await walk.GoAsync($"{pot}/trials/new");
        await page.Locator("#f-Jars").FillAsync("6");
        await page.Locator("#f-VolumeMl").FillAsync("90 ml");
        await walk.PressAsync("Pour them");
        await Assertions.Expect(page.Locator(".jar")).ToHaveCountAsync(6);

        // Two additions, a pH and a note for each of six jars: counted.
        var before = walk.Count;
        await walk.FollowAsync("Add to jar A1");
        await walk.FollowAsync("alum");
        await walk.TickAsync("into all 6 jars");
        await walk.PressAsync("¼ tsp");
        await walk.FollowAsync("Something else");
        await walk.FollowAsync("bicarbonate of soda");
        await walk.OpenAsync("pH and what you see");
        await walk.TickAsync("then on to jar");
        foreach (var jar in Enumerable.Range(1, 6))
        {
            await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync($"Jar A{jar}");
            await walk.TypeAsync("pH after it", $"{5 + (0.2 * jar):0.0}");
            await walk.TickAsync("fizzed", first: true);
            await walk.PressAsync("⅛ tsp");
        }

        var (taps, fields, loads) = walk.Count - before;
        output.WriteLine($"Six jars, two additions, pH and note each: {taps} taps, {fields} typed fields, {loads} page loads.");
        Assert.True(taps <= 24 && fields <= 8 && loads <= 20, $"{taps} taps, {fields} fields, {loads} loads");

        // A sheet that keeps four squares in a row for every jar.
        await walk.GoAsync($"{pot}/trials/A/sheet");
        await page.GetByLabel("Squares in a row for each jar").FillAsync("4");
        await page.GetByLabel("Page", new() { Exact = true }).SelectOptionAsync("A4");
        await walk.PressAsync("Lay it out");
        var chart = new Uri(page.Url).AbsolutePath;
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("will open on this machine only");

        // Paint, ¼ teaspoon, paint, ¼ teaspoon …: one tap for all jars, or in one jar by itself.
        await walk.GoAsync($"{pot}/trials/A");
        await walk.PressAsync("I painted the next square of 6 jars");
        foreach (var stage in Enumerable.Range(2, 3))
        {
            await walk.GoAsync($"{pot}/jars/A1");
            await walk.FollowAsync("alum");
            await walk.TickAsync("into all 6 jars");
            await walk.PressAsync("¼ tsp");
            await walk.PressAsync(stage == 2 ? $"I painted it: C1 A1.{stage}" : "all jars", link: stage != 2);
            if (stage == 2)
                await walk.FollowAsync("all jars");
            await walk.PressAsync($"I painted the next square of {(stage == 2 ? 5 : 6)} jars");
        }

        // Something goes in when all is painted: no square changes.
        await walk.GoAsync($"{pot}/jars/A1");
        await walk.PressAsync("Again: alum ¼ tsp");

        var (layout, pdf) = await SheetAsync(page, chart);
        foreach (var (state, lift) in new[] { ("wet", 0.0), ("dry", 5.0) })
        {
            await walk.GoAsync(chart);
            await page.GetByLabel("Photo or scan")
                .SetInputFilesAsync(
                    new FilePayload
                    {
                        Name = "IMG_0002.jpg",
                        MimeType = "image/jpeg",
                        Buffer = PaintedSheet.Photograph(
                            pdf,
                            layout,
                            layout.Cells.ToDictionary(cell => cell.Id, cell => Of(cell.Id, lift))
                        ),
                    }
                );
            await page.GetByLabel(state, new() { Exact = true }).CheckAsync();
            await walk.PressAsync("Send it");
        }

        await Assertions.Expect(page.Locator(".chart > li")).ToHaveCountAsync(24);
        await SaysAsync(page, "A1", "alum ¼ tsp", "bicarbonate of soda ⅛ tsp");
        await SaysAsync(page, "A1.2", "alum ½ tsp");
        await SaysAsync(page, "A1.4", "alum 1 tsp");
        await SaysAsync(page, "A6.3", "alum ¾ tsp");

        // Two colours are kept: what was in the jar when each was painted.
        foreach (var (cell, name, amount) in new[] { ("A1.2", "Early", "½ tsp"), ("A1.4", "Late", "1 tsp") })
        {
            await walk.GoAsync(chart);
            await page.Locator($"[id='{cell}']").GetByRole(AriaRole.Link, new() { Name = "Keep this one" }).ClickAsync();
            await walk.TypeAsync("What you call it", name);
            await walk.PressAsync("Keep it");
            await Assertions.Expect(page.Locator(".plainlist")).ToContainTextAsync($"alum {amount}");
            Assert.Equal(1, await page.Locator(".plainlist li").Filter(new() { HasText = "alum" }).CountAsync());
        }

        // Scaled as people say it; ¼ teaspoon more in the jar than when “Late” was painted plays no part.
        var recipe = new Uri(page.Url).AbsolutePath;
        foreach (var (to, teaspoons) in new[] { ("1.5 L", 1500 / 90.0), ("2 cups", 500 / 90.0), ("1 US gallon", 3785.411784 / 90) })
        {
            await walk.GoAsync($"{recipe}?to={Uri.EscapeDataString(to)}");
            var grams = teaspoons * await GramsAsync("Late");
            await Assertions.Expect(page.Locator("#make")).ToContainTextAsync(Quantities.Mass.FromGrams(grams).ToString());
        }

        // Batch, bottles, labels.
        await walk.GoAsync($"{recipe}?to=600%20ml");
        await walk.PressAsync("Start the batch");
        await page.GetByLabel("How many", new() { Exact = true }).FillAsync("3");
        await walk.PressAsync("Fill them");
        await walk.FollowAsync("Print the labels");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("will open on this machine only");
        var labels = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Button, new() { Name = "Make the PDF" }).ClickAsync()
        );
        Assert.Equal(3, PrintedCodes.Read(await File.ReadAllBytesAsync(await labels.PathAsync())).Distinct(StringComparer.Ordinal).Count());
        // Next year: the same pot again, filled from this one.
        await walk.GoAsync($"{pot}/repeat");
        await walk.FollowAsync("Start this pot again");
        await Assertions.Expect(page.Locator("#f-PlantGrams")).ToHaveValueAsync("½ head");
        Assert.Contains(await page.Locator("#f-LiquidMl").InputValueAsync(), new[] { "4 L", "4 litres", "4000", "4000 ml" });
        await walk.PressAsync("Start the pot");
        Assert.NotEqual(pot, new Uri(page.Url).AbsolutePath);
        await page.Locator("#f-Ml").FillAsync("1.4 L");
        await walk.PressAsync("Write it down");
        var next = new Uri(page.Url).AbsolutePath;

        // A batch of the old recipe from the new pot: more than it holds is refused before anything is started.
        await walk.GoAsync($"{recipe}?to=1.5%20L");
        await page.Locator("#f-Pot").SelectOptionAsync(next.Split('/')[^1]);
        await walk.PressAsync("Start the batch");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("1.4 L");

        // A plain square of either year, read dry: the new harvest is weaker, and a batch of it takes corrected doses.
        await PaintPlainAsync(walk, page, pot, new(38, 26, -4));
        await PaintPlainAsync(walk, page, next, new(64, 14, -1));
        await walk.GoAsync($"{next}/harvest?recipe={recipe.Split('/')[^1]}");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Weaker");
        await page.Locator("#f-Volume").FillAsync("300 ml");
        await walk.PressAsync("Start a batch with these doses");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync($"corrected for pot {next.Split('/')[^1]}: doses × 0.");
        var corrected = new Uri(page.Url).AbsolutePath.Split('/')[^1];
        Assert.InRange(await ShareOfRecipeAsync(corrected, "Late"), 0.2, 0.8);

        // Its trail goes back to the square of last year, and says whose trial that was.
        await Assertions.Expect(page.Locator(".thread")).ToContainTextAsync($"Trial A of {pot.Split('/')[^1]}");
        output.WriteLine($"The whole walk: {walk.Count.Taps} taps, {walk.Count.Fields} typed fields, {walk.Count.Loads} page loads.");
    }

    private static Lab Of(string cell, double lift)
    {
        var jar = cell[1] - '0';
        var stage = cell.Length > 2 ? cell[3] - '0' : 1;
        return new(28 + (4 * jar) + (3 * stage) + lift, 30 - (8 * stage), -26 + (7 * jar));
    }

    private static async Task SaysAsync(IPage page, string cell, params string[] words)
    {
        foreach (var word in words)
            await Assertions.Expect(page.Locator($"[id='{cell}']")).ToContainTextAsync(word);
    }

    /// <summary>Grams of alum in a recipe for 90 ml.</summary>
    private async Task<double> GramsAsync(string recipe)
    {
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        return await (
            from step in db.RecipeSteps
            join one in db.Recipes on step.RecipeId equals one.Id
            where one.Name == recipe && step.Name == "alum"
            select step.Amount.Grams!.Value
        ).SingleAsync();
    }

    /// <summary>Alum in a litre of a batch, as a share of what the recipe says.</summary>
    private async Task<double> ShareOfRecipeAsync(string batch, string recipe)
    {
        var gramsIn90 = await GramsAsync(recipe);
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var planned = await (
            from step in db.BatchSteps
            join one in db.Batches on step.BatchId equals one.Id
            where one.Code == batch && step.Name == "alum"
            select new { step.Planned.Grams, one.PlannedLiquorMl }
        ).SingleAsync();
        return planned.Grams!.Value / planned.PlannedLiquorMl / (gramsIn90 / 90);
    }

    /// <summary>Pours one jar of a pot, paints it as it is and sends the dry photo.</summary>
    private async Task PaintPlainAsync(Walk walk, IPage page, string pot, Lab colour)
    {
        await walk.GoAsync($"{pot}/trials/new");
        await page.Locator("#f-Jars").FillAsync("1");
        await page.Locator("#f-VolumeMl").FillAsync("20 ml");
        await walk.PressAsync("Pour them");
        await walk.FollowAsync("Print the sheet");
        await walk.PressAsync("Lay it out");
        var chart = new Uri(page.Url).AbsolutePath;
        var (layout, pdf) = await SheetAsync(page, chart);
        await page.GetByLabel("Photo or scan")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "IMG_0003.jpg",
                    MimeType = "image/jpeg",
                    Buffer = PaintedSheet.Photograph(pdf, layout, layout.Cells.ToDictionary(cell => cell.Id, _ => colour)),
                }
            );
        await page.GetByLabel("dry", new() { Exact = true }).CheckAsync();
        await walk.PressAsync("Send it");
        await Assertions.Expect(page.Locator(".chart")).ToContainTextAsync("nothing added");
    }

    private async Task<(SheetLayout Layout, byte[] Pdf)> SheetAsync(IPage page, string chart)
    {
        await using var db = (await SqliteNotebook.OpenAsync(browser.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var number = int.Parse(chart.Split("/C")[^1], System.Globalization.CultureInfo.InvariantCulture);
        var sheet = await db.Charts.SingleAsync(one => one.Number == number);
        Assert.True(SheetLayout.Parse("layout", sheet.LayoutJson).TryGet(out var layout));
        var printed = await page.APIRequest.GetAsync(new Uri(browser.Address, $"{chart}/sheet.pdf").ToString());
        return (layout, await printed.BodyAsync());
    }

    /// <summary>A page in a hand: counts what is tapped, typed and loaded.</summary>
    private sealed class Walk
    {
        private readonly IPage page;
        private int taps;
        private int fields;
        private int loads;

        public Walk(IPage page)
        {
            this.page = page;
            page.Load += (_, _) => loads++;
        }

        public Counted Count => new(taps, fields, loads);

        /// <summary>Goes to an address as from a list; counted as a load.</summary>
        public Task GoAsync(string address) => page.GotoAsync(address);

        public async Task PressAsync(string button, bool link = false)
        {
            taps++;
            var role = link ? AriaRole.Link : AriaRole.Button;
            var exact = page.GetByRole(role, new() { Name = button, Exact = true });
            await (await exact.CountAsync() > 0 ? exact : page.GetByRole(role, new() { Name = button })).First.ClickAsync();
            await page.WaitForLoadStateAsync();
        }

        public Task FollowAsync(string link) => PressAsync(link, link: true);

        public async Task TypeAsync(string field, string text)
        {
            fields++;
            await page.Locator("input:visible").And(page.GetByLabel(field, new() { Exact = field == "Plant" })).First.FillAsync(text);
        }

        public async Task TickAsync(string box, bool first = false)
        {
            var tick = page.GetByLabel(box);
            if (await (first ? tick.First : tick).IsCheckedAsync())
                return;
            taps++;
            await (first ? tick.First : tick).CheckAsync();
        }

        public async Task OpenAsync(string summary)
        {
            taps++;
            await page.GetByText(summary).ClickAsync();
        }
    }

    private sealed record Counted(int Taps, int Fields, int Loads)
    {
        public static Counted operator -(Counted one, Counted other) =>
            new(one.Taps - other.Taps, one.Fields - other.Fields, one.Loads - other.Loads);
    }
}
