using Dyewort.Notebook;

namespace Dyewort.Making;

/// <summary>One labelled container.</summary>
public sealed class Bottle : Entry
{
    /// <summary>The batch that filled it.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>Its number in the batch, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>Unique in the notebook, from <see cref="BottleCode.ForBottle"/>: "AAC-AD7".</summary>
    public required string Code { get; init; }

    /// <summary>The kind of container, a <see cref="Material"/>; null when the maker did not say.</summary>
    public Guid? ContainerId { get; init; }

    /// <summary>Millilitres filled in.</summary>
    public required double FillMl { get; set; }

    /// <summary>The day it was filled.</summary>
    public required DateOnly FilledOn { get; set; }

    /// <summary>Last day it should be used; null when unknown.</summary>
    public DateOnly? KeepBy { get; set; }

    /// <summary>Where it stands now: a shelf, a shop, "given to a friend".</summary>
    public string? Place { get; set; }

    /// <summary>The day it was used up, sold or thrown away; null while it is there.</summary>
    public DateOnly? GoneOn { get; set; }

    /// <summary>Why it is gone: "sold", "mould".</summary>
    public string? GoneWhy { get; set; }
}

/// <summary>A look at a bottle after some time.</summary>
public sealed class BottleCheck : Entry
{
    /// <summary>The bottle.</summary>
    public required Guid BottleId { get; init; }

    /// <summary>The day.</summary>
    public required DateOnly On { get; init; }

    /// <summary>True when it may stay on the shelf.</summary>
    public required bool Passed { get; init; }

    /// <summary>What was seen: "fur under the cap", "slight sediment, shaken".</summary>
    public string? Seen { get; init; }

    /// <summary>pH, when it was tested.</summary>
    public double? Ph { get; init; }
}
