namespace Dyewort.Web.Pages.Response;

/// <summary>What is asked of the page of a wanted colour.</summary>
public sealed record WantedQuery
{
    /// <summary>A colour in any notation.</summary>
    public string? C { get; init; }

    /// <summary>A swatch of the notebook to come near to.</summary>
    public string? Swatch { get; init; }

    /// <summary>A recipe of the notebook to come near to.</summary>
    public string? Recipe { get; init; }

    /// <summary>How much is to be made, as people say it; 100 ml when empty.</summary>
    public string? Volume { get; init; }

    /// <summary>The paper's name; empty for the one most was painted on.</summary>
    public string? Paper { get; init; }

    /// <summary>How a colour was taken that came from a photo; empty where it was typed.</summary>
    public string? From { get; init; }
}
