using Dyewort.Quantities;
using Dyewort.Workshop;
using Dyewort.Workshop.Trials;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Trials;

/// <summary>One step of a jar put right. Every deed leads back to the step's own page, where it can be undone.</summary>
public sealed class StepPages : IPages
{
    private const string Own = "/pots/{code}/jars/{jar}/steps/{id:guid}";

    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            Own,
            (string code, string jar, Guid id, ShowStep show, CancellationToken cancel) => ShowAsync(code, jar, id, show, cancel)
        );
        app.MapPost(
            Own,
            (
                HttpContext http,
                string code,
                string jar,
                Guid id,
                [FromForm] ChangeStepForm form,
                ChangeStep change,
                ShowStep show,
                CancellationToken cancel
            ) => DoAsync(http, code, jar, id, () => change.CorrectAsync(code, jar, id, form, cancel), show, cancel)
        );
        app.MapPost(
            $"{Own}/move",
            (
                HttpContext http,
                string code,
                string jar,
                Guid id,
                [FromForm] IFormCollection form,
                ChangeStep change,
                ShowStep show,
                CancellationToken cancel
            ) => DoAsync(http, code, jar, id, () => change.MoveAsync(code, jar, id, form["To"], cancel), show, cancel)
        );
        app.MapPost(
            $"{Own}/withdraw",
            (
                HttpContext http,
                string code,
                string jar,
                Guid id,
                [FromForm] WithdrawForm form,
                ChangeStep change,
                ShowStep show,
                CancellationToken cancel
            ) => DoAsync(http, code, jar, id, () => change.WithdrawAsync(code, jar, id, form, cancel), show, cancel)
        );
        app.MapPost(
            $"{Own}/back",
            (
                HttpContext http,
                string code,
                string jar,
                Guid id,
                [FromForm] IFormCollection _,
                ChangeStep change,
                ShowStep show,
                CancellationToken cancel
            ) => DoAsync(http, code, jar, id, () => change.PutBackAsync(code, jar, id, cancel), show, cancel)
        );
        app.MapPost(
            $"{Own}/undo",
            (
                HttpContext http,
                string code,
                string jar,
                Guid id,
                [FromForm] IFormCollection _,
                ChangeStep change,
                ShowStep show,
                CancellationToken cancel
            ) => DoAsync(http, code, jar, id, () => change.UndoAsync(code, jar, id, cancel), show, cancel)
        );
    }

    private static Task<IResult> DoAsync(
        HttpContext http,
        string code,
        string jar,
        Guid id,
        Func<Task<Outcome<Guid>>> work,
        ShowStep show,
        CancellationToken cancel
    ) => Show.PostedAsync(http, work, made => $"/pots/{code}/jars/{jar}/steps/{made}", () => ShowAsync(code, jar, id, show, cancel));

    private static async Task<IResult> ShowAsync(string code, string jar, Guid id, ShowStep show, CancellationToken cancel) =>
        await show.HandleAsync(code, jar, id, cancel) is { } answer
            ? Show.Page<StepPage>(new { Answer = answer })
            : Show.Missing($"Jar {jar} of pot {code} has no such step.");
}
