using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Starts and answers timers at the stove. A timer is two instants in the notebook; nothing runs.</summary>
public sealed class TimePot(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<Outcome<Guid>> StartAsync(string code, TimePotForm form, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return Outcome.Refused<Guid>(nameof(form.Minutes), $"There is no pot {code}.", "Go back to the pots.");
        var entered = new Entered();
        var minutes = entered.Minutes(nameof(form.Minutes), form.Minutes, 0.1, name: "How long");
        var name = entered.OptionalWords(nameof(form.Name), form.Name, 60) ?? "timer";
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        var now = clock.GetUtcNow();
        var timer = new PotTimer
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = pot.Id,
            Name = name,
            StartedAt = now,
            DueAt = now + TimeSpan.FromMinutes(minutes!.Value),
        };
        db.Add(timer);
        await db.SaveChangesAsync(cancel);
        return entered.Made(timer.Id);
    }

    public async Task<Outcome<Guid>> AnswerAsync(string code, Guid timerId, CancellationToken cancel)
    {
        var timer = await (
            from one in db.PotTimers
            join pot in db.Pots on one.PotId equals pot.Id
            where pot.Code == code && one.Id == timerId
            select one
        ).SingleOrDefaultAsync(cancel);
        if (timer is null)
            return Outcome.Refused<Guid>("Minutes", "This timer is not in the notebook.", "Load the page again.");
        timer.AnsweredAt ??= clock.GetUtcNow();
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(timer.Id);
    }
}

public sealed record TimePotForm
{
    public string? Name { get; init; }

    public string? Minutes { get; init; }
}
