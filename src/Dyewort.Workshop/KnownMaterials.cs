using Dyewort.Chemistry;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>What the chemistry tables know of the materials of a pantry and of the additions on a card.</summary>
internal static class KnownMaterials
{
    /// <summary>The card with spoon weights and piece weights where the tables have them.</summary>
    public static RecipeCard Weigh(RecipeCard card) => card with { Lines = [.. card.Lines.Select(Weigh)] };

    /// <summary>The substance of an everyday name; null when the tables do not know it.</summary>
    public static NamedSubstance? Of(string? name) => SubstanceCatalogue.Standard.Find("name", name).TryGet(out var found) ? found : null;

    /// <summary>The same by what the maker says it is, else by its everyday name.</summary>
    public static NamedSubstance? Of(string? substance, string name) => Of(substance) ?? Of(name);

    /// <summary>A material of the pantry, at the strength that is written there.</summary>
    public static NamedSubstance? Of(Material material) =>
        (
            material.StrengthPercent is { } strength
                ? Of(FormattableString.Invariant($"{material.Substance ?? material.Name} {strength} %"))
                : null
        ) ?? Of(material.Substance, material.Name);

    /// <summary>True for what is poured and not spooned.</summary>
    public static bool IsPoured(Substance substance) =>
        substance.Form is SubstanceForm.Liquid or SubstanceForm.Water or SubstanceForm.Spirit;

    private static RecipeLine Weigh(RecipeLine line)
    {
        if (Of(line.Name) is not { } found)
            return line;
        var substance = found.Substance;
        return line with
        {
            Density =
                IsPoured(substance) || substance.GramsPerTeaspoon is not null
                    ? BulkDensity.FromGramsPerMillilitre(substance.Density(found.Strength))
                    : null,
            GramsPerPiece = substance.GramsPerPiece,
        };
    }
}
