using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Puts a drop of a pot right: its minute, its colour, what was seen.</summary>
public sealed class ChangeDrop(NotebookDb db, TimeProvider clock) : EntryChange<PotDrop, AddDropForm>(db, clock), IUseCase
{
    /// <summary>Its colour as a form's field holds it.</summary>
    public static string? Colour(PotDrop drop)
    {
        ArgumentNullException.ThrowIfNull(drop);
        return drop.Colour is { } colour && Lab.FromXyz(colour) is var lab
            ? FormattableString.Invariant($"lab({lab.L:0.##} {lab.A:0.##} {lab.B:0.##})")
            : null;
    }

    protected override async Task<PotDrop?> FindAsync(Thing thing, CancellationToken cancel) =>
        Guid.TryParse(thing.Part, out var id)
            ? await (
                from drop in Db.PotDrops
                join pot in Db.Pots on drop.PotId equals pot.Id
                where pot.Code == thing.Code && drop.Id == id
                select drop
            ).SingleOrDefaultAsync(cancel)
            : null;

    protected override Task<Action> ReadAsync(Entered entered, PotDrop entry, AddDropForm form, CancellationToken cancel)
    {
        var minute = entered.Minutes(nameof(form.Minute), form.Minute, name: "The minute");

        // What was left alone keeps the figures it was read with.
        var colour =
            form.Colour?.Trim() == Colour(entry) ? entry.Colour
            : string.IsNullOrWhiteSpace(form.Colour) ? null
            : entered.Take(ColourText.Parse(nameof(form.Colour), form.Colour))?.Colour;
        var radius = entered.OptionalNumber(nameof(form.Radius), form.Radius, "ΔE00", 0.05, 30, "1.5");
        var said = entered.OptionalWords(nameof(form.DropSaid), form.DropSaid, 400);
        return Task.FromResult<Action>(() =>
            (entry.Minute, entry.Colour, entry.RadiusDe00, entry.Said) = (minute!.Value, colour, radius, said)
        );
    }
}
