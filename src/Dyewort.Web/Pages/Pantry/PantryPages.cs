using Dyewort.Notebook;
using Dyewort.Workshop.Pantry;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Pantry;

public sealed class PantryPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet("/pantry", ShowListAsync);
        app.MapPost(
            "/pantry/common",
            (HttpContext http, [FromForm] IFormCollection form, StockCommon stock, ListMaterials list, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => stock.HandleAsync([.. form["Names"].OfType<string>()], cancel),
                    _ => "/pantry",
                    () => ShowListAsync(list, cancel)
                )
        );
        app.MapGet("/pantry/new", () => Show.Page<MaterialPage>());
        app.MapPost(
            "/pantry/new",
            (HttpContext http, [FromForm] SaveMaterialForm form, SaveMaterial save, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => save.HandleAsync(null, form, cancel),
                    _ => "/pantry",
                    () => Task.FromResult(Show.Page<MaterialPage>())
                )
        );
        app.MapGet("/pantry/{id:guid}", ShowOneAsync);
        app.MapPost(
            "/pantry/{id:guid}",
            (HttpContext http, Guid id, [FromForm] SaveMaterialForm form, SaveMaterial save, ShowMaterial show, CancellationToken cancel) =>
                Show.PostedAsync(http, () => save.HandleAsync(id, form, cancel), _ => "/pantry", () => ShowOneAsync(id, show, cancel))
        );
        app.MapGet("/pantry/{id:guid}/paper", PaperAsync);
        app.MapPost(
            "/pantry/{id:guid}/paper/figures",
            (HttpContext http, Guid id, [FromForm] MeasurePaper.InstrumentFigures form, MeasurePaper measure, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => measure.ByInstrumentAsync(id, form, cancel),
                    paper => $"/pantry/{paper}",
                    () => PaperAsync(id, measure, cancel)
                )
        );
        app.MapPost(
            "/pantry/{id:guid}/paper/print",
            (HttpContext http, Guid id, [FromForm] MeasurePaper.Print form, MeasurePaper measure, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => measure.ByPrintAsync(id, form, cancel),
                    paper => $"/pantry/{paper}",
                    () => PaperAsync(id, measure, cancel)
                )
        );
        app.MapPost(
            "/pantry/{id:guid}/paper/picture",
            (HttpContext http, Guid id, [FromForm] IFormCollection form, MeasurePaper measure, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    async () =>
                        await measure.SendAsync(id, await Show.BytesAsync(form.Files["Picture"], cancel), form["Source"] == "Scan", cancel),
                    photo => $"/pantry/{id}/paper/{photo}",
                    () => PaperAsync(id, measure, cancel)
                )
        );
        app.MapGet("/pantry/{id:guid}/paper/{photo:guid}", PointAsync);
        app.MapPost(
            "/pantry/{id:guid}/paper/{photo:guid}",
            (HttpContext http, Guid id, Guid photo, [FromForm] IFormCollection form, MeasurePaper measure, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    async () =>
                        await measure.ByPictureAsync(
                            id,
                            photo,
                            new()
                            {
                                Paper = form["Paper"],
                                Corner = [.. PaperPointPage.Corners.Select(name => form[name].ToString())],
                                Columns = form["Columns"],
                                Rows = form["Rows"],
                                Card = await Show.TextAsync(form, "Upload", "Card", cancel),
                            },
                            cancel
                        ),
                    paper => $"/pantry/{paper}",
                    () => PointAsync(http, id, photo, measure, cancel)
                )
        );
    }

    private static async Task<IResult> PaperAsync(Guid id, MeasurePaper measure, CancellationToken cancel) =>
        await measure.ShowAsync(id, cancel) is { } answer
            ? Show.Page<PaperPage>(new { Answer = answer })
            : Show.Missing("This paper is not in the notebook.");

    private static async Task<IResult> PointAsync(HttpContext http, Guid id, Guid photo, MeasurePaper measure, CancellationToken cancel)
    {
        if (
            await measure.ShowAsync(id, cancel) is not { } answer
            || answer.Photos.FirstOrDefault(one => one.Id == photo) is not { } sentPhoto
        )
            return Show.Missing("This picture is not in the notebook.");
        string[] names = sentPhoto.Source == ReadingSource.Scan ? ["Paper"] : ["Paper", .. PaperPointPage.Corners];
        var tapped = Tapped.Of(http.Request.Query, names, sentPhoto.WidthPx ?? 1600, sentPhoto.HeightPx ?? 1600, out var sent);
        return Show.Page<PaperPointPage>(
            new
            {
                Answer = answer,
                Photo = sentPhoto,
                Sent = sent,
                Tapped = tapped,
            }
        );
    }

    private static async Task<IResult> ShowListAsync(ListMaterials list, CancellationToken cancel) =>
        Show.Page<PantryPage>(new { Answer = await list.HandleAsync(cancel) });

    private static async Task<IResult> ShowOneAsync(Guid id, ShowMaterial show, CancellationToken cancel) =>
        await show.HandleAsync(id, cancel) is { } answer
            ? Show.Page<MaterialPage>(new { Answer = answer })
            : Show.Missing("This material is not in the notebook.");
}
