namespace Dyewort.Chemistry;

/// <summary>How loudly a remark is said.</summary>
public enum RemarkWeight
{
    /// <summary>Good to know.</summary>
    Note = 0,

    /// <summary>Take care: it can hurt, spoil the work, or make the computed figure wrong.</summary>
    Caution,

    /// <summary>Do not do it.</summary>
    Stop,
}

/// <summary>Something to say about a jar.</summary>
/// <param name="Code">Stable, for machines.</param>
/// <param name="Text">One or two sentences in plain words.</param>
/// <param name="Rule">The rule behind it and where it comes from.</param>
/// <param name="Weight">How loudly.</param>
public sealed record Remark(string Code, string Text, string Rule, RemarkWeight Weight);
