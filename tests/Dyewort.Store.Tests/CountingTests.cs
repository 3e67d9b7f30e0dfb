using Dyewort.Notebook;
using Dyewort.Store.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Store.Tests;

public sealed class CountingTests : IAsyncLifetime
{
    private static readonly DateTimeOffset Now = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);

    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-{Guid.NewGuid():N}");
    private NotebookDb db = null!;

    public async ValueTask InitializeAsync() =>
        db = (await SqliteNotebook.OpenAsync(folder, TimeProvider.System, CancellationToken.None)).NewDb();

    public async ValueTask DisposeAsync()
    {
        await db.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task What_was_withdrawn_does_not_count_and_can_still_be_read()
    {
        var alum = Material("alum");
        db.AddRange(alum, Material("chalk"));
        await db.SaveChangesAsync();
        Withdraw(alum);
        await db.SaveChangesAsync();
        Assert.Equal("chalk", (await db.Materials.Counting().SingleAsync()).Name);
        Assert.Equal(2, await db.Materials.CountAsync());
    }

    [Theory]
    [InlineData(nameof(Swatch))]
    [InlineData(nameof(Chart))]
    [InlineData(nameof(Sample))]
    [InlineData(nameof(Trial))]
    [InlineData(nameof(Pot))]
    public async Task A_swatch_counts_while_everything_it_hangs_on_does(string withdrawn)
    {
        var plant = Material("weld");
        var lot = new PlantLot
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            PlantId = plant.Id,
            GatheredOn = new(2025, 9, 5),
        };
        var pot = new Pot
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            Code = "WE25-1",
            LotId = lot.Id,
            MadeOn = new(2025, 9, 6),
        };
        var trial = new Trial
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            PotId = pot.Id,
            Letter = "A",
            Title = "alum",
            Kind = TrialKind.Free,
            SetOutOn = new(2025, 9, 6),
        };
        var sample = new Sample
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            PotId = pot.Id,
            TrialId = trial.Id,
            Jar = "A1",
            VolumeMl = 20,
            PouredAt = Now,
        };
        var chart = new Chart
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            Number = 1,
            Title = "alum",
            LayoutJson = "{}",
            Page = "A5",
        };
        var swatch = new Swatch
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            ChartId = chart.Id,
            Cell = "A1",
            SampleId = sample.Id,
            Coats = 1,
            Wash = 1,
        };
        db.AddRange(plant, lot, pot, trial, sample, chart, swatch);
        await db.SaveChangesAsync();
        Assert.Equal(swatch.Id, (await db.CountingSwatches().SingleAsync()).Id);

        Withdraw(new Entry[] { swatch, chart, sample, trial, pot }.Single(entry => entry.GetType().Name == withdrawn));
        await db.SaveChangesAsync();
        Assert.Empty(await db.CountingSwatches().ToListAsync());
    }

    private static void Withdraw(Entry entry) => entry.WithdrawnAt = Now.AddDays(1);

    private static Material Material(string name) =>
        new()
        {
            Id = Guid.CreateVersion7(Now),
            WrittenAt = Now,
            Name = name,
            Kind = MaterialKind.Addition,
        };
}
