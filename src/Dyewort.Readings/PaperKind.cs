using Dyewort.Colour;

namespace Dyewort.Readings;

/// <summary>The colour of bare paper that readings stand on.</summary>
/// <param name="Colour">CIELAB under D65.</param>
/// <param name="Known">False for a guess.</param>
/// <param name="Doubt">Standard uncertainty, ΔE₀₀.</param>
public sealed record PaperColour(Lab Colour, bool Known, double Doubt)
{
    /// <summary>A paper that was measured.</summary>
    /// <param name="colour">CIELAB under D65.</param>
    /// <param name="doubt">Standard uncertainty of the measurement, ΔE₀₀; that of a good instrument where nothing is said.</param>
    public static PaperColour Measured(Lab colour, double doubt = 0.3) => new(colour, Known: true, doubt);

    /// <summary>The best guess from what papers there are and from what the camera made of this one.</summary>
    /// <param name="seen">CIELAB of the paper as the picture has it, at any lightness.</param>
    /// <param name="scan">True for a flatbed scanner.</param>
    /// <param name="kind">The kind of paper, where the maker has said it.</param>
    /// <remarks>A camera's own white balance is usually right within about 2 in a* and b*, and sometimes badly wrong (taken as 7 and 3
    /// times in ten); a scanner's lamp never changes, so its white is right within 1. What was seen is weighed with what papers there are
    /// by Bayes' rule.</remarks>
    public static PaperColour Guess(Lab seen, bool scan, PaperKind? kind = null)
    {
        (double Share, double A, double B)[] whites = scan ? [(1, 0.7, 0.9)] : [(0.7, 1.5, 2), (0.3, 5, 7)];
        double total = 0,
            l = 0,
            a = 0,
            b = 0,
            squares = 0,
            lightness = 0;
        var beliefs = new List<(double Weight, double A, double B, double Spread)>();
        foreach (var paper in PaperGuess.All.Where(one => kind is { } said ? one.Kind == said : one.Share > 0))
        {
            foreach (var white in whites)
            {
                var (va, na) = (paper.Spread.A * paper.Spread.A, white.A * white.A);
                var (vb, nb) = (paper.Spread.B * paper.Spread.B, white.B * white.B);
                var (da, db) = (seen.A - paper.Colour.A, seen.B - paper.Colour.B);
                var weight =
                    (kind is null ? paper.Share : 1)
                    * white.Share
                    * Math.Exp(-0.5 * Math.Min(600, (da * da / (va + na)) + (db * db / (vb + nb))))
                    / Math.Sqrt((va + na) * (vb + nb));
                var (pa, pb) = (paper.Colour.A + (da * va / (va + na)), paper.Colour.B + (db * vb / (vb + nb)));
                total += weight;
                l += weight * paper.Colour.L;
                a += weight * pa;
                b += weight * pb;
                lightness += weight * paper.Spread.L * paper.Spread.L;
                beliefs.Add((weight, pa, pb, Math.Sqrt((va * na / (va + na)) + (vb * nb / (vb + nb)))));
                squares += weight * ((pa * pa) + (pb * pb) + (va * na / (va + na)) + (vb * nb / (vb + nb)));
            }
        }

        if (!(total > 0))
            return new(PaperGuess.All[0].Colour, Known: false, Doubt: 2.5);
        (l, a, b) = (l / total, a / total, b / total);
        var variance = Math.Max(0, (squares / total) - (a * a) - (b * b));
        var doubt = Math.Max(Math.Sqrt((variance * 0.75) + (0.47 * lightness / total)), Reach(beliefs, total, a, b) / 2);
        return new(new(l, a, b), Known: false, Doubt: Math.Clamp(doubt, 0.5, 4));
    }

    /// <summary>How far from the guess 19 of 20 of the belief reach: two kinds of paper far apart are not one bell, and their standard
    /// deviation says too little.</summary>
    private static double Reach(List<(double Weight, double A, double B, double Spread)> beliefs, double total, double a, double b)
    {
        double held = 0,
            reach = 0;
        foreach (
            var (distance, weight) in beliefs
                .Select(one => (Math.Sqrt(Math.Pow(one.A - a, 2) + Math.Pow(one.B - b, 2)) + one.Spread, one.Weight))
                .Order()
        )
        {
            (held, reach) = (held + weight, distance);
            if (held >= 0.95 * total)
                break;
        }

        return reach;
    }
}
