using System.Globalization;
using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Making;

/// <summary>Something in a bottle, as its label must name it.</summary>
/// <param name="Name">Everyday name.</param>
/// <param name="Hazard">Usual classification of it as it was poured or spooned, at the strength of its bottle; null when the list does not
/// have it.</param>
public sealed record LabelContent(string Name, Hazard? Hazard)
{
    /// <summary>Grams of it in 100 ml of ink; null where nobody knows.</summary>
    public double? GramsPer100Ml { get; init; }

    /// <summary>Millilitres of it in 100 ml of ink; null where nobody knows, or where it is no liquid.</summary>
    public double? MlPer100Ml { get; init; }

    /// <summary>The same for the rules of mixtures: what is in the ink of the substance itself. Grams in 100 ml are taken for grams in
    /// 100 g.</summary>
    internal Ingredient Share
    {
        get
        {
            var share =
                Hazard is null ? null
                : HazardList.IsByVolume(Hazard.Key) ? MlPer100Ml
                : GramsPer100Ml;
            return new(Name, Hazard?.Key, share * Hazard?.Percent / 100 is { } percent ? Math.Clamp(percent, 0, 100) : null);
        }
    }
}

/// <summary>What is known of a bottle when its label is made.</summary>
public sealed record LabelFacts
{
    /// <summary>The ink's name.</summary>
    public required string Name { get; init; }

    /// <summary>The bottle's code.</summary>
    public required string Code { get; init; }

    /// <summary>The recipe in words: "elderberry with alum 2 g and bicarbonate of soda ½ tsp per 100 ml".</summary>
    public string Recipe { get; init; } = "";

    /// <summary>Chart and cell it was chosen from, such as "C3 B2"; null when there is none.</summary>
    public string? ChartPosition { get; init; }

    /// <summary>Its measured colour, CIE XYZ D65; null when it was never read.</summary>
    public Xyz? Colour { get; init; }

    /// <summary>The day it was made.</summary>
    public DateOnly? MadeOn { get; init; }

    /// <summary>Last day it should be used, its maker's estimate.</summary>
    public DateOnly? KeepBy { get; init; }

    /// <summary>Volume in words: "29 ml".</summary>
    public string? Volume { get; init; }

    /// <summary>Place or maker, as it may be printed.</summary>
    public string? Place { get; init; }

    /// <summary>Address of the bottle's page, for the square code; null prints the bottle's code in it.</summary>
    public string? Link { get; init; }

    /// <summary>Everything that was added.</summary>
    public IReadOnlyList<LabelContent> Contents { get; init; } = [];

    /// <summary>Its pH where it was measured.</summary>
    public double? Ph { get; init; }

    /// <summary>The plants it was made from, by their everyday or botanical names.</summary>
    public IReadOnlyList<string> Plants { get; init; } = [];

    /// <summary>The maker's own caution: "may weaken paper; not for fountain pens".</summary>
    public string? Caution { get; init; }
}

