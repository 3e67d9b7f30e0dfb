using Dyewort.Quantities;

namespace Dyewort.Making;

/// <summary>An amount in spoons that exist: tablespoons, teaspoons, and ½, ¼ and ⅛ teaspoon, each used at most once but the whole
/// ones.</summary>
/// <param name="Tablespoons">Level tablespoons.</param>
/// <param name="Eighths">Eighths of a teaspoon beside them, 0 to 23.</param>
public sealed record Spoons(int Tablespoons, int Eighths)
{
    /// <summary>Allowed rounding: with a coarser spoon only when it is within one per cent, since every scoop adds an error of its
    /// own.</summary>
    private const double CoarserWithin = 0.01;

    /// <summary>All of it in level teaspoons.</summary>
    public double Teaspoons => (3 * Tablespoons) + (Eighths / 8.0);

    /// <summary>How often a spoon is dipped.</summary>
    public int Scoops => Tablespoons + (Eighths / 8) + ((Eighths >> 2) & 1) + ((Eighths >> 1) & 1) + (Eighths & 1);

    /// <summary>The spoons nearest to an amount.</summary>
    /// <param name="teaspoons">Level teaspoons, zero or more.</param>
    /// <returns>Null when the amount is nearer to nothing than to ⅛ teaspoon.</returns>
    public static Spoons? Nearest(double teaspoons)
    {
        if (teaspoons is not (>= 0 and < 1e6) || teaspoons < 1.0 / 16)
            return null;
        foreach (var step in new[] { 24, 8, 4, 2 })
        {
            var eighths = (int)Math.Round(teaspoons * 8 / step, MidpointRounding.AwayFromZero) * step;
            if (eighths > 0 && Math.Abs((eighths / 8.0) - teaspoons) <= CoarserWithin * teaspoons)
                return Of(eighths);
        }

        return Of((int)Math.Round(teaspoons * 8, MidpointRounding.AwayFromZero));
    }

    /// <summary>What is wrong with it, in per cent of what was wanted: positive when the spoons hold too much.</summary>
    /// <param name="wantedTeaspoons">Above zero.</param>
    public double ErrorPercent(double wantedTeaspoons) => 100 * ((Teaspoons / wantedTeaspoons) - 1);

    /// <summary>In words: <c>4 tbsp + 1½ tsp</c>.</summary>
    public override string ToString()
    {
        var spoons = Tablespoons > 0 ? $"{Tablespoons} tbsp" : "";
        if (Eighths == 0)
            return spoons;
        var rest = $"{Figures.SayFraction(Eighths / 8.0)} tsp";
        return spoons.Length > 0 ? $"{spoons} + {rest}" : rest;
    }

    private static Spoons Of(int eighths) => new(eighths / 24, eighths % 24);
}
