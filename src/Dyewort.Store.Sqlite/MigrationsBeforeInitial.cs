using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;

namespace Dyewort.Store.Sqlite;

/// <summary>The eight migrations that became the one called Initial: a notebook made by all of them has Initial's tables already.</summary>
internal static class MigrationsBeforeInitial
{
    private static readonly string[] Ids =
    [
        "20261125090142_Initial",
        "20261125093239_Settings",
        "20261125095548_Stove",
        "20261125100900_Making",
        "20261125125534_Reading",
        "20261130021000_PrintedBlack",
        "20261130024500_Cards",
        "20261130025000_Mixtures",
    ];

    /// <summary>True where the notebook was made by these migrations.</summary>
    public static bool StandIn(IReadOnlyCollection<string> applied) => applied.Contains(Ids[0]);

    /// <summary>Lets pass a notebook that all of them made, or none.</summary>
    /// <exception cref="NotebookTooOldException">Only the first of them were applied, so that it lacks tables.</exception>
    public static void Check(string folder, IReadOnlyCollection<string> applied)
    {
        if (StandIn(applied) && !Ids.All(applied.Contains))
            throw new NotebookTooOldException(folder);
    }

    /// <summary>Writes Initial where the eight stood, in one transaction.</summary>
    public static async Task ReplaceAsync(NotebookDb db, CancellationToken cancel)
    {
        var initial = db.Database.GetMigrations().First();
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        foreach (var id in Ids)
            await db.Database.ExecuteSqlAsync($"DELETE FROM __EFMigrationsHistory WHERE MigrationId = {id}", cancel);

        // Another process may have been first.
        await db.Database.ExecuteSqlAsync(
            $"INSERT OR IGNORE INTO __EFMigrationsHistory (MigrationId, ProductVersion) VALUES ({initial}, {ProductInfo.GetVersion()})",
            cancel
        );
        await transaction.CommitAsync(cancel);
    }
}
