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
    /// <param name="wanted">A colour to come near to; empty for none.</param>
    public Outcome<ShowReachAnswer> Handle(TrialTable trials, string plant, string paper, string? wanted)
    {
        ArgumentNullException.ThrowIfNull(trials);
        var entered = new Entered();
        var colour = string.IsNullOrWhiteSpace(wanted) ? null : entered.Take(ColourText.Parse("COLOUR", wanted));
        if (!entered.Sound)
            return Outcome.Refused<ShowReachAnswer>(entered.Problems);
        var fitted = shelf.Of(trials, plant);
        if (!fitted.TryGet(out var model))
            return Outcome.Refused<ShowReachAnswer>(fitted.Problems);
        var reach = PotReach.Of(model, paper);
        return Outcome.Of(new ShowReachAnswer(reach, colour is null ? null : reach.Nearest(Lab.FromXyz(colour.Colour)), trials.Warnings));
    }
}

public sealed record ShowReachAnswer(PotReach Reach, NearestReachable? Nearest, IReadOnlyList<string> Warnings);
