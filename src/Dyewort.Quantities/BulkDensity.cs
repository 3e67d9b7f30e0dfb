namespace Dyewort.Quantities;

/// <summary>How much a level measure of a material weighs, held in grams per millilitre: bulk density of a powder, density of a liquid.</summary>
/// <remarks>Range 0.01 to 20 g/ml, both ends allowed; never NaN; <c>default</c> is not a density. The ends guard against slipped
/// decimal points (common practice, no source).</remarks>
public readonly record struct BulkDensity
{
    private const double Min = 0.01;
    private const double Max = 20;

    private BulkDensity(double gramsPerMillilitre) => GramsPerMillilitre = gramsPerMillilitre;

    /// <summary>Grams in one millilitre.</summary>
    public double GramsPerMillilitre { get; }

    /// <summary>A density of so many grams per millilitre.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static BulkDensity FromGramsPerMillilitre(double gramsPerMillilitre) =>
        gramsPerMillilitre is >= Min and <= Max
            ? new(gramsPerMillilitre)
            : throw new ArgumentOutOfRangeException(nameof(gramsPerMillilitre), gramsPerMillilitre, "Allowed: 0.01 to 20 g/ml.");

    /// <summary>A density from what a level teaspoon weighs.</summary>
    /// <param name="gramsPerTeaspoon">Grams in one level teaspoon.</param>
    /// <param name="kind">The teaspoon it was weighed with.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public static BulkDensity FromGramsPerTeaspoon(double gramsPerTeaspoon, Teaspoon kind) =>
        FromGramsPerMillilitre(gramsPerTeaspoon / KitchenMeasures.TeaspoonMillilitres(kind));

    /// <summary>Grams in one level teaspoon.</summary>
    /// <param name="kind">Which teaspoon.</param>
    public double GramsPerTeaspoon(Teaspoon kind) => GramsPerMillilitre * KitchenMeasures.TeaspoonMillilitres(kind);
}
