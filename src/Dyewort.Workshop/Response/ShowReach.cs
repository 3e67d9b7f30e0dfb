using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>The colours a pot can make, and how near it comes to a wanted one.</summary>
public sealed class ShowReach(ModelShelf shelf) : IUseCase
{
    /// <param name="trials">What was painted.</param>
    /// <param name="plant">The plant; empty where the trials hold one only.</param>
    /// <param name="paper">The paper; empty for the one used most.</param>
    /// <param name="wanted">A colour to come near to; null for none.</param>
    /// <returns>Null while the trials are still being learned from.</returns>
    public async Task<Outcome<ShowReachAnswer>?> HandleAsync(
        TrialSource trials,
        string plant,
        string paper,
        Lab? wanted,
        CancellationToken cancel
    )
    {
        ArgumentNullException.ThrowIfNull(trials);
        if (await shelf.AskAsync(trials.Table, plant, cancel) is not { } fitted)
            return null;
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<ShowReachAnswer>(fitted.Problems);
        var reach = PotReach.Of(model, paper);
        return Outcome.Of(
            new ShowReachAnswer(
                reach,
                wanted is { } colour ? reach.Nearest(colour) : null,
                trials.OnePerSample(model.Plant),
                trials.Table.Warnings
            )
        );
    }
}

/// <param name="Reach">What the plant can make.</param>
/// <param name="Nearest">The reachable colour nearest to the wanted one; null where none was asked for.</param>
/// <param name="Tested">Its tested colours, one per sample, dry before wet; empty for trials out of a file.</param>
/// <param name="Warnings">What was left out of the trials, a sentence each.</param>
public sealed record ShowReachAnswer(
    PotReach Reach,
    NearestReachable? Nearest,
    IReadOnlyList<NotebookTrialsPainted> Tested,
    IReadOnlyList<string> Warnings
);
