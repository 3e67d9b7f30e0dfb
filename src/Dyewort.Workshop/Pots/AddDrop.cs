using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Writes down a drop of a pot with its minute, and its colour once it is dry and read.</summary>
public sealed class AddDrop(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<Outcome<Guid>> HandleAsync(string code, AddDropForm form, CancellationToken cancel)
    {
        if (await db.Pots.AsNoTracking().Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return Outcome.Refused<Guid>(nameof(form.Minute), $"There is no pot {code}.", "Go back to the pots.");
        var now = clock.GetUtcNow();
        var entered = new Entered();
        var minute = entered.Minutes(nameof(form.Minute), form.Minute);
        if (minute is null && entered.Sound)
        {
            var sheet = await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == pot.Id, cancel);
            if (sheet?.StartedAt is { } start && now >= start)
                minute = Math.Round((now - start).TotalMinutes, 1);
            else
                entered.Refuse(nameof(form.Minute), "The minute is missing.", "Say when the plant met the liquid, or type the minute.");
        }

        var colour = string.IsNullOrWhiteSpace(form.Colour) ? null : entered.Take(ColourText.Parse(nameof(form.Colour), form.Colour));
        var radius = entered.OptionalNumber(nameof(form.Radius), form.Radius, "ΔE00", 0.05, 30, "1.5");
        var said = entered.OptionalWords(nameof(form.DropSaid), form.DropSaid, 400);
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        var drop = new PotDrop
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = pot.Id,
            Minute = minute!.Value,
            Colour = colour?.Colour,
            RadiusDe00 = radius,
            Said = said,
        };
        db.Add(drop);
        await db.SaveChangesAsync(cancel);
        return entered.Made(drop.Id);
    }

    /// <summary>Gives a drop its colour, once it is dry and read.</summary>
    public async Task<Outcome<Guid>> ReadAsync(string code, Guid dropId, AddDropForm form, CancellationToken cancel)
    {
        if (await FindAsync(code, dropId, cancel) is not { } drop)
            return Outcome.Refused<Guid>(nameof(form.Colour), "This drop is not in the notebook.", "Load the page again.");
        var entered = new Entered();
        var colour = entered.Take(ColourText.Parse(nameof(form.Colour), form.Colour));
        var radius = entered.OptionalNumber(nameof(form.Radius), form.Radius, "ΔE00", 0.05, 30, "1.5");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        (drop.Colour, drop.RadiusDe00) = (colour!.Colour, radius);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(drop.Id);
    }

    private Task<PotDrop?> FindAsync(string code, Guid dropId, CancellationToken cancel) =>
        (
            from one in db.PotDrops.Counting()
            join pot in db.Pots on one.PotId equals pot.Id
            where pot.Code == code && one.Id == dropId
            select one
        ).SingleOrDefaultAsync(cancel);
}

public sealed record AddDropForm
{
    public string? Minute { get; init; }

    public string? Colour { get; init; }

    public string? Radius { get; init; }

    public string? DropSaid { get; init; }
}
