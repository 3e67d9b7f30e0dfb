using Dyewort.Colour;
using Dyewort.Notebook;

namespace Dyewort.Making;

/// <summary>A recipe made at a volume.</summary>
public sealed class Batch : Entry
{
    /// <summary>Counts up through the notebook from 1.</summary>
    public required int Number { get; init; }

    /// <summary>The first part of its bottles' codes, from <see cref="BottleCode.ForBatch"/>.</summary>
    public required string Code { get; init; }

    /// <summary>The recipe.</summary>
    public required Guid RecipeId { get; init; }

    /// <summary>The day it was made.</summary>
    public required DateOnly MadeOn { get; set; }

    /// <summary>Millilitres of liquor that were planned.</summary>
    public required double PlannedLiquorMl { get; set; }

    /// <summary>Millilitres of liquor that went in; null until measured.</summary>
    public double? MeasuredLiquorMl { get; set; }

    /// <summary>Millilitres after all additions, before filtering; null until measured.</summary>
    public double? MadeMl { get; set; }

    /// <summary>Millilitres after filtering; null until measured.</summary>
    public double? FilteredMl { get; set; }

    /// <summary>Millilitres kept back unsold, to compare with later.</summary>
    public double? KeptBackMl { get; set; }

    /// <summary>pH of the finished ink, when it was tested.</summary>
    public double? Ph { get; set; }

    /// <summary>Last day it should be used, as its maker judges.</summary>
    public DateOnly? KeepBy { get; set; }

    /// <summary>Where it was made, as a label may say it.</summary>
    public string? Place { get; set; }

    /// <summary>Anything else.</summary>
    public string? Note { get; set; }
}

/// <summary>The colour of one dry square painted from a batch.</summary>
public sealed class BatchReading : Entry
{
    /// <summary>The batch.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>When the colour was taken, UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>CIE XYZ of the surface, 1931 2° observer, D65, perfect diffuser Y = 100.</summary>
    public required Xyz Colour { get; init; }

    /// <summary>Half-width in CIEDE2000 of the interval that holds the true colour 19 times in 20.</summary>
    public required double UncertaintyDe00 { get; init; }

    /// <summary>Where it came from.</summary>
    public required ReadingSource Source { get; init; }
}

/// <summary>Liquor of one pot that went into a batch; a blend has several.</summary>
public sealed class BatchLiquor : Entry
{
    /// <summary>The batch.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>Millilitres of it.</summary>
    public required double Ml { get; set; }
}

/// <summary>One addition of a batch: what was planned and what was measured.</summary>
public sealed class BatchStep : Entry
{
    /// <summary>The batch.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>Its place, from 1.</summary>
    public required int Step { get; init; }

    /// <summary>What is added, a <see cref="Material"/>; null for a recipe that was typed in.</summary>
    public Guid? MaterialId { get; init; }

    /// <summary>Its everyday name: as it was written, and where it is shown that of today.</summary>
    public required string Name { get; set; }

    /// <summary>The planned amount, as the bench measures it.</summary>
    public required MeasuredAmount Planned { get; set; }

    /// <summary>The amount that went in; null until then.</summary>
    public MeasuredAmount? Measured { get; set; }

    /// <summary>What went in as far as is known: what was measured before what was planned.</summary>
    public MeasuredAmount Known => Measured ?? Planned;
}
