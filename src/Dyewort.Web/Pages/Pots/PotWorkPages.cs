using Dyewort.Workshop.Find;
using Dyewort.Workshop.Pots;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Pots;

/// <summary>Getting the colour out: planning, lots, the stove, curve, water, and the sheet to repeat a pot from.</summary>
public sealed class PotWorkPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        app.MapGet(
            "/pots/plan",
            async ([AsParameters] PlanQuery query, PlanPot plan, PastPots past, Typed typed, CancellationToken cancel) =>
            {
                if (string.IsNullOrWhiteSpace(query.Plant))
                    return Show.Page<PlanPage>(new { Query = query });
                var outcome = plan.Handle(query.ToForm(), await past.HandleAsync(query.Plant, cancel), Words.Kitchen);
                return outcome.TryGet(out var made)
                    ? Show.Page<PlanPage>(
                        new
                        {
                            Query = query,
                            Plan = made,
                            outcome.Understood,
                        }
                    )
                    : Show.Page<PlanPage>(new { Query = query, outcome.Problems }, StatusCodes.Status422UnprocessableEntity);
            }
        );
        app.MapGet(
            "/lots",
            async (PlantLots lots, FindTakenBack taken, CancellationToken cancel) =>
                Show.Page<LotsPage>(new { Lots = await lots.HandleAsync(cancel), TakenBack = await taken.LotsAsync(cancel) })
        );
        app.MapPost(
            "/lots/{id:guid}",
            (HttpContext http, Guid id, [FromForm] PlantLotsForm form, PlantLots lots, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => lots.SaveAsync(id, form, cancel),
                    made => $"/lots#lot-{made}",
                    async () => Show.Page<LotsPage>(new { Lots = await lots.HandleAsync(cancel), Open = (Guid?)id })
                )
        );

        app.MapGet("/pots/{code}/stove", (string code, ShowPotWork show, CancellationToken cancel) => StoveAsync(code, show, cancel));
        Page<CurvePage>(app, "curve");
        Page<WaterPage>(app, "water");
        Page<RepeatPage>(app, "repeat");
        app.MapPost(
            "/pots/{code}/sheet",
            (
                HttpContext http,
                string code,
                [FromForm] SavePotSheetForm form,
                SavePotSheet save,
                ShowPotWork show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => save.HandleAsync(code, form, cancel),
                    made => $"/pots/{made}/stove#setup",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/begin",
            (
                HttpContext http,
                string code,
                [FromForm] IFormCollection form,
                SavePotSheet save,
                ShowPotWork show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => save.StartAsync(code, cancel),
                    made => $"/pots/{made}/stove",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/water",
            (
                HttpContext http,
                string code,
                [FromForm] SavePotSheet.WaterForm form,
                SavePotSheet save,
                ShowPotWork show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => save.WaterAsync(code, form, cancel),
                    made => $"/pots/{made}/water",
                    () => ShowAsync<WaterPage>(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/timers",
            (HttpContext http, string code, [FromForm] TimePotForm form, TimePot time, ShowPotWork show, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => time.StartAsync(code, form, cancel),
                    _ => $"/pots/{code}/stove#timers",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/timers/{timer:guid}/answer",
            (
                HttpContext http,
                string code,
                Guid timer,
                [FromForm] IFormCollection form,
                TimePot time,
                ShowPotWork show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => time.AnswerAsync(code, timer, cancel),
                    _ => $"/pots/{code}/stove#timers",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/stove/log",
            (HttpContext http, string code, [FromForm] AddToLogForm form, AddToLog add, ShowPotWork show, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => add.HandleAsync(code, form, cancel),
                    _ => $"/pots/{code}/stove",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/drops",
            (HttpContext http, string code, [FromForm] AddDropForm form, AddDrop add, ShowPotWork show, CancellationToken cancel) =>
                Show.PostedAsync(
                    http,
                    () => add.HandleAsync(code, form, cancel),
                    _ => $"/pots/{code}/stove#drops",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapPost(
            "/pots/{code}/drops/{drop:guid}",
            (
                HttpContext http,
                string code,
                Guid drop,
                [FromForm] AddDropForm form,
                AddDrop add,
                ShowPotWork show,
                CancellationToken cancel
            ) =>
                Show.PostedAsync(
                    http,
                    () => add.ReadAsync(code, drop, form, cancel),
                    _ => $"/pots/{code}/stove#drops",
                    () => StoveAsync(code, show, cancel)
                )
        );
        app.MapGet(
            "/pots/{code}/drops.pdf",
            async (string code, DropStrip strip, CancellationToken cancel) =>
                await strip.PrintAsync(code, cancel) is { } pdf
                    ? Results.File(pdf, "application/pdf", $"{code}-drops.pdf")
                    : Show.Missing($"There is no pot {code} in this notebook.")
        );
        app.MapPost(
            "/pots/{code}/strip",
            async (
                HttpContext http,
                string code,
                [FromForm] IFormCollection form,
                DropStrip strip,
                ShowPotWork show,
                CancellationToken cancel
            ) =>
            {
                var picture = await Show.BytesAsync(form.Files.GetFile("Strip"), cancel);
                return await Show.PostedAsync(
                    http,
                    () => strip.ReadAsync(code, picture, new() { DropMinutes = form["DropMinutes"] }, cancel),
                    _ => $"/pots/{code}/curve",
                    () => StoveAsync(code, show, cancel)
                );
            }
        );
    }

    private static void Page<TPage>(IEndpointRouteBuilder app, string name)
        where TPage : IComponent =>
        app.MapGet(
            $"/pots/{{code}}/{name}",
            (string code, ShowPotWork show, CancellationToken cancel) => ShowAsync<TPage>(code, show, cancel)
        );

    private static async Task<IResult> StoveAsync(string code, ShowPotWork show, CancellationToken cancel) =>
        await show.HandleAsync(code, cancel) switch
        {
            null => Show.Missing($"There is no pot {code} in this notebook."),
            { Pot.Counts: true } answer => Show.Page<PotWorkPage>(new { Answer = answer }),
            var answer => Show.Page<RestingPotPage>(new { Answer = answer }),
        };

    private static async Task<IResult> ShowAsync<TPage>(string code, ShowPotWork show, CancellationToken cancel)
        where TPage : IComponent =>
        await show.HandleAsync(code, cancel) is { } answer
            ? Show.Page<TPage>(new { Answer = answer })
            : Show.Missing($"There is no pot {code} in this notebook.");
}

/// <summary>A plan asked for in an address, so that it can be kept and sent.</summary>
public sealed record PlanQuery(
    string? Plant,
    string? Bottles,
    string? Fill,
    string? Liquor,
    string? KeepBack,
    string? FilterLoss,
    string? Additions,
    string? ReduceTo,
    string? Strength,
    string? Ratio,
    string? Pot,
    string? OnHand,
    string? State,
    string? Class,
    string? Base,
    string? Metal,
    string? SpiritStrength
)
{
    internal PlanPotForm ToForm() =>
        new()
        {
            Plant = Plant,
            Bottles = Bottles,
            Fill = Fill,
            Liquor = Liquor,
            KeepBack = KeepBack,
            FilterLoss = FilterLoss,
            Additions = Additions,
            ReduceTo = ReduceTo,
            Strength = Strength,
            Ratio = Ratio,
            Pot = Pot,
            OnHand = OnHand,
            State = State,
            Class = Class,
            Base = Base,
            Metal = Metal,
            SpiritStrength = SpiritStrength,
        };
}
