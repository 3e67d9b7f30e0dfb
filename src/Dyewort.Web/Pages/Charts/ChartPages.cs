using Dyewort.Notebook;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Readings;
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
        app.MapGet(
            "/charts",
            async (ListCharts list, FindTakenBack taken, CancellationToken cancel) =>
                Show.Page<ChartsPage>(new { Charts = await list.HandleAsync(cancel), TakenBack = await taken.ChartsAsync(cancel) })
        );
        app.MapGet("/pots/{code}/trials/{letter}/sheet", NewAsync);
        app.MapPost(
            "/pots/{code}/trials/{letter}/sheet",
            (
                HttpContext http,
                string code,
                string letter,
                [FromForm] IFormCollection form,
                StartChart start,
                ShowTrial show,
                ListMaterials materials,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => start.HandleAsync(code, letter, Read(form), cancel),
                    chart => $"/charts/{chart}",
                    () => NewAsync(code, letter, show, materials, cancel)
                )
        );
        app.MapGet("/charts/C{number:int}", ShowAsync);
        app.MapGet(
            "/charts/C{number:int}/sheet.pdf",
            async (HttpContext http, int number, ChartSheet sheet, WebOptions options, CancellationToken cancel) =>
                await sheet.HandleAsync(number, Address.Of(http.Request, options, $"/charts/C{number}"), cancel) is { } pdf
                    ? Results.File(pdf, "application/pdf", $"sheet-C{number}.pdf")
                    : Show.Missing($"There is no chart C{number} in this notebook.")
        );
        app.MapPost(
            "/charts/C{number:int}/photo",
            (
                HttpContext http,
                int number,
                [FromForm] IFormCollection form,
                SendPhoto send,
                ShowChart show,
                ListMaterials materials,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    async () =>
                        await send.HandleAsync(number, await Show.BytesAsync(form.Files["Picture"], cancel), ReadSent(form), cancel),
                    sent => sent.IsRead ? $"/charts/C{number}" : $"/charts/C{number}/photos/{sent.Id}/place",
                    () => ShowAsync(number, show, materials, cancel)
                )
        );
        app.MapGet("/charts/C{number:int}/photos/{id:guid}", ShowPhotoAsync);
        app.MapGet(
            "/charts/C{number:int}/photos/{id:guid}/place",
            (HttpContext http, int number, Guid id, ShowPhoto show, ProposePlaces propose, CancellationToken cancel) =>
                PlaceAsync(http, number, id, show, propose, cancel)
        );
        app.MapPost(
            "/charts/C{number:int}/photos/{id:guid}/place",
            (
                HttpContext http,
                int number,
                Guid id,
                [FromForm] IFormCollection form,
                PlaceSwatches place,
                ShowPhoto show,
                ProposePlaces propose,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => place.HandleAsync(number, id, PlaceFields.Read(form), cancel),
                    photo => $"/charts/C{number}/photos/{photo}",
                    () => PlaceAsync(http, number, id, show, propose, cancel)
                )
        );
        app.MapGet("/strips", StripsAsync);
        app.MapPost(
            "/strips/cards",
            (HttpContext http, [FromForm] IFormCollection form, KeepStrip keep, FindTakenBack taken, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    async () =>
                        await keep.HandleAsync(
                            new KeepStripCard(
                                form["Name"],
                                form["Columns"],
                                form["Rows"],
                                await Show.TextAsync(form, "Upload", "File", cancel)
                            ),
                            cancel
                        ),
                    card => $"/strips#{card}",
                    () => StripsAsync(keep, taken, cancel)
                )
        );
        app.MapGet("/charts/C{number:int}/photos/{id:guid}/strip", StripAsync);
        app.MapPost(
            "/charts/C{number:int}/photos/{id:guid}/strip",
            (
                HttpContext http,
                int number,
                Guid id,
                [FromForm] IFormCollection form,
                KeepStrip keep,
                ShowPhoto show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () =>
                        keep.HandleAsync(
                            number,
                            id,
                            new()
                            {
                                Name = form["Name"],
                                Columns = form["Columns"],
                                Rows = form["Rows"],
                                Corner = [.. PlaceFields.Corners.Select(name => form[name].ToString())],
                            },
                            cancel
                        ),
                    strip => $"/strips#{strip}",
                    () => StripAsync(http, number, id, show, cancel)
                )
        );
        app.MapPost(
            "/charts/C{number:int}/photos/{id:guid}/again",
            (
                HttpContext http,
                int number,
                Guid id,
                [FromForm] IFormCollection form,
                PlaceSwatches place,
                ShowPhoto show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => place.AgainAsync(number, id, cancel),
                    photo => $"/charts/C{number}/photos/{photo}",
                    () => ShowPhotoAsync(number, id, show, cancel)
                )
        );
        app.MapPost(
            "/charts/C{number:int}/photos/{id:guid}/withdraw",
            (
                HttpContext http,
                int number,
                Guid id,
                [FromForm] IFormCollection form,
                WithdrawPhoto withdraw,
                ShowPhoto show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => withdraw.HandleAsync(number, id, form["Why"], cancel),
                    chart => $"/charts/{chart}",
                    () => ShowPhotoAsync(number, id, show, cancel)
                )
        );
        app.MapGet("/charts/C{number:int}/instrument", InstrumentAsync);
        app.MapPost(
            "/charts/C{number:int}/instrument",
            (
                HttpContext http,
                int number,
                [FromForm] IFormCollection form,
                AddInstrumentReadings add,
                ShowChart show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    async () => await add.HandleAsync(number, await ReadFiguresAsync(form, cancel), cancel),
                    _ => $"/charts/C{number}",
                    () => InstrumentAsync(number, show, cancel)
                )
        );
        app.MapPost(
            "/charts/C{number:int}/painted",
            (
                HttpContext http,
                int number,
                [FromForm] IFormCollection form,
                PaintSquare paint,
                ShowChart show,
                ListMaterials materials,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => paint.SayAsync(number, form["Cell"], form["After"], cancel),
                    cell => form["To"] is [{ } to] && to.StartsWith("/pots/", StringComparison.Ordinal) ? to : $"/charts/C{number}#{cell}",
                    () => ShowAsync(number, show, materials, cancel)
                )
        );
        app.MapPost(
            "/charts/C{number:int}/said",
            (
                HttpContext http,
                int number,
                [FromForm] IFormCollection form,
                NameSwatch name,
                ShowChart show,
                ListMaterials materials,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => name.HandleAsync(number, form["Cell"], form["Said"], cancel),
                    cell => $"/charts/C{number}#{cell}",
                    () => ShowAsync(number, show, materials, cancel)
                )
        );
        app.MapGet(
            "/readings/{id:guid}/crop",
            async (HttpContext http, Guid id, FindCrop find, CancellationToken cancel) =>
            {
                if (await find.HandleAsync(id, cancel) is not { } crop)
                    return Results.NotFound();
                http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
                return Results.Bytes(crop, "image/jpeg");
            }
        );
        MapPictures(app);
        app.MapGet(
            "/photos/{id:guid}",
            async (HttpContext http, Guid id, FindPhoto find, CancellationToken cancel) =>
            {
                if (await find.HandleAsync(id, cancel) is not { } found)
                    return Show.Missing("This photo is not on the shelf.");
                http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
                return Results.File(found.Content, found.MediaType);
            }
        );
    }

    private static void MapPictures(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/photos/{id:guid}/small",
            (HttpContext http, Guid id, PhotoPicture picture, CancellationToken cancel) =>
                PictureAsync(http, picture.SmallAsync(id, cancel), "image/jpeg")
        );
        app.MapGet(
            "/photos/{id:guid}/part",
            (HttpContext http, Guid id, int x, int y, int side, PhotoPicture picture, CancellationToken cancel) =>
                PictureAsync(http, picture.PartAsync(id, x, y, side, cancel), "image/jpeg")
        );
        app.MapGet(
            "/photos/{id:guid}/marked",
            (HttpContext http, Guid id, PhotoPicture picture, CancellationToken cancel) =>
                PictureAsync(http, picture.MarkedAsync(id, cancel), "image/png")
        );
    }

    private static async Task<IResult> PictureAsync(HttpContext http, Task<byte[]?> made, string type)
    {
        if (await made is not { } bytes)
            return Results.NotFound();
        http.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        return Results.Bytes(bytes, type);
    }

    private static SendPhotoForm ReadSent(IFormCollection form) =>
        new()
        {
            State = form["State"],
            Source = form["Source"],
            PaperColour = form["PaperColour"],
            TakenOn = form["TakenOn"],
            Covered = form["Covered"],
            ExposedHours = form["ExposedHours"],
            ExposedTo = form["ExposedTo"],
            Strip = form["Strip"],
            Point = form.TryGetValue("Point", out var point) ? point.ToString() : null,
        };

    private static async Task<AddInstrumentReadingsForm> ReadFiguresAsync(IFormCollection form, CancellationToken cancel) =>
        new()
        {
            State = form["State"],
            TakenOn = form["TakenOn"],
            Illuminant = form["Illuminant"],
            Uncertainty = form["Uncertainty"],
            With = form["With"],
            File = await Show.TextAsync(form, "Upload", "File", cancel),
            Values = form.Where(pair => pair.Key.StartsWith("Lab-", StringComparison.Ordinal))
                .ToDictionary(pair => pair.Key["Lab-".Length..], pair => pair.Value.ToString()),
        };

    private static async Task<IResult> InstrumentAsync(int number, ShowChart show, CancellationToken cancel) =>
        await show.HandleAsync(number, cancel) is { } answer
            ? Show.Page<InstrumentPage>(new { Answer = answer })
            : Show.Missing($"There is no chart C{number} in this notebook.");

    private static async Task<IResult> ShowPhotoAsync(int number, Guid id, ShowPhoto show, CancellationToken cancel) =>
        await show.HandleAsync(number, id, cancel) is { } answer
            ? Show.Page<PhotoPage>(new { Answer = answer })
            : Show.Missing($"Chart C{number} has no such photo.");

    private static async Task<IResult> StripsAsync(KeepStrip keep, FindTakenBack taken, CancellationToken cancel) =>
        Show.Page<StripsPage>(new { Lines = await keep.ListAsync(cancel), TakenBack = await taken.StripsAsync(cancel) });

    private static async Task<IResult> StripAsync(HttpContext http, int number, Guid id, ShowPhoto show, CancellationToken cancel)
    {
        if (await show.HandleAsync(number, id, cancel) is not { Photo.Counts: true } answer)
            return Show.Missing($"Chart C{number} has no such photo.");
        var tapped = Tapped.Of(
            http.Request.Query,
            PlaceFields.Corners,
            answer.Photo.WidthPx ?? 1600,
            answer.Photo.HeightPx ?? 1600,
            out var sent
        );
        return Show.Page<StripPage>(
            new
            {
                Answer = answer,
                Sent = sent,
                Tapped = tapped,
            }
        );
    }

    private static async Task<IResult> PlaceAsync(
        HttpContext http,
        int number,
        Guid id,
        ShowPhoto show,
        ProposePlaces propose,
        CancellationToken cancel
    )
    {
        if (await show.HandleAsync(number, id, cancel) is not { Photo.Counts: true } answer)
            return Show.Missing($"Chart C{number} has no such photo.");
        var way = PlaceFields.WayOf(answer, http.Request.Query["Way"]);
        var points = PlaceFields.Of(answer, way, new Dictionary<string, IReadOnlyList<Readings.PointPx>>(), _ => null);
        var tapped = Tapped.Of(
            http.Request.Query,
            [.. points.Select(point => point.Name)],
            answer.Photo.WidthPx ?? 1600,
            answer.Photo.HeightPx ?? 1600,
            out var sent
        );

        // What somebody pointed to is never proposed over.
        var fresh =
            way == nameof(PlacingWay.Spots)
            && answer.Placing is not { Spots.Count: > 0 }
            && HttpMethods.IsGet(http.Request.Method)
            && !sent.Keys.Any(key => key.StartsWith(PlaceFields.Spot, StringComparison.Ordinal));
        var proposed = fresh ? await propose.HandleAsync(id, cancel) : null;
        return Show.Page<PlacePage>(
            new
            {
                Answer = answer,
                Sent = sent,
                Tapped = tapped,
                Proposed = proposed,
            }
        );
    }

    private static StartChartForm Read(IFormCollection form) =>
        new()
        {
            Page = form["Page"],
            Columns = form["Columns"],
            Paper = form["Paper"],
            Coats = form["Coats"],
            Wash = [.. form["Wash"].OfType<string>()],
            Repeats = form["Repeats"],
            Frame = form.TryGetValue("Frame", out var frame) ? frame.ToString() : null,
            Free = form.TryGetValue("Free", out var free) ? free.ToString() : null,
            Title = form["Title"],
        };

    private static async Task<IResult> NewAsync(
        string code,
        string letter,
        ShowTrial show,
        ListMaterials materials,
        CancellationToken cancel
    ) =>
        await show.HandleAsync(code, letter, cancel) is { } answer
            ? Show.Page<NewChartPage>(new { Answer = answer, Papers = await materials.OfKindAsync(MaterialKind.Paper, cancel) })
            : Show.Missing($"Pot {code} has no trial {letter}.");

    private static async Task<IResult> ShowAsync(int number, ShowChart show, ListMaterials materials, CancellationToken cancel) =>
        await show.HandleAsync(number, cancel) switch
        {
            null => Show.Missing($"There is no chart C{number} in this notebook."),
            { Chart.Counts: false } struck => Show.Page<StruckChartPage>(new { Answer = struck }),
            var answer => Show.Page<ChartPage>(new { Answer = answer, Papers = await materials.OfKindAsync(MaterialKind.Paper, cancel) }),
        };
}
