using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>The colour of bare paper that readings stand on.</summary>
/// <param name="Colour">CIELAB under D65.</param>
/// <param name="Known">False for a guess.</param>
/// <param name="DoubtDe00">95 % uncertainty of the paper's colour, ΔE₀₀.</param>
public sealed record PaperColour(Lab Colour, bool Known, double DoubtDe00)
{
    /// <summary>Uncoated white paper of unknown make: the middle of what watercolour and drawing papers are.</summary>
    /// <remarks>Between warm cotton papers (L* 94, b* 5) and plain office paper (L* 95, b* 1); common practice, no source.</remarks>
    public static PaperColour Guess { get; } = new(new(95, -0.5, 3), Known: false, DoubtDe00: 2.5);

    /// <summary>A paper that was measured.</summary>
    public static PaperColour Measured(Lab colour) => new(colour, Known: true, DoubtDe00: 0.5);
}
