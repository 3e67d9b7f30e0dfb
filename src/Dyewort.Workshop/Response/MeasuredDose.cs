using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>How much of a material goes into a volume of liquor, as hands and scales measure it.</summary>
/// <param name="Material">What.</param>
/// <param name="GramsPerLitre">Its dose.</param>
/// <param name="Grams">Grams for the volume.</param>
/// <param name="Ml">Millilitres, for what is poured.</param>
/// <param name="Teaspoons">Level teaspoons of the notebook; null where nobody knows what a spoon weighs.</param>
public sealed record MeasuredDose(Material Material, double GramsPerLitre, double Grams, double? Ml, double? Teaspoons)
{
    /// <summary>What an ordinary kitchen scale shows no difference below (common practice, no source).</summary>
    public const double LeastWeighedGrams = 0.1;

    /// <summary>The amount as it is written into a plan: to be measured as it stands.</summary>
    public string Amount =>
        Ml is { } ml ? Volume.FromMillilitres(ml).ToString()
        : Grams < 1 ? $"{Figures.Say(Grams, 2)} g"
        : Mass.FromGrams(Grams).ToString();

    /// <summary>Too little for a kitchen scale: millilitres of a stock of one gram in 100 ml of the liquor.</summary>
    public double? OfStockMl => Ml is null && Grams > 0 && Grams < BenchLimits.StockBelow * LeastWeighedGrams ? 100 * Grams : null;

    internal static MeasuredDose Of(Material material, double gramsPerLitre, double liquorMl, double teaspoonMl)
    {
        var grams = gramsPerLitre * liquorMl / 1000;
        var named = KnownMaterials.Measured(material);
        double? ml = KnownMaterials.IsPoured(named.Substance) ? grams / named.Substance.Density(named.Strength) : null;
        return new(material, gramsPerLitre, grams, ml, grams / named.Spoonful(teaspoonMl)?.Typical);
    }
}
