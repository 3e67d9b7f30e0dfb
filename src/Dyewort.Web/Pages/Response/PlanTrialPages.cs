using Dyewort.Quantities;
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
        app.MapGet("/pots/{code}/plan", ShowAsync);
        app.MapPost(
            "/pots/{code}/plan/make",
            (
                HttpContext http,
                string code,
                [FromForm] IFormCollection form,
                MakePlan make,
                PlanTrial plan,
                OfferTrial offer,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
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
                    () => ShowAsync(code, new(), plan, offer, notebook, cancel)
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

    private static async Task<IResult> ShowAsync(
        string code,
        [AsParameters] TrialQuery query,
        PlanTrial plan,
        OfferTrial offer,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        var trials = await notebook.HandleAsync(cancel);
        if (await offer.HandleAsync(code, trials, cancel) is not { } desk)
            return Show.Missing($"There is no pot {code} in this notebook.");
        if (!desk.Pot.Counts || desk.StillLearning || string.IsNullOrWhiteSpace(query.Kind))
            return Show.Page<PlanTrialPage>(new { Desk = desk, Form = query });
        var typed = query.Read(desk);
        if (!typed.TryGet(out var form))
            return Refused(desk, query, typed.Problems);
        if (await plan.HandleAsync(form, trials, cancel) is not { } outcome)
            return Show.Page<PlanTrialPage>(new { Desk = desk with { StillLearning = true }, Form = query });
        return outcome.TryGet(out var made)
            ? Show.Page<PlanTrialPage>(
                new
                {
                    Desk = desk,
                    Plan = made,
                    Form = query,
                }
            )
            : Refused(desk, query, outcome.Problems);
    }

    private static IResult Refused(OfferTrialAnswer desk, TrialQuery query, IReadOnlyList<Problem> problems) =>
        Show.Page<PlanTrialPage>(
            new
            {
                Desk = desk,
                Form = query,
                Refused = problems,
            },
            StatusCodes.Status422UnprocessableEntity
        );
}
