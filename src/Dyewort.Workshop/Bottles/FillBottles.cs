using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Batches;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Bottles;

/// <summary>Fills a batch into bottles; every bottle gets a code of its own.</summary>
public sealed class FillBottles(NotebookDb db, TimeProvider clock) : IUseCase
{
    // A measuring jug is read to about one part in fifty.
    private const double JugSlack = 1.02;

    /// <returns>How many were filled now.</returns>
    public async Task<Outcome<int>> HandleAsync(string batchCode, FillBottlesForm form, CancellationToken cancel)
    {
        if (await BatchView.LoadAsync(db, batchCode, cancel) is not { Batch.Counts: true } view)
            return Outcome.Refused<int>(nameof(form.FillMl), $"There is no batch {batchCode} in this notebook.", "Go back to the batches.");
        var entered = new Entered(await db.KitchenAsync(cancel));
        var today = DateOnly.FromDateTime(clock.GetLocalNow().DateTime);
        var container = Guid.TryParse(form.Container, out var id)
            ? await db.Materials.AsNoTracking().SingleOrDefaultAsync(one => one.Id == id && one.Kind == MaterialKind.Container, cancel)
            : null;
        var fill = entered.Volume(nameof(form.FillMl), form.FillMl, 0.5, 100_000, "How much goes into each") ?? double.NaN;
        int? count = string.IsNullOrWhiteSpace(form.Count)
            ? null
            : entered.Whole(nameof(form.Count), form.Count, "How many", 1, BottleCode.LastBottle, 12);
        var kept = entered.Volume(nameof(form.KeptBackMl), form.KeptBackMl) ?? view.Batch.KeptBackMl ?? 0;
        var filledOn = entered.PastDay(nameof(form.FilledOn), form.FilledOn, today, today);
        DateOnly? keepBy = string.IsNullOrWhiteSpace(form.KeepBy)
            ? view.Batch.KeepBy
            : entered.Day(nameof(form.KeepBy), form.KeepBy, filledOn);
        var place = entered.OptionalWords(nameof(form.Place), form.Place, 80);
        if (filledOn < view.Batch.MadeOn)
            entered.Refuse(nameof(form.FilledOn), "The bottles were filled before the batch was made.", "Check the two days.");
        if (keepBy < filledOn)
            entered.Refuse(nameof(form.KeepBy), "The last day is before the day of filling.", "Check the two days.");
        if (!entered.Sound)
            return Outcome.Refused<int>(entered.Problems);

        var left = Math.Max(0, view.Ready.Ml - view.FilledMl);
        var plan = Bottling.Plan(
            Volume.FromMillilitres(Math.Min(left, Volume.MaxMillilitres)),
            filterLoss: 0,
            Volume.FromMillilitres(kept),
            Volume.FromMillilitres(fill),
            Volume.FromMillilitres(Math.Max(container?.HoldsMl ?? fill, 0))
        );
        if (!plan.TryGet(out var bottling))
            return Outcome.Refused<int>([
                .. plan.Problems.Select(problem =>
                    problem with
                    {
                        Field = problem.Field == "kept" ? nameof(form.KeptBackMl) : nameof(form.FillMl),
                    }
                ),
            ]);
        var filled = count ?? bottling.Bottles;
        var toFill = left - kept;
        if (filled < 1)
            return Outcome.Refused<int>(
                nameof(form.FillMl),
                $"The {Ml(toFill)} left do not fill one bottle of {Ml(fill)}.",
                "Fill less into each."
            );
        if (filled * fill > toFill * JugSlack)
        {
            return Outcome.Refused<int>(
                nameof(form.Count),
                $"{filled} bottles of {Ml(fill)} need {Ml(filled * fill)}; {Ml(toFill)} are there.",
                view.Ready.Measured
                    ? "Fill fewer, or measure the batch again."
                    : "Fill fewer, or write down how much there is after filtering."
            );
        }

        var last = view.Bottles.Count == 0 ? 0 : view.Bottles.Max(bottle => bottle.Number);
        var now = clock.GetUtcNow();
        var made = BatchMaker.Fill(
            view.Batch,
            last,
            filled,
            Volume.FromMillilitres(fill),
            container?.Id,
            filledOn,
            () => Guid.CreateVersion7(now),
            now
        );
        if (!made.TryGet(out var bottles))
            return Outcome.Refused<int>([.. made.Problems.Select(problem => problem with { Field = nameof(form.Count) })]);
        foreach (var bottle in bottles)
            (bottle.KeepBy, bottle.Place) = (keepBy, place);
        db.AddRange(bottles);
        if (kept > 0)
            (await db.Batches.SingleAsync(one => one.Id == view.Batch.Id, cancel)).KeptBackMl = kept;
        await db.SaveChangesAsync(cancel);
        return entered.Made(filled);
    }

    private static string Ml(double ml) => Volume.Say(Math.Max(0, ml));
}

public sealed record FillBottlesForm
{
    public string? Container { get; init; }

    public string? FillMl { get; init; }

    /// <summary>How many were filled; as many as the batch gives when it is empty.</summary>
    public string? Count { get; init; }

    public string? KeptBackMl { get; init; }

    public string? FilledOn { get; init; }

    /// <summary>The last day; the batch's own when it is empty.</summary>
    public string? KeepBy { get; init; }

    public string? Place { get; init; }
}
