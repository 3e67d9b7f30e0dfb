using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Dyewort.Store.Sqlite;

/// <summary>Says in the notebook's own words that two wrote at once.</summary>
internal sealed class ClashTeller : SaveChangesInterceptor
{
    // SQLite's own codes, sqlite.org/rescode.html, from memory.
    private const int Busy = 5;
    private const int PrimaryKeyTaken = 1555;
    private const int UniqueTaken = 2067;

    public override void SaveChangesFailed(DbContextErrorEventData eventData)
    {
        Tell(eventData.Exception);
        base.SaveChangesFailed(eventData);
    }

    public override Task SaveChangesFailedAsync(DbContextErrorEventData eventData, CancellationToken cancellationToken = default)
    {
        Tell(eventData.Exception);
        return base.SaveChangesFailedAsync(eventData, cancellationToken);
    }

    private static void Tell(Exception failed)
    {
        if (
            (failed as SqliteException ?? failed.InnerException as SqliteException) is { } sqlite
            && (sqlite.SqliteErrorCode == Busy || sqlite.SqliteExtendedErrorCode is PrimaryKeyTaken or UniqueTaken)
        )
            throw new ClashException(failed);
    }
}
