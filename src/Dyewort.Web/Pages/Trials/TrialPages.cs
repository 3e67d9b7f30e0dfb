using Dyewort.Notebook;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Trials;

public sealed class TrialPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/pots/{code}/trials/new", NewAsync);
        app.MapPost(
            "/pots/{code}/trials/new",
            (HttpContext http, string code, [FromForm] SplitPotForm form, SplitPot split, ShowPot show, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => split.HandleAsync(code, form, cancel),
                    letter => $"/pots/{code}/trials/{letter}",
                    () => NewAsync(code, show, cancel)
                )
        );
        app.MapGet(
            "/pots/{code}/trials/{letter}",
            async (string code, string letter, ShowTrial show, CancellationToken cancel) =>
                await show.HandleAsync(code, letter, cancel) is { } answer
                    ? Show.Page<TrialPage>(new { Answer = answer })
                    : Show.Missing($"Pot {code} has no trial {letter}.")
        );
        app.MapGet(
            "/pots/{code}/jars/{jar}",
            (
                string code,
                string jar,
                Guid? add,
                string? step,
                string? on,
                ShowJar show,
                ForetellStep foretell,
                NotebookTrials notebook,
                CancellationToken cancel
            ) => JarAsync(code, jar, add, step, on is not null, show, foretell, notebook, cancel)
        );
        app.MapPost(
            "/pots/{code}/jars/{jar}/add",
            (
                HttpContext http,
                string code,
                string jar,
                [FromForm] AddToSampleForm form,
                AddToSample add,
                ShowJar show,
                ForetellStep foretell,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
            {
                Guid? chosen = Guid.TryParse(form.Material, out var id) ? id : null;
                return Show.PostedAsync(
                    http,
                    () => add.HandleAsync(code, jar, form, cancel),
                    _ =>
                        string.IsNullOrWhiteSpace(form.On)
                            ? $"/pots/{code}/jars/{jar}?add={chosen}"
                            : $"/pots/{code}/jars/{Uri.EscapeDataString(form.On)}?add={chosen}&on=yes",
                    () => JarAsync(code, jar, chosen, null, form.On is not null, show, foretell, notebook, cancel)
                );
            }
        );
        app.MapPost(
            "/pots/{code}/trials/{letter}/painted",
            (
                HttpContext http,
                string code,
                string letter,
                [FromForm] IFormCollection _,
                PaintSquare paint,
                ShowTrial show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => paint.AllAsync(code, letter, cancel),
                    painted => $"/pots/{code}/trials/{letter}",
                    async () =>
                        await show.HandleAsync(code, letter, cancel) is { } answer
                            ? Show.Page<TrialPage>(new { Answer = answer })
                            : Show.Missing($"Pot {code} has no trial {letter}.")
                )
        );
        app.MapPost(
            "/pots/{code}/jars/{jar}/painted",
            (
                HttpContext http,
                string code,
                string jar,
                [FromForm] IFormCollection _,
                PaintSquare paint,
                ShowJar show,
                ForetellStep foretell,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => paint.HandleAsync(code, jar, cancel),
                    painted => $"/pots/{code}/jars/{jar}",
                    () => JarAsync(code, jar, null, null, false, show, foretell, notebook, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/jars/{jar}/undo",
            (
                HttpContext http,
                string code,
                string jar,
                [FromForm] IFormCollection form,
                AddToSample add,
                ShowJar show,
                ForetellStep foretell,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
            {
                Guid? chosen = Guid.TryParse(form["Material"], out var id) ? id : null;
                return Show.PostedAsync(
                    http,
                    () => add.UndoAsync(code, jar, form.ContainsKey("Everywhere"), cancel),
                    _ => $"/pots/{code}/jars/{jar}{(chosen is null ? "" : $"?add={chosen}")}",
                    () => JarAsync(code, jar, chosen, null, false, show, foretell, notebook, cancel)
                );
            }
        );
        app.MapPost(
            "/pots/{code}/jars/{jar}/seen",
            (
                HttpContext http,
                string code,
                string jar,
                [FromForm] AddToSample.Seen form,
                AddToSample add,
                ShowJar show,
                ForetellStep foretell,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => add.NoteAsync(code, jar, form, cancel),
                    _ => $"/pots/{code}/jars/{jar}",
                    () => JarAsync(code, jar, null, null, false, show, foretell, notebook, cancel)
                )
        );
    }

    private static async Task<IResult> NewAsync(string code, ShowPot show, CancellationToken cancel) =>
        await show.HandleAsync(code, cancel) is { } answer
            ? Show.Page<NewTrialPage>(new { Answer = answer })
            : Show.Missing($"There is no pot {code} in this notebook.");

    private static async Task<IResult> JarAsync(
        string code,
        string jar,
        Guid? add,
        string? step,
        bool on,
        ShowJar show,
        ForetellStep foretell,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        if (await show.HandleAsync(code, jar, cancel) is not { } answer)
            return Show.Missing($"Pot {code} has no jar {jar}.");

        // What is in the hand, else what went in last: that is what usually goes in next.
        var material = answer.Materials.FirstOrDefault(one => one.Id == add) ?? answer.Jar.Counting.LastOrDefault()?.Material;
        var advice = material is { Kind: MaterialKind.Addition }
            ? await StepAsked.AskAsync(answer, material, step, foretell, notebook, cancel)
            : null;
        return Show.Page<JarPage>(
            new
            {
                Answer = answer,
                Add = add,
                Advice = advice,
                On = on,
            }
        );
    }
}
