using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>A notebook in a folder of its own, with one pot that was split into jars: 20 ml of elder liquor, two of them with something
/// in.</summary>
public sealed class Bench : IAsyncDisposable
{
    public static readonly Lab Dusk = new(35, 14, -21);

    private readonly string folder;
    private readonly ServiceProvider services;

    private Bench(string folder, SettableClock clock, ServiceProvider services) =>
        (this.folder, Clock, this.services) = (folder, clock, services);

    public SettableClock Clock { get; }

    public string Pot { get; private set; } = "";

    /// <summary>The jar with ⅛ teaspoon of alum and two drops of vinegar.</summary>
    public Guid Jar { get; private set; }

    /// <summary>A square painted from it, read dry as <see cref="Dusk"/>.</summary>
    public Guid Square { get; private set; }

    public static async Task<Bench> SetUpAsync()
    {
        var clock = new SettableClock(new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero));
        var place = Path.Combine(Path.GetTempPath(), $"dyewort-{Guid.NewGuid():N}");
        var bench = new Bench(place, clock, await Desk.OpenAsync(place, clock, CancellationToken.None));
        await bench.FillAsync();
        return bench;
    }

    /// <summary>Does one thing in a unit of work of its own, as a host does.</summary>
    public async Task<TResult> DoAsync<TUseCase, TResult>(Func<TUseCase, Task<TResult>> work)
        where TUseCase : notnull
    {
        await using var scope = services.CreateAsyncScope();
        return await work(scope.ServiceProvider.GetRequiredService<TUseCase>());
    }

    /// <summary>The same for what must not be refused.</summary>
    public async Task<TResult> DoneAsync<TUseCase, TResult>(Func<TUseCase, Task<Outcome<TResult>>> work)
        where TUseCase : notnull
        where TResult : notnull
    {
        var outcome = await DoAsync(work);
        Assert.True(outcome.TryGet(out var made), string.Join(' ', outcome.Problems));
        return made;
    }

    public NotebookDb Read() => services.GetRequiredService<SqliteNotebook>().NewDb();

    public async ValueTask DisposeAsync()
    {
        await services.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    private async Task FillAsync()
    {
        Pot = await DoneAsync<StartPot, string>(start =>
            start.HandleAsync(
                new()
                {
                    Plant = "elderberry",
                    PlantGrams = "900",
                    LiquidMl = "260",
                    Part = "berries",
                    GatheredOn = "2025-09-05",
                    Place = "the hedge",
                },
                default
            )
        );
        await DoneAsync<AddToLog, Guid>(log => log.HandleAsync(Pot, new() { Kind = nameof(LogKind.Strained), Ml = "790" }, default));
        Clock.Pass(TimeSpan.FromHours(1));
        await DoneAsync<SplitPot, string>(split =>
            split.HandleAsync(
                Pot,
                new()
                {
                    Jars = "3",
                    VolumeMl = "20",
                    Title = "alum",
                },
                default
            )
        );
        var (alum, vinegar) = (
            await StockAsync("alum", MaterialKind.Addition, 4.8),
            await StockAsync("white vinegar 5 %", MaterialKind.Addition, 5)
        );
        await StockAsync("bottle 30 ml", MaterialKind.Container, null);
        await DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(Pot, "A2", new() { Material = alum.ToString(), Amount = "⅛ tsp" }, default)
        );
        Clock.Pass(TimeSpan.FromMinutes(5));
        await DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(Pot, "A2", new() { Material = vinegar.ToString(), Amount = "2 drops" }, default)
        );
        await using var db = Read();
        var sample = await db.Samples.SingleAsync(one => one.Jar == "A2");
        var now = Clock.GetUtcNow();
        var chart = new Chart
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Number = 3,
            TrialId = sample.TrialId,
            Title = "alum",
            LayoutJson = "{}",
            Page = "A5",
        };
        var swatch = new Swatch
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            ChartId = chart.Id,
            Cell = "B2",
            SampleId = sample.Id,
            Coats = 1,
            Wash = 1,
            Said = "dusk violet",
            AfterStep = 2,
        };
        var wet = new Reading
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            SwatchId = swatch.Id,
            At = now,
            State = SwatchState.Wet,
            Colour = new Lab(30, 25, -10).ToXyz(),
            UncertaintyDe00 = 2,
            Source = ReadingSource.Photo,
        };
        var dry = new Reading
        {
            Id = Guid.CreateVersion7(now.AddDays(7)),
            WrittenAt = now.AddDays(7),
            SwatchId = swatch.Id,
            At = now.AddDays(7),
            State = SwatchState.Dry,
            Colour = Dusk.ToXyz(),
            UncertaintyDe00 = 1.2,
            Source = ReadingSource.Photo,
        };
        db.AddRange(chart, swatch, wet, dry);
        await db.SaveChangesAsync();
        (Jar, Square) = (sample.Id, swatch.Id);
    }

    public async Task<Guid> StockAsync(string name, MaterialKind kind, double? gramsPerTeaspoon)
    {
        await using var db = Read();
        var now = Clock.GetUtcNow();
        var material = new Material
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Name = name,
            Kind = kind,
            GramsPerTeaspoon = gramsPerTeaspoon,
            HoldsMl = kind == MaterialKind.Container ? 30 : null,
        };
        db.Add(material);
        await db.SaveChangesAsync();
        return material.Id;
    }

    public sealed class SettableClock(DateTimeOffset now) : TimeProvider
    {
        private DateTimeOffset now = now;

        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

        public override DateTimeOffset GetUtcNow() => now;

        public void Pass(TimeSpan time) => now += time;
    }
}
