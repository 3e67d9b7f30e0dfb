using Dyewort.Notebook;
using Dyewort.Safety;

namespace Dyewort.Workshop;

/// <summary>What to be careful of with one thing: the one answer that every page, command and print gives.</summary>
/// <param name="Of">The material or plant.</param>
/// <param name="Words">What the tables say; empty where they say nothing.</param>
/// <param name="SignalWord">"Danger", "Warning", or null when the tables give none.</param>
/// <param name="HCodes">H statements of the usual classification, blank-separated; may be empty.</param>
/// <param name="Own">What the maker wrote beside it, in their own words; null where they wrote nothing.</param>
/// <param name="MaterialId">The pantry's entry; null where only a name is known.</param>
public sealed record Caution(string Of, string Words, string? SignalWord, string HCodes, string? Own = null, Guid? MaterialId = null)
{
    /// <summary>The caution in one line of text.</summary>
    public string Line
    {
        get
        {
            string?[] parts = [SignalWord is null ? null : $"{SignalWord}.", Words, Own is null ? null : $"You wrote: {Own}"];
            return $"{Of}: {string.Join(' ', parts.Where(part => !string.IsNullOrEmpty(part)))}";
        }
    }

    /// <summary>The cautions for a plant or for what is in a jar, a batch or a bottle; each material once, in the order given.</summary>
    public static IReadOnlyList<Caution> For(IEnumerable<Material> materials) =>
        [.. materials.DistinctBy(material => material.Id).SelectMany(OfMaterial)];

    /// <summary>The same with plants of which only the name is known.</summary>
    public static IReadOnlyList<Caution> For(IEnumerable<Material> materials, IEnumerable<string> plants) =>
        [.. For(materials), .. plants.Distinct(StringComparer.OrdinalIgnoreCase).SelectMany(OfPlant)];

    /// <summary>The cautions as lines of text, with what goes before them all.</summary>
    public static IReadOnlyList<string> Lines(IEnumerable<Caution> cautions)
    {
        var lines = cautions.Select(caution => caution.Line).Distinct(StringComparer.Ordinal).ToList();
        return lines.Count == 0 ? [] : [.. lines, Hazard.GoesFirst];
    }

    /// <summary>The cautions for additions by their everyday names, as lines of text, with what goes before them all.</summary>
    public static IReadOnlyList<string> Lines(IEnumerable<string> additions) =>
        Lines(
            additions.Distinct(StringComparer.OrdinalIgnoreCase).Select(name => OfSubstance(name, HazardOf(null, name))).OfType<Caution>()
        );

    /// <summary>The usual classification of a material by its substance, else by its everyday name; null when the tables have
    /// none.</summary>
    internal static Hazard? HazardOf(string? substance, string name) =>
        KnownMaterials.Of(substance, name) is { } known ? known.Hazard : HazardList.Find(substance) ?? HazardList.Find(name);

    /// <summary>The usual classification of what the pantry holds, at the strength that is written there.</summary>
    internal static Hazard? HazardOf(Material material) =>
        KnownMaterials.Of(material) is { } known ? known.Hazard : HazardOf(material.Substance, material.Name);

    private static IReadOnlyList<Caution> OfMaterial(Material material)
    {
        List<Caution> known =
            material.Kind == MaterialKind.Plant ? [.. OfPlant(material.Name)]
            : OfSubstance(material.Name, HazardOf(material)) is { } one ? [one]
            : [];
        if (string.IsNullOrWhiteSpace(material.Caution))
            return [.. known.Select(caution => caution with { MaterialId = material.Id })];
        if (known.Count == 0)
            known.Add(new(material.Name, "", null, ""));

        // The maker's words are added once, never in the place of what the tables say.
        known[0] = known[0] with
        {
            Own = material.Caution,
        };
        return [.. known.Select(caution => caution with { MaterialId = material.Id })];
    }

    private static Caution? OfSubstance(string name, Hazard? hazard) =>
        hazard is { Caution.Length: > 0 }
            ? new(name, hazard.Words, hazard.SignalWord is "Danger" or "Warning" ? hazard.SignalWord : null, hazard.HCodes)
            : null;

    private static IEnumerable<Caution> OfPlant(string plant) =>
        PlantHazard.For(plant).Select(hazard => new Caution(hazard.Plant, hazard.Words, null, ""));
}
