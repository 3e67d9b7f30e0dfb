using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Workshop;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Find;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Web.Pages.Recipes;

public sealed class RecipePages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/recipes",
            async (ListRecipes list, FindTakenBack taken, CancellationToken cancel) =>
                Show.Page<RecipesPage>(new { Recipes = await list.HandleAsync(cancel), TakenBack = await taken.RecipesAsync(cancel) })
        );
        app.MapGet(
            "/recipes/keep",
            (string? swatch, string? sample, KeepRecipe keep, CancellationToken cancel) =>
                KeepAsync(new() { Swatch = swatch, Sample = sample }, keep, cancel)
        );
        app.MapPost(
            "/recipes/keep",
            (HttpContext http, [FromForm] KeepRecipeForm form, KeepRecipe keep, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => keep.HandleAsync(form, cancel),
                    code => $"/recipes/{code}",
                    () => KeepAsync(form, keep, cancel)
                )
        );
        app.MapGet(
            "/recipes/{code}",
            async (HttpContext http, string code, string? to, CancellationToken cancel) => await OneAsync(http, code, to, cancel)
        );
        app.MapPost(
            "/recipes/{code}",
            (HttpContext http, string code, [FromForm] CorrectRecipeForm form, CorrectRecipe correct, CancellationToken cancel) =>
                Show.PostedAsync(http, () => correct.HandleAsync(code, form, cancel), Own, () => OneAsync(http, code, null, cancel))
        );
        app.MapPost(
            "/recipes/{code}/lines",
            (HttpContext http, string code, [FromForm] CorrectRecipeLine form, CorrectRecipe correct, CancellationToken cancel) =>
                Show.PostedAsync(http, () => correct.AddLineAsync(code, form, cancel), Own, () => OneAsync(http, code, null, cancel))
        );
        app.MapPost(
            "/recipes/{code}/lines/{step:int}/out",
            (HttpContext http, string code, int step, CorrectRecipe correct, CancellationToken cancel) =>
                Show.PostedAsync(http, () => correct.TakeOutAsync(code, step, cancel), Own, () => OneAsync(http, code, null, cancel))
        );
        app.MapPost(
            "/recipes/{code}/batches",
            (HttpContext http, string code, [FromForm] StartBatchForm form, StartBatch start, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => start.HandleAsync(code, form, cancel),
                    batch => $"/batches/{batch}",
                    () => OneAsync(http, code, form.Volume, cancel)
                )
        );
    }

    private static string Own(string code) => $"/recipes/{code}";

    private static async Task<IResult> KeepAsync(KeepRecipeForm form, KeepRecipe keep, CancellationToken cancel) =>
        await keep.LookAsync(form, cancel) is { } choice
            ? Show.Page<KeepPage>(new { Choice = choice })
            : Show.Missing("That colour is not in the notebook. Choose one on a chart or at a jar.");

    private static async Task<IResult> OneAsync(HttpContext http, string code, string? to, CancellationToken cancel)
    {
        var services = http.RequestServices;
        if (await services.GetRequiredService<ShowRecipe>().HandleAsync(code.ToUpperInvariant(), cancel) is not { } answer)
            return Show.Missing($"There is no recipe {code} in this notebook.");
        var settings = await services.GetRequiredService<NotebookSettings>().ReadAsync(cancel);
        ScaledRecipe? scaled = null;
        IReadOnlyList<Problem> refused = [];
        if (!string.IsNullOrWhiteSpace(to))
        {
            var form = ScaleRecipeForm.Of(answer.View, to, settings.Teaspoon);
            var outcome = form.TryGet(out var asked)
                ? services.GetRequiredService<ScaleRecipe>().Handle(asked)
                : Outcome.Refused<ScaleRecipeAnswer>(form.Problems);
            (scaled, refused) = (outcome.TryGet(out var carried) ? carried.Scaled : null, outcome.Problems);
        }

        return Show.Page<RecipePage>(
            new
            {
                Answer = answer,
                Asked = to,
                Scaled = scaled,
                Refused = refused,
                Pots = await services.GetRequiredService<ListPots>().HandleAsync(cancel),
                Today = DateOnly.FromDateTime(services.GetRequiredService<TimeProvider>().GetLocalNow().DateTime),
            },
            refused.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK
        );
    }
}
