using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store.Sqlite;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Xunit;

namespace Dyewort.Store.Tests;

/// <summary>A notebook from before a square named the stage of its jar: what its squares are said to be painted from, and that it is said
/// once.</summary>
public sealed class EarlierSquaresTests : IDisposable
{
    private const string BeforeStages = "20261130184617_Amounts";
    private static readonly DateTimeOffset Morning = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-{Guid.NewGuid():N}");
    private readonly List<Entry> entries = [];
    private readonly Guid alum;
    private readonly Guid pot;
    private readonly Guid trial;

    public EarlierSquaresTests()
    {
        alum = Write(Material("alum", MaterialKind.Addition));
        var elder = Write(Material("elderberry", MaterialKind.Plant));
        var lot = Write(
            new PlantLot
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning,
                PlantId = elder,
                GatheredOn = new(2025, 9, 5),
            }
        );
        pot = Write(
            new Pot
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning,
                Code = "EB25-1",
                LotId = lot,
                MadeOn = new(2025, 9, 6),
            }
        );
        trial = Write(
            new Trial
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning,
                PotId = pot,
                Letter = "A",
                Title = "alum",
                Kind = TrialKind.Ladder,
                SetOutOn = new(2025, 9, 6),
            }
        );
    }

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task What_went_in_after_the_first_reading_was_not_in_the_square()
    {
        var jar = Jar("A1");
        Step(jar, 1, hour: 1);
        Step(jar, 2, hour: 2);
        var square = Square(Chart(1, hour: 3), "A1", jar);
        Read(square, hour: 5);
        Read(square, hour: 4);
        Step(jar, 3, hour: 4.5);
        Assert.Equal(2, (await CarriedAsync())[square]);
    }

    [Fact]
    public async Task A_jar_that_was_written_up_late_and_not_painted_again_held_all_its_steps()
    {
        var jar = Jar("A1");
        var square = Square(Chart(1, hour: 1), "A1", jar);
        Read(square, hour: 2);
        Step(jar, 1, hour: 3);
        Step(jar, 2, hour: 4);
        Assert.Equal(2, (await CarriedAsync())[square]);
    }

    [Fact]
    public async Task A_plain_jar_that_was_painted_again_after_a_step_was_plain_before()
    {
        var jar = Jar("A1");
        var plain = Square(Chart(1, hour: 1), "A1", jar);
        Read(plain, hour: 2);
        Step(jar, 1, hour: 3);
        var again = Square(Chart(2, hour: 4), "A1", jar);
        Read(again, hour: 5);
        var carried = await CarriedAsync();
        Assert.Equal((0, 1), (carried[plain], carried[again]));
    }

    [Fact]
    public async Task A_withdrawn_step_and_a_withdrawn_reading_say_nothing()
    {
        var jar = Jar("A1");
        var square = Square(Chart(1, hour: 1), "A1", jar);
        Read(square, hour: 2).WithdrawnAt = Morning.AddHours(2.5);
        Step(jar, 1, hour: 3);
        Step(jar, 2, hour: 3.5).WithdrawnAt = Morning.AddHours(3.6);
        Read(square, hour: 4);
        Step(jar, 3, hour: 5);
        Assert.Equal(1, (await CarriedAsync())[square]);
    }

    [Fact]
    public async Task A_square_that_was_never_read_still_waits()
    {
        var jar = Jar("A1");
        Step(jar, 1, hour: 1);
        var square = Square(Chart(1, hour: 2), "A1", jar);
        Assert.Null((await CarriedAsync())[square]);
    }

    [Fact]
    public async Task It_is_said_once_and_the_next_opening_changes_nothing()
    {
        var jar = Jar("A1");
        var square = Square(Chart(1, hour: 1), "A1", jar);
        Read(square, hour: 2);
        Assert.Equal(0, (await CarriedAsync())[square]);

        // By the clock alone this looks like a jar written up late.
        var notebook = await OpenAsync();
        await using (var db = notebook.NewDb())
        {
            db.Add(NewStep(jar, 1, hour: 3));
            await db.SaveChangesAsync();
        }

        await using var read = (await OpenAsync()).NewDb();
        Assert.Equal(0, (await read.Swatches.SingleAsync()).AfterStep);
    }

    [Fact]
    public async Task A_recipe_holds_what_had_been_written_when_it_was_kept()
    {
        var jar = Jar("A1");
        Step(jar, 1, hour: 1);
        Step(jar, 2, hour: 2);
        Recipe("EB-DUSK", jar, hour: 3);
        Step(jar, 3, hour: 4);
        Recipe("TYPED", null, hour: 5);
        await CarriedAsync();
        await using var db = (await OpenAsync()).NewDb();
        Assert.Equal(
            [("EB-DUSK", 2), ("TYPED", null)],
            await db.Recipes.OrderBy(one => one.Code).Select(one => ValueTuple.Create(one.Code, one.AfterStep)).ToListAsync()
        );
    }

    /// <summary>Writes the case, takes the notebook back to the tables before stages, and opens it again.</summary>
    /// <returns>The last step of every square, by its id.</returns>
    private async Task<Dictionary<Guid, int?>> CarriedAsync()
    {
        var notebook = await OpenAsync();
        await using (var db = notebook.NewDb())
        {
            db.AddRange(entries);
            await db.SaveChangesAsync();
            await db.GetService<IMigrator>().MigrateAsync(BeforeStages);
            Assert.NotEmpty(await db.Database.GetPendingMigrationsAsync());
        }

        await using var carried = (await OpenAsync()).NewDb();
        return await carried.Swatches.ToDictionaryAsync(square => square.Id, square => square.AfterStep);
    }

    private Task<SqliteNotebook> OpenAsync() => SqliteNotebook.OpenAsync(folder, new Clock(), CancellationToken.None);

    private Guid Write(Entry entry)
    {
        entries.Add(entry);
        return entry.Id;
    }

    private static Material Material(string name, MaterialKind kind) =>
        new()
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning,
            Name = name,
            Kind = kind,
        };

    private Guid Jar(string jar) =>
        Write(
            new Sample
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning,
                PotId = pot,
                TrialId = trial,
                Jar = jar,
                VolumeMl = 90,
                PouredAt = Morning,
            }
        );

    private Addition Step(Guid jar, int step, double hour)
    {
        var addition = NewStep(jar, step, hour);
        entries.Add(addition);
        return addition;
    }

    private Addition NewStep(Guid jar, int step, double hour) =>
        new()
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning.AddHours(hour),
            SampleId = jar,
            MaterialId = alum,
            Step = step,
            At = Morning.AddHours(hour),
            Amount = MeasuredAmount.Of(Amount.Of(1, AmountUnit.Gram), 1),
        };

    private Guid Chart(int number, double hour) =>
        Write(
            new Chart
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning.AddHours(hour),
                Number = number,
                TrialId = trial,
                Title = "alum",
                LayoutJson = "{}",
                Page = "A5",
            }
        );

    private Guid Square(Guid chart, string cell, Guid jar) =>
        Write(
            new Swatch
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning,
                ChartId = chart,
                Cell = cell,
                SampleId = jar,
                Coats = 1,
                Wash = 1,
            }
        );

    private Reading Read(Guid square, double hour)
    {
        var reading = new Reading
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning.AddHours(hour),
            SwatchId = square,
            At = Morning.AddHours(hour),
            State = SwatchState.Dry,
            Colour = new Lab(40, 10, -20).ToXyz(),
            UncertaintyDe00 = 1,
            Source = ReadingSource.Photo,
        };
        entries.Add(reading);
        return reading;
    }

    private void Recipe(string code, Guid? jar, double hour) =>
        Write(
            new Recipe
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning.AddHours(hour),
                Code = code,
                Name = code,
                SampleId = jar,
                BaseVolumeMl = 90,
            }
        );

    private sealed class Clock : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => Morning.AddYears(1);
    }
}
