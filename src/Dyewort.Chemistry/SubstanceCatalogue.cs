using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Dyewort.Chemistry.Solving;
using Dyewort.Numerics;
using Dyewort.Quantities;
using Dyewort.Safety;

namespace Dyewort.Chemistry;

/// <summary>A substance a maker named, with the strength they gave or the usual one.</summary>
/// <param name="Substance">What was meant.</param>
/// <param name="Strength">As stated, else usual; null for a pure substance.</param>
/// <param name="IsStrengthStated">Whether the maker said it.</param>
public sealed record NamedSubstance(Substance Substance, Strength? Strength, bool IsStrengthStated)
{
    /// <summary>The name with its strength, as a page shows it.</summary>
    public string Name => Strength is { } strength ? $"{Substance.Name} {strength.Words}" : Substance.Name;

    /// <summary>Something that the tables do not know.</summary>
    public static NamedSubstance Own(string name) => new(Substance.Own(name), null, false);

    /// <summary>Its usual hazards at its strength; null where the table has none.</summary>
    public Hazard? Hazard => Substance.HazardAt(Strength);

    /// <summary>What a level teaspoon of it weighs, g, with its range; null where nobody knows.</summary>
    /// <param name="teaspoonMillilitres">The teaspoon, ml: 5, 4.929 or 5.919.</param>
    public Spread? Spoonful(double teaspoonMillilitres)
    {
        if (Substance.GramsPerTeaspoon is not { } spoon && !Portion.IsLiquid(Substance))
            return null;
        var portion = Portion.OfTeaspoons(this, 1, teaspoonMillilitres);
        return new(
            portion.Grams,
            portion.Grams * portion.LowFactor,
            portion.Grams * portion.HighFactor,
            Substance.GramsPerTeaspoon?.Source ?? "density"
        );
    }

    /// <summary>What an amount of it weighs and takes up: the one way from spoons, drops and pieces to grams.</summary>
    /// <param name="amount">How much, as a person says it.</param>
    /// <param name="teaspoon">The notebook's teaspoon; what the amount itself names goes before it.</param>
    public WeighedAmount Weigh(Amount amount, Teaspoon teaspoon)
    {
        ArgumentNullException.ThrowIfNull(amount);
        var kind = amount.KindIn(teaspoon);
        double? measured = KitchenMeasures.Millilitres(amount.Unit, kind) is { } size ? amount.Number * size : null;
        if (!Portion.Measured("amount", this, amount, teaspoon).TryGet(out var portion))
            return new(null, null, null, measured);
        var each = KitchenMeasures.TeaspoonMillilitres(kind);
        return new(
            portion.Grams,
            portion.Grams * portion.LowFactor,
            portion.Grams * portion.HighFactor,
            Portion.IsLiquid(Substance) ? portion.Millilitres
                : amount.Unit is AmountUnit.Piece ? null
                : measured ?? (Spoonful(each) is { Typical: > 0 } spoon ? portion.Grams / spoon.Typical * each : null)
        );
    }
}

/// <summary>What an amount of something weighs and takes up.</summary>
/// <param name="Grams">Grams as it goes in; null where nobody knows what such a measure weighs.</param>
/// <param name="GramsLow">Lower end of what it may have been, by spoon, strength and purity together (about 95 %); null with the
/// grams.</param>
/// <param name="GramsHigh">Upper end.</param>
/// <param name="Millilitres">As it is poured or levelled in a measure; null for pieces and for weighed things of unknown
/// spoonful.</param>
public sealed record WeighedAmount(double? Grams, double? GramsLow, double? GramsHigh, double? Millilitres);

/// <summary>Everything in the cupboard, found by any name people use.</summary>
public sealed partial class SubstanceCatalogue
{
    private static readonly Lazy<SubstanceCatalogue> Shipped = new(Load);

