using Dyewort.Chemistry;
using Dyewort.Making;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>What the chemistry tables know of the materials of a pantry and of the additions on a card.</summary>
internal static class KnownMaterials
{
    private const double RoomCelsius = 20;

    /// <summary>The card with what its additions are, so that their spoons can be weighed.</summary>
    public static RecipeCard Weigh(RecipeCard card) =>
        card with
        {
            Lines = [.. card.Lines.Select(line => line with { Weighs = line.Weighs ?? Measured(line.Name) })],
        };

    /// <summary>The substance of an everyday name; null when the tables do not know it.</summary>
    public static NamedSubstance? Of(string? name) => SubstanceCatalogue.Standard.Find("name", name).TryGet(out var found) ? found : null;

    /// <summary>The same by what the maker says it is, else by its everyday name.</summary>
    public static NamedSubstance? Of(string? substance, string name) => Of(substance) ?? Of(name);

    /// <summary>A material of the pantry, at the strength and with the weights that are written there; null when the tables do not know
    /// it.</summary>
    public static NamedSubstance? Of(Material material)
    {
        var named =
            (
                material.StrengthPercent is { } strength
                    ? Of(FormattableString.Invariant($"{material.Substance ?? material.Name} {strength} %"))
                    : null
            ) ?? Of(material.Substance, material.Name);
        return named is null ? null : Weighed(named, material);
    }

    /// <summary>What goes onto a spoon or a scale when some of a material is taken, known to the tables or not.</summary>
    public static NamedSubstance Measured(Material material) => Of(material) ?? Weighed(NamedSubstance.Own(material.Name), material);

    /// <summary>The same for a name without a pantry.</summary>
    public static NamedSubstance Measured(string name) => Of(name) ?? NamedSubstance.Own(name);

    /// <summary>An amount of it as the notebook keeps it.</summary>
    public static MeasuredAmount Weigh(this NamedSubstance what, Amount amount, Teaspoon teaspoon, double factor)
    {
        var meant = amount.In(teaspoon);
        var weighed = what.Weigh(meant, teaspoon);
        return MeasuredAmount.Of(meant, weighed.Grams, weighed.GramsLow, weighed.GramsHigh, weighed.Millilitres).Times(factor);
    }

    /// <summary>What is doubtful about an amount of something in a jar; null where it may well be meant.</summary>
    /// <param name="material">What the pantry says of it; null where it is in no pantry.</param>
    public static string? Doubt(MeasuredAmount amount, Material? material, string name, double jarMl)
    {
        var known = material is null ? Of(name) : Of(material);
        return Doubtful.InJar(
            amount,
            name,
            jarMl,
            amount.ToAmount().IsPoured || (known is not null && IsPoured(known.Substance)),
            known?.Substance.SolubilityGramsPer100Grams(RoomCelsius)
        );
    }

    /// <summary>True for what is poured and not spooned.</summary>
    public static bool IsPoured(Substance substance) =>
        substance.Form is SubstanceForm.Liquid or SubstanceForm.Water or SubstanceForm.Spirit;

    private static NamedSubstance Weighed(NamedSubstance named, Material material) =>
        material is { GramsPerTeaspoon: null, GramsPerPiece: null }
            ? named
            : named with
            {
                Substance = named.Substance.Weighed(
                    material.GramsPerTeaspoon is >= 0.05 and <= 100 ? material.GramsPerTeaspoon : null,
                    material.GramsPerPiece is > 0 ? material.GramsPerPiece : null
                ),
            };
}
