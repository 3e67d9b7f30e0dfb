using System.Globalization;
using Dyewort.Chemistry.Solving;
using Dyewort.Safety;

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

    /// <summary>The spoon that <see cref="GramsPerTeaspoon"/> was weighed with, ml; null for the tables' figures.</summary>
    internal double? WeighedWithMillilitres { get; init; }

    /// <summary>Grams of one piece; null for a thing nobody counts.</summary>
    public double? GramsPerPiece { get; init; }

    /// <summary>Usual strength of a liquid; null for a pure substance.</summary>
    public Strength? UsualStrength { get; init; }

    /// <summary>Least share of the substance in what is sold under its name, 0 to 1; what is missing is moisture or filler.</summary>
    public double LeastPurity { get; init; } = 1;

    /// <summary>Something a maker should know, or empty.</summary>
    public string Note { get; init; } = "";

    /// <summary>Usual hazards at the usual strength; null where the table has none.</summary>
    public Hazard? Hazard => HazardAt(UsualStrength);

    /// <summary>Its key in the table of hazards; empty where it has none.</summary>
    internal string HazardKey { get; init; } = "";

    /// <summary>What kinds of thing it is.</summary>
    public SubstanceClasses Classes { get; init; }

    /// <summary>What it is called while undissolved in the solver's tables; empty where it has no such solid.</summary>
    internal string SolidName { get; init; } = "";

    internal Composition Ions { get; init; } = Composition.Nothing;

    internal string KeyComponent { get; init; } = "";

    internal double DensityAtUsualStrength { get; init; } = 1;

    internal double DensitySlope { get; init; }

    /// <summary>True where it is of one of these classes.</summary>
    internal bool IsAny(SubstanceClasses classes) => (Classes & classes) != SubstanceClasses.None;

    /// <summary>True where it brings a component of the solver's tables.</summary>
    internal bool Gives(string component) => Ions.Moles.GetValueOrDefault(component) > 0;

    /// <summary>Usual hazards at a strength; null where the table has none.</summary>
    /// <param name="strength">What is in the bottle; null for the pure thing.</param>
    /// <remarks>Grams per 100 ml are taken for grams per 100 g: what is denser than water is then judged a little too harshly, which is
    /// the way to err.</remarks>
    public Hazard? HazardAt(Strength? strength)
    {
        if (HazardKey.Length == 0)
            return null;
        var percent = strength switch
        {
            null => 100,
            { Unit: StrengthUnit.MolesPerLitre } => strength.Value * MolarMass / 10,
            _ => strength.Value,
        };
        return HazardList.At(HazardKey, Math.Clamp(percent, 0, 100));
    }

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
    public double BulkDensity => GramsPerTeaspoon is { } spoon ? spoon.Typical / (WeighedWithMillilitres ?? TableTeaspoonMillilitres) : 1;

    /// <summary>Level spoonfuls of the tables, or of the maker's own weighing, in a teaspoon of a size; for what is not poured.</summary>
    /// <param name="teaspoonMillilitres">5, 4.929 or 5.919.</param>
    /// <remarks>Published weights do not tell a metric spoon from a US one, so both hold one spoonful of the tables; other spoons in
    /// proportion. The spoon of a maker's own weighing is known.</remarks>
    internal double Spoonfuls(double teaspoonMillilitres) =>
        WeighedWithMillilitres is { } known ? teaspoonMillilitres / known
        : Math.Abs(teaspoonMillilitres - 4.965) < 0.1 ? 1
        : teaspoonMillilitres / TableTeaspoonMillilitres;

    /// <summary>The same substance as the maker weighed it, which is worth more than any table.</summary>
    /// <param name="gramsPerTeaspoon">Grams in a level teaspoon of 5 ml, 0.05 to 100; null where only the tables say.</param>
    /// <param name="gramsPerPiece">Grams of one piece, above 0; null where only the tables say.</param>
    /// <remarks>One spoon still scatters by about a twentieth when levelled by hand (common practice, no source). What is poured is not
    /// levelled: its strength says what a millilitre weighs, better than a kitchen scale does.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range, or NaN.</exception>
    public Substance Weighed(double? gramsPerTeaspoon, double? gramsPerPiece = null)
    {
        if (gramsPerTeaspoon is not (null or (>= 0.05 and <= 100)))
            throw new ArgumentOutOfRangeException(nameof(gramsPerTeaspoon), gramsPerTeaspoon, "Allowed: 0.05 to 100 g.");
        if (gramsPerPiece is not (null or > 0))
            throw new ArgumentOutOfRangeException(nameof(gramsPerPiece), gramsPerPiece, "A piece weighs something.");
        if (Form is SubstanceForm.Liquid or SubstanceForm.Spirit or SubstanceForm.Water)
            gramsPerTeaspoon = null;
        const double metric = 5;
        return this with
        {
            GramsPerPiece = gramsPerPiece ?? GramsPerPiece,
            GramsPerTeaspoon = gramsPerTeaspoon is { } own ? new(own, own * 0.95, own * 1.05, "weighed by the maker") : GramsPerTeaspoon,
            WeighedWithMillilitres = gramsPerTeaspoon is null ? WeighedWithMillilitres : metric,
        };
    }

    /// <summary>A thing of the maker's own that the tables do not know: what a spoonful weighs only they can say; it has no pH.</summary>
    public static Substance Own(string name) =>
        new()
        {
            Key = "own",
            Name = name,
            Form = SubstanceForm.Inert,
            Classes = SubstanceClasses.PhUnknown,
        };

    /// <summary>Solubility in pure water, grams of this form per 100 g water; null where the tables have none.</summary>
    /// <param name="celsius">0 to 100 °C.</param>
    public double? SolubilityGramsPer100Grams(double celsius) => Solubility.Of(SolidName, Ions, MolarMass, celsius);
}
