using System.Net;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Timers, drops, charts, strips and bottles are put right, taken back and put back from the pages where they stand.</summary>
public sealed class PutRightEverythingTests
{
    private const string Card =
        "CGATS.17\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 3\n"
        + "BEGIN_DATA\n1 90 0 0\n2 50 0 0\n3 20 0 0\nEND_DATA\n";

    [Fact]
    public async Task What_stands_on_a_page_is_put_right_there_taken_back_and_put_back()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        const string Stove = "/pots/BB25-1/stove";
        async Task<string> MadeAsync(string page, string action, params (string Name, string Value)[] typed)
        {
            var form = await tab.FindAsync(page, action);
            var answer = await tab.PostAsync(form.Action, form.With(typed));
            Assert.True(answer.Status == HttpStatusCode.Found, $"{page}: {answer.Status} {answer.Body}");
            return answer.Next!;
        }

        await MadeAsync(Stove, "/timers", ("Name", "stir it"), ("Minutes", "15"));
        await MadeAsync(Stove, "/drops", ("Minute", "7"), ("Colour", "lab(45 22 -10)"), ("DropSaid", "rose"));
        await MadeAsync("/strips", "/strips/cards", ("Name", "greys of spring"), ("Columns", "3"), ("Rows", "1"), ("File", Card));
        var chart = await MadeAsync("/pots/BB25-1/trials/A/sheet", "/sheet");
        var (timer, drop, strip, bottle) = await own.LookAsync(async db =>
            (
                await db.PotTimers.Where(one => one.Name == "stir it").Select(one => one.Id).SingleAsync(),
                await db.PotDrops.Where(one => one.Said == "rose").Select(one => one.Id).SingleAsync(),
                await db.HouseStrips.Where(one => one.Name == "greys of spring").Select(one => one.Id).SingleAsync(),
                await db.Bottles.Where(one => one.GoneOn == null).OrderBy(one => one.Id).Select(one => one.Code).FirstAsync()
            )
        );
        var batch = await own.LookAsync(db =>
            db.Batches.Where(one => db.Bottles.Any(of => of.BatchId == one.Id && of.Code == bottle)).Select(one => one.Code).SingleAsync()
        );
        chart = chart.Split('#', '?')[0];
        (string Page, string List, string Thing, string Field, string Typed, string Shown)[] all =
        [
            (Stove, Stove, $"/pots/BB25-1/timers/{timer}", "Name", "look at it", "look at it"),
            (Stove, Stove, $"/pots/BB25-1/drops/{drop}", "Minute", "8.5", "8.5"),
            ("/strips", "/strips", $"/strips/{strip}", "Name", "greys of winter", "greys of winter"),
            (chart, "/charts", chart, "Title", "a second sheet", "a second sheet"),
            ($"/b/{bottle}", $"/batches/{batch}", $"/b/{bottle}", "Place", "the cellar", bottle),
        ];
        foreach (var (page, list, thing, field, typed, shown) in all)
        {
            var change = $"{thing}/change";
            Assert.Contains($"href=\"{change}\"", (await tab.LoadAsync(page)).Body, StringComparison.Ordinal);
            Assert.Equal(change, await MadeAsync(change, "/change", (field, typed)));
            Assert.Contains(typed, (await tab.LoadAsync(page)).Body, StringComparison.Ordinal);

            // Taken back it stands struck out, with the way to put it back.
            await MadeAsync(change, "/change/withdraw", ("Why", "by mistake"));
            var struck = (await tab.LoadAsync(list)).Body;
            var line = struck
                .Split("<s>")
                .Skip(1)
                .Select(one => one.Split("</li>")[0])
                .Single(one => one.Contains(shown, StringComparison.Ordinal));
            Assert.Contains($"href=\"{thing}", line, StringComparison.Ordinal);
            Assert.Contains("by mistake", line, StringComparison.Ordinal);
            Assert.Contains($"{change}/back", (await tab.LoadAsync(change)).Body, StringComparison.Ordinal);
            await MadeAsync(change, "/change/back");
            Assert.DoesNotContain("by mistake</span>", (await tab.LoadAsync(list)).Body, StringComparison.Ordinal);

            // The last change is the putting back; undone, it is taken back again, and once more it counts.
            await MadeAsync(change, "/change/undo");
            await MadeAsync(change, "/change/undo");
            Assert.Contains(typed, (await tab.LoadAsync(page)).Body, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_chart_that_was_read_stays_and_says_which_photo_stands_in_the_way()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var page = (await tab.LoadAsync("/charts/C1/change")).Body;
        Assert.Contains("id=\"in-the-way\"", page, StringComparison.Ordinal);
        Assert.Contains("A photo sent on", page, StringComparison.Ordinal);
    }
}
