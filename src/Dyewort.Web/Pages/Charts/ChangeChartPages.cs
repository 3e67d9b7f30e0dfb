using Dyewort.Notebook;
using Dyewort.Workshop;
using Dyewort.Workshop.Charts;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Charts;

/// <summary>Charts, and the strips and cards beside them, put right.</summary>
public sealed class ChangeChartPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        ChangePages.Map<ChangeChart, Chart, ChangeChartForm>(
            app,
            "/charts/{code}",
            ThingKind.Chart,
            async (http, change, answer) =>
                Show.Page<ChangeChartPage>(new { Answer = answer, Papers = await change.PapersAsync(http.RequestAborted) })
        );
        ChangePages.Map<ChangeStrip, HouseStrip, ChangeStripForm>(
            app,
            "/strips/{code:guid}",
            ThingKind.Strip,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeStripPage>(new { Answer = answer }))
        );
    }
}
