using System.Globalization;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>Pours a pot's liquor into equal samples: a trial.</summary>
public sealed class SplitPot(NotebookDb db, TimeProvider clock, LiquorLeft liquor) : IUseCase
{
    private const int MostJars = 96;

    /// <returns>The trial's letter.</returns>
    public async Task<Outcome<string>> HandleAsync(string code, SplitPotForm form, CancellationToken cancel)
    {
        if (await db.Pots.Counting().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return Outcome.Refused<string>(nameof(form.Jars), $"There is no pot {code}.", "Go back to the pots.");
        var entered = new Entered(await db.KitchenAsync(cancel));
        var jars = entered.Whole(nameof(form.Jars), form.Jars, "How many jars", 1, MostJars, 8);
        var volume = entered.Volume(nameof(form.VolumeMl), form.VolumeMl, 0.5, 10_000, "How much in each jar") ?? double.NaN;
        var kind = entered.OneOf(nameof(form.Kind), form.Kind, TrialKind.Free);
        var title = entered.OptionalWords(nameof(form.Title), form.Title, 80);
        if (
            entered.Sound
            && string.IsNullOrEmpty(form.MoreThanWritten)
            && await liquor.AtMostAsync(pot, cancel) is { } left
            && !LiquorLeft.Holds(left, jars * volume)
        )
        {
            var fit = (int)Math.Floor(left / volume);
            entered.Refuse(
                nameof(form.Jars),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{jars} jars of {Volume.Say(volume)} take {Volume.Say(jars * volume)}; "
                        + $"{Volume.Say(Math.Max(left, 0))} of liquor are left."
                ),
                (fit > 0 ? $"At most {fit} such jars can be filled. " : "") + LiquorLeft.MoreThanWritten
            );
        }

        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        var now = clock.GetUtcNow();
        var before = await db.Trials.CountAsync(trial => trial.PotId == pot.Id, cancel);
        var trial = new Trial
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            PotId = pot.Id,
            Letter = Codes.TrialLetter(before),
            Title = title ?? $"{jars} jars",
            Kind = kind,
            SetOutOn = DateOnly.FromDateTime(clock.GetLocalNow().DateTime),
        };
        db.Add(trial);
        for (var number = 1; number <= jars; number++)
        {
            db.Add(
                new Sample
                {
                    Id = Guid.CreateVersion7(now.AddMilliseconds(number)),
                    WrittenAt = now,
                    PotId = pot.Id,
                    TrialId = trial.Id,
                    Jar = string.Create(CultureInfo.InvariantCulture, $"{trial.Letter}{number}"),
                    VolumeMl = volume,
                    PouredAt = now,
                }
            );
        }

        await db.SaveChangesAsync(cancel);
        return entered.Made(trial.Letter);
    }
}

public sealed record SplitPotForm
{
    public string? Title { get; init; }

    public string? Kind { get; init; }

    public string? Jars { get; init; }

    public string? VolumeMl { get; init; }

    /// <summary>Anything where there is more liquor than is written down.</summary>
    public string? MoreThanWritten { get; init; }
}
