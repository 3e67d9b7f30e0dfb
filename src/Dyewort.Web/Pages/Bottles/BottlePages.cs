using System.Text.Json;
using Dyewort.Making;
using Dyewort.Workshop;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Bottles;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web.Pages.Bottles;

public sealed class BottlePages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/bottles",
            async (ListBottles list, CancellationToken cancel) => Show.Page<BottlesPage>(new { Answer = await list.HandleAsync(cancel) })
        );
        app.MapPost(
            "/batches/{code}/look",
            (HttpContext http, string code, LookAfterBottle look, ListBottles list, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => look.LookAtBatchAsync(code, cancel),
                    _ => "/bottles",
                    async () => Show.Page<BottlesPage>(new { Answer = await list.HandleAsync(cancel) })
                )
        );
        app.MapGet(
            "/lots/{id:guid}",
            async (Guid id, TraceLot trace, CancellationToken cancel) =>
                await trace.HandleAsync(id, cancel) is { } answer
                    ? Show.Page<LotPage>(new { Answer = answer })
                    : Show.Missing("This lot is not in the notebook.")
        );
        app.MapGet("/batches/{code}/labels", (string code, ShowBatch show, CancellationToken cancel) => LabelsAsync(code, show, cancel));
        app.MapGet("/batches/{code}/labels.pdf", PdfAsync);
        app.MapGet("/b/{code}", (string code, ShowBottle show, CancellationToken cancel) => OneAsync(code, show, cancel));
        app.MapPost(
            "/b/{code}/look",
            (
                HttpContext http,
                string code,
                [FromForm] LookAfterBottle.Look form,
                LookAfterBottle look,
                ShowBottle show,
                CancellationToken cancel
            ) => Show.PostedAsync(http, () => look.LookAsync(code, form, cancel), Own, () => OneAsync(code, show, cancel))
        );
        app.MapPost(
            "/b/{code}/gone",
            (
                HttpContext http,
                string code,
                [FromForm] LookAfterBottle.Leaving form,
                LookAfterBottle look,
                ShowBottle show,
                CancellationToken cancel
            ) => Show.PostedAsync(http, () => look.LeaveAsync(code, form, cancel), Own, () => OneAsync(code, show, cancel))
        );
        app.MapPost(
            "/b/{code}/back",
            (HttpContext http, string code, LookAfterBottle look, ShowBottle show, CancellationToken cancel) =>
                Show.PostedAsync(http, () => look.ReturnAsync(code, cancel), Own, () => OneAsync(code, show, cancel))
        );
    }

    private static string Own(string code) => $"/b/{code}";

    private static async Task<IResult> OneAsync(string code, ShowBottle show, CancellationToken cancel)
    {
        if (await show.HandleAsync(code, cancel) is { } answer)
            return answer.Bottle.Counts
                ? Show.Page<BottlePage>(new { Answer = answer })
                : Results.LocalRedirect(ChangePages.Of(Thing.Bottle(answer.Bottle.Code)));
        var why = BottleCode.Parse("code", code) is { Problems: [var problem, ..] }
            ? problem.ToString()
            : "No bottle of this notebook has it.";
        return Show.Missing($"There is no bottle {code}. {why}");
    }

    private static async Task<IResult> LabelsAsync(string code, ShowBatch show, CancellationToken cancel) =>
        await show.HandleAsync(code.ToUpperInvariant(), cancel) is { } answer
            ? Show.Page<LabelsPage>(new { Answer = answer })
            : Show.Missing($"There is no batch {code} in this notebook.");

    private static async Task<IResult> PdfAsync(
        HttpContext http,
        string code,
        LabelBottles label,
        ShowBatch show,
        WebOptions options,
        CancellationToken cancel
    )
    {
        var query = http.Request.Query;
        var entered = new Entered();
        var form = new PrintLabelsForm
        {
            Front = Sheet(entered, query, "Front", round: false),
            Cap = Sheet(entered, query, "Cap", round: true),
            NoFronts = query["Which"] == "caps",
            NoCaps = query["Which"] == "fronts",
            Used = string.IsNullOrWhiteSpace(query["Used"])
                ? 0
                : entered.Whole("Used", query["Used"], "How many labels are gone", 0, 2000, 3),
        };
        var problems = entered.Problems;
        if (entered.Sound)
        {
            var site = options.PublicAddress ?? new Uri($"{http.Request.Scheme}://{http.Request.Host}");
            var outcome = await label.HandleAsync(
                code,
                [.. query["Bottles"].OfType<string>()],
                thing => new Uri(site, Address.Of(thing)),
                form,
                cancel
            );
            if (outcome.TryGet(out var answer))
                return Results.File(answer.Pdf, "application/pdf", $"labels-{code.ToUpperInvariant()}.pdf");
            problems = outcome.Problems;
        }

        http.RequestServices.GetRequiredService<Typed>()
            .Keep(new FormCollection(query.ToDictionary(pair => pair.Key, pair => pair.Value)), problems);
        return await show.HandleAsync(code.ToUpperInvariant(), cancel) is { } batch
            ? Show.Page<LabelsPage>(new { Answer = batch }, StatusCodes.Status422UnprocessableEntity)
            : Show.Missing($"There is no batch {code} in this notebook.");
    }

    // The dimensions as the room of labels reads them; nothing when the fields stand as they were offered.
    private static string? Sheet(Entered entered, IQueryCollection query, string kind, bool round)
    {
        if (!query.ContainsKey($"{kind}Page"))
            return null;
        double? Number(string name, double least) => entered.Length($"{kind}{name}", query[$"{kind}{name}"], least, 1000);
        return JsonSerializer.Serialize(
            new
            {
                page = query[$"{kind}Page"].ToString(),
                columns = entered.Whole($"{kind}Columns", query[$"{kind}Columns"], "How many across", 1, 40, 3),
                rows = entered.Whole($"{kind}Rows", query[$"{kind}Rows"], "How many down", 1, 60, 7),
                widthMm = Number("WidthMm", 1),
                heightMm = round ? Number("WidthMm", 1) : Number("HeightMm", 1),
                leftMm = Number("LeftMm", 0),
                topMm = Number("TopMm", 0),
                gapXMm = Number("GapXMm", 0),
                gapYMm = Number("GapYMm", 0),
                round,
            }
        );
    }
}
