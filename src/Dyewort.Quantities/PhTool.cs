namespace Dyewort.Quantities;

/// <summary>What a pH was read with.</summary>
public enum PhTool
{
    /// <summary>Paper strips.</summary>
    Strip = 0,

    /// <summary>A meter that was set on fresh buffers.</summary>
    Meter,

    /// <summary>By taste of soap, by another liquor's look, from memory.</summary>
    Guess,
}

/// <summary>How far a reading of pH may be trusted.</summary>
public static class PhTools
{
    /// <summary>Standard deviation of a reading, pH units: half a unit by strip, a tenth by meter, one and a half guessed (common
    /// practice, no source).</summary>
    public static double Uncertainty(this PhTool tool) =>
        tool switch
        {
            PhTool.Meter => 0.1,
            PhTool.Guess => 1.5,
            _ => 0.5,
        };
}
