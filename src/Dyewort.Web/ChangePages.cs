using Dyewort.Notebook;
using Dyewort.Workshop;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web;

/// <summary>The addresses at which an entry is put right, alike for every kind: its own with <c>/change</c> behind it. Every deed leads
/// back to that page, where it can be undone.</summary>
internal static class ChangePages
{
    /// <summary>The page that puts a thing right.</summary>
    public static string Of(Thing thing) => $"{Address.Of(thing)}/change";

    /// <param name="app">Where they are mapped.</param>
    /// <param name="route">The thing's address, with its code as <c>code</c> and its part, where it has one, as <c>part</c>.</param>
    /// <param name="kind">What the thing is.</param>
    /// <param name="page">Shows it.</param>
    public static void Map<TChange, TEntry, TForm>(
        IEndpointRouteBuilder app,
        string route,
        ThingKind kind,
        Func<HttpContext, TChange, ChangeAnswer<TEntry>, Task<IResult>> page
    )
        where TChange : EntryChange<TEntry, TForm>
        where TEntry : Entry
        where TForm : class, new()
    {
        Thing ThingOf(HttpContext http) =>
            new(kind, http.Request.RouteValues["code"]?.ToString() ?? "", http.Request.RouteValues["part"]?.ToString() ?? "");

        async Task<IResult> ShowAsync(HttpContext http, CancellationToken cancel)
        {
            var change = http.RequestServices.GetRequiredService<TChange>();
            return await change.ShowAsync(ThingOf(http), cancel) is { } answer
                ? await page(http, change, answer)
                : Show.Missing("This is not in the notebook.");
        }

        var own = $"{route}/change";
        app.MapGet(own, ShowAsync);
        app.MapPost(
            own,
            (HttpContext http, [FromForm] TForm form, TChange change, CancellationToken cancel) =>
                Show.PostedAsync(http, () => change.CorrectAsync(ThingOf(http), form, cancel), Of, () => ShowAsync(http, cancel))
        );
        app.MapPost(
            $"{own}/withdraw",
            (HttpContext http, [FromForm] WithdrawForm form, TChange change, CancellationToken cancel) =>
                Show.PostedAsync(http, () => change.WithdrawAsync(ThingOf(http), form, cancel), Of, () => ShowAsync(http, cancel))
        );
        app.MapPost(
            $"{own}/back",
            (HttpContext http, [FromForm] IFormCollection _, TChange change, CancellationToken cancel) =>
                Show.PostedAsync(http, () => change.PutBackAsync(ThingOf(http), cancel), Of, () => ShowAsync(http, cancel))
        );
        app.MapPost(
            $"{own}/undo",
            (HttpContext http, [FromForm] IFormCollection _, TChange change, CancellationToken cancel) =>
                Show.PostedAsync(http, () => change.UndoAsync(ThingOf(http), cancel), Of, () => ShowAsync(http, cancel))
        );
    }
}
