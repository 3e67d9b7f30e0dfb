using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Response;

public sealed class TeachPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/plants",
            async (TeachPlant teach, CancellationToken cancel) => Show.Page<PlantsPage>(new { Plants = await teach.ListAsync(cancel) })
        );
        app.MapGet(
            "/plants/{plant}",
            async (string plant, TeachPlant teach, CancellationToken cancel) =>
                await teach.HandleAsync(plant, cancel) is { } answer
                    ? Show.Page<TeachPage>(new { Answer = answer })
                    : Show.Missing($"Nothing of “{plant}” was painted and read yet.")
        );
        app.MapGet(
            "/choose",
            async (string? count, string? palette, string? bottle, string? kept, ChooseBottles choose, CancellationToken cancel) =>
            {
                var form = new ChooseBottlesForm
                {
                    Count = count,
                    Palette = palette,
                    BottleMl = bottle,
                    Kept = kept,
                };
                if (string.IsNullOrWhiteSpace(count))
                    return Show.Page<ChoosePage>(new { Form = form });
                var outcome = await choose.HandleAsync(form, cancel);
                return outcome.TryGet(out var answer)
                    ? Show.Page<ChoosePage>(new { Answer = answer, Form = form })
                    : Show.Page<ChoosePage>(new { Form = form, Refused = outcome.Problems }, StatusCodes.Status422UnprocessableEntity);
            }
        );
    }
}
