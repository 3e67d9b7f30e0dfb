namespace Dyewort.Notebook;

/// <summary>A recipe made at a volume.</summary>
public sealed class Batch : Entry
{
    /// <summary>Unique in the notebook; its bottles' codes begin with it.</summary>
    public required string Code { get; init; }

    /// <summary>The recipe.</summary>
    public required Guid RecipeId { get; init; }

    /// <summary>Liquor it was planned for, millilitres.</summary>
    public required double LiquorMl { get; init; }

    /// <summary>The day it is made.</summary>
    public required DateOnly MadeOn { get; set; }

    /// <summary>Millilitres there were after mixing and filtering, ready to fill; null until measured.</summary>
    public double? ReadyMl { get; set; }

    /// <summary>pH of the finished batch, when it was tested.</summary>
    public double? Ph { get; set; }

    /// <summary>Anything else.</summary>
    public string? Note { get; set; }
}

/// <summary>Liquor of one pot that went into a batch.</summary>
public sealed class BatchPour : Entry
{
    /// <summary>The batch.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>The pot.</summary>
    public required Guid PotId { get; init; }

    /// <summary>Millilitres planned.</summary>
    public required double PlannedMl { get; init; }

    /// <summary>Millilitres poured; null until measured.</summary>
    public double? MeasuredMl { get; set; }
}

/// <summary>What one material of a batch was planned to be, and what was weighed.</summary>
public sealed class BatchAmount : Entry
{
    /// <summary>The batch.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>What goes in, a <see cref="Material"/>.</summary>
    public required Guid MaterialId { get; init; }

    /// <summary>Its place in the order, from 1.</summary>
    public required int Step { get; init; }

    /// <summary>What was planned, as the batch page said it: "24.4 g".</summary>
    public required string PlannedText { get; init; }

    /// <summary>Grams planned, when the amount has a mass.</summary>
    public double? PlannedGrams { get; init; }

    /// <summary>Millilitres planned, when the amount has a volume.</summary>
    public double? PlannedMl { get; init; }

    /// <summary>What was measured, as it was entered; null until then.</summary>
    public string? MeasuredText { get; set; }

    /// <summary>Grams measured, when the amount has a mass.</summary>
    public double? MeasuredGrams { get; set; }

    /// <summary>Millilitres measured, when the amount has a volume.</summary>
    public double? MeasuredMl { get; set; }

    /// <summary>Measured over planned: 1.02 is 2 % too much; null until measured, or when the two cannot be compared.</summary>
    public double? Ratio => (MeasuredGrams, PlannedGrams, MeasuredMl, PlannedMl) switch
    {
        ({ } measured, > 0 and { } planned, _, _) => measured / planned,
        (_, _, { } measured, > 0 and { } planned) => measured / planned,
        _ => null,
    };
}
