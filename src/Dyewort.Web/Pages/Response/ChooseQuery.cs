namespace Dyewort.Web.Pages.Response;

/// <summary>What is asked of the page that chooses bottles.</summary>
public sealed record ChooseQuery
{
    public string? Count { get; init; }

    /// <summary>Colours to cover, one per line; empty to choose for variety.</summary>
    public string? Palette { get; init; }

    /// <summary>What one bottle takes, ml; liquor of pots with less left is passed over.</summary>
    public string? Bottle { get; init; }

    /// <summary>Anything for only those samples that were kept as recipes.</summary>
    public string? Kept { get; init; }
}
