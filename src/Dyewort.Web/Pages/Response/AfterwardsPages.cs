using Dyewort.Web.Pages.Colours;
using Dyewort.Workshop.Colours;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Response;

/// <summary>What is asked of the trials after the painting: does every jar fit, do two differ, a batch that came out wrong, another harvest.</summary>
public sealed class AfterwardsPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/plants/{plant}/doubts", DoubtsAsync);
        app.MapPost(
            "/plants/{plant}/doubts",
            (HttpContext http, string plant, [FromForm] DoubtJarsForm form, DoubtJars doubt, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => doubt.PutRightAsync(plant, form, cancel),
                    known => $"/plants/{Uri.EscapeDataString(known)}/doubts",
                    () => DoubtsAsync(plant, doubt, cancel)
                )
        );
        app.MapGet(
            "/differ",
            async (string? one, string? other, DoTwoDiffer compare, CancellationToken cancel) =>
            {
                var samples = await compare.SamplesAsync(cancel);
                if (string.IsNullOrWhiteSpace(other))
                    return Show.Page<DifferPage>(new { Samples = samples, One = one });
                var outcome = await compare.HandleAsync(one, other, cancel);
                return outcome.TryGet(out var answer)
                    ? Show.Page<DifferPage>(
                        new
                        {
                            Answer = answer,
                            Samples = samples,
                            One = one,
                            Other = other,
                        }
                    )
                    : Show.Page<DifferPage>(
                        new
                        {
                            Samples = samples,
                            One = one,
                            Other = other,
                            Refused = outcome.Problems,
                        },
                        StatusCodes.Status422UnprocessableEntity
                    );
            }
        );
        app.MapGet(
            "/pots/{code}/harvest",
            async (string code, string? recipe, CarryHarvest carry, CancellationToken cancel) =>
                await carry.HandleAsync(code, recipe, cancel) is { } answer
                    ? Show.Page<HarvestPage>(new { Answer = answer })
                    : Show.Missing($"There is no pot {code} in this notebook.")
        );
        app.MapGet(
            "/batches/{code}/correct",
            (string code, string? c, string? from, PutBatchRight put, CancellationToken cancel) =>
                BatchAsync(code, c, from is not null, put, cancel)
        );
        app.MapPost(
            "/batches/{code}/correct/photo",
            (
                HttpContext http,
                string code,
                [FromForm] IFormCollection form,
                PhotographColour take,
                PutBatchRight put,
                CancellationToken cancel
            ) =>
                LoosePhoto.PostedAsync(
                    http,
                    form,
                    take,
                    (c, _) => $"/batches/{code}/correct?c={c}&from=photo",
                    () => BatchAsync(code, null, false, put, cancel),
                    cancel
                )
        );
    }

    private static async Task<IResult> DoubtsAsync(string plant, DoubtJars doubt, CancellationToken cancel) =>
        await doubt.HandleAsync(plant, cancel) is { } answer
            ? Show.Page<DoubtsPage>(new { Answer = answer })
            : Show.Missing($"Nothing of “{plant}” was painted and read yet.");

    private static async Task<IResult> BatchAsync(string code, string? colour, bool fromPhoto, PutBatchRight put, CancellationToken cancel)
    {
        if (await put.HandleAsync(code, colour, fromPhoto, cancel) is not { } outcome)
            return Show.Missing($"There is no batch {code} in this notebook.");
        if (outcome.TryGet(out var answer))
            return Show.Page<PutRightPage>(
                new
                {
                    Answer = answer,
                    Text = colour,
                    FromPhoto = fromPhoto,
                }
            );
        return (await put.HandleAsync(code, null, false, cancel))!.TryGet(out var blank)
            ? Show.Page<PutRightPage>(
                new
                {
                    Answer = blank,
                    Text = colour,
                    Refused = outcome.Problems,
                },
                StatusCodes.Status422UnprocessableEntity
            )
            : Show.Missing($"There is no batch {code} in this notebook.");
    }
}
