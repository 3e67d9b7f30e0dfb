using System.Globalization;

namespace Dyewort.Quantities;

/// <summary>A wash: which share of the paint is ink; the rest is water.</summary>
/// <remarks>Range over 0 to 1, 1 is undiluted; never NaN. <c>default</c> has a share of 0 and is not a wash.</remarks>
public readonly record struct Dilution
{
    private Dilution(double share) => Share = share;

    /// <summary>Ink as a share of the whole, by volume.</summary>
    public double Share { get; }

    /// <summary>Undiluted.</summary>
    public static Dilution Full { get; } = new(1);

    /// <summary>A wash with so much ink in one part of paint.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Zero or less, more than 1, or NaN.</exception>
    public static Dilution FromShare(double share) =>
        share is > 0 and <= 1 ? new(share) : throw new ArgumentOutOfRangeException(nameof(share), share, "Allowed: over 0 to 1.");

    /// <summary>Reads <c>full</c>, <c>1:3</c> (one part of ink to three of water), <c>1/4</c>, <c>25 %</c> or <c>0.25</c> (a quarter is
    /// ink).</summary>
    public static Outcome<Dilution> Parse(string field, string? text)
    {
        const string Remedy = "Type full, 1:3 (one part of ink to three of water), or the share that is ink, such as 1/4.";
        var typed = (text ?? "").Trim();
        double? share =
            typed.ToUpperInvariant() is "FULL" or "UNDILUTED" ? 1
            : typed.Split(':', '∶') is [var ink, var water]
                ? Number(ink) is { } parts && Number(water) is { } more && parts > 0 ? parts / (parts + more)
                    : null
            : typed.Split('/', '⁄') is [var top, var bottom]
                ? Number(top) is { } above && Number(bottom) is { } below && below > 0 ? above / below
                    : null
            : typed.EndsWith('%') ? Number(typed[..^1]) / 100
            : Number(typed);
        return share is null ? Outcome.Refused<Dilution>(field, $"“{typed}” is not a wash.", Remedy)
            : share is > 0 and <= 1 ? Outcome.Of(new Dilution(share.Value))
            : Outcome.Refused<Dilution>(field, $"A wash of “{typed}” would be more than all ink, or none.", Remedy);
    }

    /// <summary>Ink to water: <c>full</c>, <c>1:3</c>.</summary>
    public override string ToString() => Share >= 1 ? "full" : $"1:{Figures.Say((1 / Share) - 1)}";

    private static double? Number(string text) =>
        double.TryParse(text.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
        && double.IsFinite(number)
            ? number
            : null;
}
