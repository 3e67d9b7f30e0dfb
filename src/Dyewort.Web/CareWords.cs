using Dyewort.Safety;

namespace Dyewort.Web;

/// <summary>The word and the look of each level of care: one of each, on every page.</summary>
internal static class CareWords
{
    /// <summary>The word that stands before a caution.</summary>
    public static string Said(CareLevel level) =>
        level switch
        {
            CareLevel.Stop => "Stop.",
            CareLevel.Careful => "Careful.",
            _ => "Note.",
        };

    /// <summary>The class that look.css knows it by.</summary>
    public static string Look(CareLevel level) =>
        level switch
        {
            CareLevel.Stop => "stop",
            CareLevel.Careful => "careful",
            _ => "mild",
        };
}
