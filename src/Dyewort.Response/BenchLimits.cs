using System.Globalization;

namespace Dyewort.Response;

/// <summary>What the bench allows a trial.</summary>
public sealed record BenchLimits
{
    /// <summary>Below so many smallest measures an amount is measured as a stock, for one more or less would be another colour (common
    /// practice, no source).</summary>
    public const double StockBelow = 3;

    /// <summary>Volume of one sample, ml, above 0; a trial takes at most 10 000.</summary>
    public required double SampleMillilitres { get; init; }

    /// <summary>Liquor that may be used, ml; null where nobody measured it.</summary>
    public double? LiquorMillilitres { get; init; }

    /// <summary>Jars at hand.</summary>
    public int Jars { get; init; } = 24;

    /// <summary>Grams of the smallest measure of each addition (a level spoon, or what the scale can tell); 0.1 g where it is
    /// missing.</summary>
    public Doses SmallestGrams { get; init; } = Doses.None;

    /// <summary>The most of each addition that is safe or sensible, g/L; missing where nothing forbids more.</summary>
    public Doses MostGramsPerLitre { get; init; } = Doses.None;

    /// <summary>What a kitchen scale of good make tells apart (common practice, no source).</summary>
    internal const double KitchenScaleGrams = 0.1;

    internal double Smallest(string addition) => SmallestGrams.Find(addition) ?? KitchenScaleGrams;

    internal double Most(string addition) => MostGramsPerLitre.Find(addition) ?? double.PositiveInfinity;

    /// <summary>The nearest amount of an addition that can be measured, grams.</summary>
    /// <returns>Whole smallest measures from three of them on. Below that tenths of one, 1 ml each of a stock of ten measures in 100 ml of
    /// the liquor (common practice, no source); 0 for less than half of that.</returns>
    internal double Measurable(string addition, double grams)
    {
        var step = grams < StockBelow * Smallest(addition) ? Smallest(addition) / StockParts : Smallest(addition);
        return step * Math.Round(grams / step);
    }

    /// <summary>The same for a dose in a sample of <see cref="SampleMillilitres"/>, g/L.</summary>
    internal double MeasurableDose(string addition, double gramsPerLitre) =>
        Measurable(addition, gramsPerLitre * SampleMillilitres / 1000) * 1000 / SampleMillilitres;

    /// <summary>How an amount too small to weigh is measured, in brackets; empty where it can be weighed.</summary>
    internal string AsStock(string addition, double grams)
    {
        var smallest = Smallest(addition);
        return grams < StockBelow * smallest
            ? string.Create(
                CultureInfo.InvariantCulture,
                $" ({StockParts * grams / smallest:0} ml of {StockParts * smallest:0.###} g dissolved in 100 ml of the ink)"
            )
            : "";
    }

    private const double StockParts = 10;
}
