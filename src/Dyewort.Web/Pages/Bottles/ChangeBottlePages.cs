using Dyewort.Making;
using Dyewort.Workshop;
using Dyewort.Workshop.Bottles;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Bottles;

/// <summary>Bottles put right.</summary>
public sealed class ChangeBottlePages : IPages
{
    public void Map(IEndpointRouteBuilder app) =>
        ChangePages.Map<ChangeBottle, Bottle, ChangeBottleForm>(
            app,
            "/b/{code}",
            ThingKind.Bottle,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeBottlePage>(new { Answer = answer }))
        );
}
