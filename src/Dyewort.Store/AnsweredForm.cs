namespace Dyewort.Store;

/// <summary>A form that was answered: when it comes a second time, it gets the same answer and writes nothing.</summary>
/// <remarks>No entry: it holds nothing that a maker wrote, so it is never corrected, and it is erased once no page can still hold the
/// form.</remarks>
public sealed class AnsweredForm
{
    /// <summary>What tells this form from every other: 64 hexadecimal digits.</summary>
    public required string Mark { get; init; }

    /// <summary>When it was written down.</summary>
    public required DateTimeOffset AnsweredAt { get; init; }

    /// <summary>The address the answer led to; until that is known, the page on which the form stood.</summary>
    public required string LedTo { get; init; }
}
