using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Puts a line of a pot's log right, its kind too.</summary>
public sealed class ChangeLogLine(NotebookDb db, TimeProvider clock, LiquorLeft liquor)
    : EntryChange<PotLogEntry, ChangeLogLineForm>(db, clock),
        IUseCase
{
    /// <summary>When it happened, as a form's field holds it.</summary>
    public string At(PotLogEntry line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return WrittenTime.Say(line.At, Clock);
    }

    protected override async Task<PotLogEntry?> FindAsync(Thing thing, CancellationToken cancel) =>
        Guid.TryParse(thing.Part, out var id)
            ? await (
                from line in Db.PotLog
                join pot in Db.Pots on line.PotId equals pot.Id
                where pot.Code == thing.Code && line.Id == id
                select line
            ).SingleOrDefaultAsync(cancel)
            : null;

    protected override async Task<Action> ReadAsync(Entered entered, PotLogEntry entry, ChangeLogLineForm form, CancellationToken cancel)
    {
        var at = WrittenTime.Read(entered, nameof(form.At), form.At, entry.At, Clock);
        var celsius = entered.Temperature(nameof(form.Celsius), form.Celsius, -20, 150);
        var ph = entered.Ph(nameof(form.Ph), form.Ph);
        var ml = entered.Volume(nameof(form.Ml), form.Ml, 0.1);
        var said = entered.OptionalWords(nameof(form.Said), form.Said);
        var kind = entered.OneOf(nameof(form.Kind), form.Kind, entry.Kind);
        if (kind is LogKind.Strained or LogKind.Reduced or LogKind.PouredAway && ml is null && entered.Sound)
            entered.Refuse(nameof(form.Ml), "How much there was is missing.", "Type it, such as 540 ml, or take the line back.");
        if (entered.Sound && celsius is null && ph is null && ml is null && said is null)
            entered.Refuse(nameof(form.Said), "The line is empty.", "Say what it should say, or take it back.");
        if (ml is { } volume && (ml != entry.Ml || kind != entry.Kind))
        {
            var pot = await Db.Pots.AsNoTracking().SingleAsync(one => one.Id == entry.PotId, cancel);
            entered.Doubt(await liquor.DoubtAsync(pot, kind, volume, entry, cancel));
        }

        return () => (entry.At, entry.Kind, entry.Celsius, entry.Ph, entry.Ml, entry.Said) = (at, kind, celsius, ph, ml, said);
    }
}

public sealed record ChangeLogLineForm : IDoubtable
{
    /// <summary>One of <see cref="LogKind"/>'s names; as it was when empty.</summary>
    public string? Kind { get; init; }

    /// <summary>"2025-09-06T08:05" where the maker stands.</summary>
    public string? At { get; init; }

    public string? Celsius { get; init; }

    public string? Ph { get; init; }

    public string? Ml { get; init; }

    public string? Said { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
