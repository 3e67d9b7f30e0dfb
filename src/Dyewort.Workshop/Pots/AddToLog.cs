using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pots;

/// <summary>Writes a line into a pot's log.</summary>
public sealed class AddToLog(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<Outcome<Guid>> HandleAsync(string code, AddToLogForm form, CancellationToken cancel)
    {
        if (await db.Pots.Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return Outcome.Refused<Guid>(nameof(form.Said), $"There is no pot {code}.", "Go back to the pots.");
        var entered = new Entered();
        var celsius = entered.OptionalNumber(nameof(form.Celsius), form.Celsius, "degrees Celsius", -20, 150, "72");
        var ph = entered.OptionalNumber(nameof(form.Ph), form.Ph, "a pH", 0, 14, "3.8");
        var ml = entered.OptionalNumber(nameof(form.Ml), form.Ml, "millilitres", 0.1, 1_000_000, "540");
        var said = entered.OptionalWords(nameof(form.Said), form.Said);
        var kind = entered.OneOf(nameof(form.Kind), form.Kind, Guess(celsius, ph, ml));
        if (kind is LogKind.Strained or LogKind.Reduced or LogKind.PouredAway && ml is null && entered.Sound)
            entered.Refuse(nameof(form.Ml), "How much there is was not said.", "Measure the liquor and type millilitres, such as 540.");
        if (entered.Sound && celsius is null && ph is null && ml is null && said is null)
            entered.Refuse(nameof(form.Said), "The line is empty.", "Say what you saw, or give a temperature, a pH or a volume.");
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        var now = clock.GetUtcNow();
        var entry = new PotLogEntry
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = pot.Id,
            At = now,
            Kind = kind,
            Celsius = celsius,
            Ph = ph,
            Ml = ml,
            Said = said,
        };
        db.Add(entry);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(entry.Id);
    }

    private static LogKind Guess(double? celsius, double? ph, double? ml) =>
        ml is not null ? LogKind.Strained
        : celsius is not null ? LogKind.Temperature
        : ph is not null ? LogKind.Ph
        : LogKind.Note;
}

public sealed record AddToLogForm
{
    public string? Kind { get; init; }

    public string? Celsius { get; init; }

    public string? Ph { get; init; }

    public string? Ml { get; init; }

    public string? Said { get; init; }
}
