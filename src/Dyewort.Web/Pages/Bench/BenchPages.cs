using Dyewort.Workshop.Pots;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Bench;

public sealed class BenchPages : IPages
{
    public void Map(IEndpointRouteBuilder app) =>
        app.MapGet("/", async (ListPots pots, CancellationToken cancel) => Show.Page<BenchPage>(new { Pots = await pots.HandleAsync(cancel) }));
}
