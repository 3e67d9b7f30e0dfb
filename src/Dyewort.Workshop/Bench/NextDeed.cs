namespace Dyewort.Workshop.Bench;

/// <summary>What a waiting step does with the thing it is done on.</summary>
public enum NextDeed
{
    /// <summary>What the thing's own page is for.</summary>
    Look,

    /// <summary>A pot is split into jars.</summary>
    Split,

    /// <summary>A trial's sheet is printed.</summary>
    PrintSheet,

    /// <summary>A photo of a chart is sent.</summary>
    SendPhoto,
}
