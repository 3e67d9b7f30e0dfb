using System.Globalization;
using Dyewort.Chemistry.Solving;

namespace Dyewort.Chemistry;

/// <summary>How a substance goes into the jar.</summary>
public enum SubstanceForm
{
    /// <summary>A salt, acid or alkali that gives ions.</summary>
    Powder = 0,

    /// <summary>A watery liquid that holds some of it.</summary>
    Liquid,

    /// <summary>A powder or piece that only stays in suspension.</summary>
    Suspension,

    /// <summary>It dissolves or mixes, and its effect on pH is not computed.</summary>
    Inert,

    /// <summary>Ethanol and water.</summary>
    Spirit,

    /// <summary>Plain water.</summary>
    Water,
}

/// <summary>What a percentage on the bottle means.</summary>
public enum StrengthUnit
{
    /// <summary>Grams per 100 ml.</summary>
    PercentWeightPerVolume = 0,

    /// <summary>Grams per 100 g.</summary>
    PercentByWeight,

    /// <summary>Millilitres per 100 ml at 20 °C, as on a bottle of spirit.</summary>
    PercentByVolume,

    /// <summary>mol/L.</summary>
    MolesPerLitre,
}

/// <summary>A figure with the range it is met in, and where it comes from.</summary>
/// <param name="Typical">The figure to compute with.</param>
/// <param name="Low">Lower end of what is met in practice; covers about 95 % together with <paramref name="High"/>.</param>
/// <param name="High">Upper end.</param>
/// <param name="Source">Publication, or "from memory", or "estimate, not measured".</param>
public sealed record Spread(double Typical, double Low, double High, string Source);

/// <summary>The strength of a liquid.</summary>
/// <param name="Unit">What <paramref name="Value"/> counts.</param>
/// <param name="Value">Strength, > 0.</param>
/// <param name="Low">Lower end of what such a bottle may hold.</param>
/// <param name="High">Upper end.</param>
/// <param name="Source">Where the figures come from, or "as you stated".</param>
public sealed record Strength(StrengthUnit Unit, double Value, double Low, double High, string Source)
{
    /// <summary>The strength in words: "5 %", "0.2 mol/L".</summary>
    public string Words =>
        Unit == StrengthUnit.MolesPerLitre
            ? string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} mol/L")
            : string.Create(CultureInfo.InvariantCulture, $"{Value:0.##} %");
}

/// <summary>One thing of the kitchen and dye cupboard.</summary>
public sealed record Substance
{
    /// <summary>A level teaspoon in the tables, ml. Published weights do not tell a metric spoon (5 ml) from a US one (4.93 ml).</summary>
    public const double TableTeaspoonMillilitres = 4.93;

    /// <summary>Density of ethanol at 20 °C, g/ml [OIML-R22].</summary>
    internal const double EthanolDensity = 0.78924;

    /// <summary>Short name without spaces that never changes.</summary>
    public required string Key { get; init; }

    /// <summary>The name a page shows.</summary>
    public required string Name { get; init; }

    /// <summary>Other names it is found by.</summary>
    public IReadOnlyList<string> Aliases { get; init; } = [];

    /// <summary>Chemical formula, or a word where there is none.</summary>
    public string Formula { get; init; } = "";

    /// <summary>CAS registry number, or empty.</summary>
    public string Cas { get; init; } = "";

    /// <summary>g/mol of the formula, for a liquid of what it holds.</summary>
    public double MolarMass { get; init; } = 1;

    /// <summary>How it goes in.</summary>
    public SubstanceForm Form { get; init; }

    /// <summary>Grams per level teaspoon with its spread; null for a thing nobody spoons.</summary>
    public Spread? GramsPerTeaspoon { get; init; }

    /// <summary>Grams of one piece; null for a thing nobody counts. A dried clove weighs about 0.08 g (common practice, no source).</summary>
    public double? GramsPerPiece => Key == "clove" ? 0.08 : null;

    /// <summary>Usual strength of a liquid; null for a pure substance.</summary>
    public Strength? UsualStrength { get; init; }

    /// <summary>Least share of the substance in what is sold under its name, 0 to 1; what is missing is moisture or filler.</summary>
    public double LeastPurity { get; init; } = 1;

    /// <summary>Something a maker should know, or empty.</summary>
    public string Note { get; init; } = "";

    /// <summary>Usual hazards; null where the tables have none.</summary>
    public Hazard? Hazard { get; init; }

    /// <summary>What it is called while undissolved in the solver's tables; empty where it has no such solid.</summary>
    internal string SolidName { get; init; } = "";

    internal Composition Ions { get; init; } = Composition.Nothing;

    internal string KeyComponent { get; init; } = "";

    internal double DensityAtUsualStrength { get; init; } = 1;

    internal double DensitySlope { get; init; }

    /// <summary>Acid, base and metal counts decide the warnings.</summary>
    internal bool Gives(string component) => Ions.Moles.GetValueOrDefault(component) > 0;

    /// <summary>Density of a liquid at a strength, g/ml at 20 °C.</summary>
    public double Density(Strength? strength)
    {
        if (Form == SubstanceForm.Spirit)
            return AlcoholMix.DensityAtStrength((strength ?? UsualStrength)!.Value);
        if (Form is not (SubstanceForm.Liquid or SubstanceForm.Water))
            return BulkDensity;
        return strength is null || UsualStrength is null
            ? DensityAtUsualStrength
            : DensityAtUsualStrength + (DensitySlope * (strength.Value - UsualStrength.Value));
    }

    /// <summary>Grams of a level spoonful per ml of spoon; 1 where no spoon weight is known.</summary>
    public double BulkDensity => GramsPerTeaspoon is { } spoon ? spoon.Typical / TableTeaspoonMillilitres : 1;

    /// <summary>The same substance with a teaspoon weight found by weighing ten level spoons once, which is worth more than any table.</summary>
    /// <param name="gramsOfTenSpoons">Weight of ten level teaspoons, g.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0, or above 200 g.</exception>
    public Substance WithTenSpoonsWeighing(double gramsOfTenSpoons)
    {
        if (!(gramsOfTenSpoons > 0 && gramsOfTenSpoons <= 200))
            throw new ArgumentOutOfRangeException(
                nameof(gramsOfTenSpoons),
                gramsOfTenSpoons,
                "Ten level teaspoons weigh more than 0 and at most 200 g."
            );
        // One spoon still scatters by about a twentieth when levelled by hand; the mean of ten no longer matters.
        var each = gramsOfTenSpoons / 10;
        return this with { GramsPerTeaspoon = new(each, each * 0.95, each * 1.05, "weighed by the maker, ten level spoons") };
    }

    /// <summary>A thing of the maker's own whose pH effect is not known.</summary>
    public static Substance Own(string key, string name, double gramsPerTeaspoon) =>
        new()
        {
            Key = key,
            Name = name,
            Form = SubstanceForm.Inert,
            GramsPerTeaspoon = new(gramsPerTeaspoon, gramsPerTeaspoon * 0.9, gramsPerTeaspoon * 1.1, "the maker's own"),
        };

    /// <summary>Solubility in pure water, grams of this form per 100 g water; null where the tables have none.</summary>
    /// <param name="celsius">0 to 100 °C.</param>
    public double? SolubilityGramsPer100Grams(double celsius) => Solubility.Of(SolidName, Ions, MolarMass, celsius);
}
