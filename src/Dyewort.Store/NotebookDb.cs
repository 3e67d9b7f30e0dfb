using Dyewort.Colour;
using Dyewort.Making;
using Dyewort.Notebook;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Batch = Dyewort.Making.Batch;

namespace Dyewort.Store;

/// <summary>The notebook as the database holds it: the rooms' own types, mapped.</summary>
public sealed class NotebookDb(DbContextOptions<NotebookDb> options) : DbContext(options)
{
    public DbSet<Material> Materials => Set<Material>();

    public DbSet<PlantLot> PlantLots => Set<PlantLot>();

    public DbSet<Pot> Pots => Set<Pot>();

    public DbSet<PotLogEntry> PotLog => Set<PotLogEntry>();

    public DbSet<PotSheet> PotSheets => Set<PotSheet>();

    public DbSet<PotTimer> PotTimers => Set<PotTimer>();

    public DbSet<PotDrop> PotDrops => Set<PotDrop>();

    public DbSet<LotSheet> LotSheets => Set<LotSheet>();

    public DbSet<Trial> Trials => Set<Trial>();

    public DbSet<Sample> Samples => Set<Sample>();

    public DbSet<Addition> Additions => Set<Addition>();

    public DbSet<PlannedStep> PlannedSteps => Set<PlannedStep>();

    public DbSet<Chart> Charts => Set<Chart>();

    public DbSet<Swatch> Swatches => Set<Swatch>();

    public DbSet<Photo> Photos => Set<Photo>();

    public DbSet<Reading> Readings => Set<Reading>();

    public DbSet<HouseStrip> HouseStrips => Set<HouseStrip>();

    public DbSet<Settings> Settings => Set<Settings>();

    public DbSet<Recipe> Recipes => Set<Recipe>();

    public DbSet<RecipeStep> RecipeSteps => Set<RecipeStep>();

    public DbSet<Batch> Batches => Set<Batch>();

    public DbSet<BatchLiquor> BatchLiquors => Set<BatchLiquor>();

    public DbSet<BatchReading> BatchReadings => Set<BatchReading>();

    public DbSet<BatchStep> BatchSteps => Set<BatchStep>();

    public DbSet<Bottle> Bottles => Set<Bottle>();

    public DbSet<BottleCheck> BottleChecks => Set<BottleCheck>();

    public DbSet<Correction> Corrections => Set<Correction>();

