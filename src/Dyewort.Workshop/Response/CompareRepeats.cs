using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Says whether two groups of squares differ beyond the maker's own scatter.</summary>
public sealed class CompareRepeats : IUseCase
{
    /// <param name="first">Colours, or samples of the trials (all their readings of one state count).</param>
    /// <param name="second">The same for the other.</param>
    /// <param name="trials">Where the maker's scatter is learned from; null for common practice alone.</param>
    public Outcome<RepeatComparison> Handle(IReadOnlyList<string> first, IReadOnlyList<string> second, TrialTable? trials)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var entered = new Entered();
        var (one, other) = (Read(entered, "--first", first, trials), Read(entered, "--second", second, trials));
        if (!entered.Sound) return Outcome.Refused<RepeatComparison>(entered.Problems);

        // The groups compared speak for themselves once, not twice.
        var named = first.Concat(second).Select(text => text.Trim()).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var scatter = trials is null ? MakerScatter.Unknown : MakerScatter.Learn([.. trials.Rows.Where(row => !named.Contains(row.Point.Sample))]);
        return scatter.Compare(one, other);
    }

    private static List<Lab> Read(Entered entered, string field, IReadOnlyList<string> texts, TrialTable? trials)
    {
        var colours = new List<Lab>();
        foreach (var text in texts)
        {
            var rows = trials?.Rows.Where(row => row.Point.Wash > 0 && string.Equals(row.Point.Sample, text.Trim(), StringComparison.OrdinalIgnoreCase)).ToList() ?? [];
            if (rows.Count > 0)
            {
                // One state, paper and wash: the one read most often, dry before wet.
                colours.AddRange(rows.GroupBy(row => (row.Point.State, row.Point.Paper, row.Point.Wash))
                    .OrderBy(group => string.Equals(group.Key.State, "wet", StringComparison.OrdinalIgnoreCase)).ThenByDescending(group => group.Count()).First().Select(row => row.Colour));
                continue;
            }

            var colour = ColourText.Parse(field, text);
            if (colour.TryGet(out var read)) colours.Add(Lab.FromXyz(read.Colour));
            else entered.Refuse(field, $"“{text}” is neither a sample of the trials nor a colour.", "Give a sample's code, or a colour such as #5b3f7a.");
        }

        return colours;
    }
}
