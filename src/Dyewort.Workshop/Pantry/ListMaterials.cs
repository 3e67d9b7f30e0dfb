using Dyewort.Notebook;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pantry;

/// <summary>What is in the pantry, and what of the common materials is not.</summary>
public sealed class ListMaterials(NotebookDb db, NotebookSettings settings) : IUseCase
{
    public async Task<ListMaterialsAnswer> HandleAsync(CancellationToken cancel)
    {
        var materials = await db.Materials.AsNoTracking().Counting().OrderBy(material => material.Name).ToListAsync(cancel);
        var names = materials.Select(material => material.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        return new(
            materials,
            [.. CommonMaterial.All.Where(common => !names.Contains(common.Name))],
            await settings.TeaspoonMlAsync(cancel)
        );
    }

    /// <summary>Those of one kind, by name.</summary>
    public async Task<IReadOnlyList<Material>> OfKindAsync(MaterialKind kind, CancellationToken cancel) =>
        await db
            .Materials.AsNoTracking()
            .Counting()
            .Where(material => material.Kind == kind)
            .OrderBy(material => material.Name)
            .ToListAsync(cancel);
}

public sealed record ListMaterialsAnswer(IReadOnlyList<Material> Materials, IReadOnlyList<CommonMaterial> Offered, double TeaspoonMl);
