using Dyewort.Workshop;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Response;

public sealed class PlanTrialPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/pots/{code}/plan",
            (
                string code,
                string? kind,
                string[]? addition,
                string[]? dose,
                string? jars,
                string? volume,
                string? measure,
                string? title,
                PlanTrial plan,
                CancellationToken cancel
            ) =>
                ShowAsync(
                    code,
                    new()
                    {
                        Kind = kind,
                        Addition = addition ?? [],
                        Dose = dose ?? [],
                        Jars = jars,
                        VolumeMl = volume,
                        Measure = measure,
                        Title = title,
                    },
                    plan,
                    cancel
                )
        );
        app.MapPost(
            "/pots/{code}/plan/make",
            (HttpContext http, string code, [FromForm] IFormCollection form, MakePlan make, PlanTrial plan, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () =>
                        make.HandleAsync(
                            code,
                            new()
                            {
                                Title = form["Title"],
                                VolumeMl = form["VolumeMl"],
                                Paper = form["Paper"],
                                Kind = form["Kind"],
                                Jar = [.. form["Jar"].Select(text => text ?? "")],
                            },
                            cancel
                        ),
                    letter => $"/pots/{code}/trials/{letter}",
                    () => ShowAsync(code, new(), plan, cancel)
                )
        );
        app.MapPost(
            "/wanted/mix",
            (HttpContext http, [FromForm] MakePlan.Mixture form, MakePlan make, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => make.MixAsync(form, cancel),
                    made => $"/pots/{made.Pot}/trials/{made.Letter}",
                    () => Task.FromResult(Show.Page<WantedPage>())
                )
        );
        app.MapGet(
            "/pots/{code}/trials/{letter}/tags.pdf",
            async (string code, string letter, MakePlan make, CancellationToken cancel) =>
            {
                if (await make.TagsAsync(code, letter, cancel) is not { } outcome)
                    return Show.Missing($"Pot {code} has no trial {letter}.");
                return outcome.TryGet(out var pdf)
                    ? Results.File(pdf, "application/pdf", $"tags-{code}-{letter}.pdf")
                    : throw new RefusalException(outcome.Problems);
            }
        );
    }

    private static async Task<IResult> ShowAsync(string code, PlanTrialForm form, PlanTrial plan, CancellationToken cancel)
    {
        if (await plan.LookAsync(code, cancel) is not { } desk)
            return Show.Missing($"There is no pot {code} in this notebook.");
        if (desk.StillLearning || string.IsNullOrWhiteSpace(form.Kind))
            return Show.Page<PlanTrialPage>(new { Desk = desk, Form = form });
        var outcome = await plan.HandleAsync(desk, form, cancel);
        return outcome.TryGet(out var made)
            ? Show.Page<PlanTrialPage>(
                new
                {
                    Desk = desk,
                    Plan = made,
                    Form = form,
                }
            )
            : Show.Page<PlanTrialPage>(
                new
                {
                    Desk = desk,
                    Form = form,
                    Refused = outcome.Problems,
                },
                StatusCodes.Status422UnprocessableEntity
            );
    }
}
