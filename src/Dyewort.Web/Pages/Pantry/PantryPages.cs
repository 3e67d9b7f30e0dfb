using Dyewort.Workshop.Pantry;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Pantry;

public sealed class PantryPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/pantry", ShowListAsync);
        app.MapPost("/pantry/common", (HttpContext http, [FromForm] IFormCollection form, StockCommon stock, ListMaterials list, CancellationToken cancel) =>
            Show.PostedAsync(http, () => stock.HandleAsync([.. form["Names"].OfType<string>()], cancel), _ => "/pantry", () => ShowListAsync(list, cancel)));
        app.MapGet("/pantry/new", () => Show.Page<MaterialPage>());
        app.MapPost("/pantry/new", (HttpContext http, [FromForm] SaveMaterial.Form form, SaveMaterial save, CancellationToken cancel) =>
            Show.PostedAsync(http, () => save.HandleAsync(null, form, cancel), _ => "/pantry", () => Task.FromResult(Show.Page<MaterialPage>())));
        app.MapGet("/pantry/{id:guid}", ShowOneAsync);
        app.MapPost("/pantry/{id:guid}", (HttpContext http, Guid id, [FromForm] SaveMaterial.Form form, SaveMaterial save, ShowMaterial show, CancellationToken cancel) =>
            Show.PostedAsync(http, () => save.HandleAsync(id, form, cancel), _ => "/pantry", () => ShowOneAsync(id, show, cancel)));
    }

    private static async Task<IResult> ShowListAsync(ListMaterials list, CancellationToken cancel) =>
        Show.Page<PantryPage>(new { Answer = await list.HandleAsync(cancel) });

    private static async Task<IResult> ShowOneAsync(Guid id, ShowMaterial show, CancellationToken cancel) =>
        await show.HandleAsync(id, cancel) is { } answer ? Show.Page<MaterialPage>(new { Answer = answer }) : Show.Missing("This material is not in the notebook.");
}
