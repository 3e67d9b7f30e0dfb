using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store.Sqlite;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Xunit;

namespace Dyewort.Store.Tests;

/// <summary>A notebook from before an amount kept the kitchen it was meant in: its amounts are those of the kitchen of their day.</summary>
public sealed class MeantMeasuresTests : IDisposable
{
    private const string Before = "20261130192652_Stages";
    private static readonly DateTimeOffset Morning = new(2025, 9, 6, 8, 0, 0, TimeSpan.Zero);
    private readonly string folder = Path.Combine(Path.GetTempPath(), $"dyewort-{Guid.NewGuid():N}");

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder))
            Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData(null, "½ tsp", Teaspoon.Metric, 2.5)]
    [InlineData(null, "1 pint", Teaspoon.UsCustomary, 473.1765)]
    [InlineData(Teaspoon.Imperial, "1 pint", Teaspoon.Imperial, 568.26125)]
    [InlineData(Teaspoon.UsCustomary, "1 tsp", Teaspoon.UsCustomary, 4.928922)]
    [InlineData(Teaspoon.UsCustomary, "1 imperial pint", null, 568.26125)]
    [InlineData(Teaspoon.UsCustomary, "8 ml", null, 8)]
    public async Task An_amount_stays_what_it_was_meant_to_be(Teaspoon? kitchen, string said, Teaspoon? meant, double ml)
    {
        var notebook = await OpenAsync();
        await using (var db = notebook.NewDb())
        {
            Write(db, kitchen, said);
            await db.SaveChangesAsync();
            await db.GetService<IMigrator>().MigrateAsync(Before);
        }

        await using var carried = (await OpenAsync()).NewDb();
        var amount = (await carried.Additions.SingleAsync()).Amount;
        Assert.Equal((said, meant), (amount.Text, amount.Kitchen));
        Assert.True(amount.ToAmount().ToVolume("amount", Teaspoon.Metric).TryGet(out var volume));
        Assert.Equal(ml, volume.Millilitres, 1e-6);
        Assert.Equal(new DateOnly(2025, 9, 5), (await carried.PlantLots.SingleAsync()).GatheredOn);
    }

    private static void Write(NotebookDb db, Teaspoon? kitchen, string said)
    {
        Assert.True(Amount.Parse("amount", said).TryGet(out var amount));
        if (kitchen is { } teaspoon)
            db.Add(
                new Settings
                {
                    Id = Settings.OnlyId,
                    WrittenAt = Morning,
                    Teaspoon = teaspoon,
                }
            );
        var (plant, gum) = (Material("elderberry", MaterialKind.Plant), Material("gum water", MaterialKind.Binder));
        var lot = new PlantLot
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning,
            PlantId = plant.Id,
            GatheredOn = new(2025, 9, 5),
        };
        var pot = new Pot
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning,
            Code = "EB25-1",
            LotId = lot.Id,
            MadeOn = new(2025, 9, 6),
        };
        var trial = new Trial
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning,
            PotId = pot.Id,
            Letter = "A",
            Title = "gum",
            Kind = TrialKind.Free,
            SetOutOn = new(2025, 9, 6),
        };
        var jar = new Sample
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning,
            PotId = pot.Id,
            TrialId = trial.Id,
            Jar = "A1",
            VolumeMl = 20,
            PouredAt = Morning,
        };
        db.AddRange(plant, gum, lot, pot, trial, jar);
        db.Add(
            new Addition
            {
                Id = Guid.CreateVersion7(),
                WrittenAt = Morning,
                SampleId = jar.Id,
                MaterialId = gum.Id,
                Step = 1,
                At = Morning,
                Amount = MeasuredAmount.Of(amount, null),
            }
        );
    }

    private static Material Material(string name, MaterialKind kind) =>
        new()
        {
            Id = Guid.CreateVersion7(),
            WrittenAt = Morning,
            Name = name,
            Kind = kind,
        };

    private Task<SqliteNotebook> OpenAsync() => SqliteNotebook.OpenAsync(folder, TimeProvider.System, CancellationToken.None);
}