    public DbSet<AnsweredForm> AnsweredForms => Set<AnsweredForm>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder)
    {
        configurationBuilder.Properties<DateTimeOffset>().HaveConversion<InstantAsText>();
        configurationBuilder.Properties<Enum>().HaveConversion<string>();
        configurationBuilder.Properties<Xyz>().HaveConversion<XyzAsText>();
    }

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        Entries<Material>(modelBuilder, "materials").HasIndex(material => material.Name);
        modelBuilder.Entity<PlantLot>().HasOne<Material>().WithMany().HasForeignKey(lot => lot.PlantId).OnDelete(DeleteBehavior.Restrict);
        Entries<PlantLot>(modelBuilder, "plant_lots");

        var pot = Entries<Pot>(modelBuilder, "pots");
        pot.HasIndex(one => one.Code).IsUnique();
        pot.HasOne<PlantLot>().WithMany().HasForeignKey(one => one.LotId).OnDelete(DeleteBehavior.Restrict);

        Entries<PotLogEntry>(modelBuilder, "pot_log")
            .HasOne<Pot>()
            .WithMany()
            .HasForeignKey(entry => entry.PotId)
            .OnDelete(DeleteBehavior.Restrict);

        var potSheet = Entries<PotSheet>(modelBuilder, "pot_sheets");
        potSheet.HasIndex(one => one.PotId).IsUnique();
        potSheet.HasOne<Pot>().WithMany().HasForeignKey(one => one.PotId).OnDelete(DeleteBehavior.Restrict);
        potSheet.HasOne<Pot>().WithMany().HasForeignKey(one => one.RepeatsPotId).OnDelete(DeleteBehavior.Restrict);
        Entries<PotTimer>(modelBuilder, "pot_timers")
            .HasOne<Pot>()
            .WithMany()
            .HasForeignKey(one => one.PotId)
            .OnDelete(DeleteBehavior.Restrict);
        Entries<PotDrop>(modelBuilder, "pot_drops")
            .HasOne<Pot>()
            .WithMany()
            .HasForeignKey(one => one.PotId)
            .OnDelete(DeleteBehavior.Restrict);
        var lotSheet = Entries<LotSheet>(modelBuilder, "lot_sheets");
        lotSheet.HasIndex(one => one.LotId).IsUnique();
        lotSheet.HasOne<PlantLot>().WithMany().HasForeignKey(one => one.LotId).OnDelete(DeleteBehavior.Restrict);

        var trial = Entries<Trial>(modelBuilder, "trials");
        trial.HasIndex(one => new { one.PotId, one.Letter }).IsUnique();
        trial.HasOne<Pot>().WithMany().HasForeignKey(one => one.PotId).OnDelete(DeleteBehavior.Restrict);

        var sample = Entries<Sample>(modelBuilder, "samples");
        sample.HasIndex(one => new { one.PotId, one.Jar }).IsUnique();
        sample.HasOne<Pot>().WithMany().HasForeignKey(one => one.PotId).OnDelete(DeleteBehavior.Restrict);
        sample.HasOne<Trial>().WithMany().HasForeignKey(one => one.TrialId).OnDelete(DeleteBehavior.Restrict);
        sample.HasOne<Sample>().WithMany().HasForeignKey(one => one.ParentId).OnDelete(DeleteBehavior.Restrict);
        sample.HasOne<Sample>().WithMany().HasForeignKey(one => one.MixedWithId).OnDelete(DeleteBehavior.Restrict);

        var addition = Entries<Addition>(modelBuilder, "additions");
        addition.HasIndex(one => new { one.SampleId, one.Step });
        addition.HasOne<Sample>().WithMany().HasForeignKey(one => one.SampleId).OnDelete(DeleteBehavior.Restrict);
        addition.HasOne<Material>().WithMany().HasForeignKey(one => one.MaterialId).OnDelete(DeleteBehavior.Restrict);

        addition.ComplexProperty(one => one.Amount);

        var planned = Entries<PlannedStep>(modelBuilder, "planned_steps");
        planned.HasIndex(one => new { one.SampleId, one.Step }).IsUnique();
        planned.HasOne<Sample>().WithMany().HasForeignKey(one => one.SampleId).OnDelete(DeleteBehavior.Restrict);
        planned.HasOne<Material>().WithMany().HasForeignKey(one => one.MaterialId).OnDelete(DeleteBehavior.Restrict);
        planned.ComplexProperty(one => one.Amount);

        var chart = Entries<Chart>(modelBuilder, "charts");
        chart.HasIndex(one => one.Number).IsUnique();
        chart.Ignore(one => one.Code);
        chart.HasOne<Trial>().WithMany().HasForeignKey(one => one.TrialId).OnDelete(DeleteBehavior.Restrict);
        chart.HasOne<Material>().WithMany().HasForeignKey(one => one.PaperId).OnDelete(DeleteBehavior.Restrict);

        var swatch = Entries<Swatch>(modelBuilder, "swatches");
        swatch.HasIndex(one => new { one.ChartId, one.Cell });
        swatch.HasOne<Chart>().WithMany().HasForeignKey(one => one.ChartId).OnDelete(DeleteBehavior.Restrict);
        swatch.HasOne<Sample>().WithMany().HasForeignKey(one => one.SampleId).OnDelete(DeleteBehavior.Restrict);
        swatch.HasOne<Material>().WithMany().HasForeignKey(one => one.PaperId).OnDelete(DeleteBehavior.Restrict);

        var photo = Entries<Photo>(modelBuilder, "photos");
        photo.HasIndex(one => one.Sha256);
        photo.HasOne<Chart>().WithMany().HasForeignKey(one => one.ChartId).OnDelete(DeleteBehavior.Restrict);
        photo.HasOne<HouseStrip>().WithMany().HasForeignKey(one => one.StripId).OnDelete(DeleteBehavior.Restrict);
        photo.Property(one => one.Source).HasDefaultValue(ReadingSource.Photo);

        // Without a foreign key to its photo: a photo may name a strip, and two tables that name each other cannot be filled in order.
        Entries<HouseStrip>(modelBuilder, "house_strips");

        var reading = Entries<Reading>(modelBuilder, "readings");
        reading.HasOne<Swatch>().WithMany().HasForeignKey(one => one.SwatchId).OnDelete(DeleteBehavior.Restrict);
        reading.HasOne<Photo>().WithMany().HasForeignKey(one => one.PhotoId).OnDelete(DeleteBehavior.Restrict);
        reading.HasOne<Reading>().WithMany().HasForeignKey(one => one.CorrectsId).OnDelete(DeleteBehavior.Restrict);

        Entries<Settings>(modelBuilder, "settings");

        MapMaking(modelBuilder);

        var correction = modelBuilder.Entity<Correction>();
        correction.ToTable("corrections");
        correction.HasIndex(one => new { one.EntryId, one.Field });

        var answered = modelBuilder.Entity<AnsweredForm>();
        answered.ToTable("answered_forms");
        answered.HasKey(one => one.Mark);

        foreach (var entity in modelBuilder.Model.GetEntityTypes())
        {
            foreach (var property in entity.GetProperties())
                property.SetColumnName(Snake(property.Name));
            foreach (var complex in entity.GetComplexProperties())
            {
                foreach (var property in complex.ComplexType.GetProperties())
                    property.SetColumnName($"{Snake(complex.Name)}_{Snake(property.Name)}");
            }
        }
    }

    private static void MapMaking(ModelBuilder modelBuilder)
    {
        var recipe = Entries<Recipe>(modelBuilder, "recipes");
        recipe.HasIndex(one => one.Code).IsUnique();
        recipe.HasOne<Sample>().WithMany().HasForeignKey(one => one.SampleId).OnDelete(DeleteBehavior.Restrict);
        recipe.HasOne<Pot>().WithMany().HasForeignKey(one => one.PotId).OnDelete(DeleteBehavior.Restrict);
        recipe.HasOne<Swatch>().WithMany().HasForeignKey(one => one.SwatchId).OnDelete(DeleteBehavior.Restrict);

        var recipeStep = Entries<RecipeStep>(modelBuilder, "recipe_steps");
        recipeStep.HasIndex(one => new { one.RecipeId, one.Step }).IsUnique();
        recipeStep.HasOne<Recipe>().WithMany().HasForeignKey(one => one.RecipeId).OnDelete(DeleteBehavior.Restrict);
        recipeStep.HasOne<Material>().WithMany().HasForeignKey(one => one.MaterialId).OnDelete(DeleteBehavior.Restrict);
        recipeStep.ComplexProperty(one => one.Amount);

        var batch = Entries<Batch>(modelBuilder, "batches");
        batch.HasIndex(one => one.Number).IsUnique();
        batch.HasIndex(one => one.Code).IsUnique();
        batch.HasOne<Recipe>().WithMany().HasForeignKey(one => one.RecipeId).OnDelete(DeleteBehavior.Restrict);

        var liquor = Entries<BatchLiquor>(modelBuilder, "batch_liquors");
        liquor.HasOne<Batch>().WithMany().HasForeignKey(one => one.BatchId).OnDelete(DeleteBehavior.Restrict);
        liquor.HasOne<Pot>().WithMany().HasForeignKey(one => one.PotId).OnDelete(DeleteBehavior.Restrict);

        Entries<BatchReading>(modelBuilder, "batch_readings")
            .HasOne<Batch>()
            .WithMany()
            .HasForeignKey(one => one.BatchId)
            .OnDelete(DeleteBehavior.Restrict);

        var batchStep = Entries<BatchStep>(modelBuilder, "batch_steps");
        batchStep.HasIndex(one => new { one.BatchId, one.Step }).IsUnique();
        batchStep.HasOne<Batch>().WithMany().HasForeignKey(one => one.BatchId).OnDelete(DeleteBehavior.Restrict);
        batchStep.HasOne<Material>().WithMany().HasForeignKey(one => one.MaterialId).OnDelete(DeleteBehavior.Restrict);
        batchStep.ComplexProperty(one => one.Planned);
        batchStep.ComplexProperty(one => one.Measured);
        batchStep.Ignore(one => one.Known);

        var bottle = Entries<Bottle>(modelBuilder, "bottles");
        bottle.HasIndex(one => one.Code).IsUnique();
        bottle.HasIndex(one => new { one.BatchId, one.Number }).IsUnique();
        bottle.HasOne<Batch>().WithMany().HasForeignKey(one => one.BatchId).OnDelete(DeleteBehavior.Restrict);
        bottle.HasOne<Material>().WithMany().HasForeignKey(one => one.ContainerId).OnDelete(DeleteBehavior.Restrict);

        Entries<BottleCheck>(modelBuilder, "bottle_checks")
            .HasOne<Bottle>()
            .WithMany()
            .HasForeignKey(one => one.BottleId)
            .OnDelete(DeleteBehavior.Restrict);
    }

    private static EntityTypeBuilder<T> Entries<T>(ModelBuilder model, string table)
        where T : Entry
    {
        var entity = model.Entity<T>();
        entity.ToTable(table);
        entity.HasKey(entry => entry.Id);
        entity.Property(entry => entry.Id).ValueGeneratedNever();
        entity.Ignore(entry => entry.Counts);
        return entity;
    }

    private static string Snake(string name) =>
        string.Concat(
            name.Select(
                (letter, index) => char.IsUpper(letter) ? (index > 0 ? "_" : "") + char.ToLowerInvariant(letter) : letter.ToString()
            )
        );
}
