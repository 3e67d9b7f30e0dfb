using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Looks through a table of trials for jars that are not what was written.</summary>
public sealed class FindSlips : IUseCase
{
    public sealed record Answer(IReadOnlyList<DoubtfulJar> Jars, int Looked, IReadOnlyList<string> Warnings);

    /// <param name="trials">What was painted.</param>
    /// <param name="plant">One plant; empty for every plant that has enough samples.</param>
    public Outcome<Answer> Handle(TrialTable trials, string plant)
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(plant);
        var groups = trials.Rows.GroupBy(row => row.Point.Plant, StringComparer.OrdinalIgnoreCase).Where(group => plant.Length == 0 || string.Equals(group.Key, plant, StringComparison.OrdinalIgnoreCase)).ToList();
        if (groups.Count == 0) return Outcome.Refused<Answer>("--plant", plant.Length > 0 ? $"Not enough trials yet: none of “{plant}”." : "Not enough trials yet: no painted sample was read.", "Paint and read some samples first.");
        var spoons = trials.Additions.Select(name => (name, KnownMaterials.Of(name)?.Substance.GramsPerTeaspoon?.Typical)).Where(one => one.Item2 is not null).ToDictionary(one => one.name, one => one.Item2!.Value, StringComparer.OrdinalIgnoreCase);
        var found = new List<DoubtfulJar>();
        var refused = new List<Problem>();
        var looked = 0;
        foreach (var group in groups)
        {
            var outcome = WrongJar.Look([.. group], trials.Additions, spoons);
            if (!outcome.TryGet(out var jars))
            {
                refused.AddRange(outcome.Problems);
                continue;
            }

            looked += group.Select(row => (row.Point.Pot, row.Point.Sample)).Distinct().Count();
            found.AddRange(jars);
        }

        if (looked == 0) return Outcome.Refused<Answer>(refused);
        return Outcome.Of(new Answer([.. found.OrderBy(jar => jar.ChanceAsWritten)], looked, [.. trials.Warnings, .. refused.Select(problem => problem.ToString())]));
    }
}
