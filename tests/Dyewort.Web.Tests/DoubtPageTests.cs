using System.Net;
using System.Reflection;
using Dyewort.Notebook;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Routing;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>What hardly anybody means is asked once more, in the form it was typed into; a yes keeps it, and nothing that was typed is
/// lost.</summary>
public sealed class DoubtPageTests
{
    private sealed record Doubted(string Page, string Route, string Says, params (string Name, string Value)[] Typed);

    [Fact]
    public async Task Every_form_that_may_be_doubted_asks_and_takes_a_yes()
    {
        await using var own = await OwnNotebook.OpenAsync();
        var (alum, lot, line, step) = await own.LookAsync(async db =>
            (
                await db.Materials.Where(one => one.Name == "alum").Select(one => one.Id).SingleAsync(),
                await db.Pots.Where(one => one.Code == "BB25-1").Select(one => one.LotId).SingleAsync(),
                await db
                    .PotLog.Where(one => one.Kind == LogKind.Strained)
                    .OrderBy(one => one.Id)
                    .Select(one => new { one.Id, one.PotId })
                    .FirstAsync(),
                await (
                    from addition in db.Additions
                    join sample in db.Samples on addition.SampleId equals sample.Id
                    join pot in db.Pots on sample.PotId equals pot.Id
                    where pot.Code == "BB25-1" && sample.Jar == "A2" && addition.WithdrawnAt == null
                    orderby addition.Id
                    select addition.Id
                ).FirstAsync()
            )
        );
        var lineOf = await own.LookAsync(db => db.Pots.Where(one => one.Id == line.PotId).Select(one => one.Code).SingleAsync());
        var bottle = await own.LookAsync(db => db.Bottles.Where(one => one.GoneOn == null).Select(one => one.Code).FirstAsync());
        const string Long = "1900-01-01";
        Doubted[] cases =
        [
            new("/pots/new", "/pots/new", "1900-01-01 is 126 years ago.", ("Plant", "woad"), ("MadeOn", Long), ("How", "as ever")),
            new("/pots/new", "/pots/new", "200 kg of plant", ("Plant", "woad"), ("PlantGrams", "200 kg"), ("How", "in one go")),
            new("/pots/BB25-1", "/pots/{code}/log", "are poured away", ("Ml", "90 L"), ("Kind", "PouredAway"), ("Said", "onto the roses")),
            new("/pots/BB25-1", "/pots/{code}/log", "more than went into the pot", ("Ml", "90 L"), ("Kind", "Strained"), ("Said", "all")),
            new("/pots/BB25-1/stove", "/pots/{code}/stove/log", "more than went into", ("Ml", "90 L"), ("Kind", "Reduced"), ("Said", "no")),
            new($"/pots/{lineOf}/log/{line.Id}/change", "/pots/{code}/log/{part:guid}/change", "more than went into", ("Ml", "95 L")),
            new("/pots/BB25-1/change", "/pots/{code}/change", "more than any pot holds", ("LiquidMl", "400 L"), ("How", "boiled")),
            new($"/lots/{lot}/change", "/lots/{code:guid}/change", "more than a cartload", ("Grams", "900 kg"), ("Note", "a barn full")),
            new("/lots", "/lots/{id:guid}", "more than a cartload", ("DriedFromGrams", "900 kg"), ("DriedToGrams", "100 kg")),
            new("/pots/BB25-1/jars/A2", "/pots/{code}/jars/{jar}/add", "dissolve", ("Material", $"{alum}"), ("Amount", "90 g")),
            new($"/pots/BB25-1/jars/A2/steps/{step}", "/pots/{code}/jars/{jar}/steps/{id:guid}", "dissolve", ("Amount", "90 g")),
            new("/pots/BB25-1/jars/A2/change", "/pots/{code}/jars/{part}/change", "years ago", ("PouredAt", "1999-09-09T09:09")),
            new("/pots/BB25-1/trials/A/change", "/pots/{code}/trials/{part}/change", "years ago", ("SetOutOn", Long)),
            new("/recipes/R1", "/recipes/{code}/lines", "dissolve", ("Material", $"{alum}"), ("Amount", "90 g"), ("For", "100 ml")),
            new("/recipes/R1?to=20+ml", "/recipes/{code}/batches", "years ago", ("MadeOn", Long), ("MoreThanWritten", "yes")),
            new($"/b/{bottle}/change", "/b/{code}/change", "would hold", ("FillMl", "4 L"), ("Place", "a cask")),
            new("/batches/AAA", "/batches/{code}/measured", "were planned", ("LiquorMl", "500 L"), ("Note", "a barrel")),
            new("/batches/AAA", "/batches/{code}/measured", "were planned", ("Step1", "9 kg"), ("Note", "a sack")),
            new("/charts/C1/change", "/charts/{code}/change", "years ago", ("PaintedOn", Long), ("Title", "old squares")),
            new("/batches/AAA/change", "/batches/{code}/change", "were planned", ("LiquorMl", "400 L"), ("Note", "barrels")),
        ];
        using var tab = new Tab(own.Address);
        foreach (var one in cases)
        {
            var action = await ActionAsync(tab, one);
            var form = await tab.FindAsync(one.Page, action);
            var (status, body, _) = await tab.PostAsync(action, form.With(one.Typed));
            Assert.True(status == HttpStatusCode.UnprocessableEntity, $"{one.Page} with {one.Typed[0]}: {status}");
            var says = string.Join(
                ' ',
                WebUtility.HtmlDecode(body).Split("role=\"alert\">").Skip(1).Select(note => note.Split("</div>")[0])
            );
            Assert.True(says.Contains(one.Says, StringComparison.Ordinal), $"{one.Page}: {says}");
            var again = PageForm.Of(body, one.Page).First(shown => shown.Posts && shown.Action == action && Asks(shown));
            Assert.All(PageForm.Of(body, one.Page).Where(Asks), shown => Assert.Equal(action, shown.Action));

            // Whatever was typed stands there still; a button's own amount is pressed again.
            foreach (var (name, value) in one.Typed.Where(typed => again.Fields.Any(field => field.Name == typed.Name)))
                if (name != "Amount" || !one.Route.EndsWith("/add", StringComparison.Ordinal))
                    Assert.Equal((one.Page, value), (one.Page, again.AsItStands().Single(field => field.Key == name).Value));
            (status, body, _) = await tab.PostAsync(action, again.With([.. one.Typed, ("Meant", "yes")]));
            Assert.True(status == HttpStatusCode.Redirect, $"{one.Page} on a yes: {status}");
            Assert.Equal(HttpStatusCode.OK, (await tab.LoadAsync(one.Page)).Status);
        }

        // The batch of another harvest passes its question on to the same use case.
        var asking = own
            .Services.GetRequiredService<EndpointDataSource>()
            .Endpoints.OfType<RouteEndpoint>()
            .Where(endpoint =>
                endpoint.Metadata.GetMetadata<MethodInfo>() is { } method
                && method.GetParameters().Any(parameter => parameter.ParameterType.IsAssignableTo(typeof(IDoubtable)))
            )
            .Select(endpoint => endpoint.RoutePattern.RawText!)
            .Except(["/pots/{code}/harvest/batches"])
            .Order(StringComparer.Ordinal);
        Assert.Equal(asking, cases.Select(one => one.Route).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_yes_stays_while_something_else_is_put_right()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync("/pots/new", "/pots/new");
        var (status, body, _) = await tab.PostAsync(
            "/pots/new",
            form.With(("Plant", "woad"), ("MadeOn", "1900-01-01"), ("LiquidMl", "lots"), ("Meant", "yes"))
        );
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        var again = PageForm.Of(body, "/pots/new").Single(one => one.Posts && one.Action == "/pots/new");
        Assert.Contains(KeyValuePair.Create("Meant", "yes"), again.AsItStands());
        Assert.Equal(HttpStatusCode.Redirect, (await tab.PostAsync("/pots/new", again.With(("LiquidMl", "4 L")))).Status);
    }

    [Fact]
    public async Task A_share_of_a_second_pot_that_was_not_chosen_is_not_dropped()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync("/recipes/R1?to=20+ml", "/batches");
        var (status, body, _) = await tab.PostAsync(form.Action, form.With(("SecondVolume", "5 ml"), ("MoreThanWritten", "yes")));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("“5 ml” is to come from a second pot, and none was chosen.", WebUtility.HtmlDecode(body), StringComparison.Ordinal);
        Assert.Contains("value=\"5 ml\"", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_per_cent_more_than_is_left_is_taken_and_not_called_more_than_measured()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var pot = (await tab.PostAsync("/pots/new", (await tab.FindAsync("/pots/new", "/pots/new")).With(("Plant", "woad")))).Next!;
        var log = await tab.FindAsync(pot, "/log");
        Assert.Equal(HttpStatusCode.Redirect, (await tab.PostAsync(log.Action, log.With(("Ml", "100 ml")))).Status);
        var split = await tab.FindAsync($"{pot}/trials/new", "/trials/new");
        Assert.Equal(
            HttpStatusCode.UnprocessableEntity,
            (await tab.PostAsync(split.Action, split.With(("Jars", "1"), ("VolumeMl", "103")))).Status
        );
        Assert.Equal(HttpStatusCode.Redirect, (await tab.PostAsync(split.Action, split.With(("Jars", "1"), ("VolumeMl", "102")))).Status);
        Assert.DoesNotContain("More was poured than was measured", (await tab.LoadAsync(pot)).Body, StringComparison.Ordinal);
        Assert.Equal(
            HttpStatusCode.Redirect,
            (await tab.PostAsync(split.Action, split.With(("Jars", "1"), ("VolumeMl", "5"), ("MoreThanWritten", "yes")))).Status
        );
        Assert.Contains("More was poured than was measured", (await tab.LoadAsync(pot)).Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Liquor_that_nobody_measured_is_no_more_than_went_into_the_pot()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var pot = (
            await tab.PostAsync(
                "/pots/new",
                (await tab.FindAsync("/pots/new", "/pots/new")).With(("Plant", "woad"), ("PlantGrams", "100 g"), ("LiquidMl", "900 ml"))
            )
        ).Next!;
        var split = await tab.FindAsync($"{pot}/trials/new", "/trials/new");
        var (status, body, _) = await tab.PostAsync(split.Action, split.With(("Jars", "90"), ("VolumeMl", "90")));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("90 jars of 90 ml take 8.1 L", WebUtility.HtmlDecode(body), StringComparison.Ordinal);
    }

    private static async Task<string> ActionAsync(Tab tab, Doubted one)
    {
        var ending = one.Route.Split('/')[^1];
        var (status, body) = await tab.LoadAsync(one.Page);
        Assert.True(status == HttpStatusCode.OK, $"{one.Page}: {status}");
        var forms = PageForm.Of(body, one.Page).Where(form => form.Posts).ToList();
        return ending.StartsWith('{')
            ? forms.First(form => form.Fields.Any(field => field.Name == one.Typed[0].Name)).Action
            : forms.First(form => form.Action.EndsWith($"/{ending}", StringComparison.Ordinal)).Action;
    }

    private static bool Asks(PageForm form) => form.Fields.Any(field => field.Name == nameof(IDoubtable.Meant));
}