/// <summary>The words of a bottle's two labels.</summary>
/// <param name="Name">Largest.</param>
/// <param name="Code">The bottle's code, on both labels.</param>
/// <param name="Recipe">May be empty.</param>
/// <param name="Facts">Short lines: chart position, volume, place, dates.</param>
/// <param name="Warnings">Sentences that must be on the label, most important first.</param>
/// <param name="Square">What the square code holds.</param>
/// <param name="Colour">For the chip; null when it was never read.</param>
public sealed record LabelText(
    string Name,
    string Code,
    string Recipe,
    IReadOnlyList<string> Facts,
    IReadOnlyList<string> Warnings,
    string Square,
    Xyz? Colour
)
{
    /// <summary>On every label, whatever is in the bottle.</summary>
    public const string NotForEating = "Not for eating or drinking. Keep away from children and animals.";

    /// <summary>Before the last day, on the label as everywhere; the cap's label finds its line by it.</summary>
    public const string KeepByWords = "keep by";

    /// <summary>Said with a printed chip, because a printer does not print what was measured.</summary>
    public const string ChipIsNotExact = "Printed colour is a guide.";

    /// <summary>Said by commands and pages that print labels, never by a label.</summary>
    public const string BeforeSelling =
        "Before you sell or give away: selling art materials has rules of its own in most places; ask yours. The safety data sheets of "
        + "what you put in go before this label.";

    /// <summary>On every label: nobody can see into a bottle in somebody else's house.</summary>
    public const string LooksWrong = "Looks or smells wrong: bin it closed.";

    /// <summary>Statements that say less than another that is there too.</summary>
    private static readonly Dictionary<string, string[]> Milder = new(StringComparer.Ordinal)
    {
        ["causes serious eye irritation"] = ["causes serious eye damage", "causes severe skin burns and eye damage"],
        ["causes serious eye damage"] = ["causes severe skin burns and eye damage"],
        ["causes skin irritation"] = ["causes severe skin burns and eye damage"],
        ["harmful to aquatic life with long lasting effects"] =
        [
            "toxic to aquatic life with long lasting effects",
            "very toxic to aquatic life with long lasting effects",
            "very toxic to aquatic life",
        ],
        ["flammable liquid and vapour"] = ["highly flammable liquid and vapour"],
    };

    /// <summary>Finds the words.</summary>
    /// <remarks>Where the amount of everything in it is known, the hazard statements are those of the ink by the rules for mixtures
    /// (<see cref="MixtureClass"/>); else those of each thing as it was poured, named by itself: a label that errs is to err this
    /// way.</remarks>
    public static LabelText Of(LabelFacts facts)
    {
        var lines = new List<string>();
        if (facts.ChartPosition is { Length: > 0 } chart)
            lines.Add($"chart {chart}");
        if (facts.Volume is { Length: > 0 } volume)
            lines.Add(volume);
        if (facts.MadeOn is { } made)
            lines.Add($"made {Day(made)}");
        if (facts.KeepBy is { } keep)
            lines.Add($"{KeepByWords} {Day(keep)}");
        if (facts.Place is { Length: > 0 } place)
            lines.Add(place);

        var contents = facts.Contents.DistinctBy(content => content.Name, StringComparer.OrdinalIgnoreCase).ToList();
        List<string> warnings =
        [
            NotForEating,
            .. Ingredients(contents, facts.Ph),
            .. facts.Plants.Distinct(StringComparer.OrdinalIgnoreCase).SelectMany(PlantWords),
        ];
        if (facts.Caution is { Length: > 0 } caution)
            warnings.Add($"{Capital(caution).TrimEnd('.')}.");
        warnings.Add(LooksWrong);
        return new LabelText(facts.Name, facts.Code, facts.Recipe, lines, warnings, facts.Link ?? facts.Code, facts.Colour);
    }

    /// <summary>A recipe in words for a label.</summary>
    /// <param name="liquor">What the liquor is of; may be empty.</param>
    /// <param name="steps">Names and amounts in their order.</param>
    /// <param name="per">The volume the amounts belong to, in words.</param>
    public static string RecipeWords(string? liquor, IReadOnlyList<(string Name, string Amount)> steps, string per)
    {
        var added = Listed([.. steps.Select(step => $"{step.Name} {step.Amount}")]);
        if (steps.Count == 0)
            return liquor ?? "";
        return $"{(string.IsNullOrWhiteSpace(liquor) ? "" : $"{liquor} with ")}{added} to {per}";
    }

    /// <summary>Year, month and day in an order nobody can turn round.</summary>
    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static IEnumerable<string> Ingredients(List<LabelContent> contents, double? ph)
    {
        if (contents.Count == 0)
            yield break;
        yield return $"Contains {Listed([.. contents.Select(Strength)])}.";
        var mixture = MixtureClass.Of([.. contents.Select(content => content.Share)], ph);
        if (contents.TrueForAll(content => content.Share.Percent is not null))
        {
            var words = mixture.Texts.Select(Small).ToList();
            yield return (mixture.SignalWord is "none" ? "" : $"{mixture.SignalWord}. ")
                + (
                    words.Count == 0
                        ? "By the rules for mixtures no hazard statement remains"
                        : $"By the rules for mixtures: {string.Join("; ", words)}"
                )
                + $" ({MixtureClass.Caveat}).";
            if (mixture.Allergens.Count > 0)
                yield return $"{Capital(Listed(mixture.Allergens))} may produce an allergic reaction.";
            yield break;
        }

        foreach (
            var content in contents
                .Where(content => content.Hazard is { HTexts.Length: > 0 })
                .OrderBy(content =>
                    content.Hazard!.SignalWord switch
                    {
                        "Danger" => 0,
                        "Warning" => 1,
                        _ => 2,
                    }
                )
        )
        {
            // What one of them does undiluted is not said of the others, nor of the ink.
            var dangers = Statements(content.Hazard!.HTexts);
            dangers.RemoveAll(danger =>
                Milder.TryGetValue(danger, out var worse) && dangers.Intersect(worse, StringComparer.Ordinal).Any()
            );
            yield return $"{Capital(content.Name)}, undiluted: {string.Join("; ", dangers)}.";
        }

        var unlisted = contents.Where(content => content.Hazard is null).Select(content => content.Name).ToList();
        if (unlisted.Count > 0)
            yield return $"{Capital(Listed(unlisted))}: not in our list; that does not mean safe.";
    }

    private static IEnumerable<string> PlantWords(string plant)
    {
        var listed = PlantHazard.Listed(plant);
        if (listed.Count == 0)
            yield return $"Made from {plant}: not in our list of plants; that does not mean safe.";
        foreach (var known in listed)
        {
            yield return $"Made from {plant} ({known.Latin}){(known.Level > CareLevel.None ? $": {known.What}" : "")}.";
            if (known.Allergen.Length > 0)
                yield return $"May cause allergy: {known.Allergen}.";
        }
    }

    private static string Strength(LabelContent content) =>
        (content.MlPer100Ml ?? content.GramsPer100Ml) is { } share ? $"{content.Name} {Figures.Say(share, 2)} %" : content.Name;

    private static string Small(string words) => char.ToLowerInvariant(words[0]) + words[1..];

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

    private static List<string> Statements(string hTexts) =>
        [
            .. hTexts
                .Split('.', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                .Select(statement =>
                    statement.IndexOf(' ', StringComparison.Ordinal) is > 0 and var blank
                    && statement[0] == 'H'
                    && char.IsAsciiDigit(statement[1])
                        ? statement[(blank + 1)..]
                        : statement
                )
                .Select(statement => char.ToLowerInvariant(statement[0]) + statement[1..]),
        ];

    private static string Listed(IReadOnlyList<string> words) =>
        words.Count switch
        {
            0 => "",
            1 => words[0],
            _ => $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}",
        };
}
