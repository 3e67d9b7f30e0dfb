using Dyewort.Workshop.Colours;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Colours;

public sealed class ColourPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/colour", ShowPage);
        app.MapPost(
            "/colour/photo",
            (HttpContext http, [FromForm] IFormCollection form, PhotographColour take, LookAtColour look, CancellationToken cancel) =>
                LoosePhoto.PostedAsync(
                    http,
                    form,
                    take,
                    (c, from) => $"/colour?c={c}&from={from}",
                    () => Task.FromResult(ShowPage(null, null, null, null, look)),
                    cancel
                )
        );
    }

    private static IResult ShowPage(string? c, string? with, string? paper, string? from, LookAtColour look)
    {
        if (string.IsNullOrWhiteSpace(c))
            return Show.Page<ColourPage>();
        var outcome = look.Handle(c, with, paper);
        return outcome.TryGet(out var answer)
            ? Show.Page<ColourPage>(
                new
                {
                    Answer = answer,
                    Text = c,
                    With = with,
                    Paper = paper,
                    From = from,
                }
            )
            : Show.Page<ColourPage>(
                new
                {
                    Refused = outcome.Problems,
                    Text = c,
                    With = with,
                    Paper = paper,
                },
                StatusCodes.Status422UnprocessableEntity
            );
    }
}
