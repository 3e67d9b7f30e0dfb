using Dyewort.Web.Pages.Colours;
using Dyewort.Workshop.Colours;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Response;

public sealed class WantedPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/wanted",
            (
                string? c,
                string? swatch,
                string? recipe,
                string? volume,
                string? paper,
                string? from,
                WantedColour wanted,
                CancellationToken cancel
            ) =>
                ShowAsync(
                    new()
                    {
                        C = c,
                        Swatch = swatch,
                        Recipe = recipe,
                        Volume = volume,
                        Paper = paper,
                    },
                    from,
                    wanted,
                    cancel
                )
        );
        app.MapPost(
            "/wanted/photo",
            (HttpContext http, [FromForm] IFormCollection form, PhotographColour take, WantedColour wanted, CancellationToken cancel) =>
                LoosePhoto.PostedAsync(
                    http,
                    form,
                    take,
                    (c, from) => $"/wanted?c={c}&from={from}",
                    () => ShowAsync(new(), null, wanted, cancel),
                    cancel
                )
        );
    }

    private static async Task<IResult> ShowAsync(WantedColourForm form, string? from, WantedColour wanted, CancellationToken cancel)
    {
        var papers = await wanted.PapersAsync(cancel);
        if (!string.IsNullOrWhiteSpace(form.C))
            form = form with { Swatch = null, Recipe = null };
        if (string.IsNullOrWhiteSpace(form.C) && string.IsNullOrWhiteSpace(form.Swatch) && string.IsNullOrWhiteSpace(form.Recipe))
            return Show.Page<WantedPage>(
                new
                {
                    Papers = papers,
                    form.Volume,
                    form.Paper,
                }
            );
        var outcome = await wanted.HandleAsync(form, cancel);
        if (!outcome.TryGet(out var answer))
            return Show.Page<WantedPage>(
                new
                {
                    Refused = outcome.Problems,
                    Papers = papers,
                    Text = form.C,
                    SwatchId = form.Swatch,
                    form.Recipe,
                    form.Volume,
                    form.Paper,
                },
                StatusCodes.Status422UnprocessableEntity
            );
        return Show.Page<WantedPage>(
            new
            {
                Answer = answer,
                Papers = papers,
                Text = form.C,
                SwatchId = form.Swatch,
                form.Recipe,
                form.Volume,
                form.Paper,
                From = from,
            }
        );
    }
}
