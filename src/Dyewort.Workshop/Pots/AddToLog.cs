using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Writes a line into a pot's log.</summary>
public sealed class AddToLog(NotebookDb db, TimeProvider clock, LiquorLeft liquor) : IUseCase
{
    public async Task<Outcome<Guid>> HandleAsync(string code, AddToLogForm form, CancellationToken cancel)
    {
        if (await db.Pots.Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return Outcome.Refused<Guid>(nameof(form.Said), $"There is no pot {code}.", "Go back to the pots.");
        var entered = new Entered(await db.KitchenAsync(cancel), form);
        var celsius = entered.Temperature(nameof(form.Celsius), form.Celsius, -20, 150);
        var ph = entered.Ph(nameof(form.Ph), form.Ph);
        var by = entered.OneOf(nameof(form.PhBy), form.PhBy, PhTool.Strip);
        var ml = entered.Volume(nameof(form.Ml), form.Ml, 0.1);
        var said = entered.OptionalWords(nameof(form.Said), form.Said);
        var at = entered.At(nameof(form.At), form.At, clock);
        var kind = entered.OneOf(nameof(form.Kind), form.Kind, Guess(celsius, ph, ml));
        if (kind is LogKind.Strained or LogKind.Reduced or LogKind.PouredAway && ml is null && entered.Sound)
            entered.Refuse(nameof(form.Ml), "How much there is was not said.", "Measure the liquor and type it, such as 540 ml.");
        if (entered.Sound && celsius is null && ph is null && ml is null && said is null)
            entered.Refuse(nameof(form.Said), "The line is empty.", "Say what you saw, or give a temperature, a pH or a volume.");
        if (ml is { } volume)
            entered.Doubt(await liquor.DoubtAsync(pot, kind, volume, null, cancel));
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        var now = clock.GetUtcNow();
        var entry = new PotLogEntry
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = pot.Id,
            At = at,
            Kind = kind,
            Celsius = celsius,
            Ph = ph,
            PhBy = ph is null ? null : by,
            Ml = ml,
            Said = said,
        };
        db.Add(entry);
        await db.SaveChangesAsync(cancel);
        return entered.Made(entry.Id);
    }

    private static LogKind Guess(double? celsius, double? ph, double? ml) =>
        ml is not null ? LogKind.Strained
        : celsius is not null ? LogKind.Temperature
        : ph is not null ? LogKind.Ph
        : LogKind.Note;
}

public sealed record AddToLogForm : IDoubtable
{
    public string? Kind { get; init; }

    public string? Celsius { get; init; }

    public string? Ph { get; init; }

    /// <summary>One of <see cref="PhTool"/>'s names; by strip when empty.</summary>
    public string? PhBy { get; init; }

    public string? Ml { get; init; }

    public string? Said { get; init; }

    /// <summary>When it happened, "2025-09-06 14:30" or "14:30"; now when empty.</summary>
    public string? At { get; init; }

    /// <inheritdoc />
    public string? Meant { get; init; }
}
