using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>The colour of bare paper that readings stand on.</summary>
/// <param name="Colour">CIELAB under D65.</param>
/// <param name="Known">False for a guess.</param>
/// <param name="Doubt">Standard uncertainty, ΔE₀₀.</param>
public sealed record PaperColour(Lab Colour, bool Known, double Doubt)
{
    /// <summary>Uncoated papers for drawing and watercolour, and brightened office paper: share among makers, colour, spread.</summary>
    /// <remarks>Round figures for what such papers are; common practice, no source.</remarks>
    private static readonly (double Share, Lab Colour, Lab Spread)[] Kinds =
    [
        (0.8, new(95.3, -0.6, 3.0), new(0.8, 0.6, 1.8)),
        (0.2, new(96.2, 1.6, -3.2), new(0.8, 0.8, 1.3)),
    ];

    /// <summary>A paper that was measured.</summary>
    public static PaperColour Measured(Lab colour) => new(colour, Known: true, Doubt: 0.3);

    /// <summary>The best guess from what papers there are and from what the camera made of this one.</summary>
    /// <param name="seen">CIELAB of the paper as the picture has it, at any lightness.</param>
    /// <param name="scan">True for a flatbed scanner.</param>
    /// <remarks>A camera's own white balance is usually right within about 2 in a* and b*, and sometimes badly wrong (taken as 7 and 3
    /// times in ten); a scanner's lamp never changes, so its white is right within 1. What was seen is weighed with what papers there are
    /// by Bayes' rule.</remarks>
    public static PaperColour Guess(Lab seen, bool scan)
    {
        (double Share, double A, double B)[] whites = scan ? [(1, 0.7, 0.9)] : [(0.7, 1.5, 2), (0.3, 5, 7)];
        double total = 0, l = 0, a = 0, b = 0, squares = 0;
        foreach (var kind in Kinds)
        {
            foreach (var white in whites)
            {
                var (va, na) = (kind.Spread.A * kind.Spread.A, white.A * white.A);
                var (vb, nb) = (kind.Spread.B * kind.Spread.B, white.B * white.B);
                var (da, db) = (seen.A - kind.Colour.A, seen.B - kind.Colour.B);
                var weight = kind.Share * white.Share * Math.Exp(-0.5 * Math.Min(600, (da * da / (va + na)) + (db * db / (vb + nb)))) / Math.Sqrt((va + na) * (vb + nb));
                var (pa, pb) = (kind.Colour.A + (da * va / (va + na)), kind.Colour.B + (db * vb / (vb + nb)));
                total += weight;
                l += weight * kind.Colour.L;
                a += weight * pa;
                b += weight * pb;
                squares += weight * ((pa * pa) + (pb * pb) + (va * na / (va + na)) + (vb * nb / (vb + nb)));
            }
        }

        if (!(total > 0)) return new(Kinds[0].Colour, Known: false, Doubt: 2.5);
        (l, a, b) = (l / total, a / total, b / total);
        var variance = Math.Max(0, (squares / total) - (a * a) - (b * b));
        return new(new(l, a, b), Known: false, Doubt: Math.Clamp(Math.Sqrt((variance * 0.75) + 0.3), 0.5, 4));
    }
}
