using Dyewort.Notebook;
using Dyewort.Workshop;
using Dyewort.Workshop.Trials;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web.Pages.Trials;

/// <summary>Trials and jars put right.</summary>
public sealed class ChangeTrialPages : IPages
{
    private const string Jar = "/pots/{code}/jars/{part}";

    public void Map(IEndpointRouteBuilder app)
    {
        ChangePages.Map<ChangeTrial, Trial, ChangeTrialForm>(app, "/pots/{code}/trials/{part}", ThingKind.Trial, TrialAsync);
        ChangePages.Map<ChangeJar, Sample, ChangeJarForm>(app, Jar, ThingKind.Jar, JarAsync);
        app.MapPost(
            $"{Jar}/change/plan",
            (HttpContext http, string code, string part, [FromForm] IFormCollection form, ChangeJar change, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => change.PlanAsync(Thing.Jar(code, part), form["Planned"], cancel),
                    ChangePages.Of,
                    async () =>
                        await change.ShowAsync(Thing.Jar(code, part), cancel) is { } answer
                            ? await JarAsync(http, change, answer)
                            : Show.Missing($"Pot {code} has no jar {part}.")
                )
        );
    }

    private static async Task<IResult> TrialAsync(HttpContext http, ChangeTrial change, ChangeAnswer<Trial> answer)
    {
        var shown = await http
            .RequestServices.GetRequiredService<ShowTrial>()
            .HandleAsync(answer.Thing.Code, answer.Thing.Part, http.RequestAborted);
        return Show.Page<ChangeTrialPage>(new { Answer = answer, Jars = shown!.Jars.Select(jar => jar.Sample.Jar).ToList() });
    }

    private static async Task<IResult> JarAsync(HttpContext http, ChangeJar change, ChangeAnswer<Sample> answer) =>
        Show.Page<ChangeJarPage>(
            new
            {
                Answer = answer,
                Touched = await change.TouchedAsync(answer.Entry, http.RequestAborted),
                PouredAt = change.PouredAt(answer.Entry),
                Planned = await change.PlannedAsync(answer.Entry, http.RequestAborted),
            }
        );
}
