namespace Dyewort.Response;

/// <summary>What is known of additions before any trial.</summary>
internal static class Agents
{
    private static readonly string[] PhOnly =
    [
        "bicarbonate", "baking soda", "soda ash", "washing soda", "sodium carbonate", "potash", "citric", "vinegar", "acetic", "lemon", "tartar", "tartaric",
        "ammonia", "lye", "sodium hydroxide", "hydrochloric", "sulphuric", "malic", "ascorbic", "wood ash", "potassium carbonate",
    ];

    /// <summary>True for acids and bases that change a colour by way of the pH and hardly otherwise (common practice, no source).</summary>
    public static bool ActsThroughPhOnly(string addition) => PhOnly.Any(word => addition.Contains(word, StringComparison.OrdinalIgnoreCase));
}
