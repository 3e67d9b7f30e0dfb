using Dyewort.Chemistry;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Proposes ways to make a wanted colour out of what the trials teach.</summary>
public sealed class MatchColour(ModelShelf shelf) : IUseCase
{
    /// <param name="form">What is wanted.</param>
    /// <param name="trials">What was painted, from a file or from the notebook.</param>
    public Outcome<MatchColourAnswer> Handle(MatchColourForm form, TrialTable trials)
    {
        ArgumentNullException.ThrowIfNull(form);
        ArgumentNullException.ThrowIfNull(trials);
        var colour = ColourText.Parse("COLOUR", form.Wanted);
        if (!colour.TryGet(out var wanted))
            return Outcome.Refused<MatchColourAnswer>(colour.Problems);

        var warnings = trials.Warnings.ToList();
        var (models, refused) = shelf.All(trials);
        if (models.Count == 0)
            return refused.Count > 0
                ? Outcome.Refused<MatchColourAnswer>(refused)
                : Outcome.Refused<MatchColourAnswer>(
                    "trials",
                    "Not enough trials yet: no painted sample was read.",
                    $"Paint and read at least {ResponseModel.FewestSamples}."
                );
        warnings.AddRange(refused.Select(problem => problem.ToString()));
        var lab = Lab.FromXyz(wanted.Colour);
        var result = Match.Find(lab, models, form.Paper);
        result = result with { Proposals = [.. WantedColour.Worthwhile(result.Proposals)] };
        return Outcome.Of(
            new MatchColourAnswer(
                lab,
                wanted.ReadAs,
                result,
                Cautions(result.Proposals.SelectMany(one => one.Point.GramsPerLitre.Names)),
                warnings
            )
        );
    }
}

/// <param name="Wanted">What was asked for, CIELAB D65.</param>
/// <param name="Cautions">One sentence per hazardous addition in the proposals.</param>
public sealed record MatchColourAnswer(
    Lab Wanted,
    string ReadAs,
    MatchResult Result,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<string> Warnings
);

public sealed record MatchColourForm
{
    public string? Wanted { get; init; }

    /// <summary>The paper to paint on; empty for the one the trials used most.</summary>
    public string Paper { get; init; } = "";
}
