using Dyewort.Colour;
using Dyewort.Notebook;

namespace Dyewort.Making;

/// <summary>A sample's proportions, independent of volume, with the colour it gave and how sure that is.</summary>
public sealed class Recipe : Entry
{
    /// <summary>Short code, unique in the notebook: "R7".</summary>
    public required string Code { get; init; }

    /// <summary>What the maker calls it; printed on labels.</summary>
    public required string Name { get; set; }

    /// <summary>The sample it was kept from; null for a recipe that was typed in.</summary>
    public Guid? SampleId { get; init; }

    /// <summary>The stage that was kept: the number of the sample's last step that was in it, 0 for the plain liquor; null for a recipe
    /// that was typed in.</summary>
    public int? AfterStep { get; set; }

    /// <summary>The pot whose liquor that sample held; null for a recipe that was typed in.</summary>
    public Guid? PotId { get; init; }

    /// <summary>The swatch that was chosen; null when there was none.</summary>
    public Guid? SwatchId { get; init; }

    /// <summary>Chart and cell of that swatch as bottles carry it, such as "C3 B2".</summary>
    public string? ChartPosition { get; init; }

    /// <summary>Millilitres of liquor that the steps' amounts belong to, above zero.</summary>
    public required double BaseVolumeMl { get; init; }

    /// <summary>The liquor in the maker's words: "elderberry EB25-1".</summary>
    public string? Liquor { get; set; }

    /// <summary>The colour of the chosen swatch: CIE XYZ, 1931 2° observer, D65, perfect diffuser Y = 100; null when it was never
    /// read.</summary>
    public Xyz? Colour { get; init; }

    /// <summary>Half-width in CIEDE2000 of the interval that holds the true colour 19 times in 20; null with
    /// <see cref="Colour"/>.</summary>
    public double? UncertaintyDe00 { get; init; }

    /// <summary>Months that a bottle of it keeps, by the maker's own experience; 1 to 120, null when unknown.</summary>
    public int? KeepMonths { get; set; }

    /// <summary>What must be said with it: "may weaken paper; not for fountain pens".</summary>
    public string? Caution { get; set; }

    /// <summary>Anything else.</summary>
    public string? Note { get; set; }
}

/// <summary>One addition of a recipe, in its order.</summary>
public sealed class RecipeStep : Entry
{
    /// <summary>The recipe.</summary>
    public required Guid RecipeId { get; init; }

    /// <summary>Its place, from 1; order can matter.</summary>
    public required int Step { get; init; }

    /// <summary>What is added, a <see cref="Material"/>; null for a recipe that was typed in.</summary>
    public Guid? MaterialId { get; init; }

    /// <summary>Its everyday name: as it was written, and where it is shown that of today.</summary>
    public required string Name { get; set; }

    /// <summary>How much for <see cref="Recipe.BaseVolumeMl"/>.</summary>
    public required MeasuredAmount Amount { get; init; }
}
