using System.Text.Json;
using Dyewort.Notebook;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Store;

/// <summary>The last change of an entry, and how it is taken back. Taking it back is a correction too, and so is kept.</summary>
public static class LastChange
{
    /// <summary>What was corrected of an entry, newest first.</summary>
    public static async Task<IReadOnlyList<Correction>> HistoryAsync(NotebookDb db, Guid entryId, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(db);
        return await db
            .Corrections.AsNoTracking()
            .Where(one => one.EntryId == entryId)
            .OrderByDescending(one => one.CorrectedAt)
            .ToListAsync(cancel);
    }

    /// <summary>The values that were corrected together last; empty where nothing ever was.</summary>
    public static async Task<IReadOnlyList<Correction>> OfAsync(NotebookDb db, Guid entryId, CancellationToken cancel)
    {
        var all = await HistoryAsync(db, entryId, cancel);
        return [.. all.Where(one => one.CorrectedAt == all[0].CorrectedAt)];
    }

    /// <summary>True where the change took an entry back or put it back.</summary>
    public static bool IsWithdrawal(IEnumerable<Correction> change) => change.Any(one => one.Field == nameof(Entry.WithdrawnAt));

    /// <summary>Gives an entry the values it had before a change; the caller saves.</summary>
    /// <param name="db">The notebook that holds the entry for changing.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="change">From <see cref="OfAsync"/>.</param>
    public static void Undo(NotebookDb db, Entry entry, IEnumerable<Correction> change)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(change);
        var held = db.Entry(entry);
        var properties = held
            .Properties.Select(one => (one.Metadata.Name, Property: one))
            .Concat(
                held.ComplexProperties.SelectMany(complex =>
                    complex.Properties.Select(one => (Name: complex.Metadata.Name + one.Metadata.Name, Property: one))
                )
            )
            .ToDictionary(one => one.Name, one => one.Property, StringComparer.Ordinal);
        foreach (var one in change)
        {
            // A field of an older program may be gone.
            if (properties.TryGetValue(one.Field, out var property))
                property.CurrentValue = JsonSerializer.Deserialize(one.Before, property.Metadata.ClrType);
        }
    }
}
