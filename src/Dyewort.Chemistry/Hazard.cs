using System.Text.RegularExpressions;

namespace Dyewort.Chemistry;

/// <summary>Usual classification and caution. Not a safety data sheet: the sheet that came with the product, local rules and licensed
/// practice go first.</summary>
/// <param name="SignalWord">"Danger", "Warning" or "none".</param>
/// <param name="Pictograms">GHS codes, blank-separated.</param>
/// <param name="HCodes">H statements, blank-separated.</param>
/// <param name="HTexts">Their words.</param>
/// <param name="Caution">What to do about it, in plain words.</param>
/// <param name="KeepApartFrom">What must not meet it.</param>
/// <param name="Disposal">What to do with the rest.</param>
/// <param name="Source">Where the classification was seen, and how sure it is.</param>
public sealed partial record Hazard(
    string SignalWord,
    string Pictograms,
    string HCodes,
    string HTexts,
    string Caution,
    string KeepApartFrom,
    string Disposal,
    string Source
)
{
    /// <summary>What every page that shows a hazard says with it.</summary>
    public const string GoesFirst = "The safety data sheet of your product, local rules and licensed practice go first.";

    /// <summary>The one wording of this hazard: what the classification says, without its codes, and then what to do about it.</summary>
    public string Words => string.Join(' ', new[] { Code().Replace(HTexts, ""), Caution }.Where(part => part.Length > 0));

    [GeneratedRegex(@"\bH\d{3}[A-Za-z]* ")]
    private static partial Regex Code();
}
