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
    /// <summary>What is said of a thing that no table has.</summary>
    public const string Unlisted = "Not in my list; that does not mean that it is safe. Read its pack or its safety data sheet.";

    /// <summary>The same of a plant.</summary>
    public const string UnlistedPlant =
        "Not in my list of plants; that does not mean that it is safe. Be sure what you gather, and ask those who know.";

    /// <summary>How much care it asks for.</summary>
    public CareLevel Level { get; init; } = CareLevel.Note;

    /// <summary>Where the tables have it from, "(memory)" or "(seen)" at its end; empty where there is nothing to name.</summary>
    public string Source { get; init; } = "";

    /// <summary>The caution in one line of text.</summary>
    public string Line
    {
        get
        {
            string?[] parts = [SignalWord is null ? null : $"{SignalWord}.", Words, Own is null ? null : $"You wrote: {Own}"];
            return $"{Of}: {string.Join(' ', parts.Where(part => !string.IsNullOrEmpty(part)))}";
        }
    }

    /// <summary>The cautions for materials each by itself, worst first; each material once.</summary>
    public static IReadOnlyList<Caution> For(IEnumerable<Material> materials) =>
        Sorted(materials.DistinctBy(material => material.Id).SelectMany(OfMaterial));

    /// <summary>The same with plants of which only the name is known.</summary>
    public static IReadOnlyList<Caution> For(IEnumerable<Material> materials, IEnumerable<string> plants) =>
        Sorted([.. For(materials), .. OfPlants(plants)]);

    /// <summary>The cautions for what is, or is to be, in one jar or bottle: of each thing, and of those that must not meet.</summary>
    public static IReadOnlyList<Caution> Together(IEnumerable<Material> materials, IEnumerable<string>? plants = null)
    {
        var inside = materials.DistinctBy(material => material.Id).ToList();
        return Sorted([
            .. PairsAmong(inside)
                .Where(pair => pair.Level >= CareLevel.Careful)
                .Select(pair => new Caution($"{pair.First} and {pair.Second}", $"{Capital(pair.What)}. {pair.Instead}.", null, "")
                {
                    Level = pair.Level,
                    Source = pair.Source + (pair.IsSeen ? " (seen)" : " (memory)"),
                }),
            .. For(inside),
            .. OfPlants(plants ?? []),
        ]);
    }

    /// <summary>The cautions for one more thing that goes into a jar: its own, and that of meeting what is there.</summary>
    public static IReadOnlyList<Caution> Adding(Material added, IEnumerable<Material> there) =>
        Sorted([
            .. there
                .Where(one => one.Id != added.Id)
                .SelectMany(one => Together([added, one]).Where(caution => caution.MaterialId is null)),
            .. For([added]),
        ]);

    /// <summary>What to do with the rest of each thing, by what is done: "alum, iron sulfate: …".</summary>
    public static IReadOnlyList<string> Waste(IEnumerable<Material> materials) =>
        [
            .. materials
                .DistinctBy(material => material.Id)
                .Select(material => (material.Name, Hazard: material.Kind == MaterialKind.Plant ? null : HazardOf(material)))
                .Where(one => one.Hazard is not null)
                .GroupBy(one => one.Hazard!.Disposal, one => one.Name)
                .Select(group => $"{Capital(string.Join(", ", group))}: {group.Key}."),
        ];

    /// <summary>Why such a jar is never planned or proposed: a thing in it that has no place in an ink, or two that must not meet; null
    /// where nothing is known against it.</summary>
    public static string? WhyNever(IEnumerable<Material> materials)
    {
        var inside = materials.DistinctBy(material => material.Id).ToList();
        foreach (var material in inside)
        {
            if (HazardOf(material) is { Level: CareLevel.Stop } never)
                return $"{Capital(material.Name)}: {never.Never}";
        }

        return PairsAmong(inside).FirstOrDefault(pair => pair.Level == CareLevel.Stop)?.Words;
    }

    /// <summary>The cautions as lines of text, with what goes before them all.</summary>
    public static IReadOnlyList<string> Lines(IEnumerable<Caution> cautions)
    {
        var lines = cautions.Select(caution => caution.Line).Distinct(StringComparer.Ordinal).ToList();
        return lines.Count == 0 ? [] : [.. lines, Hazard.GoesFirst];
    }

    /// <summary>The cautions for additions to one ink by their everyday names, as lines of text, with what goes before them all.</summary>
    public static IReadOnlyList<string> Lines(IEnumerable<string> additions) => Lines(Together(Named(additions)));

    /// <summary>Why an ink of additions by their everyday names is never planned; null where nothing is known against it.</summary>
    public static string? WhyNever(IEnumerable<string> additions) => WhyNever(Named(additions));

    private static IEnumerable<Material> Named(IEnumerable<string> additions) =>
        additions
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .Select(name => new Material
            {
                Id = Guid.NewGuid(),
                WrittenAt = default,
                Name = name,
                Kind = MaterialKind.Addition,
            });

    /// <summary>The usual classification of a material by its substance, else by its everyday name; null when the tables have
    /// none.</summary>
    internal static Hazard? HazardOf(string? substance, string name) =>
        KnownMaterials.Of(substance, name)?.Hazard ?? HazardList.Find(substance) ?? HazardList.Find(name);

    /// <summary>The usual classification of what the pantry holds, at the strength that is written there.</summary>
    internal static Hazard? HazardOf(Material material) =>
        KnownMaterials.Of(material)?.Hazard is { } known
            // What is known as a powder may be dissolved already.
            ? material.StrengthPercent is { } strength
                ? HazardList.At(known.Key, strength)
                : known
            : HazardList.Find(material.Substance, material.StrengthPercent) ?? HazardList.Find(material.Name, material.StrengthPercent);

    /// <summary>Why one more thing does not go into a jar: it has no place in an ink, or must not meet what is there; null where nothing is
    /// known against it.</summary>
    public static string? WhyNot(Material added, IEnumerable<Material> there) =>
        WhyNever([added])
        ?? there.Where(one => one.Id != added.Id).Select(one => WhyPair(one, added)).FirstOrDefault(why => why is not null);

    private static string? WhyPair(Material one, Material other) =>
        PairsAmong([one, other]).FirstOrDefault(pair => pair.Level == CareLevel.Stop)?.Words;

    private static IReadOnlyList<PairHazard> PairsAmong(IReadOnlyList<Material> materials) =>
        PairHazard.Among([
            .. materials
                .Where(material => material.Kind != MaterialKind.Plant)
                .Select(material => (material.Name, Hazard: HazardOf(material)))
                .Where(one => one.Hazard is not null)
                .Select(one => (one.Name, one.Hazard!)),
        ]);

    private static List<Caution> Sorted(IEnumerable<Caution> cautions) => [.. cautions.OrderByDescending(caution => caution.Level)];

    private static IReadOnlyList<Caution> OfMaterial(Material material)
    {
        List<Caution> known = material.Kind switch
        {
            MaterialKind.Plant => [.. OfPlants([material.Name])],
            MaterialKind.Paper or MaterialKind.Container => [],
            _ => OfSubstance(material.Name, HazardOf(material)) is { } one ? [one] : [],
        };
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
        hazard switch
        {
            null => KnownMaterials.Of(name) is null ? new(name, Unlisted, null, "") : null,
            { Caution.Length: > 0 } => new(
                name,
                hazard.Words,
                hazard.SignalWord is "Danger" or "Warning" ? hazard.SignalWord : null,
                hazard.HCodes
            )
            {
                Level = hazard.Level,
                Source = hazard.Source,
            },
            _ => null,
        };

    private static IEnumerable<Caution> OfPlants(IEnumerable<string> plants)
    {
        foreach (var plant in plants.Distinct(StringComparer.OrdinalIgnoreCase))
        {
            var listed = PlantHazard.Listed(plant);
            if (listed.Count == 0)
                yield return new(plant, UnlistedPlant, null, "");
            foreach (var hazard in listed.Where(one => one.Level > CareLevel.None))
                yield return new(hazard.Plant, hazard.Words, null, "")
                {
                    Level = hazard.Level,
                    Source = hazard.Source + (hazard.IsSeen ? " (seen)" : " (memory)"),
                };
        }
    }

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
