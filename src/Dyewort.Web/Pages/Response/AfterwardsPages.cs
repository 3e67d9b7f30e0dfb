using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Web.Pages.Colours;
using Dyewort.Workshop;
using Dyewort.Workshop.Colours;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Response;

/// <summary>What is asked of the trials after the painting: does every jar fit, do two differ, a batch that came out wrong, another
/// harvest.</summary>
public sealed class AfterwardsPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/plants/{plant}/doubts", DoubtsAsync);
        app.MapPost(
            "/plants/{plant}/doubts",
            (
                HttpContext http,
                string plant,
                [FromForm] PutJarRightForm form,
                PutJarRight put,
                FindSlips slips,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => put.HandleAsync(plant, form, cancel),
                    known => $"/plants/{Uri.EscapeDataString(known)}/doubts",
                    () => DoubtsAsync(plant, slips, notebook, cancel)
                )
        );
        app.MapGet("/differ", DifferAsync);
        app.MapGet("/pots/{code}/harvest", HarvestAsync);
        app.MapPost(
            "/pots/{code}/harvest/batches",
            (
                HttpContext http,
                string code,
                [FromForm] StartHarvestBatchForm form,
                StartHarvestBatch start,
                CompareHarvest compare,
                CarryRecipe carry,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => start.HandleAsync(code, form, cancel),
                    batch => $"/batches/{batch}",
                    () => HarvestAsync(code, form.Recipe, compare, carry, notebook, cancel)
                )
        );
        app.MapGet(
            "/batches/{code}/correct",
            (
                string code,
                string? c,
                string? from,
                FindWrongBatch find,
                CorrectBatch correct,
                NotebookTrials notebook,
                CancellationToken cancel
            ) => BatchAsync(code, c, from is not null, find, correct, notebook, cancel)
        );
        app.MapPost(
            "/batches/{code}/correct/photo",
            (
                HttpContext http,
                string code,
                [FromForm] IFormCollection form,
                PhotographColour take,
                FindWrongBatch find,
                CorrectBatch correct,
                NotebookTrials notebook,
                CancellationToken cancel
            ) =>
                LoosePhoto.PostedAsync(
                    http,
                    form,
                    take,
                    (c, _) => $"/batches/{code}/correct?c={c}&from=photo",
                    () => BatchAsync(code, null, false, find, correct, notebook, cancel),
                    cancel
                )
        );
    }

    private static async Task<IResult> HarvestAsync(
        string code,
        string? recipe,
        CompareHarvest compare,
        CarryRecipe carry,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        if (await compare.HandleAsync(code, recipe, cancel) is not { } answer)
            return Show.Missing($"There is no pot {code} in this notebook.");
        var outcome = answer.Carry is { } form ? carry.Handle(form, await notebook.HandleAsync(cancel)) : null;
        return Show.Page<HarvestPage>(
            new
            {
                Answer = answer,
                Carried = outcome?.TryGet(out var carried) == true ? carried : null,
                NotYet = answer.NotYet ?? outcome?.FirstProblem,
            }
        );
    }

    private static async Task<IResult> DoubtsAsync(string plant, FindSlips slips, NotebookTrials notebook, CancellationToken cancel)
    {
        var trials = await notebook.HandleAsync(cancel);
        if (trials.Plants.FirstOrDefault(one => string.Equals(one, plant, StringComparison.OrdinalIgnoreCase)) is not { } known)
            return Show.Missing($"Nothing of “{plant}” was painted and read yet.");
        var outcome = await slips.HandleAsync(trials, known, cancel);
        return Show.Page<DoubtsPage>(
            new
            {
                Plant = known,
                Trials = trials,
                Answer = outcome?.TryGet(out var found) == true ? found : null,
                NotYet = outcome?.FirstProblem,
            }
        );
    }

    private static async Task<IResult> DifferAsync(
        string? one,
        string? other,
        ListSquares list,
        CompareRepeats compare,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        var trials = await notebook.HandleAsync(cancel);
        var squares = await list.HandleAsync(trials, cancel);
        var page = new Dictionary<string, object?>
        {
            [nameof(DifferPage.Samples)] = squares.Select(of => of.Label).ToList(),
            [nameof(DifferPage.One)] = one,
            [nameof(DifferPage.Other)] = other,
        };
        if (string.IsNullOrWhiteSpace(other))
            return Show.Page<DifferPage>(page);
        var entered = new Entered();
        ComparedSquares? Find(string field, string? text)
        {
            var named = squares.FirstOrDefault(of => string.Equals(of.Label, text?.Trim(), StringComparison.OrdinalIgnoreCase));
            if (named is null)
                entered.Refuse(field, $"“{text}” was not painted and read.", "Choose one of the list.");
            return named;
        }

        var (first, second) = (Find(nameof(one), one), Find(nameof(other), other));
        var outcome =
            first is null || second is null
                ? Outcome.Refused<CompareRepeatsAnswer>(entered.Problems)
                : compare.Handle([first], [second], trials);
        page[nameof(DifferPage.Answer)] = outcome.TryGet(out var answer) ? answer : null;
        page[nameof(DifferPage.Refused)] = outcome.Problems;
        return Show.Page<DifferPage>(page, answer is null ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK);
    }

    private static async Task<IResult> BatchAsync(
        string code,
        string? colour,
        bool fromPhoto,
        FindWrongBatch find,
        CorrectBatch correct,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        var typed = string.IsNullOrWhiteSpace(colour) ? null : ColourText.Parse("c", colour);
        var trials = await notebook.HandleAsync(cancel);
        var read = typed?.TryGet(out var text) == true ? (Xyz?)text.Colour : null;
        if (await find.HandleAsync(code, read, fromPhoto, trials, cancel) is not { } found)
            return Show.Missing($"There is no batch {code} in this notebook.");
        var refused = typed?.Problems ?? [];
        var outcome = refused.Count == 0 && found.Batch is { } batch ? await correct.HandleAsync(batch, trials, cancel) : null;
        return Show.Page<PutRightPage>(
            new
            {
                Answer = found,
                Correction = outcome?.TryGet(out var correction) == true ? correction : null,
                NotYet = found.NotYet ?? outcome?.FirstProblem,
                StillLearning = refused.Count == 0 && found.Batch is not null && outcome is null,
                Text = colour,
                FromPhoto = fromPhoto,
                Refused = refused,
            },
            refused.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK
        );
    }
}
