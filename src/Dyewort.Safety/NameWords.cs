using System.Globalization;
using System.Text;

namespace Dyewort.Safety;

/// <summary>Names as the tables of this room compare them.</summary>
internal static class NameWords
{
    /// <summary>Small letters without accents, single blanks, no plural.</summary>
    public static string Plain(string? name)
    {
        var letters = new StringBuilder();
        foreach (var c in (name ?? "").Normalize(NormalizationForm.FormKD).ToLowerInvariant())
        {
            if (CharUnicodeInfo.GetUnicodeCategory(c) != UnicodeCategory.NonSpacingMark && c is not ('\'' or '’'))
                letters.Append(char.IsLetterOrDigit(c) ? c : ' ');
        }

        return string.Join(' ', letters.ToString().Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Singular));
    }

    /// <summary>Whether the words of a name stand in a longer one.</summary>
    public static bool Mentions(string longer, string name) => $" {longer} ".Contains($" {name} ", StringComparison.Ordinal);

    /// <summary>Of the keys that stand in a name, those that are not part of a longer one that stands there too: sea buckthorn is no
    /// buckthorn.</summary>
    public static IEnumerable<T> Meant<T>(string plain, IEnumerable<(string Key, T Row)> keys)
    {
        var standing = keys.Where(one => Mentions(plain, one.Key)).ToList();
        return standing
            .Where(one => !standing.Exists(other => other.Key.Length > one.Key.Length && Mentions(other.Key, one.Key)))
            .Select(one => one.Row)
            .Distinct();
    }

    private static string Singular(string word)
    {
        var one = word.Replace("sulph", "sulf", StringComparison.Ordinal).Replace("aluminum", "aluminium", StringComparison.Ordinal);
        if (one == "leaves")
            return "leaf";
        if (one.Length > 4 && one.EndsWith("ies", StringComparison.Ordinal))
            return one[..^3] + "y";
        string[] kept = ["ss", "us", "is"];
        return one.Length > 3 && one.EndsWith('s') && !kept.Any(end => one.EndsWith(end, StringComparison.Ordinal)) ? one[..^1] : one;
    }
}
