using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Find;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Response;

/// <summary>What the next trial of a pot of the notebook can start from.</summary>
public sealed class OfferTrial(NotebookDb db, ModelShelf shelf, LiquorLeft liquor, FindThread thread) : IUseCase
{
    /// <returns>Null where there is no such pot.</returns>
    public async Task<OfferTrialAnswer?> HandleAsync(string code, TrialSource trials, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(trials);
        if (await db.Pots.AsNoTracking().SingleOrDefaultAsync(one => one.Code == code, cancel) is not { } pot)
            return null;
        var plant = (await Origin.LoadAsync(db, [pot.Id], cancel))[0].Plant.Name;
        var tested = trials
            .Painted.Where(one => string.Equals(one.Row.Point.Plant, plant, StringComparison.OrdinalIgnoreCase))
            .SelectMany(one => one.Row.Point.GramsPerLitre.Names)
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .Select(name => trials.Materials[name].Id)
            .ToHashSet();
        var materials = await db.Materials.AsNoTracking().Counting().ToListAsync(cancel);
        var fitted = await shelf.AskAsync(trials.Table, plant, cancel);
        return new(
            pot,
            plant,
            await liquor.HandleAsync(pot.Id, cancel) is { } left ? Math.Max(0, left) : null,
            [
                .. materials
                    .Where(material => material.Kind == MaterialKind.Addition)
                    .OrderByDescending(material => tested.Contains(material.Id))
                    .ThenBy(material => material.Name, StringComparer.OrdinalIgnoreCase),
            ],
            tested,
            [
                .. materials
                    .Where(material => material.Kind == MaterialKind.Paper)
                    .OrderBy(material => material.Name, StringComparer.OrdinalIgnoreCase),
            ],
            fitted is null || fitted.TryGet(out _) ? null : fitted.Problems[0],
            await thread.OfPotAsync(pot.Id, cancel)
        )
        {
            StillLearning = fitted is null,
            StirredIn =
            [
                .. materials.Where(material => material.Kind is not (MaterialKind.Plant or MaterialKind.Paper or MaterialKind.Container)),
            ],
        };
    }
}

/// <param name="Pot">The pot.</param>
/// <param name="Plant">What it was made from.</param>
/// <param name="LeftMl">Liquor that is left; null while nobody measured it.</param>
/// <param name="Choices">Additions of the pantry, those tested on this plant first.</param>
/// <param name="Tested">Keys of those that were tested.</param>
/// <param name="Papers">Papers of the pantry.</param>
/// <param name="NotYet">Why nothing can be foretold yet; null when it can.</param>
/// <param name="Thread">Where the pot stands on the way.</param>
public sealed record OfferTrialAnswer(
    Pot Pot,
    string Plant,
    double? LeftMl,
    IReadOnlyList<Material> Choices,
    IReadOnlySet<Guid> Tested,
    IReadOnlyList<Material> Papers,
    Problem? NotYet,
    IReadOnlyList<ThreadStep> Thread
)
{
    /// <summary>True where the trials are still being learned from: ask again in a moment.</summary>
    public bool StillLearning { get; init; }

    /// <summary>Everything of the pantry that a jar may hold, binders and liquids too: a plan around a dose may name it.</summary>
    public IReadOnlyList<Material> StirredIn { get; init; } = [];
}
