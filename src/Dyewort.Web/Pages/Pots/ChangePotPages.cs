using Dyewort.Notebook;
using Dyewort.Workshop;
using Dyewort.Workshop.Pots;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Pots;

/// <summary>Pots, lines of their logs, their timers and drops, and lots of plant put right.</summary>
public sealed class ChangePotPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        ChangePages.Map<ChangePot, Pot, ChangePotForm>(
            app,
            "/pots/{code}",
            ThingKind.Pot,
            async (http, change, answer) =>
                Show.Page<ChangePotPage>(new { Answer = answer, Lots = await change.LotsAsync(answer.Entry, http.RequestAborted) })
        );
        ChangePages.Map<ChangeLogLine, PotLogEntry, ChangeLogLineForm>(
            app,
            "/pots/{code}/log/{part:guid}",
            ThingKind.LogLine,
            (_, change, answer) => Task.FromResult(Show.Page<ChangeLogLinePage>(new { Answer = answer, At = change.At(answer.Entry) }))
        );
        ChangePages.Map<ChangeTimer, PotTimer, TimePotForm>(
            app,
            "/pots/{code}/timers/{part:guid}",
            ThingKind.Timer,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeTimerPage>(new { Answer = answer }))
        );
        ChangePages.Map<ChangeDrop, PotDrop, AddDropForm>(
            app,
            "/pots/{code}/drops/{part:guid}",
            ThingKind.Drop,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeDropPage>(new { Answer = answer }))
        );
        ChangePages.Map<ChangeLot, PlantLot, ChangeLotForm>(
            app,
            "/lots/{code:guid}",
            ThingKind.Lot,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeLotPage>(new { Answer = answer }))
        );
    }
}
