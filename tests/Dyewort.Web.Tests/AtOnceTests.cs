using System.Net;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.AspNetCore.Builder;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Web.Tests;

/// <summary>Two tabs, two phones: different forms that come at one moment are all written down, with numbers of their own.</summary>
public sealed class AtOnceTests
{
    private const int Many = 6;

    [Fact]
    public async Task Jars_trials_charts_pots_and_recipes_take_many_forms_at_one_moment()
    {
        await using var own = await OwnNotebook.OpenAsync();
        using var tab = new Tab(own.Address);
        var alum = await own.LookAsync(db => db.Materials.FirstAsync(one => one.Name == "alum"));
        var jar = await own.LookAsync(db => db.Samples.FirstAsync(one => one.Jar == "A1"));
        var recipe = await own.LookAsync(db => db.Recipes.FirstAsync());

        // Every form from a page of its own, so with a mark of its own.
        var steps = await own.LookAsync(db => db.Additions.CountAsync(one => one.SampleId == jar.Id));
        var letters = await own.LookAsync(db => db.Trials.CountAsync());
        var charts = await own.LookAsync(db => db.Charts.CountAsync());
        var pots = await own.LookAsync(db => db.Pots.CountAsync());
        var lines = await own.LookAsync(db => db.RecipeSteps.CountAsync());
        await PostAllAsync(tab, $"/pots/BB25-1/jars/A1?add={alum.Id}", "/add", ("Other", "0.1 g"), ("Amount", ""));
        await PostAllAsync(tab, "/pots/BB25-1/trials/new", "/trials/new", ("Jars", "1"), ("VolumeMl", "0.5"));
        await PostAllAsync(tab, "/pots/BB25-1/trials/A/sheet", "/sheet");
        await PostAllAsync(tab, "/pots/new", "/pots/new", ("Plant", "weld"));
        await PostAllAsync(tab, $"/recipes/{recipe.Code}", "/lines", ("Material", $"{alum.Id}"), ("Amount", "0.1 g"));

        var numbers = await own.LookAsync(db => db.Additions.Where(one => one.SampleId == jar.Id).Select(one => one.Step).ToListAsync());
        Assert.Equal((steps + Many, steps + Many), (numbers.Count, numbers.Distinct().Count()));
        Assert.Equal(letters + Many, await own.LookAsync(db => db.Trials.Select(one => one.Letter).Distinct().CountAsync()));
        Assert.Equal(charts + Many, await own.LookAsync(db => db.Charts.CountAsync()));
        Assert.Equal(pots + Many, await own.LookAsync(db => db.Pots.CountAsync()));
        Assert.Equal(1, await own.LookAsync(db => db.Materials.CountAsync(one => one.Name == "weld")));
        Assert.Equal(lines + Many, await own.LookAsync(db => db.RecipeSteps.CountAsync()));
    }

    [Theory]
    [InlineData(1, HttpStatusCode.Found)]
    [InlineData(int.MaxValue, HttpStatusCode.UnprocessableEntity)]
    public async Task A_number_that_another_program_took_is_taken_anew_and_where_that_fails_too_the_form_is_shown_again(
        int clashes,
        HttpStatusCode status
    )
    {
        var turns = 0;
        OwnNotebook? rival = null;
        await using var own = await OwnNotebook.OpenAsync(app =>
            app.Use(
                (http, next) =>
                {
                    if (http.Request.Method == "POST")
                        http.RequestServices.GetRequiredService<NotebookDb>().SavingChanges += (_, _) =>
                        {
                            if (turns++ < clashes)
                                // The last batch moves onto the number that this one is about to take.
                                rival!
                                    .LookAsync(db =>
                                        db.Database.ExecuteSqlRawAsync(
                                            "UPDATE batches SET Number = Number + 1 WHERE Number = (SELECT max(Number) FROM batches)"
                                        )
                                    )
                                    .GetAwaiter()
                                    .GetResult();
                        };
                    return next(http);
                }
            )
        );
        rival = own;
        var before = await own.LookAsync(db => db.Batches.CountAsync());
        using var tab = new Tab(own.Address);
        var form = await tab.FindAsync("/recipes/R1?to=20+ml", "/batches");
        var answer = await tab.PostAsync(form.Action, form.With(("MoreThanWritten", "yes"), ("MadeOn", "2026-01-02")));
        Assert.Equal(status, answer.Status);
        var made = status == HttpStatusCode.Found ? 1 : 0;
        Assert.Equal(before + made, await own.LookAsync(db => db.Batches.CountAsync()));
        Assert.Equal(2, turns);
        if (made == 0)
        {
            Assert.Contains("Something else was written into the notebook at the same moment", answer.Body, StringComparison.Ordinal);
            Assert.Contains("value=\"2026-01-02\"", answer.Body, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_planned_step_that_was_pressed_in_two_tabs_goes_in_once()
    {
        await using var own = await OwnNotebook.OpenAsync();
        var (jar, material) = await own.LookAsync(async db =>
        {
            var one = await db.Samples.FirstAsync(sample => sample.Jar == "A1");
            var salt = await db.Materials.FirstAsync(of =>
                of.Kind == MaterialKind.Addition && !db.Additions.Any(step => step.SampleId == one.Id && step.MaterialId == of.Id)
            );
            var amount = (await db.Additions.AsNoTracking().FirstAsync(step => step.Amount.Unit == AmountUnit.Gram)).Amount;
            db.Add(
                new PlannedStep
                {
                    Id = Guid.NewGuid(),
                    WrittenAt = DateTimeOffset.UnixEpoch,
                    SampleId = one.Id,
                    MaterialId = salt.Id,
                    Step = 77,
                    Amount = amount with { },
                }
            );
            await db.SaveChangesAsync();
            var code = await db.Pots.Where(pot => pot.Id == one.PotId).Select(pot => pot.Code).SingleAsync();
            return ((one.Id, Page: $"/pots/{code}/jars/A1"), salt.Id);
        });
        using var first = new Tab(own.Address);
        using var second = new Tab(own.Address);
        async Task<PageForm> PlannedAsync(Tab tab) =>
            PageForm
                .Of((await tab.LoadAsync(jar.Page)).Body, jar.Page)
                .Single(form => form.Posts && form.Fields.Any(field => field.Name == "Planned"));
        var (one, other) = (await PlannedAsync(first), await PlannedAsync(second));
        Assert.Equal(HttpStatusCode.Found, (await first.PostAsync(one.Action, one.AsItStands())).Status);
        var late = await second.PostAsync(other.Action, other.AsItStands());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, late.Status);
        Assert.Contains("another window wrote it down", late.Body, StringComparison.Ordinal);
        Assert.Equal(1, await own.LookAsync(db => db.Additions.CountAsync(step => step.SampleId == jar.Id && step.MaterialId == material)));
    }

    private static async Task PostAllAsync(Tab tab, string page, string action, params (string Name, string Value)[] typed)
    {
        var forms = new List<PageForm>();
        for (var one = 0; one < Many; one++)
            forms.Add(await tab.FindAsync(page, action));
        var answers = await Task.WhenAll(forms.Select(form => tab.PostAsync(form.Action, form.With(typed))));
        Assert.All(answers, answer => Assert.True(answer.Status == HttpStatusCode.Found, $"{action}: {answer.Status} {answer.Body}"));
    }
}
