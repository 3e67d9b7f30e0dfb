using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Charts;

/// <summary>Takes back a photo that was sent by mistake, with everything that was read from it. Nothing is erased.</summary>
public sealed class WithdrawPhoto(NotebookDb db, TimeProvider clock) : IUseCase
{
    /// <returns>The chart's code.</returns>
    public async Task<Outcome<string>> HandleAsync(int number, Guid photoId, string? why, CancellationToken cancel)
    {
        if (await ChartReader.FindAsync(db, number, photoId, cancel) is not var (photo, _))
            return Outcome.Refused<string>("Why", "This photo is not in the notebook, or was taken back before.", "Go back to the chart.");
        var entered = new Entered();
        var reason = entered.OptionalWords("Why", why, 200);
        if (!entered.Sound)
            return Outcome.Refused<string>(entered.Problems);
        var now = clock.GetUtcNow();
        (photo.WithdrawnAt, photo.WithdrawnWhy) = (now, reason);
        foreach (var reading in await db.Readings.Counting().Where(reading => reading.PhotoId == photoId).ToListAsync(cancel))
            (reading.WithdrawnAt, reading.WithdrawnWhy) = (now, reason);
        await db.SaveChangesAsync(cancel);
        return Outcome.Of($"C{number}");
    }
}
