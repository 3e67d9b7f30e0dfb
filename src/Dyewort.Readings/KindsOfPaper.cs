using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>What a maker can say about a paper without measuring it.</summary>
public enum PaperKind
{
    /// <summary>Watercolour, drawing or cotton paper: white without a blue cast.</summary>
    Natural,

    /// <summary>Printer and office paper: whitened with brightener, a little blue.</summary>
    Bright,

    /// <summary>Cream, handmade or aged paper.</summary>
    Cream,

    /// <summary>Brown wrapping paper and unbleached card.</summary>
    Brown,
}

/// <summary>What papers of a kind are like.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Share">How often makers use it when nothing is said, 0 to 1; 0 for kinds that are only guessed when they are named.</param>
/// <param name="Colour">CIELAB under D65.</param>
/// <param name="Spread">Standard deviation from one such paper to the next.</param>
/// <remarks>Round figures for what such papers are; common practice, no source.</remarks>
public sealed record PaperGuess(PaperKind Kind, double Share, Lab Colour, Lab Spread)
{
    /// <summary>Every kind.</summary>
    public static IReadOnlyList<PaperGuess> All { get; } =
    [
        new(PaperKind.Natural, 0.8, new(95.3, -0.6, 3.0), new(0.8, 0.6, 1.8)),
        new(PaperKind.Bright, 0.2, new(96.2, 1.6, -3.2), new(0.8, 0.8, 1.3)),
        new(PaperKind.Cream, 0, new(92, 0.5, 9), new(2, 1, 3)),
        new(PaperKind.Brown, 0, new(68, 7, 22), new(5, 2, 4)),
    ];

    /// <summary>95 % uncertainty of the guess before any photo has been seen, ΔE₀₀.</summary>
    public double UncertaintyDe00
    {
        get
        {
            // The spread is a sphere to the eye only roughly; the mean of its six ends is near enough for a guess.
            double sum = 0;
            foreach (var sign in (double[])[-1, 1])
            {
                sum += Square(Difference.Ciede2000(Colour, Colour with { L = Colour.L + (sign * Spread.L) })) / 2;
                sum += Square(Difference.Ciede2000(Colour, Colour with { A = Colour.A + (sign * Spread.A) })) / 2;
                sum += Square(Difference.Ciede2000(Colour, Colour with { B = Colour.B + (sign * Spread.B) })) / 2;
            }

            return Uncertainty.TwoSided * Math.Sqrt(sum);
        }
    }

    private static double Square(double value) => value * value;
}
