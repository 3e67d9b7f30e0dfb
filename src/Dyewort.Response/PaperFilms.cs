using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>Which film belongs to which paper of a table.</summary>
internal static class PaperFilms
{
    /// <summary>One film per paper named in the rows, keyed by the lower-case name. A row with wash 0 is the bare paper itself.</summary>
    public static Dictionary<string, Film> Of(IReadOnlyList<TrialRow> rows)
    {
        var films = new Dictionary<string, Film>();
        foreach (var group in rows.GroupBy(row => row.Point.Paper.ToLowerInvariant()))
        {
            var bare = group.Where(row => row.Point.Wash == 0).Select(row => row.Colour).ToArray();
            if (bare.Length > 0 && bare.Average(c => c.L) >= 20)
            {
                films[group.Key] = new Film(new Lab(bare.Average(c => c.L), bare.Average(c => c.A), bare.Average(c => c.B)));
                continue;
            }

            var stated = Of(group.Key);
            var lightest = group.Max(row => row.Colour.L);
            films[group.Key] =
                lightest > stated.Paper.L
                    ? new Film(stated.Paper with { L = Math.Min(lightest + 0.5, 100) }) { IsGuessed = stated.IsGuessed }
                    : stated;
        }

        return films;
    }

    /// <summary>The film of a paper by its name alone: its colour where the name is one, otherwise the guessed paper.</summary>
    public static Film Of(string paper) =>
        ColourText.Parse("paper", paper).TryGet(out var stated) && Lab.FromXyz(stated.Colour) is { L: >= 20 and <= 105 } colour
            ? new(colour)
            : new(Film.GuessedPaper) { IsGuessed = true };
}
