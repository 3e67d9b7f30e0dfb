using System.Net;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using SkiaSharp;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>A photo whose page cannot be found is kept, and the maker points to the swatches: with a finger, with keys, and without
/// scripts.</summary>
public sealed class PointingTests(SeasonNotebook notebook, Browser browser) : IClassFixture<SeasonNotebook>, IClassFixture<Browser>
{
    [Fact]
    public async Task Nothing_is_lost_when_no_page_is_found()
    {
        using var posting = new Posting(notebook.Address);
        var (status, _, next) = await posting.PostAsync(
            "/charts/C1",
            "/charts/C1/photo",
            new Dictionary<string, string> { ["State"] = "Dry" },
            Plain()
        );
        Assert.Equal(HttpStatusCode.Found, status);
        Assert.EndsWith("/place", next, StringComparison.Ordinal);
        var page = WebUtility.HtmlDecode(await posting.Client.GetStringAsync(next));
        Assert.Contains("The photo is kept.", page, StringComparison.Ordinal);
        Assert.Contains("marker", page, StringComparison.Ordinal);
        Assert.Contains("Not read yet", await posting.Client.GetStringAsync("/charts/C1"), StringComparison.Ordinal);

        // A slip keeps what was typed.
        var (again, body, _) = await posting.PostAsync(
            next!,
            next!,
            new Dictionary<string, string>
            {
                ["Way"] = "Grid",
                ["Corner1"] = "over there",
                ["Corner2"] = "500, 20",
                ["Columns"] = "2",
                ["Rows"] = "2",
            }
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, again);
        Assert.Contains("value=\"over there\"", body, StringComparison.Ordinal);
        Assert.Contains("Four corners", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_finger_and_keys_move_the_handles_and_the_swatches_are_read_there()
    {
        var place = await WaitingAsync();
        var page = await browser.OpenAsync();
        await page.GotoAsync(new Uri(notebook.Address, $"{place}?Way=Sheet").ToString());
        await Assertions.Expect(page.Locator(".point-tools")).ToBeVisibleAsync();

        // The season's photos have their page's corners at these shares of the picture.
        (double X, double Y)[] corners = [(0.09, 0.07), (0.90, 0.09), (0.93, 0.93), (0.06, 0.95)];
        for (var i = 0; i < 4; i++)
        {
            await page.Locator(".stage").ScrollIntoViewIfNeededAsync();
            var (from, to) = (
                await AtAsync(page, 0, 0, $"#f-Corner{i + 1}"),
                await AtAsync(page, corners[i].X * 1200, corners[i].Y * 1600)
            );
            await page.Mouse.MoveAsync((float)from.X, (float)from.Y);
            await page.Mouse.DownAsync();
            await page.Mouse.MoveAsync((float)to.X, (float)to.Y, new() { Steps = 4 });
            await page.Mouse.UpAsync();
        }

        await page.Locator(".stage").FocusAsync();
        var before = await page.Locator("#f-Corner4").InputValueAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        Assert.NotEqual(before, await page.Locator("#f-Corner4").InputValueAsync());
        await page.Keyboard.PressAsync("ArrowLeft");
        await page.GetByRole(AriaRole.Button, new() { Name = "Read it there" }).ClickAsync();
        await Assertions.Expect(page.Locator("img.marked")).ToBeVisibleAsync();
        await using var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb();
        var id = Guid.Parse(new Uri(page.Url).Segments[^1]);
        var tapped = await db.Readings.Where(reading => reading.PhotoId == id).ToListAsync();
        Assert.NotEmpty(tapped);
        foreach (var reading in tapped)
        {
            var byMarkers = await db.Readings.FirstAsync(one =>
                one.SwatchId == reading.SwatchId && one.PhotoId != id && one.State == Notebook.SwatchState.Dry && one.PolygonJson != null
            );
            Assert.InRange(Colour.Difference.Ciede2000(Colour.Lab.FromXyz(reading.Colour), Colour.Lab.FromXyz(byMarkers.Colour)), 0, 2);
        }
    }

    [Fact]
    public async Task Two_clicks_set_a_corner_without_scripts()
    {
        var place = await WaitingAsync();
        var page = await browser.OpenAsync(script: false);
        await page.GotoAsync(new Uri(notebook.Address, $"{place}?Way=Sheet").ToString());
        await page.GetByRole(AriaRole.Button, new() { Name = "Top right corner" }).ClickAsync();
        await page.Locator("input[type=image]")
            .ClickAsync(
                new()
                {
                    Position = new() { X = 290, Y = 40 },
                }
            );

        // Pixels: 290 of 320 shown are 1087 of 1200; the part shown next is 266 pixels wide and as far right as it goes.
        await Assertions.Expect(page.GetByText("Now click it exactly.")).ToBeVisibleAsync(new() { Timeout = 30_000 });
        await page.Locator("input[type=image]")
            .ClickAsync(
                new()
                {
                    Position = new() { X = 160, Y = 160 },
                }
            );
        await Assertions.Expect(page.GetByText("Click it on the photo.")).ToBeVisibleAsync(new() { Timeout = 30_000 });
        var value = (await page.Locator("#f-Corner2").InputValueAsync()).Split(',');
        Assert.InRange(int.Parse(value[0].Trim()), 1060, 1092);
        Assert.InRange(int.Parse(value[1].Trim()), 140, 160);
        await Assertions.Expect(page.Locator(".by-click .act.main")).ToHaveTextAsync("Bottom right corner");
    }

    [Fact]
    public async Task A_touch_drags_the_lowest_corner_with_the_lens_in_sight_and_is_taken_back()
    {
        var place = await WaitingAsync();
        var page = await browser.OpenAsync(touch: true);
        await page.GotoAsync(new Uri(notebook.Address, $"{place}?Way=Sheet").ToString());
        await Assertions.Expect(page.Locator(".point-tools")).ToBeVisibleAsync();
        await page.Locator(".point-fields").ScrollIntoViewIfNeededAsync();
        var before = await page.Locator("#f-Corner3").InputValueAsync();
        var (x, y) = await AtAsync(page, 0, 0, "#f-Corner3");
        var touch = await page.Context.NewCDPSessionAsync(page);
        async Task Send(string type, double atX, double atY) =>
            await touch.SendAsync(
                "Input.dispatchTouchEvent",
                new()
                {
                    ["type"] = type,
                    ["touchPoints"] =
                        type == "touchEnd"
                            ? Array.Empty<object>()
                            : new object[]
                            {
                                new Dictionary<string, object> { ["x"] = atX, ["y"] = atY },
                            },
                }
            );

        // Held at the edge of its ring, and pulled straight up, which must not scroll the page.
        await Send("touchStart", x + 19, y);
        for (var step = 1; step <= 8; step++)
            await Send("touchMove", x + 19, y - (5 * step));
        Assert.True((await page.Locator(".lens").BoundingBoxAsync())!.Y >= 0, "The larger view is out of sight while the finger drags.");
        await Send("touchEnd", 0, 0);
        var (toX, toY) = await AtAsync(page, 0, 0, "#f-Corner3");
        Assert.InRange(toX - x, -2, 2);
        Assert.InRange(toY - y, -42, -38);
        var box = (await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).BoundingBoxAsync())!;
        Assert.True(box.Height >= 40 && box.Width >= 40);
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).TapAsync();
        Assert.Equal(before, await page.Locator("#f-Corner3").InputValueAsync());
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));
    }

    [Fact]
    public async Task Keys_take_a_swatch_out_and_bring_it_back_and_a_list_gives_it_another_name()
    {
        var place = await WaitingAsync();
        var page = await browser.OpenAsync(1280, 900);
        await page.GotoAsync(new Uri(notebook.Address, $"{place}?Way=Spots").ToString());
        var fields = page.Locator("[data-place]");
        await Assertions.Expect(page.Locator(".point-tools")).ToBeVisibleAsync();
        await page.Locator(".stage").FocusAsync();
        var names = await fields.EvaluateAllAsync<string[]>("all => all.map(one => one.name)");
        while (await page.Locator("[data-rename]").InputValueAsync() != names[0])
            await page.Keyboard.PressAsync("Enter");
        if (await fields.Nth(0).InputValueAsync() == "")
            await page.Keyboard.PressAsync("ArrowRight");
        var first = await fields.Nth(0).InputValueAsync();
        var second = await fields.Nth(1).InputValueAsync();
        Assert.NotEqual(first, second);
        await page.Keyboard.PressAsync("Delete");
        Assert.Equal("", await fields.Nth(0).InputValueAsync());
        await page.Keyboard.PressAsync("Control+z");
        Assert.Equal(first, await fields.Nth(0).InputValueAsync());
        await page.Locator("[data-rename]").SelectOptionAsync(names[1]);
        Assert.Equal(second, await fields.Nth(0).InputValueAsync());
        Assert.Equal(first, await fields.Nth(1).InputValueAsync());
        await page.Locator(".stage").FocusAsync();
        await page.Keyboard.PressAsync("Shift+Enter");
        Assert.Equal(names[0], await page.Locator("[data-rename]").InputValueAsync());
    }

    /// <summary>One of the season's own photos, sent once more to be pointed to.</summary>
    private async Task<string> WaitingAsync()
    {
        byte[] picture;
        await using (var db = (await SqliteNotebook.OpenAsync(notebook.Folder, TimeProvider.System, CancellationToken.None)).NewDb())
        {
            var photo = await db.Photos.FirstAsync(one =>
                one.State == Notebook.SwatchState.Dry && one.WhyNotRead == null && one.PlacingJson == null
            );
            picture = await File.ReadAllBytesAsync(
                Path.Combine(notebook.Folder, "photos", photo.Sha256[..2], $"{photo.Sha256}.{photo.Extension}")
            );
        }

        using var posting = new Posting(notebook.Address);
        var (status, _, next) = await posting.PostAsync(
            "/charts/C1",
            "/charts/C1/photo",
            new Dictionary<string, string> { ["State"] = "Dry", ["Point"] = "yes" },
            picture
        );
        Assert.Equal(HttpStatusCode.Found, status);
        return next!;
    }

    /// <summary>Where on the screen a place of the photo is; that of a field's own point when one is named.</summary>
    private static async Task<(double X, double Y)> AtAsync(IPage page, double x, double y, string? field = null)
    {
        if (field is not null)
        {
            var parts = (await page.Locator(field).InputValueAsync()).Split(',');
            (x, y) = (double.Parse(parts[0]), double.Parse(parts[1]));
        }

        var at = await page.EvaluateAsync<double[]>(
            "([x, y]) => { const p = new DOMPoint(x, y).matrixTransform(document.querySelector('.stage').getScreenCTM()); return [p.x, "
                + "p.y]; }",
            new[] { x, y }
        );
        return (at[0], at[1]);
    }

    private static byte[] Plain()
    {
        using var plain = new SKBitmap(640, 480);
        plain.Erase(new SKColor(120, 90, 60));
        using var data = plain.Encode(SKEncodedImageFormat.Jpeg, 90);
        return data.ToArray();
    }
}
