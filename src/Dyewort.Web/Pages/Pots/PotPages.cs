using Dyewort.Notebook;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Pots;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Pots;

public sealed class PotPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/pots", async (ListPots list, CancellationToken cancel) => Show.Page<PotsPage>(new { Pots = await list.HandleAsync(cancel) }));
        app.MapGet("/pots/new", NewAsync);
        app.MapPost("/pots/new", (HttpContext http, [FromForm] StartPot.Form form, StartPot start, ListMaterials materials, TimeProvider clock, CancellationToken cancel) =>
            Show.PostedAsync(http, () => start.HandleAsync(form, cancel), code => $"/pots/{code}", () => NewAsync(materials, clock, cancel)));
    }

    private static async Task<IResult> NewAsync(ListMaterials materials, TimeProvider clock, CancellationToken cancel) => Show.Page<NewPotPage>(new
    {
        Plants = await materials.OfKindAsync(MaterialKind.Plant, cancel),
        Liquids = await materials.OfKindAsync(MaterialKind.Liquid, cancel),
        Today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime),
    });
}
