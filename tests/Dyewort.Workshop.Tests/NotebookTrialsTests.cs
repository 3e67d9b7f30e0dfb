using System.Data.Common;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class NotebookTrialsTests : IAsyncLifetime
{
    private Bench bench = null!;

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task A_painted_jar_becomes_a_row_in_grams_per_litre_for_each_state()
    {
        var answer = await TrialsAsync();
        Assert.Equal(["wet", "dry"], answer.Painted.Select(one => one.Row.Point.State));
        var dry = answer.Painted[1];
        Assert.Equal(
            ("EB25-1 A2", "elderberry", "EB25-1", 1.0, 1.0, ""),
            (dry.Row.Point.Sample, dry.Row.Point.Plant, dry.Row.Point.Pot, dry.Row.Point.Wash, dry.Row.Point.Coats, dry.Row.Point.Paper)
        );

        // ⅛ teaspoon of 4.8 g alum in 20 ml: 30 g per litre; two drops of vinegar are 0.1 ml and weigh as much as the pantry says, 5 g in 5
        // ml.
        Assert.Equal(30, dry.Row.Point.Dose("alum"), 1e-9);
        Assert.Equal(5, dry.Row.Point.Dose("white vinegar 5 %"), 0.1);
        Assert.Equal(["alum", "white vinegar 5 %"], answer.Table.Additions);
        Assert.Equal((Bench.Dusk.L, 1.2), (Math.Round(dry.Row.Colour.L, 6), dry.Row.UncertaintyDe00));
        Assert.Equal(790 - (3 * 20), dry.Row.Point.LeftMillilitres!.Value, 1e-9);
    }

    [Fact]
    public async Task An_instrument_goes_before_a_newer_photo_and_withdrawn_or_corrected_readings_are_left_out()
    {
        await ReadAsync(new(36, 13, -20), ReadingSource.Instrument, days: 8);
        await ReadAsync(new(38, 12, -19), ReadingSource.Photo, days: 9);
        Assert.Equal(36, Dry(await TrialsAsync()).Row.Colour.L, 1e-6);

        var again = await ReadAsync(new(36.5, 13, -20), ReadingSource.Instrument, days: 10);
        await using (var db = bench.Read())
        {
            var first = await db.Readings.SingleAsync(one => one.Id == again);
            var now = bench.Clock.GetUtcNow();
            db.Add(
                new Reading
                {
                    Id = Guid.CreateVersion7(now.AddDays(11)),
                    WrittenAt = now,
                    SwatchId = first.SwatchId,
                    At = first.At,
                    State = SwatchState.Dry,
                    Colour = new Lab(37, 13, -20).ToXyz(),
                    UncertaintyDe00 = 0.5,
                    Source = ReadingSource.Photo,
                    CorrectsId = again,
                }
            );
            (await db.Readings.SingleAsync(one => one.Source == ReadingSource.Instrument && one.Id != again)).WithdrawnAt = now;
            await db.SaveChangesAsync();
        }

        // The instrument's first reading was withdrawn and its second corrected: the newest photo stands.
        Assert.Equal(37, Dry(await TrialsAsync()).Row.Colour.L, 1e-6);
    }

    [Fact]
    public async Task What_went_in_after_painting_belongs_to_the_next_painting_only()
    {
        bench.Clock.Pass(TimeSpan.FromDays(20));
        await using (var db = bench.Read())
        {
            var alum = (await db.Materials.SingleAsync(one => one.Name == "alum")).Id.ToString();
            await bench.DoneAsync<AddToSample, Guid>(add =>
                add.HandleAsync(bench.Pot, "A2", new() { Material = alum, Amount = "0.2 g" }, default)
            );
            bench.Clock.Pass(TimeSpan.FromHours(1));
            await PaintAsync(db, "A2", 4, 1);
        }

        var answer = await TrialsAsync();
        Assert.Equal(30, answer.Painted.First(one => one.Chart.Number == 3).Row.Point.Dose("alum"), 1e-9);
        Assert.Equal(40, answer.Painted.First(one => one.Chart.Number == 4).Row.Point.Dose("alum"), 1e-9);
    }

    [Fact]
    public async Task A_sample_of_a_sample_carries_what_its_parent_held()
    {
        await using var db = bench.Read();
        bench.Clock.Pass(TimeSpan.FromHours(1));
        var parent = await db.Samples.AsNoTracking().SingleAsync(one => one.Jar == "A2");
        var now = bench.Clock.GetUtcNow();
        db.Add(
            new Sample
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                PotId = parent.PotId,
                TrialId = parent.TrialId,
                ParentId = parent.Id,
                Jar = "A4",
                VolumeMl = 10,
                PouredAt = now,
            }
        );
        await db.SaveChangesAsync();
        await PaintAsync(db, "A4", 6, 0.5);
        var row = (await TrialsAsync()).Painted.Single(one => one.Chart.Number == 6).Row.Point;
        Assert.Equal((30.0, 0.5), (Math.Round(row.Dose("alum"), 9), row.Wash));
    }

    [Fact]
    public async Task A_jar_with_another_pots_ink_in_it_has_no_composition_and_its_page_opens()
    {
        Guid mixed;
        await using (var db = bench.Read())
        {
            var first = await db.Samples.SingleAsync(one => one.Jar == "A1");
            var now = bench.Clock.GetUtcNow();
            var pot = new Pot
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Code = "EB25-9",
                LotId = (await db.Pots.SingleAsync()).LotId,
                MadeOn = new DateOnly(2025, 9, 7),
            };
            Sample Jar(string jar, Guid potId, Guid? parent, Guid? second) =>
                new()
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    PotId = potId,
                    TrialId = first.TrialId,
                    Jar = jar,
                    VolumeMl = 20,
                    PouredAt = now,
                    ParentId = parent,
                    MixedWithId = second,
                    MixedMl = second is null ? null : 5,
                };
            var other = Jar("B1", pot.Id, null, null);
            var mixture = Jar("A9", first.PotId, first.Id, other.Id);
            mixed = mixture.Id;
            db.AddRange(pot, other, mixture);
            await db.SaveChangesAsync();
        }

        Assert.Null(await bench.DoAsync<NotebookTrials, TrialPoint?>(trials => trials.PointAsync(mixed, null, default)));
        Assert.NotNull(await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, "A9", default)));
    }

    [Fact]
    public async Task The_bare_paper_stands_in_the_table_and_an_unweighed_step_is_named()
    {
        await using var db = bench.Read();
        var now = bench.Clock.GetUtcNow();
        var paper = new Material
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Name = "cotton paper",
            Kind = MaterialKind.Paper,
            BareColour = new Lab(95, 0, 3).ToXyz(),
        };
        var pods = new Material
        {
            Id = Guid.CreateVersion7(now.AddSeconds(1)),
            WrittenAt = now,
            Name = "unnamed pods",
            Kind = MaterialKind.Preservative,
        };
        db.AddRange(paper, pods);
        await db.SaveChangesAsync();
        await PaintAsync(db, "A1", 7, 1, paper.Id);
        var bare = Assert.Single((await TrialsAsync()).Table.Rows, row => row.Point.Wash == 0);
        Assert.Equal(("cotton paper", 95.0), (bare.Point.Paper, Math.Round(bare.Colour.L, 6)));

        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A3", new() { Material = pods.Id.ToString(), Amount = "2 pieces" }, default)
        );
        await PaintAsync(db, "A3", 8, 1);
        var answer = await TrialsAsync();
        Assert.DoesNotContain(answer.Painted, one => one.Chart.Number == 8);
        Assert.Contains(
            answer.Table.Warnings,
            warning => warning.Contains("EB25-1 A3", StringComparison.Ordinal) && warning.Contains("unnamed pods", StringComparison.Ordinal)
        );
    }

    [Fact]
    public async Task What_is_written_while_the_tables_are_read_one_after_the_other_waits_for_the_next_time()
    {
        var before = await TrialsAsync();
        bench.Clock.Pass(TimeSpan.FromHours(1));
        await using (var file = bench.Read())
        {
            // A material and a step with it, once the materials were read; a chart and a square, once the charts were.
            var between = new Between(
                ("\"additions\"", db => StirInAsync(db)),
                ("\"swatches\"", db => PaintAsync(db, "A1", 41, 1)),
                ("\"readings\"", db => PaintAsync(db, "A3", 42, 1))
            )
            {
                NewDb = bench.Read,
            };
            var options = new DbContextOptionsBuilder<NotebookDb>(
                SqliteNotebook.Options(file.Database.GetDbConnection().DataSource, bench.Clock)
            )
                .AddInterceptors(between)
                .Options;
            await using var db = new NotebookDb(options);
            var settings = new NotebookSettings(db, bench.Clock);
            var read = await new NotebookTrials(db, new LiquorLeft(db), settings).HandleAsync(default);
            Assert.Equal(3, between.Written);
            Assert.Equal(Rows(before), Rows(read));
        }

        var after = await TrialsAsync();
        Assert.Contains(after.Painted, one => one.Chart.Number == 41);
        Assert.Contains(after.Painted, one => one.Chart.Number == 42);
        static List<string> Rows(TrialSource trials) => [.. trials.Painted.Select(one => one.Row.ToString())];
    }

    private async Task StirInAsync(NotebookDb db)
    {
        var now = bench.Clock.GetUtcNow();
        var chalk = new Material
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Name = "chalk",
            Kind = MaterialKind.Addition,
            GramsPerTeaspoon = 4,
        };
        db.AddRange(
            chalk,
            new Addition
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                SampleId = bench.Jar,
                MaterialId = chalk.Id,
                Step = 3,
                At = now,
                Amount = MeasuredAmount.Of(Quantities.Amount.Of(1, Quantities.AmountUnit.Gram), 1),
            }
        );
        await db.SaveChangesAsync();
    }

    /// <summary>Writes once before a table is read, as another phone would.</summary>
    private sealed class Between(params (string Table, Func<NotebookDb, Task> Write)[] writes) : DbCommandInterceptor
    {
        private readonly HashSet<string> done = [];

        public required Func<NotebookDb> NewDb { get; init; }

        public int Written => done.Count;

        public override async ValueTask<InterceptionResult<DbDataReader>> ReaderExecutingAsync(
            DbCommand command,
            CommandEventData eventData,
            InterceptionResult<DbDataReader> result,
            CancellationToken cancellationToken = default
        )
        {
            foreach (var (table, write) in writes)
            {
                if (!command.CommandText.Contains($"FROM {table}", StringComparison.Ordinal) || !done.Add(table))
                    continue;
                await using var db = NewDb();
                await write(db);
            }

            return result;
        }
    }

    private static NotebookTrialsPainted Dry(TrialSource answer) => answer.Painted.Single(one => one.Row.Point.State == "dry");

    private Task<TrialSource> TrialsAsync() => bench.DoAsync<NotebookTrials, TrialSource>(trials => trials.HandleAsync(default));

    private async Task<Guid> ReadAsync(Lab lab, ReadingSource source, int days)
    {
        await using var db = bench.Read();
        var at = bench.Clock.GetUtcNow().AddDays(days);
        var reading = new Reading
        {
            Id = Guid.CreateVersion7(at),
            WrittenAt = at,
            SwatchId = bench.Square,
            At = at,
            State = SwatchState.Dry,
            Colour = lab.ToXyz(),
            UncertaintyDe00 = 0.5,
            Source = source,
        };
        db.Add(reading);
        await db.SaveChangesAsync();
        return reading.Id;
    }

    private async Task PaintAsync(NotebookDb db, string jar, int number, double wash, Guid? paper = null)
    {
        var sample = await db.Samples.SingleAsync(one => one.Jar == jar);
        var now = bench.Clock.GetUtcNow();
        var chart = new Chart
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Number = number,
            TrialId = sample.TrialId,
            PaperId = paper,
            Title = "more",
            LayoutJson = "{}",
            Page = "A5",
        };
        var swatch = new Swatch
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            ChartId = chart.Id,
            Cell = "A1",
            SampleId = sample.Id,
            Coats = 1,
            Wash = wash,
        };
        var read = now.AddMinutes(30);
        db.AddRange(
            chart,
            swatch,
            new Reading
            {
                Id = Guid.CreateVersion7(read),
                WrittenAt = read,
                SwatchId = swatch.Id,
                At = read,
                State = SwatchState.Dry,
                Colour = new Lab(40, 10, -20).ToXyz(),
                UncertaintyDe00 = 1,
                Source = ReadingSource.Photo,
            }
        );
        await db.SaveChangesAsync();
    }
}
