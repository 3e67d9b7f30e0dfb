using Dyewort.Quantities;

namespace Dyewort.Notebook;

/// <summary>What holds for the whole notebook; there is one of it.</summary>
public sealed class Settings : Entry
{
    /// <summary>The key of the only one.</summary>
    public static Guid OnlyId { get; } = new("00000000-0000-7000-8000-000000000001");

    /// <summary>Which teaspoon the maker's spoons are.</summary>
    public Teaspoon Teaspoon { get; set; } = Teaspoon.Metric;

    /// <summary>What the maker's money is called on pages, such as "€".</summary>
    public string? Currency { get; set; }

    /// <summary>Who makes, as a label says it.</summary>
    public string? Maker { get; set; }

    /// <summary>The telephone number of the maker's poison centre; null while nobody wrote it down.</summary>
    public string? PoisonCentre { get; set; }

    /// <summary>Where, as a label says it.</summary>
    public string? Place { get; set; }
}
