using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Store.Tests;

public sealed class NotebookTests : IAsyncLifetime
{
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-{Guid.NewGuid():N}");
    private readonly Clock clock = new(new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero));

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    public ValueTask DisposeAsync()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task A_correction_keeps_what_it_corrected_with_both_times()
    {
        var notebook = await SqliteNotebook.OpenAsync(folder, clock, CancellationToken.None);
        var written = clock.GetUtcNow();
        var alum = new Material
        {
            Id = Guid.CreateVersion7(written),
            WrittenAt = written,
            Name = "alum",
            Kind = MaterialKind.Addition,
            GramsPerTeaspoon = 4.8,
        };
        await using (var db = notebook.NewDb())
        {
            db.Add(alum);
            await db.SaveChangesAsync();
        }

        var first = await CorrectAsync(notebook, alum.Id, TimeSpan.FromHours(1), 4.7);
        var second = await CorrectAsync(notebook, alum.Id, TimeSpan.FromHours(2), 4.75);

        await using var read = notebook.NewDb();
        var corrections = await read.Corrections.OrderBy(one => one.CorrectedAt).ToListAsync();
        Assert.Collection(
            corrections,
            one =>
                Assert.Equal(
                    ("Material", "GramsPerTeaspoon", "4.8", "4.7", written, first),
                    (one.EntryKind, one.Field, one.Before, one.After, one.BeforeWrittenAt, one.CorrectedAt)
                ),
            one =>
                Assert.Equal(
                    ("Material", "GramsPerTeaspoon", "4.7", "4.75", first, second),
                    (one.EntryKind, one.Field, one.Before, one.After, one.BeforeWrittenAt, one.CorrectedAt)
                )
        );
        Assert.Equal(4.75, (await read.Materials.SingleAsync()).GramsPerTeaspoon);
    }

    [Fact]
    public async Task Nothing_is_erased_and_a_correction_is_not_corrected()
    {
        var notebook = await SqliteNotebook.OpenAsync(folder, clock, CancellationToken.None);
        var now = clock.GetUtcNow();
        await using var db = notebook.NewDb();
        var chalk = new Material
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Name = "chalk",
            Kind = MaterialKind.Addition,
        };
        db.Add(chalk);
        await db.SaveChangesAsync();
        db.Remove(chalk);
        await Assert.ThrowsAsync<InvalidOperationException>(() => db.SaveChangesAsync());
    }

    [Fact]
    public async Task A_colour_and_an_instant_come_back_to_the_last_digit()
    {
        var notebook = await SqliteNotebook.OpenAsync(folder, clock, CancellationToken.None);
        var now = new DateTimeOffset(2025, 9, 6, 14, 3, 7, 123, 456, TimeSpan.FromHours(2));
        var colour = new Xyz(1.0 / 3, 29.123456789012345, 0.1 + 0.2);
        await using (var db = notebook.NewDb())
        {
            db.Add(
                new Material
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    Name = "cotton paper",
                    Kind = MaterialKind.Paper,
                    BareColour = colour,
                }
            );
            await db.SaveChangesAsync();
        }

        await using var read = notebook.NewDb();
        var paper = await read.Materials.SingleAsync();
        Assert.Equal(colour, paper.BareColour);
        Assert.Equal(now, paper.WrittenAt);
    }

    [Fact]
    public async Task The_mapping_and_the_migrations_say_the_same()
    {
        var notebook = await SqliteNotebook.OpenAsync(folder, clock, CancellationToken.None);
        await using var db = notebook.NewDb();
        Assert.False(db.Database.HasPendingModelChanges());
    }

    [Fact]
    public async Task A_photo_is_kept_once_under_the_name_of_its_content()
    {
        var notebook = await SqliteNotebook.OpenAsync(folder, clock, CancellationToken.None);

        // FIPS 180-2, appendix B.1: the digest of "abc".
        var name = await notebook.Photos.KeepAsync("abc"u8.ToArray(), "jpg", CancellationToken.None);
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", name);
        Assert.Equal(name, await notebook.Photos.KeepAsync("abc"u8.ToArray(), "jpg", CancellationToken.None));
        Assert.Single(Directory.GetFiles(Path.Combine(folder, "photos"), "*", SearchOption.AllDirectories));
        Assert.Throws<ArgumentException>(() => notebook.Photos.PathOf("../../etc/passwd", "jpg"));
    }

    private async Task<DateTimeOffset> CorrectAsync(SqliteNotebook notebook, Guid id, TimeSpan later, double grams)
    {
        clock.Now += later;
        await using var db = notebook.NewDb();
        (await db.Materials.SingleAsync(material => material.Id == id)).GramsPerTeaspoon = grams;
        await db.SaveChangesAsync();
        return clock.GetUtcNow();
    }

    private sealed class Clock(DateTimeOffset now) : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = now;

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
