using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Says whether two groups of squares differ beyond the maker's own scatter.</summary>
public sealed class CompareRepeats : IUseCase
{
    /// <param name="first">Colours, or samples of the trials (all their readings of one state, paper, wash and coats count: those that all
    /// named samples share).</param>
    /// <param name="second">The same for the other.</param>
    /// <param name="trials">Where the maker's scatter is learned from; null for common practice alone.</param>
    public Outcome<RepeatComparison> Handle(IReadOnlyList<string> first, IReadOnlyList<string> second, TrialTable? trials)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var readings = first
            .Concat(second)
            .Select(text => text.Trim())
            .Distinct(StringComparer.OrdinalIgnoreCase)
            .ToDictionary(
                name => name,
                name =>
                    trials
                        ?.Rows.Where(row => row.Point.Wash > 0 && string.Equals(row.Point.Sample, name, StringComparison.OrdinalIgnoreCase))
                        .ToList()
                    ?? [],
                StringComparer.OrdinalIgnoreCase
            );
        var samples = readings.Values.Where(rows => rows.Count > 0).ToList();

        // All painted alike, else drying, thinning or another paper would be taken for a difference: dry before wet, then the way that was
        // read most often.
        var alike = samples
            .SelectMany(rows => rows)
            .GroupBy(Way)
            .Where(way => samples.TrueForAll(rows => rows.Exists(row => Way(row) == way.Key)))
            .OrderBy(way => string.Equals(way.Key.State, "wet", StringComparison.OrdinalIgnoreCase))
            .ThenByDescending(way => way.Count())
            .FirstOrDefault();
        if (samples.Count > 0 && alike is null)
            return Outcome.Refused<RepeatComparison>(
                "--second",
                "The samples were never read in the same state, wash and coats on the same paper.",
                "Paint them alike, and read them all dry."
            );
        var entered = new Entered();
        List<Lab> Read(string field, IReadOnlyList<string> texts)
        {
            var colours = new List<Lab>();
            foreach (var text in texts)
            {
                if (readings[text.Trim()] is { Count: > 0 } rows)
                    colours.AddRange(rows.Where(row => Way(row) == alike!.Key).Select(row => row.Colour));
                else if (ColourText.Parse(field, text).TryGet(out var read))
                    colours.Add(Lab.FromXyz(read.Colour));
                else
                    entered.Refuse(
                        field,
                        $"“{text}” is neither a sample of the trials nor a colour.",
                        "Give a sample's code, or a colour such as #5b3f7a."
                    );
            }

            return colours;
        }

        var (one, other) = (Read("--first", first), Read("--second", second));
        if (!entered.Sound)
            return Outcome.Refused<RepeatComparison>(entered.Problems);

        // The groups compared speak for themselves once, not twice.
        var scatter = trials is null
            ? MakerScatter.Unknown
            : MakerScatter.Learn([.. trials.Rows.Where(row => !readings.ContainsKey(row.Point.Sample))]);
        return scatter.Compare(one, other);
    }

    private static (string State, string Paper, double Wash, double Coats) Way(TrialRow row) =>
        (row.Point.State, row.Point.Paper, row.Point.Wash, row.Point.Coats);
}
