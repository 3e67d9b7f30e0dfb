using Dyewort.Making;
using Dyewort.Workshop;
using Dyewort.Workshop.Batches;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Batches;

/// <summary>Batches put right.</summary>
public sealed class ChangeBatchPages : IPages
{
    public void Map(IEndpointRouteBuilder app) =>
        ChangePages.Map<ChangeBatch, Batch, ChangeBatchForm>(
            app,
            "/batches/{code}",
            ThingKind.Batch,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeBatchPage>(new { Answer = answer }))
        );
}
