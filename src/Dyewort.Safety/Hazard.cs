using System.Text.RegularExpressions;

namespace Dyewort.Safety;

/// <summary>Usual classification and caution of a thing at a strength. Not a safety data sheet: the sheet that came with the product, local
/// rules and licensed practice go first.</summary>
/// <param name="Name">What it is of.</param>
/// <param name="SignalWord">"Danger", "Warning" or "none".</param>
/// <param name="Pictograms">GHS codes, blank-separated.</param>
/// <param name="HCodes">Hazard statements, blank-separated.</param>
/// <param name="HTexts">Their words.</param>
/// <param name="Caution">What to do about it, in plain words.</param>
/// <param name="Disposal">What to do with the rest.</param>
/// <param name="Never">Why it has no place in an ink; empty where it has one.</param>
/// <param name="Source">Where the classification was read, or "memory".</param>
public sealed partial record Hazard(
    string Name,
    string SignalWord,
    string Pictograms,
    string HCodes,
    string HTexts,
    string Caution,
    string Disposal,
    string Never,
    string Source
)
{
    /// <summary>What every page that shows a hazard says with it.</summary>
    public const string GoesFirst = "The safety data sheet of your product, local rules and licensed practice go first.";

    /// <summary>How much care it asks for.</summary>
    public CareLevel Level =>
        Never.Length > 0 ? CareLevel.Stop
        : SignalWord == "Danger" ? CareLevel.Careful
        : Caution.Length > 0 ? CareLevel.Note
        : CareLevel.None;

    /// <summary>The one wording of this hazard: why it must stay out, what its class says without codes, and what to do.</summary>
    public string Words => string.Join(' ', new[] { Never, Code().Replace(HTexts, ""), Caution }.Where(part => part.Length > 0));

    [GeneratedRegex(@"\bH\d{3}[A-Za-z]* ")]
    private static partial Regex Code();
}
