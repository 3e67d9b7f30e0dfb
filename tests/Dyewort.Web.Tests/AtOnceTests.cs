using System.Net;
using Microsoft.EntityFrameworkCore;
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

    private static async Task PostAllAsync(Tab tab, string page, string action, params (string Name, string Value)[] typed)
    {
        var forms = new List<PageForm>();
        for (var one = 0; one < Many; one++)
            forms.Add(await tab.FindAsync(page, action));
        var answers = await Task.WhenAll(forms.Select(form => tab.PostAsync(form.Action, form.With(typed))));
        Assert.All(answers, answer => Assert.True(answer.Status == HttpStatusCode.Found, $"{action}: {answer.Status} {answer.Body}"));
    }
}
