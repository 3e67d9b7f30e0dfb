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
        app.MapGet("/wanted", ShowAsync);
        app.MapPost("/wanted/photo", (HttpContext http, [FromForm] IFormCollection form, PhotographColour take, WantedColour wanted, CancellationToken cancel) =>
            LoosePhoto.PostedAsync(http, form, take, (c, from) => $"/wanted?c={c}&from={from}", () => ShowAsync(null, null, null, null, null, null, wanted, cancel), cancel));
    }

    private static async Task<IResult> ShowAsync(string? c, string? swatch, string? recipe, string? volume, string? paper, string? from, WantedColour wanted, CancellationToken cancel)
    {
        var papers = await wanted.PapersAsync(cancel);
        if (!string.IsNullOrWhiteSpace(c)) (swatch, recipe) = (null, null);
        if (string.IsNullOrWhiteSpace(c) && string.IsNullOrWhiteSpace(swatch) && string.IsNullOrWhiteSpace(recipe)) return Show.Page<WantedPage>(new { Papers = papers, Volume = volume, Paper = paper });
        var outcome = await wanted.HandleAsync(new() { C = c, Swatch = swatch, Recipe = recipe, Volume = volume, Paper = paper }, cancel);
        return outcome.TryGet(out var answer)
            ? Show.Page<WantedPage>(new { Answer = answer, Papers = papers, Text = c, SwatchId = swatch, Recipe = recipe, Volume = volume, Paper = paper, From = from })
            : Show.Page<WantedPage>(new { Refused = outcome.Problems, Papers = papers, Text = c, SwatchId = swatch, Recipe = recipe, Volume = volume, Paper = paper }, StatusCodes.Status422UnprocessableEntity);
    }
}
