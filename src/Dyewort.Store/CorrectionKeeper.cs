using System.Text.Json;
using Dyewort.Notebook;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Dyewort.Store;

/// <summary>Keeps what a correction corrected: every changed value goes to the list of corrections in the same transaction.</summary>
/// <remarks>Erasing an entry is refused: an entry is withdrawn, so that what it said can still be read.</remarks>
public sealed class CorrectionKeeper(TimeProvider clock) : SaveChangesInterceptor
{
    public override InterceptionResult<int> SavingChanges(DbContextEventData eventData, InterceptionResult<int> result)
    {
        if (eventData.Context is { } db)
            Keep(db);
        return base.SavingChanges(eventData, result);
    }

    public override ValueTask<InterceptionResult<int>> SavingChangesAsync(
        DbContextEventData eventData,
        InterceptionResult<int> result,
        CancellationToken cancellationToken = default
    )
    {
        if (eventData.Context is { } db)
            Keep(db);
        return base.SavingChangesAsync(eventData, result, cancellationToken);
    }

    private void Keep(DbContext db)
    {
        var now = clock.GetUtcNow();
        foreach (var entry in db.ChangeTracker.Entries().ToList())
        {
            if (entry.State == EntityState.Deleted)
                throw new InvalidOperationException($"A {entry.Metadata.ClrType.Name} must be withdrawn, not erased.");
            if (entry.State != EntityState.Modified)
                continue;
            if (entry.Entity is not Entry corrected)
                throw new InvalidOperationException($"A {entry.Metadata.ClrType.Name} cannot be changed.");
            var changed = entry
                .Properties.Select(property => (Field: property.Metadata.Name, Property: property))
                .Concat(
                    entry.ComplexProperties.SelectMany(complex =>
                        complex.Properties.Select(property => (Field: complex.Metadata.Name + property.Metadata.Name, Property: property))
                    )
                )
                .Where(one => one.Property.IsModified && !Equals(one.Property.OriginalValue, one.Property.CurrentValue))
                .ToList();
            foreach (var (field, property) in changed)
                db.Add(Correction(db, corrected, field, property, now));
        }
    }

    private static Correction Correction(DbContext db, Entry corrected, string field, PropertyEntry property, DateTimeOffset now)
    {
        var last = db.Set<Correction>()
            .AsNoTracking()
            .Where(one => one.EntryId == corrected.Id && one.Field == field)
            .OrderByDescending(one => one.CorrectedAt)
            .Select(one => (DateTimeOffset?)one.CorrectedAt)
            .FirstOrDefault();
        return new Correction
        {
            Id = Guid.CreateVersion7(now),
            EntryKind = corrected.GetType().Name,
            EntryId = corrected.Id,
            Field = field,
            Before = JsonSerializer.Serialize(property.OriginalValue),
            After = JsonSerializer.Serialize(property.CurrentValue),
            BeforeWrittenAt = last ?? corrected.WrittenAt,
            CorrectedAt = now,
        };
    }
}
