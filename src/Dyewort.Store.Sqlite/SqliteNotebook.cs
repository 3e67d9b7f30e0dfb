using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Store.Sqlite;

/// <summary>A notebook in a folder that the maker can see and copy: one SQLite file, and photos beside it.</summary>
public sealed class SqliteNotebook
{
    /// <summary>The database's file name.</summary>
    public const string FileName = "notebook.db";

    private readonly DbContextOptions<NotebookDb> options;

    private SqliteNotebook(string folder, DbContextOptions<NotebookDb> options)
    {
        Folder = folder;
        this.options = options;
        Photos = new PhotoShelf(Path.Combine(folder, "photos"));
        Made = new MadeShelf(Path.Combine(folder, "made"));
    }

    /// <summary>The folder.</summary>
    public string Folder { get; }

    /// <summary>The photos beside the database.</summary>
    public PhotoShelf Photos { get; }

    /// <summary>Pictures made from the photos.</summary>
    public MadeShelf Made { get; }

    /// <summary>Where a maker's notebook lies unless they say otherwise.</summary>
    public static string UsualFolder => Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), "Dyewort");

    /// <summary>
    /// Opens the notebook of a folder, makes it when there is none, and brings an older one up to date after copying its file.
    /// </summary>
    /// <exception cref="NotebookTooOldException">The notebook is older than the oldest that this program can bring up to date.</exception>
    public static async Task<SqliteNotebook> OpenAsync(string folder, TimeProvider clock, CancellationToken cancel)
    {
        Directory.CreateDirectory(folder);
        var file = Path.Combine(folder, FileName);
        var opened = Options(file, clock);
        await using var db = new NotebookDb(opened);
        if (File.Exists(file))
        {
            var applied = (await db.Database.GetAppliedMigrationsAsync(cancel)).ToList();
            MigrationsBeforeInitial.Check(folder, applied);
            var pending = (await db.Database.GetPendingMigrationsAsync(cancel)).ToList();
            if (pending.Count > 0)
            {
                var stamp = clock.GetUtcNow().ToString("yyyyMMdd-HHmmss", CultureInfo.InvariantCulture);
                await CopyAsync(file, Path.Combine(folder, "before-update", $"notebook-{stamp}.db"), cancel);
            }

            if (MigrationsBeforeInitial.StandIn(applied))
                await MigrationsBeforeInitial.ReplaceAsync(db, cancel);
        }

        // The functions live as long as the connection is open.
        await db.Database.OpenConnectionAsync(cancel);
        OldWords.TeachTo((SqliteConnection)db.Database.GetDbConnection());
        await db.Database.MigrateAsync(cancel);
        await EarlierSquares.CarryOverAsync(db, cancel);
        await db.Database.ExecuteSqlRawAsync("PRAGMA journal_mode=WAL;", cancel);
        return new SqliteNotebook(Path.GetFullPath(folder), opened);
    }

    /// <summary>A new unit of work on the notebook.</summary>
    public NotebookDb NewDb() => new(options);

    /// <summary>Options for a database file; the tests and the migration tool use them too.</summary>
    public static DbContextOptions<NotebookDb> Options(string file, TimeProvider clock) =>
        new DbContextOptionsBuilder<NotebookDb>()
            .UseSqlite(
                new SqliteConnectionStringBuilder
                {
                    DataSource = file,
                    ForeignKeys = true,
                    DefaultTimeout = 15,
                }.ToString(),
                sqlite => sqlite.MigrationsAssembly(typeof(SqliteNotebook).Assembly.GetName().Name)
            )
            .AddInterceptors(new CorrectionKeeper(clock), new ClashTeller())
            .Options;

    // SQLite's own copy: right even while another process has the file open.
    private static async Task CopyAsync(string file, string copy, CancellationToken cancel)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
        await using var from = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        await using var to = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = copy, Pooling = false }.ToString());
        await from.OpenAsync(cancel);
        await to.OpenAsync(cancel);
        from.BackupDatabase(to);
    }
}