    /// <summary>Words that may stand beside a name without changing what is meant.</summary>
    private static readonly HashSet<string> Harmless =
    [
        "fresh",
        "powder",
        "powdered",
        "ground",
        "fine",
        "finely",
        "crystal",
        "food",
        "grade",
        "dense",
        "light",
        "household",
        "pure",
        "the",
        "a",
        "an",
        "of",
        "w",
        "v",
        "acidity",
        "acid",
        "level",
        "kitchen",
        "organic",
        "dry",
        "dried",
        "granule",
        "granular",
        "grated",
        "crushed",
        "cold",
        "warm",
        "solution",
        "in",
        "liquid",
        "dyer",
        "mordant",
        "commercial",
        "shop",
        "bought",
        "home",
        "made",
        "usual",
        "ordinary",
        "plain",
        "natural",
        "strong",
        "percent",
        "excess",
        "salt",
        "technical",
    ];

    private static readonly Dictionary<string, int> Prefixes = new()
    {
        ["mono"] = 1,
        ["di"] = 2,
        ["tri"] = 3,
        ["tetra"] = 4,
        ["penta"] = 5,
        ["hexa"] = 6,
        ["hepta"] = 7,
        ["deca"] = 10,
        ["dodeca"] = 12,
        ["octadeca"] = 18,
    };

    private readonly List<Substance> substances;
    private readonly Dictionary<string, Substance> byName = [];
    private readonly Dictionary<string, string> asWritten = [];
    private readonly List<(string[] Words, Substance Substance)> byWords = [];

    private SubstanceCatalogue(IEnumerable<Substance> all)
    {
        substances = [.. all];
        foreach (var substance in substances)
        {
            foreach (var name in (string[])[substance.Name, .. substance.Aliases, substance.Key])
            {
                var words = Words(name);
                var joined = string.Join(' ', words);
                if (!byName.TryAdd(joined, substance))
                    continue;
                byWords.Add((words, substance));
                asWritten[joined] = name;
            }
        }
    }

    /// <summary>The cupboard as shipped.</summary>
    public static SubstanceCatalogue Standard => Shipped.Value;

    /// <summary>All of it.</summary>
    public IReadOnlyList<Substance> Substances => substances;

    /// <summary>The substance with a key; null where there is none.</summary>
    public Substance? ByKey(string key) => substances.Find(one => one.Key == key);

    /// <summary>A catalogue with one more, or with one put in the place of another of the same key.</summary>
    public SubstanceCatalogue With(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return new([substance, .. substances.Where(one => one.Key != substance.Key)]);
    }

