using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>Carries an amount to grams and millilitres by what the pantry knows of a material.</summary>
internal static class Weigh
{
    /// <summary>Grams and millilitres; null where the pantry does not know enough.</summary>
    public static (double? Grams, double? Ml) Of(Amount amount, Material? material, Teaspoon teaspoon)
    {
        BulkDensity? density = material?.GramsPerTeaspoon is >= 0.05 and <= 100 and { } spoon
            ? BulkDensity.FromGramsPerTeaspoon(spoon, Teaspoon.Metric)
            : null;
        double? grams = amount.ToMass("Amount", teaspoon, density, material?.GramsPerPiece).TryGet(out var mass) ? mass.Grams : null;
        double? ml = amount.ToVolume("Amount", teaspoon, density).TryGet(out var volume) ? volume.Millilitres : null;
        return (grams, ml);
    }
}
