using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Gives a house strip or card another name, or takes it back: it is no longer offered for photos, and what was read with it
/// stands. Its figures stay what they are: readings stand on them, so other figures are another card.</summary>
public sealed class ChangeStrip(NotebookDb db, TimeProvider clock) : EntryChange<HouseStrip, ChangeStripForm>(db, clock), IUseCase
{
    protected override async Task<HouseStrip?> FindAsync(Thing thing, CancellationToken cancel) =>
        Guid.TryParse(thing.Code, out var id) ? await Db.HouseStrips.SingleOrDefaultAsync(one => one.Id == id, cancel) : null;

    protected override async Task<Action> ReadAsync(Entered entered, HouseStrip entry, ChangeStripForm form, CancellationToken cancel)
    {
        var name = await KeepStrip.FreeNameAsync(Db, nameof(form.Name), form.Name, "The name", entry.Id, entered, cancel);
        return () => entry.Name = name;
    }

    protected override async Task<Problem?> NotBackAsync(HouseStrip entry, CancellationToken cancel) =>
        await Db.HouseStrips.Counting().AnyAsync(other => other.Name == entry.Name, cancel)
            ? new(nameof(WithdrawForm.Why), $"Another strip or card is called “{entry.Name}” now.", "Give that one another name first.")
            : null;
}

public sealed record ChangeStripForm
{
    public string? Name { get; init; }
}
