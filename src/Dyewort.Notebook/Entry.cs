namespace Dyewort.Notebook;

/// <summary>Anything a maker wrote down. It may be corrected or withdrawn, never erased.</summary>
/// <remarks>The store writes every changed value to a list of corrections, with the time it was written and the time it was
/// corrected.</remarks>
public abstract class Entry
{
    /// <summary>Its key in the notebook; made from the time, so that keys sort as the entries were written.</summary>
    public required Guid Id { get; init; }

    /// <summary>When it was written, UTC.</summary>
    public required DateTimeOffset WrittenAt { get; init; }

    /// <summary>When it was withdrawn, UTC; null while it counts.</summary>
    public DateTimeOffset? WithdrawnAt { get; set; }

    /// <summary>Why it was withdrawn, in the maker's words.</summary>
    public string? WithdrawnWhy { get; set; }

    /// <summary>True while nobody has withdrawn it.</summary>
    public bool Counts => WithdrawnAt is null;

    /// <summary>Takes it back: it stays readable and counts no longer.</summary>
    /// <param name="now">UTC.</param>
    /// <param name="why">In the maker's words.</param>
    public void Withdraw(DateTimeOffset now, string? why) => (WithdrawnAt, WithdrawnWhy) = (now, why);

    /// <summary>Lets it count again.</summary>
    public void PutBack() => (WithdrawnAt, WithdrawnWhy) = (null, null);
}

/// <summary>A value that was replaced: nothing in the notebook is silently overwritten.</summary>
public sealed class Correction
{
    /// <summary>Its key.</summary>
    public required Guid Id { get; init; }

    /// <summary>The kind of entry, by its name in the design's word list.</summary>
    public required string EntryKind { get; init; }

    /// <summary>The entry that was corrected.</summary>
    public required Guid EntryId { get; init; }

    /// <summary>The property that was corrected.</summary>
    public required string Field { get; init; }

    /// <summary>The value before, as JSON.</summary>
    public required string Before { get; init; }

    /// <summary>The value after, as JSON.</summary>
    public required string After { get; init; }

    /// <summary>When the value before had been written, UTC.</summary>
    public required DateTimeOffset BeforeWrittenAt { get; init; }

    /// <summary>When it was replaced, UTC.</summary>
    public required DateTimeOffset CorrectedAt { get; init; }
}
