using Dyewort.Chemistry;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>What a pot or a spoon is made of, where it touches the liquor.</summary>
public enum PotMetal
{
    /// <summary>Stainless steel, glass, ceramic, wood, plastic or sound enamel: gives nothing away.</summary>
    None,

    /// <summary>Aluminium: a weak alum.</summary>
    Aluminium,

    /// <summary>Iron or plain steel: saddens.</summary>
    Iron,

    /// <summary>Copper or brass: greens.</summary>
    Copper,
}

/// <summary>Water as it came from its source.</summary>
/// <param name="Name">Such as "rain butt" or "tap".</param>
/// <param name="HardnessMilligramsPerLitre">Hardness as calcium carbonate, mg/L, 0 to 2000.</param>
/// <param name="AlkalinityMilligramsPerLitre">Alkalinity as calcium carbonate, mg/L; null where nobody measured it.</param>
/// <param name="Ph">pH from a strip, where measured.</param>
public sealed record WaterSource(
    string Name,
    double? HardnessMilligramsPerLitre = null,
    double? AlkalinityMilligramsPerLitre = null,
    double? Ph = null
);

/// <summary>What a pot was made in and stirred with.</summary>
/// <param name="Vessel">Its name, such as A4.</param>
/// <param name="Metal">What the inside is.</param>
/// <param name="EnamelChipped">Chips in enamel show the iron beneath.</param>
/// <param name="Spoon">What the spoon and sieve are.</param>
/// <param name="Water">The water that went in.</param>
public sealed record PotSetting(
    string Vessel,
    PotMetal Metal = PotMetal.None,
    bool EnamelChipped = false,
    PotMetal Spoon = PotMetal.None,
    WaterSource? Water = null
);

/// <summary>Something that got into a liquor without anybody adding it.</summary>
/// <param name="Substance">Its name as an addition, such as "chalk" or "copperas".</param>
/// <param name="GramsPerLitre">Best guess, g per litre of liquid poured in.</param>
/// <param name="Low">Lower end of what is usual.</param>
/// <param name="High">Upper end.</param>
/// <param name="Why">Where it comes from, in a sentence.</param>
/// <param name="Measured">Whether it follows from a measurement; else it is an order of magnitude.</param>
public sealed record HiddenAddition(string Substance, double GramsPerLitre, double Low, double High, string Why, bool Measured);

/// <summary>Turns pot, spoon and water into amounts that the chemistry of every jar can carry.</summary>
/// <remarks>
/// Water: hardness beyond alkalinity counts as gypsum, alkalinity beyond hardness as bicarbonate of soda, what both share as chalk held
/// in solution by carbon dioxide. Where alkalinity was not measured four fifths of the hardness are taken, half to all of it as the
/// range (common practice, no source). Metals: an hour of hot acid liquor takes up some 50 mg/L of iron, 20 mg/L of aluminium or
/// 10 mg/L of copper, a fifth to five times that; neutral liquors a tenth (orders of magnitude, from memory of kitchen studies). They
/// are stated as the salt a maker would have added.
/// </remarks>
public static class HiddenAdditions
{
    private const double GypsumPerChalk = 172.17 / 100.09;
    private const double BicarbonatePerChalk = 2 * 84.007 / 100.09;
    private const double CopperasPerIron = 278.01 / 55.845;
    private const double AlumPerAluminium = 474.39 / 26.982;
    private const double BlueStonePerCopper = 249.68 / 63.546;

    /// <summary>What a setting adds.</summary>
    /// <param name="setting">Vessel, spoon and water.</param>
    /// <param name="acid">Whether the liquor is sour, below about pH 5.</param>
    /// <param name="hotHours">Hours hot in that vessel, 0 or more.</param>
    public static Outcome<IReadOnlyList<HiddenAddition>> Of(PotSetting setting, bool acid, double hotHours)
    {
        var problems = new List<Problem>();
        if (hotHours is not (>= 0 and <= 1000))
            problems.Add(Sentence.Bad("hours", $"{hotHours:0.#} h hot is outside 0 to 1000 h.", "Give the hours in that vessel."));
        if (setting.Water?.HardnessMilligramsPerLitre is { } hard && hard is not (>= 0 and <= 2000))
            problems.Add(
                Sentence.Bad(
                    "hardness",
                    $"{hard:0.#} mg/L is outside 0 to 2000 mg/L.",
                    "Give hardness as calcium carbonate in mg/L; 1 German degree is 17.8."
                )
            );
        if (setting.Water?.AlkalinityMilligramsPerLitre is { } alkaline && alkaline is not (>= 0 and <= 2000))
            problems.Add(
                Sentence.Bad(
                    "alkalinity",
                    $"{alkaline:0.#} mg/L is outside 0 to 2000 mg/L.",
                    "Give alkalinity as calcium carbonate in mg/L."
                )
            );
        if (problems.Count > 0)
            return Outcome.Refused<IReadOnlyList<HiddenAddition>>(problems);

        List<HiddenAddition> found = [.. FromWater(setting.Water)];
        var hours = Math.Min(1, 0.2 + hotHours) * (acid ? 1 : 0.1);
        if (setting.Metal != PotMetal.None)
            found.Add(Metal(setting.Metal, hours, "the pot is bare metal"));
        else if (setting.EnamelChipped)
            found.Add(Metal(PotMetal.Iron, 0.1 * hours, "chips in the enamel show iron"));
        if (setting.Spoon != PotMetal.None)
            found.Add(Metal(setting.Spoon, 0.1 * hours, "spoon or sieve is bare metal"));
        return Outcome.Of<IReadOnlyList<HiddenAddition>>(found);
    }

