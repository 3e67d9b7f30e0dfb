using System.IO.Compression;
using System.Text.Json;
using Dyewort.Quantities;
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
                select addition.Amount.Text
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
        Assert.Equal(1.2, (await db.Additions.SingleAsync(addition => addition.Amount.Text == "¼ tsp")).Amount.Grams);
    }

    [Fact]
    public async Task Amounts_have_fields_and_nothing_reads_their_words_again()
    {
        await UnpackAsync("before-initial.db.gz");
        var notebook = await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        await using var db = notebook.NewDb();
        var additions = await db.Additions.ToListAsync();
        Assert.Equal(28, additions.Count);
        Assert.All(additions, addition => Assert.Equal(Read(addition.Amount.Text).In(Teaspoon.Metric), addition.Amount.ToAmount()));
        var berries = additions.Single(addition => addition.Amount.Text == "3 berries").Amount;
        Assert.Equal(
            (3, AmountUnit.Piece, "berry", 0.21, null),
            (berries.Number, berries.Unit, berries.Counted, berries.Grams, berries.Ml)
        );
        var spoon = additions.Single(addition => addition.Amount.Text == "¼ tsp").Amount;
        Assert.Equal((0.25, AmountUnit.Teaspoon, 1.2, 1.25), (spoon.Number, spoon.Unit, spoon.Grams, spoon.Ml));
        Assert.All(
            await db.RecipeSteps.ToListAsync(),
            step =>
                Assert.Equal((Read(step.Amount.Text).In(Teaspoon.Metric), step.Amount.Number), (step.Amount.ToAmount(), step.Amount.Grams))
        );
        var batches = await db.BatchSteps.ToListAsync();
        Assert.Equal(4, batches.Count);
        Assert.All(
            batches,
            step => Assert.Equal((Read(step.Planned.Text).In(Teaspoon.Metric), null), (step.Planned.ToAmount(), step.Measured))
        );
    }

    [Fact]
    public async Task A_plan_in_words_becomes_steps_that_a_new_name_leaves_alone()
    {
        await UnpackAsync("before-initial.db.gz");

        // The material was given another name after the plan was made: an earlier program lost the step then.
        await RunAsync("UPDATE materials SET name = 'washing soda, grey tin' WHERE name = 'soda ash'");
        await RunAsync(
            """
            INSERT INTO corrections (id, entry_kind, entry_id, field, before, after, before_written_at, corrected_at)
            SELECT '019A4300-0000-7000-8000-00000000000A', 'Material', id, 'Name', '"soda ash"', '"washing soda, grey tin"', written_at,
                '2025-11-03T09:00:00.0000000Z' FROM materials WHERE name = 'washing soda, grey tin'
            """
        );
        var notebook = await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        await using var db = notebook.NewDb();
        var steps = await (
            from step in db.PlannedSteps
            join sample in db.Samples on step.SampleId equals sample.Id
            join material in db.Materials on step.MaterialId equals material.Id
            orderby step.Step
            select new
            {
                sample.Jar,
                step.Step,
                material.Name,
                step.Amount,
            }
        ).ToListAsync();
        Assert.Equal(
            [("A3", 1, "alum", "0.4 g", 0.4), ("A3", 2, "washing soda, grey tin", "⅛ tsp", 0.125)],
            steps.Select(one => (one.Jar, one.Step, one.Name, one.Amount.Text, one.Amount.Number))
        );
        Assert.DoesNotContain(await db.Samples.ToListAsync(), sample => sample.Said?.StartsWith("to ", StringComparison.Ordinal) == true);
        Assert.Equal(7.5, (await db.Samples.SingleAsync(sample => sample.MixedWithId != null)).MixedMl);
    }

    [Fact]
    public async Task A_covered_half_is_told_by_a_field()
    {
        await UnpackAsync("before-initial.db.gz");
        var notebook = await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        await using var db = notebook.NewDb();
        var photos = await db.Photos.Where(one => one.Covered != null).ToListAsync();
        Assert.DoesNotContain(photos, one => one.ReadingJson!.Contains("/covered", StringComparison.Ordinal));
        var photo = photos.Single(one => one.ReadingJson!.Contains("The covered half is uneven.", StringComparison.Ordinal));
        using var reading = JsonDocument.Parse(photo.ReadingJson!);
        var swatches = reading.RootElement.GetProperty("swatches").EnumerateArray().ToList();
        Assert.Equal(["A1", "A1", "A2", "A3"], swatches.Select(one => one.GetProperty("id").GetString()).Order());
        var covered = Assert.Single(swatches, one => one.TryGetProperty("covered", out var half) && half.GetBoolean());
        Assert.Equal("The covered half is uneven.", covered.GetProperty("advice")[0].GetString());
    }

    [Fact]
    public async Task What_was_said_of_leave_to_gather_is_in_the_lots_own_field()
    {
        await UnpackAsync("before-initial.db.gz");
        var notebook = await SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);
        await using var db = notebook.NewDb();
        Assert.Equal(
            ["own garden", "windfall galls only", "written, own use, to the end of 2026", "written, sale allowed, to the end of 2026"],
            await db.LotSheets.Select(sheet => sheet.LeaveFrom).OrderBy(words => words).ToListAsync()
        );
        Assert.All(await db.LotSheets.ToListAsync(), sheet => Assert.Null(sheet.Covers));
    }

    private static Amount Read(string text)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        return amount;
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
