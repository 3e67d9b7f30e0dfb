using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop;

/// <summary>What holds for the whole notebook.</summary>
public sealed class NotebookSettings(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <summary>The settings as they stand; the usual ones while nothing was said.</summary>
    public async Task<Settings> ReadAsync(CancellationToken cancel) =>
        await db.Settings.AsNoTracking().SingleOrDefaultAsync(one => one.Id == Settings.OnlyId, cancel)
        ?? new Settings { Id = Settings.OnlyId, WrittenAt = clock.GetUtcNow() };

    /// <summary>Millilitres of the notebook's teaspoon.</summary>
    public async Task<double> TeaspoonMlAsync(CancellationToken cancel) =>
        KitchenMeasures.TeaspoonMillilitres((await ReadAsync(cancel)).Teaspoon);

    public async Task<Outcome<Guid>> SaveAsync(NotebookSettingsForm form, CancellationToken cancel)
    {
        var entered = new Entered();
        var teaspoon = entered.OneOf(nameof(form.Teaspoon), form.Teaspoon, Teaspoon.Metric);
        var currency = entered.OptionalWords(nameof(form.Currency), form.Currency, 8);
        var maker = entered.OptionalWords(nameof(form.Maker), form.Maker, 60);
        var place = entered.OptionalWords(nameof(form.Place), form.Place, 60);
        var poisonCentre = entered.OptionalWords(nameof(form.PoisonCentre), form.PoisonCentre, 60);
        if (!entered.Sound)
            return Outcome.Refused<Guid>(entered.Problems);
        var settings = await db.Settings.SingleOrDefaultAsync(one => one.Id == Settings.OnlyId, cancel);
        if (settings is null)
        {
            settings = new Settings { Id = Settings.OnlyId, WrittenAt = clock.GetUtcNow() };
            db.Add(settings);
        }

        (settings.Teaspoon, settings.Currency, settings.Maker, settings.Place) = (teaspoon, currency, maker, place);
        settings.PoisonCentre = poisonCentre;
        await db.SaveChangesAsync(cancel);
        return Outcome.Of(settings.Id, [$"Saved. {KitchenWords.Of(teaspoon)}"]);
    }
}

public sealed record NotebookSettingsForm
{
    public string? Teaspoon { get; init; }

    public string? Currency { get; init; }

    public string? Maker { get; init; }

    public string? Place { get; init; }

    public string? PoisonCentre { get; init; }
}
