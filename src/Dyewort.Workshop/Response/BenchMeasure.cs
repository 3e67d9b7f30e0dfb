using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Response;

/// <summary>How finely the maker measures.</summary>
public enum BenchMeasure
{
    /// <summary>A kitchen scale, 0.1 g.</summary>
    KitchenScale,

    /// <summary>A fine scale, 0.01 g.</summary>
    FineScale,

    /// <summary>Level spoons from ⅛ teaspoon.</summary>
    Eighths,

    /// <summary>Level spoons from a pinch, 1/16 teaspoon.</summary>
    Pinches,
}

/// <summary>The smallest measure of a material, in grams and in words.</summary>
internal static class BenchMeasures
{
    // A drop of water from an eye dropper (common practice, no source).
    private const double DropMl = 0.05;

    /// <summary>Grams of the smallest measure: a drop, a step of the scale, or the smallest level spoon.</summary>
    public static double Grams(this BenchMeasure measure, Material material, double teaspoonMl)
    {
        if (IsPoured(material) && KnownMaterials.Of(material) is { } known)
            return DropMl * known.Substance.Density(known.Strength);
        if (measure.IsSpoon() && KnownMaterials.Measured(material).Spoonful(teaspoonMl) is { } spoon)
            return spoon.Typical / (measure == BenchMeasure.Eighths ? 8 : 16);
        return measure == BenchMeasure.FineScale ? 0.01 : MeasuredDose.LeastWeighedGrams;
    }

    /// <summary>So many smallest measures, as hands measure them.</summary>
    public static string Say(this BenchMeasure measure, Material material, int measures, double grams)
    {
        if (IsPoured(material))
            return measures < 20
                ? $"{measures} {(measures == 1 ? "drop" : "drops")}"
                : Volume.FromMillilitres(measures * DropMl).ToString();
        if (measure.IsSpoon() && KnownMaterials.Measured(material).Substance.GramsPerTeaspoon is not null)
        {
            if (measure == BenchMeasure.Pinches && measures == 1)
                return "1 pinch";
            var spoons = measures / (measure == BenchMeasure.Eighths ? 8.0 : 16);
            return $"{(spoons * 8 % 1 == 0 ? Figures.SayFraction(spoons) : Figures.Say(spoons, 4))} tsp";
        }

        return Mass.FromGrams(grams).ToString();
    }

    private static bool IsSpoon(this BenchMeasure measure) => measure is BenchMeasure.Eighths or BenchMeasure.Pinches;

    private static bool IsPoured(Material material) => KnownMaterials.Of(material) is { } known && KnownMaterials.IsPoured(known.Substance);
}
