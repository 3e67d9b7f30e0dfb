using System.Net;
using Dyewort.Web.Components;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Once is once: what a form says is written down one time, however often it comes.</summary>
public sealed class OnceTests
{
    private const string Pot = "/pots/BB25-1";

    [Fact]
    public async Task A_form_that_comes_again_gets_the_same_answer_and_writes_nothing_even_after_a_restart()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync(Pot, "/log");
        var said = form.With(("Said", "a double tap"));
        var first = await tab.PostAsync(form.Action, said);
        Assert.Equal((HttpStatusCode.Found, $"{Pot}#log"), (first.Status, first.Next));
        var second = await tab.PostAsync(form.Action, said);
        Assert.Equal((first.Status, first.Next), (second.Status, second.Next));

        // Nobody is to believe that it was done twice; it is said once.
        Assert.Contains("is written down once", (await tab.LoadAsync(Pot)).Body, StringComparison.Ordinal);
        Assert.DoesNotContain("is written down once", (await tab.LoadAsync(Pot)).Body, StringComparison.Ordinal);

        await own.RestartAsync();
        using var later = new Tab(own.Address);
        var fresh = await later.FindAsync(Pot, "/log");
        var again = said.Where(field => !field.Key.StartsWith("__", StringComparison.Ordinal))
            .Concat(fresh.AsItStands().Where(field => field.Key.StartsWith("__", StringComparison.Ordinal)));
        var third = await later.PostAsync(form.Action, again);
        Assert.Equal((first.Status, first.Next), (third.Status, third.Next));
        Assert.Equal(1, await SaidAsync(own, "a double tap"));
    }

    [Fact]
    public async Task Equal_forms_that_come_at_one_moment_write_one_entry()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync(Pot, "/log");
        var said = form.With(("Said", "eight at once"));
        var all = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => tab.PostAsync(form.Action, said)));
        Assert.All(all, answer => Assert.Equal((HttpStatusCode.Found, $"{Pot}#log"), (answer.Status, answer.Next)));
        Assert.Equal(1, await SaidAsync(own, "eight at once"));
    }

    [Fact]
    public async Task A_request_that_the_browser_dropped_is_either_done_or_not_begun()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        for (var turn = 0; turn < 12; turn++)
        {
            var form = await tab.FindAsync(Pot, "/log");
            var said = form.With(("Said", $"dropped {turn}"));
            using (var impatient = new CancellationTokenSource())
            {
                var first = tab.PostAsync(form.Action, said, cancel: impatient.Token);
                await Task.Delay(turn);
                await impatient.CancelAsync();
                await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
                {
                    await first;
                    throw new OperationCanceledException("It was quicker.");
                });
            }

            var second = await tab.PostAsync(form.Action, said);
            Assert.Equal((HttpStatusCode.Found, $"{Pot}#log"), (second.Status, second.Next));
            Assert.Equal(1, await SaidAsync(own, $"dropped {turn}"));
        }
    }

    [Fact]
    public async Task A_refused_form_may_be_corrected_and_the_page_that_shows_it_again_carries_a_mark()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync($"{Pot}/trials/new", "/trials/new");
        var wrong = form.With(("Jars", "two"), ("VolumeMl", "1"), ("Title", "put right"));
        var refused = await tab.PostAsync(form.Action, wrong);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await tab.PostAsync(form.Action, wrong)).Status);
        var shown = Assert.Single(PageForm.Of(refused.Body, form.Action), one => one.Posts);
        Assert.NotEqual(MarkOf(form), MarkOf(shown));
        var right = shown.With(("Jars", "2"));
        var done = await tab.PostAsync(shown.Action, right);
        Assert.Equal(HttpStatusCode.Found, done.Status);
        Assert.Equal(done.Next, (await tab.PostAsync(shown.Action, right)).Next);
        Assert.Equal(1, await own.LookAsync(db => db.Trials.CountAsync(trial => trial.Title == "put right")));
    }

    [Fact]
    public async Task Another_button_of_the_same_page_is_another_deed()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync(Pot, "/log");
        foreach (var words in new[] { "first thought", "second thought", "first thought" })
            Assert.Equal(HttpStatusCode.Found, (await tab.PostAsync(form.Action, form.With(("Said", words)))).Status);
        Assert.Equal(1, await SaidAsync(own, "first thought"));
        Assert.Equal(1, await SaidAsync(own, "second thought"));
    }

    [Fact]
    public async Task A_form_without_a_mark_is_taken_as_ever()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync(Pot, "/log");
        var bare = form.With(("Said", "from an old page")).Where(field => field.Key != FormMark.Name).ToList();
        for (var time = 0; time < 2; time++)
            Assert.Equal(HttpStatusCode.Found, (await tab.PostAsync(form.Action, bare)).Status);
        Assert.Equal(2, await SaidAsync(own, "from an old page"));
    }

    [Fact]
    public async Task A_picture_that_is_sent_twice_lies_there_once()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var picture = await own.LookAsync(async db =>
        {
            var photo = await db.Photos.FirstAsync(one => one.ChartId != null);
            return await File.ReadAllBytesAsync(Path.Combine(own.Folder, "photos", photo.Sha256[..2], $"{photo.Sha256}.{photo.Extension}"));
        });
        var before = await own.LookAsync(db => db.Readings.CountAsync());
        var photos = await own.LookAsync(db => db.Photos.CountAsync());
        var form = await tab.FindAsync("/charts/C1", "/photo");
        var sent = form.With(("State", "Dry"), ("PaperColour", "#ffffff"));
        var files = new Dictionary<string, byte[]> { ["Picture"] = picture };
        var both = await Task.WhenAll(tab.PostAsync(form.Action, sent, files), tab.PostAsync(form.Action, sent, files));
        Assert.All(both, answer => Assert.Equal(HttpStatusCode.Found, answer.Status));
        Assert.Equal(both[0].Next, both[1].Next);
        Assert.Equal(photos + 1, await own.LookAsync(db => db.Photos.CountAsync()));
        Assert.True(await own.LookAsync(db => db.Readings.CountAsync()) > before);
        Assert.Equal(1, await own.LookAsync(db => db.AnsweredForms.CountAsync()));
    }

    [Fact]
    public async Task Forms_that_were_answered_long_ago_are_forgotten_and_nothing_else()
    {
        await using var own = await OwnNotebook.OpenAsync();
        var now = TimeProvider.System.GetUtcNow();
        await own.LookAsync(async db =>
        {
            foreach (var (mark, days) in new[] { ("a", 89), ("b", 91) })
                db.Add(
                    new Store.AnsweredForm
                    {
                        Mark = mark,
                        AnsweredAt = now - TimeSpan.FromDays(days),
                        LedTo = "/",
                    }
                );
            return await db.SaveChangesAsync();
        });
        var pots = await own.LookAsync(db => db.Pots.CountAsync());
        await own.RestartAsync();
        Assert.Equal(["a"], await own.LookAsync(db => db.AnsweredForms.Select(one => one.Mark).ToListAsync()));
        Assert.Equal(pots, await own.LookAsync(db => db.Pots.CountAsync()));
    }

    private static string MarkOf(PageForm form) => form.Fields.Single(field => field.Name == FormMark.Name).Value!;

    private static Task<int> SaidAsync(OwnNotebook own, string words) =>
        own.LookAsync(db => db.PotLog.CountAsync(entry => entry.Said == words));
}
