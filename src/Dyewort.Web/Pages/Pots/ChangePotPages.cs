using Dyewort.Notebook;
using Dyewort.Workshop;
using Dyewort.Workshop.Pots;
using Microsoft.AspNetCore.Routing;

namespace Dyewort.Web.Pages.Pots;

/// <summary>Pots, lines of their logs and lots of plant put right.</summary>
public sealed class ChangePotPages : IPages
{
    public void Map(IEndpointRouteBuilder app)
    {
        ChangePages.Map<ChangePot, Pot, ChangePotForm>(
            app,
            "/pots/{code}",
            ThingKind.Pot,
            (_, _, answer) => Task.FromResult(Show.Page<ChangePotPage>(new { Answer = answer }))
        );
        ChangePages.Map<ChangeLogLine, PotLogEntry, ChangeLogLineForm>(
            app,
            "/pots/{code}/log/{part:guid}",
            ThingKind.LogLine,
            (_, change, answer) => Task.FromResult(Show.Page<ChangeLogLinePage>(new { Answer = answer, At = change.At(answer.Entry) }))
        );
        ChangePages.Map<ChangeLot, PlantLot, ChangeLotForm>(
            app,
            "/lots/{code:guid}",
            ThingKind.Lot,
            (_, _, answer) => Task.FromResult(Show.Page<ChangeLotPage>(new { Answer = answer }))
        );
    }
}
