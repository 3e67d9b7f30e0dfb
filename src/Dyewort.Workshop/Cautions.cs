using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Pots;

namespace Dyewort.Workshop;

/// <summary>What to be careful of with one thing, in plain words.</summary>
/// <param name="Of">The material or plant.</param>
/// <param name="Words">The caution.</param>
/// <param name="SignalWord">"Danger", "Warning", or null when the tables give none.</param>
/// <param name="HCodes">H statements of the usual classification, blank-separated; may be empty.</param>
public sealed record Caution(string Of, string Words, string? SignalWord, string HCodes)
{
    /// <summary>The cautions for what is in a jar, a batch or a bottle; each material and plant once, in the order given.</summary>
    public static IReadOnlyList<Caution> For(IEnumerable<Material> materials, IEnumerable<string> plants) =>
        [
            .. materials.DistinctBy(material => material.Id).Select(OfMaterial).OfType<Caution>(),
            .. plants.Distinct(StringComparer.OrdinalIgnoreCase).SelectMany(OfPlant),
        ];

    private static Caution? OfMaterial(Material material)
    {
        var hazard = material.Kind == MaterialKind.Plant ? null : HazardOf(material.Substance, material.Name);
        var words = material.Caution ?? hazard?.Caution;
        if (string.IsNullOrWhiteSpace(words))
            return null;
        return new(material.Name, words, hazard is { SignalWord: "Danger" or "Warning" } ? hazard.SignalWord : null, hazard?.HCodes ?? "");
    }

    /// <summary>The usual classification of a material by its substance, else by its everyday name; null when the tables have none.</summary>
    internal static Hazard? HazardOf(string? substance, string name) => KnownMaterials.Of(substance, name)?.Substance.Hazard;

    private static IEnumerable<Caution> OfPlant(string plant) =>
        PlantHazard
            .For(plant)
            .Select(hazard => new Caution(hazard.Plant, $"{char.ToUpperInvariant(hazard.Hazard[0])}{hazard.Hazard[1..]}.", null, ""));
}
