using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pantry;

/// <summary>One material with everything that was corrected on it.</summary>
public sealed class ShowMaterial(NotebookDb db) : IUseCase
{
    public async Task<ShowMaterialAnswer?> HandleAsync(Guid id, CancellationToken cancel) =>
        await db.Materials.AsNoTracking().SingleOrDefaultAsync(material => material.Id == id, cancel) is { } material
            ? new(
                material,
                await db
                    .Corrections.AsNoTracking()
                    .Where(one => one.EntryId == id)
                    .OrderByDescending(one => one.CorrectedAt)
                    .ToListAsync(cancel)
            )
            : null;
}

public sealed record ShowMaterialAnswer(Material Material, IReadOnlyList<Correction> Corrections);
