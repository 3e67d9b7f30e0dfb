namespace Dyewort.Chemistry;

/// <summary>Gum dissolved in water beforehand.</summary>
/// <remarks>Density from a specific volume of dry gum of 0.61 ml/g (from memory); a gum solution of 1 : 3 comes out at 1.11 g/ml.</remarks>
public sealed record GumSolution
{
    private const double GumMillilitresPerGram = 0.61;

    private GumSolution(double massFraction) => MassFraction = massFraction;

    /// <summary>Grams of dry gum per gram.</summary>
    public double MassFraction { get; }

    /// <summary>g/ml at 20 °C.</summary>
    public double Density => 1 / ((MassFraction * GumMillilitresPerGram) + ((1 - MassFraction) / 0.9982));

    /// <summary>Dry gum in a millilitre, g.</summary>
    public double DryGramsPerMillilitre => MassFraction * Density;

    /// <summary>Made from so many parts of gum and of water by weight: 1 and 3.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A part is not above 0, or the mixture is more than half gum, which no longer
    /// flows.</exception>
    public static GumSolution Of(double gumParts, double waterParts) =>
        gumParts > 0 && waterParts > 0 && gumParts / (gumParts + waterParts) <= 0.5
            ? new(gumParts / (gumParts + waterParts))
            : throw new ArgumentOutOfRangeException(nameof(gumParts), gumParts, "Both parts are above 0, and at most half of it is gum.");

    /// <summary>Dry gum per 100 ml of the finished ink, g.</summary>
    /// <param name="solutionMillilitres">Gum solution poured in, ml.</param>
    /// <param name="inkMillilitres">Ink before, ml.</param>
    public double DryGramsPer100(double solutionMillilitres, double inkMillilitres)
    {
        Check(solutionMillilitres, inkMillilitres);
        return 100 * solutionMillilitres * DryGramsPerMillilitre / (inkMillilitres + solutionMillilitres);
    }

    /// <summary>Gum solution that brings an ink to so much dry gum per 100 ml of finished ink.</summary>
    /// <returns>ml; refused (NaN never) by an exception where the solution itself is weaker than that.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The goal is not below the solution's own strength.</exception>
    public double MillilitresFor(double dryGramsPer100, double inkMillilitres)
    {
        Check(0, inkMillilitres);
        var own = 100 * DryGramsPerMillilitre;
        if (!(dryGramsPer100 >= 0 && dryGramsPer100 < own))
            throw new ArgumentOutOfRangeException(
                nameof(dryGramsPer100),
                dryGramsPer100,
                $"This solution holds {own:0.#} g per 100 ml itself."
            );
        return inkMillilitres * dryGramsPer100 / (own - dryGramsPer100);
    }

    /// <summary>Share of the colour's strength lost to the solution's water, 0 to 1.</summary>
    public double ColourLost(double solutionMillilitres, double inkMillilitres)
    {
        Check(solutionMillilitres, inkMillilitres);
        return solutionMillilitres / (inkMillilitres + solutionMillilitres);
    }

    private static void Check(double solution, double ink)
    {
        if (!(solution >= 0))
            throw new ArgumentOutOfRangeException(nameof(solution), solution, "A volume is 0 ml or more.");
        if (!(ink > 0))
            throw new ArgumentOutOfRangeException(nameof(ink), ink, "There must be some ink.");
    }
}
