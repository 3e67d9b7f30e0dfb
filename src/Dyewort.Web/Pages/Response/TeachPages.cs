using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Workshop;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Response;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Response;

public sealed class TeachPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/plants",
            async (TeachPlant teach, CancellationToken cancel) => Show.Page<PlantsPage>(new { Plants = await teach.ListAsync(cancel) })
        );
        app.MapGet(
            "/plants/{plant}",
            async (string plant, TeachPlant teach, CancellationToken cancel) =>
                await teach.HandleAsync(plant, cancel) is { } answer
                    ? Show.Page<TeachPage>(new { Answer = answer })
                    : Show.Missing(
                        $"Nothing of “{plant}” was painted and read yet, so there is nothing to learn from. Boil a pot of it, paint its "
                            + "jars and send a photo; or choose a plant that was painted.",
                        ("/plants", "Plants that were painted"),
                        ("/pots/new", "A new pot")
                    )
        );
        app.MapGet("/choose", ChooseAsync);
    }

    private static async Task<IResult> ChooseAsync(
        [AsParameters] ChooseQuery query,
        ChooseBottles choose,
        NotebookTrials notebook,
        ListRecipes recipes,
        CancellationToken cancel
    )
    {
        if (string.IsNullOrWhiteSpace(query.Count))
            return Show.Page<ChoosePage>(new { Form = query });
        var entered = new Entered(Words.Kitchen);
        var count = entered.Whole(nameof(query.Count), query.Count, "How many", 1, 60, 8);
        var bottle = entered.Volume(nameof(query.Bottle), query.Bottle, 1, 100_000);
        List<Lab> palette = [];
        foreach (
            var line in (query.Palette ?? "").Split(['\n', ';'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
        )
        {
            if (entered.Take(ColourText.Parse(nameof(query.Palette), line)) is { } colour)
                palette.Add(Lab.FromXyz(colour.Colour));
        }

        var trials = await notebook.HandleAsync(cancel);
        var kept = string.IsNullOrEmpty(query.Kept) ? null : (await recipes.HandleAsync(cancel)).Select(line => line.Recipe).ToList();
        var outcome = entered.Sound
            ? choose.Handle(
                new()
                {
                    Count = count,
                    Palette = palette,
                    BottleMillilitres = bottle,
                    Only = kept is null
                        ? null
                        :
                        [
                            .. trials
                                .Painted.Where(one =>
                                    kept.Exists(recipe =>
                                        recipe.SampleId == one.Sample.Id && (recipe.AfterStep is not { } step || one.Stage.IsAfter(step))
                                    )
                                )
                                .Select(one => one.Row.Point.Sample)
                                .Distinct(),
                        ],
                },
                trials,
                cancel
            )
            : Outcome.Refused<ChooseBottlesAnswer>(entered.Problems);
        return outcome.TryGet(out var answer)
            ? Show.Page<ChoosePage>(
                new
                {
                    Answer = answer,
                    Chosen = answer.Samples.Select(code => NotebookTrials.Speaking(trials.Of(code))).ToList(),
                    Form = query,
                }
            )
            : Show.Page<ChoosePage>(new { Form = query, Refused = outcome.Problems }, StatusCodes.Status422UnprocessableEntity);
    }
}
