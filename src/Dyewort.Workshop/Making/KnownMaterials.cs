using Dyewort.Chemistry;
using Dyewort.Making;
using Dyewort.Quantities;

namespace Dyewort.Workshop.Making;

/// <summary>What the chemistry tables know of the additions on a card.</summary>
internal static class KnownMaterials
{
    /// <summary>The card with spoon weights and piece weights where the tables have them.</summary>
    public static RecipeCard Weigh(RecipeCard card) => card with { Lines = [.. card.Lines.Select(Weigh)] };

    public static Substance? Find(string name) => SubstanceCatalogue.Standard.Find("name", name).TryGet(out var found) ? found.Substance : null;

    private static RecipeLine Weigh(RecipeLine line)
    {
        if (!SubstanceCatalogue.Standard.Find("name", line.Name).TryGet(out var found)) return line;
        var substance = found.Substance;
        var isPoured = substance.Form is SubstanceForm.Liquid or SubstanceForm.Water or SubstanceForm.Spirit;
        return line with
        {
            Density = isPoured || substance.GramsPerTeaspoon is not null ? BulkDensity.FromGramsPerMillilitre(substance.Density(found.Strength)) : null,
            GramsPerPiece = substance.GramsPerPiece,
        };
    }
}