    /// <summary>Finds what a maker meant: any common name, any case, singular or plural, with a strength or hydrate where it has
    /// one.</summary>
    /// <param name="field">The field or option the name was typed in.</param>
    /// <param name="text">For example "White vinegar 5 %", "copperas", "alum (12 H2O)".</param>
    /// <returns>The substance, or a refusal that suggests the nearest names.</returns>
    public Outcome<NamedSubstance> Find(string field, string? text)
    {
        if (string.IsNullOrWhiteSpace(text))
            return Outcome.Refused<NamedSubstance>(field, "No substance was named.", "Name one, such as “alum” or “white vinegar 5 %”.");
        if (text.Length > 120)
            return Outcome.Refused<NamedSubstance>(field, "The name is longer than 120 letters.", "Name one substance, such as “alum”.");
        var (rest, stated) = TakeStrength(text);
        var found = Match(rest) ?? Match(text);
        if (found is null)
        {
            // Next to a poison, the name of a food is no help: what is known of it is said instead.
            if (HazardList.Find(text) is { Level: >= CareLevel.Careful } known && !substances.Exists(one => one.Hazard?.Name == known.Name))
                return Outcome.Refused<NamedSubstance>(
                    field,
                    $"“{text.Trim()}” is not in the cupboard, and it is dangerous: {known.Name}.",
                    $"{known.Words} {Hazard.GoesFirst}"
                );
            var near = Nearest(rest);
            var remedy =
                near.Count > 0
                    ? $"Did you mean {string.Join(", or ", near.Select(name => $"“{name}”"))}? If not, it is not in my list, "
                        + "and that does not mean that it is safe."
                    : "Use a common name, such as “alum”, “vinegar” or “bicarbonate of soda”.";
            return Outcome.Refused<NamedSubstance>(field, $"“{text.Trim()}” is not in the cupboard.", remedy);
        }

        if (stated is not { } given)
            return Outcome.Of(new NamedSubstance(found, found.UsualStrength, false));
        if (found.UsualStrength is not { } usual)
        {
            // "99 % citric acid" says how pure the powder is, which the spread already covers.
            return given is { IsMolar: false, Value: > 90 and <= 100 }
                ? Outcome.Of(new NamedSubstance(found, null, false))
                : Outcome.Refused<NamedSubstance>(
                    field,
                    $"{found.Name} is not sold by strength, but “{text.Trim()}” states one.",
                    "Leave the strength out, and give the grams of the pure substance."
                );
        }

        var unit = given.IsMolar
            ? StrengthUnit.MolesPerLitre
            : given.Unit ?? (usual.Unit == StrengthUnit.MolesPerLitre ? StrengthUnit.PercentWeightPerVolume : usual.Unit);
        var most = unit switch
        {
            StrengthUnit.MolesPerLitre => 18.0,
            StrengthUnit.PercentByVolume => 100,
            _ => found.Key == "household-ammonia" ? 35 : 100,
        };
        if (!(given.Value > 0 && given.Value <= most))
            return Outcome.Refused<NamedSubstance>(
                field,
                $"A strength of {Say(given.Value)} cannot be had for {found.Name}.",
                $"Give more than 0 and at most {Say(most)}."
            );
        return Outcome.Of(
            new NamedSubstance(found, new(unit, given.Value, given.Value * 0.97, given.Value * 1.03, "as you stated; 3 % either way"), true)
        );
    }

    /// <summary>Names close to what was typed, best first, at most three.</summary>
    public IReadOnlyList<string> Nearest(string text)
    {
        var words = Words(text);
        var typed = string.Join(' ', words);
        if (typed.Length == 0)
            return [];
        return
        [
            .. byName
                .Where(pair => IsSpelling(words, pair.Key.Split(' ')))
                .Select(pair => (pair.Value.Key, Name: asWritten[pair.Key], Distance: Closeness(typed, words, pair.Key)))
                .Where(pair => pair.Distance < 0.55)
                .GroupBy(pair => pair.Key)
                .Select(group => group.MinBy(pair => pair.Distance))
                .OrderBy(pair => pair.Distance)
                .ThenBy(pair => pair.Name, StringComparer.Ordinal)
                .Take(3)
                .Select(pair => pair.Name),
        ];
    }

    /// <summary>Whether every word that was typed is nearly one of the name's: “oxalic acid” is no misspelt gallic acid.</summary>
    private static bool IsSpelling(string[] words, string[] name) =>
        words.All(word =>
            Harmless.Contains(word)
            || IsHydrate(word)
            || name.Any(other => Edits(word, other) / (double)Math.Max(word.Length, other.Length) <= 0.34)
        );

