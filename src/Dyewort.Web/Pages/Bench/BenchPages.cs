using Dyewort.Workshop;
using Dyewort.Workshop.Bench;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Pots;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Bench;

public sealed class BenchPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/",
            async (WhatIsNext next, ListPots pots, ListCharts charts, CancellationToken cancel) =>
                Show.Page<BenchPage>(
                    new
                    {
                        Next = await next.HandleAsync(cancel),
                        Pots = await pots.HandleAsync(cancel),
                        Charts = await charts.HandleAsync(cancel),
                    }
                )
        );
        app.MapGet(
            "/safety",
            async (ShowSafety safety, CancellationToken cancel) => Show.Page<SafetyPage>(new { Answer = await safety.HandleAsync(cancel) })
        );
        app.MapGet("/settings", SettingsAsync);
        app.MapPost(
            "/settings",
            (HttpContext http, [FromForm] NotebookSettingsForm form, NotebookSettings settings, CancellationToken cancel) =>
                Show.PostedAsync(http, () => settings.SaveAsync(form, cancel), _ => "/settings", () => SettingsAsync(settings, cancel))
        );
    }

    private static async Task<IResult> SettingsAsync(NotebookSettings settings, CancellationToken cancel) =>
        Show.Page<SettingsPage>(new { Settings = await settings.ReadAsync(cancel) });
}
