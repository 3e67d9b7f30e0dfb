using Dyewort.Notebook;
using Dyewort.Workshop.Find;
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
        app.MapGet(
            "/pots",
            async (ListPots list, FindTakenBack taken, CancellationToken cancel) =>
                Show.Page<PotsPage>(new { Pots = await list.HandleAsync(cancel), TakenBack = await taken.PotsAsync(cancel) })
        );
        app.MapGet(
            "/pots/new",
            (string? again, RepeatPot repeat, ListMaterials materials, TimeProvider clock, CancellationToken cancel) =>
                NewAsync(again, repeat, materials, clock, cancel)
        );
        app.MapPost(
            "/pots/new",
            (
                HttpContext http,
                [FromForm] StartPotForm form,
                StartPot start,
                RepeatPot repeat,
                ListMaterials materials,
                TimeProvider clock,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => start.HandleAsync(form, cancel),
                    code => $"/pots/{code}",
                    () => NewAsync(form.Again, repeat, materials, clock, cancel)
                )
        );
        app.MapGet("/pots/{code}", (string code, ShowPot show, CancellationToken cancel) => ShowAsync(code, show, cancel));
        app.MapPost(
            "/pots/{code}/log",
            (HttpContext http, string code, [FromForm] AddToLogForm form, AddToLog add, ShowPot show, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => add.HandleAsync(code, form, cancel),
                    _ => $"/pots/{code}#log",
                    () => ShowAsync(code, show, cancel)
                )
        );
    }

    private static async Task<IResult> ShowAsync(string code, ShowPot show, CancellationToken cancel) =>
        await show.HandleAsync(code, cancel) is { } answer
            ? Show.Page<PotPage>(new { Answer = answer })
            : Show.Missing($"There is no pot {code} in this notebook.");

    private static async Task<IResult> NewAsync(
        string? again,
        RepeatPot repeat,
        ListMaterials materials,
        TimeProvider clock,
        CancellationToken cancel
    ) =>
        Show.Page<NewPotPage>(
            new
            {
                Plants = await materials.OfKindAsync(MaterialKind.Plant, cancel),
                Liquids = await materials.OfKindAsync(MaterialKind.Liquid, cancel),
                Today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime),
                Again = await repeat.HandleAsync(again, cancel),
            }
        );
}