    private static string Say(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private static double Closeness(string typed, string[] words, string name)
    {
        var whole = Edits(typed, name) / (double)Math.Max(typed.Length, name.Length);
        var nameWords = name.Split(' ');
        var shared = words
            .Where(word => word.Length > 3)
            .Select(word => nameWords.Min(other => Edits(word, other) / (double)Math.Max(word.Length, other.Length)))
            .DefaultIfEmpty(1)
            .Min();
        return Math.Min(whole, 0.3 + shared);
    }

    private static int Edits(string a, string b)
    {
        var row = Enumerable.Range(0, b.Length + 1).ToArray();
        for (var i = 1; i <= a.Length; i++)
        {
            var diagonal = row[0];
            row[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var kept = row[j];
                row[j] = Math.Min(Math.Min(row[j], row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = kept;
            }
        }

        return row[b.Length];
    }

    private Substance? Match(string text)
    {
        var words = Words(text);
        if (words.Length == 0)
            return null;
        if (byName.TryGetValue(string.Join(' ', words), out var exact))
            return exact;
        Substance? best = null;
        var (bestCount, bestSpare) = (0, int.MaxValue);
        foreach (var (name, substance) in byWords)
        {
            if (!name.All(word => words.Contains(word)))
                continue;
            var spare = words.Count(word => !name.Contains(word));
            if (words.Any(word => !name.Contains(word) && !Harmless.Contains(word) && !IsHydrate(word)))
                continue;
            if (
                WatersStated(words) is { } waters
                && substance.Form == SubstanceForm.Powder
                && Math.Abs(waters - substance.Ions.Moles.GetValueOrDefault("H2O")) > 0.5
                && !name.Any(IsHydrate)
                && substance.Key != "aluminium-acetate"
            )
                continue;
            // The name that explains most of what was typed is meant: "citric acid monohydrate" before "citric acid".
            if (name.Length > bestCount || (name.Length == bestCount && spare < bestSpare))
                (best, bestCount, bestSpare) = (substance, name.Length, spare);
        }

        return best;
    }

    private static bool IsHydrate(string word) =>
        word is "anhydrous" or "hydrate" or "hydrated" or "h2o" or "water"
        || word.EndsWith("hydrate", StringComparison.Ordinal)
        || word.All(char.IsAsciiDigit);

    /// <summary>Crystal waters that the words state, as in "decahydrate", "10 H2O" or "anhydrous"; null where they state none.</summary>
    private static int? WatersStated(string[] words)
    {
        for (var i = 0; i < words.Length; i++)
        {
            if (words[i] == "anhydrous")
                return 0;
            if (words[i] == "h2o")
                return i > 0 && int.TryParse(words[i - 1], NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : 1;
            if (words[i].EndsWith("hydrate", StringComparison.Ordinal) && Prefixes.TryGetValue(words[i][..^7], out var number))
                return number;
        }

        return null;
    }

    /// <summary>Lower case, no accents, brackets opened, one spelling, no plural: the words a name is compared by.</summary>
    private static string[] Words(string text)
    {
        var letters = new StringBuilder();
        foreach (var c in text.Normalize(NormalizationForm.FormKD).ToLowerInvariant())
        {
            var category = CharUnicodeInfo.GetUnicodeCategory(c);
            if (category == UnicodeCategory.NonSpacingMark)
                continue;
            if (c is '\'' or '’')
                continue;
            letters.Append(char.IsLetterOrDigit(c) ? c : ' ');
        }

        return [.. letters.ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(OneSpelling)];
    }

    private static string OneSpelling(string word)
    {
        var one = word.Replace("sulph", "sulf", StringComparison.Ordinal).Replace("aluminum", "aluminium", StringComparison.Ordinal);
        one = one switch
        {
            "oxidized" => "oxidised",
            "glycerin" or "glycerol" => "glycerine",
            "tartare" or "tartre" => "tartar",
            "2+" => "ii",
            "waterless" => "anhydrous",
            _ => one,
        };
        return
            one.Length > 3
            && one.EndsWith('s')
            && !one.EndsWith("ss", StringComparison.Ordinal)
            && !one.EndsWith("us", StringComparison.Ordinal)
            ? one[..^1]
            : one;
    }

    private static (string Name, (double Value, bool IsMolar, StrengthUnit? Unit)? Stated) TakeStrength(string text)
    {
        var molar = MolarPattern().Match(text);
        if (molar.Success && Number(molar.Groups["n"].Value) is { } moles)
            return (text.Remove(molar.Index, molar.Length), (moles, true, StrengthUnit.MolesPerLitre));
        var percent = PercentPattern().Match(text);
        if (!percent.Success || Number(percent.Groups["n"].Value) is not { } value)
            return (text, null);
        StrengthUnit? unit = percent.Groups["u"].Value.Replace(" ", "", StringComparison.Ordinal).ToLowerInvariant() switch
        {
            "w/v" => StrengthUnit.PercentWeightPerVolume,
            "w/w" => StrengthUnit.PercentByWeight,
            "v/v" or "vol" or "abv" or "byvolume" => StrengthUnit.PercentByVolume,
            _ => null,
        };
        return (text.Remove(percent.Index, percent.Length), (value, false, unit));
    }

    private static double? Number(string text) =>
        double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;

    [GeneratedRegex(
        @"(?<n>\d+([.,]\d+)?)\s*(%|percent|per cent)\s*(?<u>w\s*/\s*v|w\s*/\s*w|v\s*/\s*v|by volume|vol|abv)?",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture
    )]
    private static partial Regex PercentPattern();

    [GeneratedRegex(
        @"(?<n>\d+([.,]\d+)?)\s*(mol\s*/\s*[lL]|mol\s*per\s*[lL](itre)?|M)\b(\s+K2CO3)?",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture
    )]
    private static partial Regex MolarPattern();

    private static SubstanceCatalogue Load()
    {
        return new(TextTable.Embedded(typeof(Jar), "substances.csv").Rows.Select(Read));
    }

    private static Substance Read(TextRow row)
    {
        Strength? strength = row.Number("strength") is { } typical
            ? new(
                row["strength_unit"] switch
                {
                    "% w/v" => StrengthUnit.PercentWeightPerVolume,
                    "% w/w" => StrengthUnit.PercentByWeight,
                    "% v/v" => StrengthUnit.PercentByVolume,
                    "mol/L" => StrengthUnit.MolesPerLitre,
                    var other => throw new InvalidOperationException($"substances.csv: “{other}” is no unit of strength."),
                },
                typical,
                row.NumberOf("strength_low"),
                row.NumberOf("strength_high"),
                row["strength_source"]
            )
            : null;
        return new()
        {
            Key = row["key"],
            Name = row["name"],
            Aliases = row["aliases"].Split('|', StringSplitOptions.RemoveEmptyEntries),
            Formula = row["formula"],
            Cas = row["cas"],
            MolarMass = row.NumberOf("molar_mass"),
            Ions = Composition.Parse(row["components"]),
            KeyComponent = row["key_component"],
            GramsPerTeaspoon = row.Number("tsp") is { } spoon
                ? new(spoon, row.NumberOf("tsp_low"), row.NumberOf("tsp_high"), row["tsp_source"])
                : null,
            Form = row["form"] switch
            {
                "powder" => SubstanceForm.Powder,
                "liquid" => SubstanceForm.Liquid,
                "suspension" => SubstanceForm.Suspension,
                "inert" => SubstanceForm.Inert,
                "spirit" => SubstanceForm.Spirit,
                "water" => SubstanceForm.Water,
                var other => throw new InvalidOperationException($"substances.csv: “{other}” is no form."),
            },
            UsualStrength = strength,
            DensityAtUsualStrength = row.Number("density") ?? 1,
            DensitySlope = row.Number("density_slope") ?? 0,
            LeastPurity = row.Number("purity_low") ?? 1,
            SolidName = row["solid"],
            HazardKey = row["hazard"],
            Note = row["note"],

            // A dried clove weighs about 0.08 g (common practice, no source).
            GramsPerPiece = row["key"] == "clove" ? 0.08 : null,
            Classes = ClassesOf(row["classes"]),
        };
    }

    private static SubstanceClasses ClassesOf(string words) =>
        words
            .Split('|', StringSplitOptions.RemoveEmptyEntries)
            .Select(word => Enum.Parse<SubstanceClasses>(word.Replace("-", "", StringComparison.Ordinal), ignoreCase: true))
            .Aggregate(SubstanceClasses.None, (all, one) => all | one);
}
