using System.IO.Compression;
using Dyewort.Store.Sqlite;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Store.Tests;

/// <summary>Notebooks that earlier programs made.</summary>
public sealed class EarlierNotebookTests : IDisposable
{
    private static readonly DateTimeOffset Today = new(2026, 12, 1, 8, 0, 0, TimeSpan.Zero);
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-{Guid.NewGuid():N}");

    private string File => Path.Combine(folder, SqliteNotebook.FileName);

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_notebook_from_before_Initial_opens_with_what_it_held_and_leaves_a_copy()
    {
        await UnpackAsync("before-initial.db.gz");
        var notebook = await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);

        await using var db = notebook.NewDb();
        Assert.Equal(30, await db.Swatches.CountAsync());
        Assert.Equal(31, await db.Samples.CountAsync());
        Assert.Equal(79, await db.Readings.CountAsync());
        Assert.Equal(56, await db.Bottles.CountAsync());
        Assert.Equal("crimson", (await db.Samples.SingleAsync(sample => sample.Jar == "A10")).Said);
        Assert.Equal(
            ["¼ tsp", "3 berries"],
            await (
                from addition in db.Additions
                join sample in db.Samples on addition.SampleId equals sample.Id
                where sample.Said == "pale lemon"
                orderby addition.Step
                select addition.AmountText
            ).ToListAsync()
        );
        Assert.Empty(await db.Database.GetPendingMigrationsAsync());
        Assert.Equal(await ColumnAsync(File, "SELECT MigrationId FROM __EFMigrationsHistory"), db.Database.GetMigrations());

        var copy = Assert.Single(Directory.GetFiles(Path.Combine(folder, "before-update"), "*.db"));
        Assert.Equal(8, (await ColumnAsync(copy, "SELECT MigrationId FROM __EFMigrationsHistory")).Count);
    }

    [Fact]
    public async Task A_notebook_from_before_Initial_ends_with_the_tables_of_a_new_one()
    {
        await UnpackAsync("before-initial.db.gz");
        await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        var carried = await ColumnsAsync(File);
        Assert.Contains("samples.mixed_ml REAL", carried);

        var fresh = Path.Combine(folder, "fresh");
        await SqliteNotebook.OpenAsync(fresh, new Clock(), CancellationToken.None);
        Assert.Equal(await ColumnsAsync(Path.Combine(fresh, SqliteNotebook.FileName)), carried);
    }

    [Fact]
    public async Task It_opens_a_second_time_without_another_copy()
    {
        await UnpackAsync("before-initial.db.gz");
        await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        Assert.Single(Directory.GetFiles(Path.Combine(folder, "before-update"), "*.db"));
    }

    [Fact]
    public async Task A_still_older_notebook_is_refused_untouched_and_told_what_opens_it()
    {
        await UnpackAsync("before-initial.db.gz");
        await RunAsync("DELETE FROM __EFMigrationsHistory WHERE MigrationId = '20261130025000_Mixtures'");
        var refused = await Assert.ThrowsAsync<NotebookTooOldException>(() =>
            SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None)
        );
        Assert.Contains(folder, refused.Message, StringComparison.Ordinal);
        Assert.Contains("4903c72", refused.Remedy, StringComparison.Ordinal);
        Assert.Equal(7, (await ColumnAsync(File, "SELECT MigrationId FROM __EFMigrationsHistory")).Count);
        Assert.False(Directory.Exists(Path.Combine(folder, "before-update")));
    }

    [Fact]
    public async Task What_was_copied_from_a_table_is_no_weighing_and_no_words_of_the_makers_and_stays_readable()
    {
        await UnpackAsync("before-initial.db.gz");
        var notebook = await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        await using var db = notebook.NewDb();
        var alum = await db.Materials.SingleAsync(material => material.Name == "alum");
        Assert.Null(alum.GramsPerTeaspoon);
        Assert.Null(alum.GramsPerTeaspoonSource);
        Assert.Null(alum.Caution);
        var corrections = await db.Corrections.Where(one => one.EntryId == alum.Id).OrderBy(one => one.Field).ToListAsync();
        Assert.Equal(
            [
                ("Caution", "\"Irritates eyes. Keep the dust down; keep it away from food and children.\""),
                ("GramsPerTeaspoon", "4.8"),
                ("GramsPerTeaspoonSource", "\"from memory\""),
            ],
            corrections.Select(one => (one.Field, one.Before))
        );
        Assert.All(corrections, one => Assert.Equal(("Material", "null", alum.WrittenAt), (one.EntryKind, one.After, one.BeforeWrittenAt)));

        // A spoonful that was weighed and a caution that was written stay.
        var tartar = await db.Materials.SingleAsync(material => material.Name == "cream of tartar");
        Assert.Equal((3.6, "weighed here"), (tartar.GramsPerTeaspoon, tartar.GramsPerTeaspoonSource));
        Assert.NotNull((await db.Materials.SingleAsync(material => material.Name == "elderberry")).Caution);

        // What was written at the bench keeps the grams of that day.
        Assert.Equal(1.2, (await db.Additions.SingleAsync(addition => addition.AmountText == "¼ tsp")).Grams);
    }

    private async Task UnpackAsync(string name)
    {
        Directory.CreateDirectory(folder);
        await using var packed = new GZipStream(
            System.IO.File.OpenRead(Path.Combine(AppContext.BaseDirectory, "Notebooks", name)),
            CompressionMode.Decompress
        );
        await using var file = System.IO.File.Create(File);
        await packed.CopyToAsync(file);
    }

    /// <summary>Every column of every table with its type, "table.column TYPE", in alphabetical order.</summary>
    private static Task<List<string>> ColumnsAsync(string file) =>
        ColumnAsync(
            file,
            """
            SELECT t.name || '.' || c.name || ' ' || c.type || CASE c."notnull" WHEN 1 THEN ' NOT NULL' ELSE '' END AS one
            FROM sqlite_master t, pragma_table_info(t.name) c WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' ORDER BY one
            """
        );

    private static async Task<List<string>> ColumnAsync(string file, string sql)
    {
        await using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await using var rows = await command.ExecuteReaderAsync();
        var values = new List<string>();
        while (await rows.ReadAsync())
            values.Add(rows.GetString(0));
        return values;
    }

    private async Task RunAsync(string sql)
    {
        await using var connection = new SqliteConnection($"Data Source={File};Pooling=False");
        await connection.OpenAsync();
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }

    private sealed class Clock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => Today;
    }
}
