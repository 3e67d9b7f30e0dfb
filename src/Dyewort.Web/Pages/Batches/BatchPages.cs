using System.Globalization;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Find;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Batches;

public sealed class BatchPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/batches",
            async (ListBatches list, FindTakenBack taken, CancellationToken cancel) =>
                Show.Page<BatchesPage>(new { Batches = await list.HandleAsync(cancel), TakenBack = await taken.BatchesAsync(null, cancel) })
        );
        app.MapGet("/batches/{code}", OneAsync);
        app.MapPost(
            "/batches/{code}/measured",
            (
                HttpContext http,
                string code,
                [FromForm] MeasureBatchForm form,
                [FromForm] IFormCollection posted,
                MeasureBatch measure,
                ShowBatch show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => measure.HandleAsync(code, form, Steps(posted), cancel),
                    made => $"/batches/{made}",
                    () => OneAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/batches/{code}/bottles",
            (HttpContext http, string code, [FromForm] FillBottlesForm form, FillBottles fill, ShowBatch show, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => fill.HandleAsync(code, form, cancel),
                    _ => $"/batches/{code}#bottles",
                    () => OneAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/batches/{code}/withdraw",
            (
                HttpContext http,
                string code,
                [FromForm] LookAfterBottle.Leaving form,
                LookAfterBottle look,
                ShowBatch show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => look.WithdrawBatchAsync(code, form, cancel),
                    _ => $"/batches/{code}#bottles",
                    () => OneAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/batches/{code}/colour",
            (
                HttpContext http,
                string code,
                [FromForm] KeepBatchColourForm form,
                KeepBatchColour keep,
                ShowBatch show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => keep.HandleAsync(code, form, cancel),
                    _ => $"/batches/{code}/correct",
                    () => OneAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/batches/{code}/colour/back",
            (
                HttpContext http,
                string code,
                [FromForm] IFormCollection form,
                KeepBatchColour keep,
                ShowBatch show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => keep.TakeBackAsync(code, form["Reading"], cancel),
                    _ => $"/batches/{code}#colour",
                    () => OneAsync(code, show, cancel)
                )
        );
    }

    private static Dictionary<int, string?> Steps(IFormCollection posted) =>
        posted
            .Where(field =>
                field.Key.StartsWith("Step", StringComparison.Ordinal)
                && int.TryParse(field.Key[4..], NumberStyles.None, CultureInfo.InvariantCulture, out _)
            )
            .ToDictionary(field => int.Parse(field.Key[4..], CultureInfo.InvariantCulture), field => (string?)field.Value.ToString());

    private static async Task<IResult> OneAsync(string code, ShowBatch show, CancellationToken cancel) =>
        await show.HandleAsync(code.ToUpperInvariant(), cancel) is { } answer
            ? Show.Page<BatchPage>(new { Answer = answer })
            : Show.Missing($"There is no batch {code} in this notebook.");
}
