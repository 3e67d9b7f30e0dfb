using System.Globalization;
using System.Text;

namespace Dyewort.Notebook;

/// <summary>Codes that people can read aloud, write on a jar and type on a phone.</summary>
public static class Codes
{
    /// <summary>Two letters for a plant: the initials of its first two words, else its first letter and the next consonant.</summary>
    /// <param name="name">The plant's everyday name.</param>
    /// <param name="taken">Letters that other plants already have.</param>
    /// <returns>Two capital letters, or more when all shorter ones are taken; never letters in <paramref name="taken"/>.</returns>
    public static string LettersFor(string name, IReadOnlySet<string> taken)
    {
        var words = name.Split([' ', '-', ','], StringSplitOptions.RemoveEmptyEntries)
            .Select(Plain)
            .Where(word => word.Length > 0)
            .ToList();
        var all = string.Concat(words);
        if (all.Length == 0)
            all = "X";
        var candidates = new List<string>();
        if (words.Count > 1)
            candidates.Add($"{words[0][0]}{words[1][0]}");
        if (words.Count == 1 && all.Length > 5)
            candidates.AddRange(Compound(all));
        candidates.AddRange(
            all[1..].Where(letter => !"AEIOU".Contains(letter, StringComparison.Ordinal)).Select(letter => $"{all[0]}{letter}")
        );
        candidates.AddRange(all[1..].Select(letter => $"{all[0]}{letter}"));
        candidates.AddRange(Enumerable.Range('A', 26).Select(letter => $"{all[0]}{(char)letter}"));
        return candidates.FirstOrDefault(candidate => !taken.Contains(candidate))
            ?? Enumerable
                .Range(2, taken.Count + 2)
                .Select(number => $"{all[0]}X{(char)('A' + (number % 26))}{number / 26}")
                .First(candidate => !taken.Contains(candidate));
    }

    /// <summary>A pot's code: the plant's letters, the year's last two digits and the pot's number in that year.</summary>
    /// <param name="letters">The plant's letters.</param>
    /// <param name="madeOn">The day it was made.</param>
    /// <param name="taken">All pot codes of the notebook, withdrawn ones too.</param>
    public static string Pot(string letters, DateOnly madeOn, IReadOnlySet<string> taken)
    {
        var stem = string.Create(CultureInfo.InvariantCulture, $"{letters}{madeOn.Year % 100:00}-");
        return Enumerable
            .Range(1, taken.Count + 1)
            .Select(number => string.Create(CultureInfo.InvariantCulture, $"{stem}{number}"))
            .First(code => !taken.Contains(code));
    }

    /// <summary>The letter of a pot's next trial: A to Z, then AA, AB and so on.</summary>
    /// <param name="trials">How many trials the pot has had, withdrawn ones too.</param>
    public static string TrialLetter(int trials) =>
        trials < 26 ? ((char)('A' + trials)).ToString() : TrialLetter((trials / 26) - 1) + TrialLetter(trials % 26);

    /// <summary>The cells of a grid in reading order: A1, B1, C1 … then A2.</summary>
    /// <param name="columns">Columns, 1 to 26.</param>
    /// <param name="rows">Rows, at least 1.</param>
    public static IEnumerable<string> Cells(int columns, int rows) =>
        from row in Enumerable.Range(1, rows)
        from column in Enumerable.Range(0, columns)
        select string.Create(CultureInfo.InvariantCulture, $"{(char)('A' + column)}{row}");

    /// <summary>The code of a jar's square on a sheet: "A3" for its first, "A3.2" for the next in its row, "A3.2/4" for that one thinned
    /// to a quarter.</summary>
    /// <param name="jar">The jar's code.</param>
    /// <param name="place">The square's place in the jar's row, from 1.</param>
    /// <param name="wash">Share of liquor in what is painted, above 0 to 1.</param>
    public static string Square(string jar, int place, double wash) =>
        Stage(jar, place) + (wash < 1 ? string.Create(CultureInfo.InvariantCulture, $"/{Math.Round(1 / wash, 2)}") : "");

    /// <summary>The code of a jar's stage: the jar's own for the first that was painted, "A3.2" for the second.</summary>
    /// <param name="jar">The jar's code.</param>
    /// <param name="place">The stage's place among those that were painted, from 1.</param>
    public static string Stage(string jar, int place) => place <= 1 ? jar : string.Create(CultureInfo.InvariantCulture, $"{jar}.{place}");

    /// <summary>True for "A3" and "A3.2" of jar A3.</summary>
    /// <param name="jar">The jar's code.</param>
    /// <param name="cell">A square's code without its wash.</param>
    public static bool IsSquareOf(string jar, string cell) =>
        cell == jar
        || (
            cell.StartsWith(jar + ".", StringComparison.Ordinal)
            && int.TryParse(cell.AsSpan(jar.Length + 1), NumberStyles.None, CultureInfo.InvariantCulture, out _)
        );

    // "elderberry" reads as elder + berry: makers code it EB.
    private static IEnumerable<string> Compound(string word)
    {
        foreach (
            var ending in (string[])["BERRY", "THORN", "FLOWER", "ROOT", "BARK", "LEAF", "NUT", "WEED", "WOOD", "BEAN", "SKIN", "WORT"]
        )
        {
            if (word.EndsWith(ending, StringComparison.Ordinal) && word.Length > ending.Length)
                yield return $"{word[0]}{ending[0]}";
        }
    }

    private static string Plain(string word)
    {
        var letters = new StringBuilder();
        foreach (var letter in word.Normalize(NormalizationForm.FormD))
        {
            if (char.IsAsciiLetter(letter))
                letters.Append(char.ToUpperInvariant(letter));
        }

        return letters.ToString();
    }
}
