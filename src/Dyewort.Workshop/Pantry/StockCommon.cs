using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Pantry;

/// <summary>Puts common materials into the pantry by their names.</summary>
public sealed class StockCommon(NotebookDb db, TimeProvider clock) : IUseCase
{
    public async Task<Outcome<int>> HandleAsync(IReadOnlyList<string> names, CancellationToken cancel)
    {
        var here = (await db.Materials.Counting().Select(material => material.Name).ToListAsync(cancel)).ToHashSet(
            StringComparer.OrdinalIgnoreCase
        );
        var chosen = CommonMaterial
            .All.Where(common => names.Contains(common.Name, StringComparer.OrdinalIgnoreCase) && !here.Contains(common.Name))
            .ToList();
        if (chosen.Count == 0)
            return Outcome.Refused<int>("Names", "Nothing was chosen.", "Tick what you have at hand.");
        var now = clock.GetUtcNow();
        foreach (var common in chosen)
        {
            db.Add(
                new Material
                {
                    Id = Guid.CreateVersion7(now),
                    WrittenAt = now,
                    Name = common.Name,
                    Kind = common.Kind,
                    Substance = common.Key is { } key ? SubstanceCatalogue.Standard.ByKey(key)!.Name : null,
                    HoldsMl = common is { Kind: MaterialKind.Container } ? 30 : null,
                }
            );
        }

        await db.SaveChangesAsync(cancel);
        return Outcome.Of(chosen.Count);
    }
}
