namespace Dyewort.Notebook;

/// <summary>One labelled container.</summary>
public sealed class Bottle : Entry
{
    /// <summary>Unique in the notebook; printed on its label and in its QR code.</summary>
    public required string Code { get; init; }

    /// <summary>The batch that filled it.</summary>
    public required Guid BatchId { get; init; }

    /// <summary>Its number in the batch, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>The empty it was filled into, a <see cref="Material"/>; null when it is not in the pantry.</summary>
    public Guid? ContainerId { get; init; }

    /// <summary>Millilitres filled in.</summary>
    public required double FilledMl { get; set; }

    /// <summary>The day it was filled.</summary>
    public required DateOnly FilledOn { get; set; }

    /// <summary>The last day it is to be used.</summary>
    public required DateOnly KeepBy { get; set; }

    /// <summary>The day somebody is to look at it again; null when nobody needs to.</summary>
    public DateOnly? LookAgainOn { get; set; }

    /// <summary>Where it stands; never printed on a label.</summary>
    public string? Place { get; set; }

    /// <summary>True when it was kept back on purpose, to compare the others with.</summary>
    public bool KeptBack { get; set; }

    /// <summary>The day it left the shelf; null while it stands there.</summary>
    public DateOnly? GoneOn { get; set; }

    /// <summary>How it left: "used up", "sold", "given away".</summary>
    public string? GoneHow { get; set; }
}

/// <summary>What was found when a bottle was looked at again.</summary>
public enum Finding
{
    /// <summary>As it was.</summary>
    Fine,

    /// <summary>Changed, but usable: paler, a sediment, another smell.</summary>
    Changed,

    /// <summary>Mould, gas, stink or a colour that is gone.</summary>
    Spoiled,
}

/// <summary>A look at a bottle after it was filled.</summary>
public sealed class BottleCheck : Entry
{
    /// <summary>The bottle.</summary>
    public required Guid BottleId { get; init; }

    /// <summary>The day.</summary>
    public required DateOnly On { get; init; }

    /// <summary>What was found.</summary>
    public required Finding Finding { get; init; }

    /// <summary>pH, when it was tested.</summary>
    public double? Ph { get; init; }

    /// <summary>The maker's words.</summary>
    public string? Said { get; init; }
}
