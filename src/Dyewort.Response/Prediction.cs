using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>What a sample is expected to look like once painted and dry.</summary>
/// <param name="Sample">The sample's code.</param>
/// <param name="Colour">The expected colour, CIELAB D65.</param>
/// <param name="UncertaintyDe00">95 % radius: the painted colour lies within this ΔE₀₀ of <paramref name="Colour"/> 19 times of 20.</param>
/// <param name="ReadingDe00">95 % radius by which a single reading scatters around the painted colour, as learned from these
/// trials.</param>
/// <param name="PriorWeight">0 where the samples say all, 1 where nothing but general belief speaks.</param>
/// <param name="Extrapolating">True outside the tested doses, pH, wash, paper or state, or where general belief outweighs the
/// samples.</param>
/// <param name="Why">What makes it an extrapolation, one phrase each.</param>
public sealed record Prediction(
    string Sample,
    Lab Colour,
    double UncertaintyDe00,
    double ReadingDe00,
    double PriorWeight,
    bool Extrapolating,
    IReadOnlyList<string> Why
)
{
    /// <summary>What is in the sample and was never tried on this plant: what it does is not known, and the ± is only what such additions
    /// do
    /// elsewhere.</summary>
    public IReadOnlyList<string> Untried { get; init; } = [];

    /// <summary>What to say in place of a colour; empty where it is known.</summary>
    public string NotKnown =>
        Untried.Count == 0
            ? ""
            : FormattableString.Invariant($"not known: {string.Join(" and ", Untried)} was never tried on this plant. ")
                + FormattableString.Invariant(
                    $"Elsewhere such additions leave a colour within ΔE00 {UncertaintyDe00:0}. Paint one and read it"
                );

    /// <summary>The pH that was given or computed.</summary>
    public PhEstimate Ph { get; init; }
}
