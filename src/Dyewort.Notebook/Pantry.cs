namespace Dyewort.Notebook;

/// <summary>What a material is for.</summary>
public enum MaterialKind
{
    /// <summary>Plant matter to extract.</summary>
    Plant,

    /// <summary>Something stirred into a sample to change its colour.</summary>
    Addition,

    /// <summary>What a pot is filled with, or what dilutes.</summary>
    Liquid,

    /// <summary>Paper or another ground to paint on.</summary>
    Paper,

    /// <summary>Gum, honey, glycerine: what holds the colour on the paper.</summary>
    Binder,

    /// <summary>What keeps a bottle from spoiling.</summary>
    Preservative,

    /// <summary>Empty bottles, jars and caps.</summary>
    Container,
}

/// <summary>A material at hand.</summary>
public sealed class Material : Entry
{
    /// <summary>Its everyday name, unique in the pantry.</summary>
    public required string Name { get; set; }

    /// <summary>What it is for.</summary>
    public required MaterialKind Kind { get; set; }

    /// <summary>The substance that the chemistry tables know it as; null when they do not know it.</summary>
    public string? Substance { get; set; }

    /// <summary>Strength by weight in per cent, above 0 to 100; null when it is the pure thing or when strength has no meaning.</summary>
    public double? StrengthPercent { get; set; }

    /// <summary>Grams in one level teaspoon of 5 ml; null when nobody weighed one or looked it up.</summary>
    public double? GramsPerTeaspoon { get; set; }

    /// <summary>Where <see cref="GramsPerTeaspoon"/> comes from: "weighed here", "handbook figure", "from memory".</summary>
    public string? GramsPerTeaspoonSource { get; set; }

    /// <summary>Grams of one piece (a clove, a gall, a leaf); null when it is not counted.</summary>
    public double? GramsPerPiece { get; set; }

    /// <summary>Price of one gram or of one millilitre or, for containers, of one piece, in the maker's currency.</summary>
    public double? UnitPrice { get; set; }

    /// <summary>What is left, in grams, millilitres or pieces as <see cref="StockUnit"/> says.</summary>
    public double? Stock { get; set; }

    /// <summary>"g", "ml" or "pieces".</summary>
    public string? StockUnit { get; set; }

    /// <summary>What to be careful of, in plain words; shown wherever the material is used.</summary>
    public string? Caution { get; set; }

    /// <summary>For plants: the two or three capital letters its pots are coded with. For containers: nothing.</summary>
    public string? Letters { get; set; }

    /// <summary>For containers: what one holds when filled as usual, millilitres.</summary>
    public double? HoldsMl { get; set; }

    /// <summary>For papers: grams per square metre.</summary>
    public double? GramsPerSquareMetre { get; set; }

    /// <summary>For papers: the bare paper's own colour, when it was measured.</summary>
    public Colour.Xyz? BareColour { get; set; }

    /// <summary>For papers: 95 % uncertainty of <see cref="BareColour"/>, ΔE₀₀; null where nobody said.</summary>
    public double? BareUncertaintyDe00 { get; set; }

    /// <summary>For papers: how <see cref="BareColour"/> was measured: "instrument", "card", "scan" or "typed".</summary>
    public string? BareMethod { get; set; }

    /// <summary>For papers: the day it was measured.</summary>
    public DateOnly? BareMeasuredOn { get; set; }

    /// <summary>For papers: how black the maker's sheets come out on it, per cent of its light, 1 to 15; null where it is not
    /// known.</summary>
    public double? PrintedBlackPercent { get; set; }

    /// <summary>For papers: how <see cref="PrintedBlackPercent"/> was found: "card", measured on a photo of a sheet beside one, or
    /// "typed".</summary>
    public string? PrintedBlackMethod { get; set; }

    /// <summary>For papers: what kind it is, for a guess at its colour until it is measured.</summary>
    public Readings.PaperKind? PaperKind { get; set; }

    /// <summary>Anything else worth knowing.</summary>
    public string? Note { get; set; }
}

/// <summary>An amount of one plant gathered or bought at one time and place.</summary>
public sealed class PlantLot : Entry
{
    /// <summary>The plant, a <see cref="Material"/>.</summary>
    public required Guid PlantId { get; init; }

    /// <summary>The day it was gathered or bought; null where nobody said.</summary>
    public DateOnly? GatheredOn { get; set; }

    /// <summary>Where it grew or who sold it; never printed on a label.</summary>
    public string? Place { get; set; }

    /// <summary>"berries", "hulls", "flowers" and so on.</summary>
    public string? Part { get; set; }

    /// <summary>"fresh", "dried" or "frozen".</summary>
    public string? Condition { get; set; }

    /// <summary>Grams as it was weighed.</summary>
    public double? Grams { get; set; }

    /// <summary>Anything else.</summary>
    public string? Note { get; set; }
}
