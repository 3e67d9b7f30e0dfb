using System.Text.RegularExpressions;

namespace Dyewort.Safety;

/// <summary>Usual classification and caution of a thing at a strength. Not a safety data sheet: the sheet that came with the product, local
/// rules and licensed practice go first.</summary>
/// <param name="Key">Its key in the table.</param>
/// <param name="Percent">The strength that was asked for, by weight or by volume as the table says of it, 0 to 100.</param>
/// <param name="Name">What it is of.</param>
/// <param name="SignalWord">"Danger", "Warning" or "none".</param>
/// <param name="Pictograms">GHS codes, blank-separated.</param>
/// <param name="HCodes">Hazard statements, blank-separated.</param>
/// <param name="HTexts">Their words.</param>
/// <param name="Caution">What to do about it, in plain words.</param>
/// <param name="Disposal">What to do with the rest.</param>
/// <param name="Never">Why it has no place in an ink; empty where it has one.</param>
/// <param name="Source">Where the classification was read, or "memory".</param>
/// <param name="Kinds">What kinds of thing it is, blank-separated, for the rules about pairs.</param>
public sealed partial record Hazard(
    string Key,
    double Percent,
    string Name,
    string SignalWord,
    string Pictograms,
    string HCodes,
    string HTexts,
    string Caution,
    string Disposal,
    string Never,
    string Source,
    string Kinds
)
{
    /// <summary>Statements about skin and eyes that smart and pass, about metal and about water life at its mildest: no more than a
    /// note.</summary>
    private static readonly string[] Mild = ["H290", "H315", "H319", "H335", "H336", "H412", "EUH206", "EUH208"];

    /// <summary>What every page that shows a hazard says with it.</summary>
    public const string GoesFirst = "The safety data sheet of your product, local rules and licensed practice go first.";

    /// <summary>How much care it asks for.</summary>
    public CareLevel Level =>
        Never.Length > 0 ? CareLevel.Stop
        : Codes.Except(Mild).Any() ? CareLevel.Careful
        : Caution.Length > 0 ? CareLevel.Note
        : CareLevel.None;

    /// <summary>Its statements, one by one.</summary>
    public IReadOnlyList<string> Codes => HCodes.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>True for what is of this kind, or has this key.</summary>
    public bool Is(string kind) => Key == kind || Kinds.Split(' ').Contains(kind);

    /// <summary>True where the source of its class was read; else it is from memory.</summary>
    public bool IsSeen => Source.EndsWith("(seen)", StringComparison.Ordinal);

    /// <summary>The one wording of this hazard: why it must stay out, what its class says without codes, and what to do.</summary>
    public string Words => string.Join(' ', new[] { Never, Code().Replace(HTexts, ""), Caution }.Where(part => part.Length > 0));

    [GeneratedRegex(@"\bH\d{3}[A-Za-z]* ")]
    private static partial Regex Code();
}
