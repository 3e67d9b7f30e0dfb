using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Gives a house strip or card another name, or takes it back. Its figures stay what they are: readings stand on them, so other
/// figures are another card.</summary>
public sealed class ChangeStrip(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>Name of the field for a new name: many stand on one page.</summary>
    public static string NameField(Guid id) => $"Name-{id:N}";

    /// <summary>Name of the field for the reason.</summary>
    public static string WhyField(Guid id) => $"Why-{id:N}";

    /// <returns>The strip's or card's key.</returns>
    public async Task<Outcome<Guid>> RenameAsync(Guid id, string? typed, CancellationToken cancel)
    {
        if (await FindAsync(id, cancel) is not { } strip)
            return NotThere(NameField(id));
        var entered = new Entered();
        var name = await KeepStrip.FreeNameAsync(db, NameField(id), typed, "The name", id, entered, cancel);
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        strip.Name = name;
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(id);
    }

    /// <summary>It is no longer offered for photos; what was read with it stands, and still names it.</summary>
    /// <returns>The strip's or card's key.</returns>
    public async Task<Outcome<Guid>> TakeBackAsync(Guid id, string? why, CancellationToken cancel)
    {
        if (await FindAsync(id, cancel) is not { } strip)
            return NotThere(WhyField(id));
        var entered = new Entered();
        var reason = entered.OptionalWords(WhyField(id), why, 200);
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        (strip.WithdrawnAt, strip.WithdrawnWhy) = (clock.GetUtcNow(), reason);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(id);
    }

    private Task<Notebook.HouseStrip?> FindAsync(Guid id, CancellationToken cancel) =>
        db.HouseStrips.Counting().SingleOrDefaultAsync(strip => strip.Id == id, cancel);

    private static Outcome<Guid> NotThere(string field) =>
        Outcome.Refused<Guid>(field, "This strip or card is not in the notebook, or was taken back before.", "Load the page again.");
}
