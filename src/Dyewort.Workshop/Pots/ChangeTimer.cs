using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Puts a timer right: what it is for, and how long it runs from the instant it was started.</summary>
public sealed class ChangeTimer(NotebookDb db, TimeProvider clock) : EntryChange<PotTimer, TimePotForm>(db, clock), IUseCase
{
    protected override async Task<PotTimer?> FindAsync(Thing thing, CancellationToken cancel) =>
        Guid.TryParse(thing.Part, out var id)
            ? await (
                from timer in Db.PotTimers
                join pot in Db.Pots on timer.PotId equals pot.Id
                where pot.Code == thing.Code && timer.Id == id
                select timer
            ).SingleOrDefaultAsync(cancel)
            : null;

    protected override Task<Action> ReadAsync(Entered entered, PotTimer entry, TimePotForm form, CancellationToken cancel)
    {
        var minutes = entered.Minutes(nameof(form.Minutes), form.Minutes, 0.1, name: "How long");
        var name = entered.OptionalWords(nameof(form.Name), form.Name, 60) ?? "timer";
        return Task.FromResult<Action>(() => (entry.Name, entry.DueAt) = (name, entry.StartedAt + TimeSpan.FromMinutes(minutes!.Value)));
    }
}
