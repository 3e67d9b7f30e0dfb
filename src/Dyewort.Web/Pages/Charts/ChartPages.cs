using Dyewort.Notebook;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Trials;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Charts;

public sealed class ChartPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/charts", async (ListCharts list, CancellationToken cancel) => Show.Page<ChartsPage>(new { Charts = await list.HandleAsync(cancel) }));
        app.MapGet("/pots/{code}/trials/{letter}/sheet", NewAsync);
        app.MapPost("/pots/{code}/trials/{letter}/sheet", (HttpContext http, string code, string letter, [FromForm] IFormCollection form, StartChart start, ShowTrial show, ListMaterials materials, CancellationToken cancel) =>
            Show.PostedAsync(http, () => start.HandleAsync(code, letter, Read(form), cancel), chart => $"/charts/{chart}", () => NewAsync(code, letter, show, materials, cancel)));
        app.MapGet("/charts/C{number:int}", ShowAsync);
        app.MapGet("/charts/C{number:int}/sheet.pdf", async (HttpContext http, int number, ChartSheet sheet, WebOptions options, CancellationToken cancel) =>
            await sheet.HandleAsync(number, Address.Of(http.Request, options, $"/charts/C{number}"), cancel) is { } pdf
                ? Results.File(pdf, "application/pdf", $"sheet-C{number}.pdf")
                : Show.Missing($"There is no chart C{number} in this notebook."));
        app.MapPost("/charts/C{number:int}/photo", (HttpContext http, int number, [FromForm] IFormCollection form, SendPhoto send, ShowChart show, CancellationToken cancel) =>
            Show.PostedAsync(
                http,
                async () => await send.HandleAsync(number, await Show.BytesAsync(form.Files["Picture"], cancel), new SendPhoto.Form { State = form["State"], PaperColour = form["PaperColour"], TakenOn = form["TakenOn"] }, cancel),
                _ => $"/charts/C{number}",
                () => ShowAsync(number, show, cancel)));
        app.MapPost("/charts/C{number:int}/said", (HttpContext http, int number, [FromForm] IFormCollection form, NameSwatch name, ShowChart show, CancellationToken cancel) =>
            Show.PostedAsync(http, () => name.HandleAsync(number, form["Cell"], form["Said"], cancel), cell => $"/charts/C{number}#{cell}", () => ShowAsync(number, show, cancel)));
        app.MapGet("/readings/{id:guid}/crop", async (HttpContext http, Guid id, FindCrop find, CancellationToken cancel) =>
        {
            if (await find.HandleAsync(id, cancel) is not { } crop) return Results.NotFound();
            http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
            return Results.Bytes(crop, "image/jpeg");
        });
        app.MapGet("/photos/{id:guid}", async (HttpContext http, Guid id, FindPhoto find, CancellationToken cancel) =>
        {
            if (await find.HandleAsync(id, cancel) is not { } found) return Show.Missing("This photo is not on the shelf.");
            http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
            return Results.File(found.Content, found.MediaType);
        });
    }

    private static StartChart.Form Read(IFormCollection form) => new()
    {
        Page = form["Page"],
        Columns = form["Columns"],
        Paper = form["Paper"],
        Coats = form["Coats"],
        Wash = [.. form["Wash"].OfType<string>()],
        Repeats = form["Repeats"],
        Frame = form.TryGetValue("Frame", out var frame) ? frame.ToString() : null,
        Title = form["Title"],
    };

    private static async Task<IResult> NewAsync(string code, string letter, ShowTrial show, ListMaterials materials, CancellationToken cancel) =>
        await show.HandleAsync(code, letter, cancel) is { } answer
            ? Show.Page<NewChartPage>(new { Answer = answer, Papers = await materials.OfKindAsync(MaterialKind.Paper, cancel) })
            : Show.Missing($"Pot {code} has no trial {letter}.");

    private static async Task<IResult> ShowAsync(int number, ShowChart show, CancellationToken cancel) =>
        await show.HandleAsync(number, cancel) is { } answer ? Show.Page<ChartPage>(new { Answer = answer }) : Show.Missing($"There is no chart C{number} in this notebook.");
}