    /// <summary>The same as portions of a jar, so that its chemistry counts them.</summary>
    /// <param name="found">What <see cref="Of"/> found.</param>
    /// <param name="liquidMillilitres">Liquid poured into the pot for what is in the jar, ml: what boils off leaves these behind.</param>
    public static IReadOnlyList<Portion> Portions(IReadOnlyList<HiddenAddition> found, double liquidMillilitres) =>
        [
            .. found.Select(one =>
                SubstanceCatalogue.Standard.Find("hidden", one.Substance).TryGet(out var named)
                    ? Portion.OfGrams(named, one.GramsPerLitre * liquidMillilitres / 1000)
                    : throw new InvalidOperationException($"The tables do not know {one.Substance}.")
            ),
        ];

    /// <summary>What differs between the pot to be repeated and the one about to be made, in sentences; empty if nothing that
    /// matters.</summary>
    public static IReadOnlyList<string> Differences(PotSetting before, PotSetting now)
    {
        var found = new List<string>();
        if (before.Metal != now.Metal)
            found.Add($"The pot was {Word(before.Metal)}, this one is {Word(now.Metal)}: its metal is part of the colour.");
        if (before.EnamelChipped != now.EnamelChipped)
            found.Add(
                now.EnamelChipped
                    ? "This enamel is chipped and gives iron, the one before was sound."
                    : "The enamel before was chipped and gave iron; this one is sound."
            );
        if (before.Spoon != now.Spoon)
            found.Add($"The spoon or sieve was {Word(before.Spoon)}, this one is {Word(now.Spoon)}.");
        if (Differ(before.Water?.HardnessMilligramsPerLitre, now.Water?.HardnessMilligramsPerLitre) is { } hardness)
            found.Add($"Hardness of the water: {hardness}.");
        if (Differ(before.Water?.AlkalinityMilligramsPerLitre, now.Water?.AlkalinityMilligramsPerLitre) is { } alkalinity)
            found.Add($"Alkalinity of the water: {alkalinity}.");
        if (
            before.Water is { } old
            && now.Water is { } fresh
            && old.HardnessMilligramsPerLitre is null != fresh.HardnessMilligramsPerLitre is null
            && old.Name != fresh.Name
        )
            found.Add($"The water was {old.Name}, now it is {fresh.Name}, and only one of the two was ever tested.");
        return found;
    }

    private static IEnumerable<HiddenAddition> FromWater(WaterSource? water)
    {
        if (water is null || (water.HardnessMilligramsPerLitre is null && water.AlkalinityMilligramsPerLitre is null))
            yield break;
        var known = water.AlkalinityMilligramsPerLitre is not null;
        var hardness = water.HardnessMilligramsPerLitre ?? water.AlkalinityMilligramsPerLitre!.Value;
        var alkalinity = water.AlkalinityMilligramsPerLitre ?? (0.8 * hardness);
        var shared = Math.Min(hardness, alkalinity) / 1000;
        var why = $"{water.Name} water" + (known ? "" : ", alkalinity guessed from its hardness");
        if (shared > 0)
            yield return new("chalk", shared, known ? shared : 0.5 * hardness / 1000, known ? shared : hardness / 1000, why, known);
        if (hardness > alkalinity)
        {
            var gypsum = GypsumPerChalk * (hardness - alkalinity) / 1000;
            yield return new("gypsum", gypsum, known ? gypsum : 0, known ? gypsum : GypsumPerChalk * 0.5 * hardness / 1000, why, known);
        }

        if (alkalinity > hardness)
        {
            var soda = BicarbonatePerChalk * (alkalinity - hardness) / 1000;
            yield return new("bicarbonate of soda", soda, soda, soda, why + ", softer than alkaline", known);
        }
    }

    private static HiddenAddition Metal(PotMetal metal, double hours, string why)
    {
        var (salt, grams) = metal switch
        {
            PotMetal.Iron => ("copperas", 0.050 * CopperasPerIron),
            PotMetal.Aluminium => ("alum", 0.020 * AlumPerAluminium),
            _ => ("copper sulfate", 0.010 * BlueStonePerCopper),
        };
        return new(salt, grams * hours, grams * hours / 5, grams * hours * 5, why, Measured: false);
    }

    private static string? Differ(double? before, double? now) =>
        before is { } old && now is { } fresh && Math.Abs(old - fresh) > 20 + (0.15 * Math.Max(old, fresh))
            ? Sentence.Of($"{old:0} mg/L before, {fresh:0} mg/L now")
            : null;

    private static string Word(PotMetal metal) =>
        metal switch
        {
            PotMetal.Aluminium => "aluminium",
            PotMetal.Iron => "iron",
            PotMetal.Copper => "copper or brass",
            _ => "of a kind that gives nothing away",
        };
}
