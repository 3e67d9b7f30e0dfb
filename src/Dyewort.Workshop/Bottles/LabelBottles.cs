using Dyewort.Making;
using Dyewort.Quantities;
using Dyewort.Store;
using Dyewort.Workshop.Batches;

namespace Dyewort.Workshop.Bottles;

/// <summary>Labels for the bottles of a batch, with the address of each bottle's page in its square code.</summary>
public sealed class LabelBottles(NotebookDb db, PrintLabels print) : IUseCase
{
    /// <param name="batchCode">The batch.</param>
    /// <param name="bottles">Codes of the bottles to label; empty for all that stand on the shelf.</param>
    /// <param name="address">Where a host shows a thing; null puts the bottle's code alone in the square.</param>
    /// <param name="form">The label sheets; its list of bottles is not used.</param>
    public async Task<Outcome<PrintLabelsAnswer>> HandleAsync(
        string batchCode,
        IReadOnlyList<string> bottles,
        Func<Thing, Uri>? address,
        PrintLabelsForm form,
        CancellationToken cancel
    )
    {
        if (await BatchView.LoadAsync(db, batchCode.Trim().ToUpperInvariant(), cancel) is not { } view)
            return Outcome.Refused<PrintLabelsAnswer>(
                "batch",
                $"There is no batch {batchCode} in this notebook.",
                "Look the code up on the batches page."
            );
        var wanted = bottles.Select(BottleCode.Tidy).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var chosen = view
            .Bottles.Where(bottle => bottle.Counts && (wanted.Count == 0 ? bottle.GoneOn is null : wanted.Contains(bottle.Code)))
            .ToList();
        if (chosen.Count < wanted.Count)
            return Outcome.Refused<PrintLabelsAnswer>(
                "bottles",
                $"{string.Join(", ", wanted.Except(chosen.Select(bottle => bottle.Code)))}: not a bottle of this batch.",
                "Choose bottles of the list."
            );
        if (chosen.Count == 0)
            return Outcome.Refused<PrintLabelsAnswer>("bottles", "No bottle of this batch is on the shelf.", "Fill bottles first.");
        return print.Handle([.. chosen.Select(bottle => Facts(view, bottle, address))], form);
    }

    private static LabelFacts Facts(BatchView view, Bottle bottle, Func<Thing, Uri>? address)
    {
        var materials = view.Steps.DistinctBy(line => line.Step.Name).ToDictionary(line => line.Step.Name, line => line.Material);
        return BatchMaker.Facts(
            bottle,
            view.Batch,
            [.. view.Steps.Select(line => line.Step)],
            view.Recipe.Recipe,
            [.. view.Pours.Select(pour => pour.Origin.Plant.Name)],
            [.. view.Pours.Select(pour => $"{pour.Origin.Plant.Name} {pour.Origin.Pot.Code}")],
            name => materials.GetValueOrDefault(name) is { } material ? Caution.HazardOf(material) : Caution.HazardOf(null, name),
            address?.Invoke(Thing.Bottle(bottle.Code)).ToString()
        );
    }
}
