using Dyewort.Quantities;

namespace Dyewort.Workshop.Pots;

/// <summary>Volumes and weights as people type them at the stove: with a unit, or as bare millilitres and grams.</summary>
public static class ReadAmounts
{
    /// <returns>Millilitres; null where nothing was typed or it was refused.</returns>
    public static double? Millilitres(this Entered entered, string field, string? text)
    {
        ArgumentNullException.ThrowIfNull(entered);
        if (string.IsNullOrWhiteSpace(text))
            return null;
        if (IsBare(text))
            return entered.OptionalNumber(field, text, "ml", 0, 1e6, "700");
        var volume = Volume.Parse(field, text);
        if (volume.TryGet(out var read))
            return read.Millilitres;
        entered.Take(volume);
        return null;
    }

    /// <returns>Grams; null where nothing was typed or it was refused.</returns>
    public static double? Grams(this Entered entered, string field, string? text)
    {
        ArgumentNullException.ThrowIfNull(entered);
        if (string.IsNullOrWhiteSpace(text))
            return null;
        if (IsBare(text))
            return entered.OptionalNumber(field, text, "g", 0, 1e6, "900");
        var mass = Mass.Parse(field, text);
        if (mass.TryGet(out var read))
            return read.Grams;
        entered.Take(mass);
        return null;
    }

    private static bool IsBare(string text) => text.All(sign => char.IsAsciiDigit(sign) || sign is '.' or ',' or ' ' or '-');
}
