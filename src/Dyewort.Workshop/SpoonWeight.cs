using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Quantities;

namespace Dyewort.Workshop;

/// <summary>What a level teaspoon of a material weighs, as a page says it.</summary>
/// <param name="Grams">Grams with their range.</param>
/// <param name="Weighed">How the maker found it; null where it is the tables'.</param>
public sealed record SpoonWeight(Spread Grams, string? Weighed)
{
    /// <summary>"3.95 g (3.6 to 5 by the tables)".</summary>
    public string Words => $"{Figures.Say(Grams.Typical)} g ({Weighed ?? ByTheTables})";

    private string ByTheTables => $"{Figures.Say(Grams.Low)} to {Figures.Say(Grams.High)} by the tables: weigh yours once";

    /// <param name="material">The material.</param>
    /// <param name="teaspoonMl">The notebook's teaspoon, ml.</param>
    /// <returns>Null where nobody knows, and where nothing is spooned.</returns>
    public static SpoonWeight? Of(Material material, double teaspoonMl) =>
        material.Kind is MaterialKind.Plant or MaterialKind.Paper or MaterialKind.Container
        || KnownMaterials.Measured(material) is not { } what
        || what.Spoonful(teaspoonMl) is not { } spoonful
            ? null
            : new(
                spoonful,
                material.GramsPerTeaspoon is null || KnownMaterials.IsPoured(what.Substance)
                    ? null
                    : material.GramsPerTeaspoonSource ?? "weighed here"
            );
}
