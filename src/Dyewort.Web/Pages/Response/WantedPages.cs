using Dyewort.Colour;
using Dyewort.Quantities;
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
        app.MapPost(
            "/wanted/photo",
            (HttpContext http, [FromForm] IFormCollection form, PhotographColour take, NotebookTrials notebook, CancellationToken cancel) =>
                LoosePhoto.PostedAsync(
                    http,
                    form,
                    take,
                    (c, from) => $"/wanted?c={c}&from={from}",
                    async () => Show.Page<WantedPage>(new { (await notebook.HandleAsync(cancel)).Papers }),
                    cancel
                )
        );
    }

    private static async Task<IResult> ShowAsync(
        [AsParameters] WantedQuery query,
        MatchColour match,
        FindWish find,
        ShowReach reach,
        NotebookTrials notebook,
        CancellationToken cancel
    )
    {
        var trials = await notebook.HandleAsync(cancel);
        if (!string.IsNullOrWhiteSpace(query.C))
            query = query with { Swatch = null, Recipe = null };
        var page = new Dictionary<string, object?>
        {
            [nameof(WantedPage.Papers)] = trials.Papers,
            [nameof(WantedPage.Text)] = query.C,
            [nameof(WantedPage.SwatchId)] = query.Swatch,
            [nameof(WantedPage.Recipe)] = query.Recipe,
            [nameof(WantedPage.Volume)] = query.Volume,
            [nameof(WantedPage.Paper)] = query.Paper,
            [nameof(WantedPage.From)] = query.From,
        };
        if (string.IsNullOrWhiteSpace(query.C) && string.IsNullOrWhiteSpace(query.Swatch) && string.IsNullOrWhiteSpace(query.Recipe))
            return Show.Page<WantedPage>(page);
        var wish =
            Guid.TryParse(query.Swatch, out var swatch) ? await find.OfSwatchAsync(swatch, cancel)
            : !string.IsNullOrWhiteSpace(query.Recipe) ? await find.OfRecipeAsync(query.Recipe, cancel)
            : Wish.Parse(nameof(query.C), query.C);
        var volume = string.IsNullOrWhiteSpace(query.Volume)
            ? Outcome.Of(MatchColourForm.Usual)
            : Volume.Parse(nameof(query.Volume), query.Volume, trials.Teaspoon);
        if (!wish.TryGet(out var wanted) || !volume.TryGet(out var toMake))
            return Refused(page, [.. wish.Problems, .. volume.Problems]);
        var outcome = await match.HandleAsync(
            new()
            {
                Wanted = wanted,
                Volume = toMake,
                Paper = query.Paper ?? "",
            },
            trials,
            cancel
        );
        if (!outcome.TryGet(out var answer))
            return Refused(page, outcome.Problems);
        page[nameof(WantedPage.Answer)] = answer;
        if (
            answer.Ways.Count > 0
            && await reach.HandleAsync(trials, answer.NearestPlant, answer.Paper, Lab.FromXyz(wanted.Colour), cancel) is { } asked
            && asked.TryGet(out var shown)
        )
            page[nameof(WantedPage.Reach)] = shown;
        return Show.Page<WantedPage>(page);
    }

    private static IResult Refused(Dictionary<string, object?> page, IReadOnlyList<Problem> problems)
    {
        page[nameof(WantedPage.Refused)] = problems;
        return Show.Page<WantedPage>(page, StatusCodes.Status422UnprocessableEntity);
    }
}
