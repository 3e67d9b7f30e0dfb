using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Looks through a table of trials for jars that are not what was written.</summary>
public sealed class FindSlips(ModelShelf shelf) : IUseCase
{
    /// <param name="trials">What was painted.</param>
    /// <param name="plant">One plant; empty for every plant that has enough samples.</param>
    /// <returns>Null while they are still being looked for.</returns>
    public async Task<Outcome<FindSlipsAnswer>?> HandleAsync(TrialSource trials, string plant, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(trials);
        ArgumentNullException.ThrowIfNull(plant);
        var groups = trials
            .Table.Rows.GroupBy(row => row.Point.Plant, StringComparer.OrdinalIgnoreCase)
            .Where(group => plant.Length == 0 || string.Equals(group.Key, plant, StringComparison.OrdinalIgnoreCase))
            .ToList();
        if (groups.Count == 0)
            return Outcome.Refused<FindSlipsAnswer>(
                nameof(plant),
                plant.Length > 0 ? $"Not enough trials yet: none of “{plant}”." : "Not enough trials yet: no painted sample was read.",
                "Paint and read some samples first."
            );
        var spoons = trials.SpoonGrams;
        var found = new List<DoubtfulJar>();
        var refused = new List<Problem>();
        var looked = 0;
        foreach (var group in groups)
        {
            if (await shelf.AskForSlipsAsync(trials.Table, group.Key, spoons, cancel) is not { } outcome)
                return null;
            if (!outcome.TryGet(out var jars))
            {
                refused.AddRange(outcome.Problems.Select(problem => problem with { What = $"{group.Key}: {problem.What}" }));
                continue;
            }

            looked += group.Select(row => (row.Point.Pot, row.Point.Sample)).Distinct().Count();
            found.AddRange(jars);
        }

        if (looked == 0)
            return Outcome.Refused<FindSlipsAnswer>(refused);
        return Outcome.Of(
            new FindSlipsAnswer(
                [.. found.OrderBy(jar => jar.ChanceAsWritten)],
                looked,
                [.. trials.Table.Warnings, .. refused.Select(problem => problem.ToString())]
            )
        );
    }
}

public sealed record FindSlipsAnswer(IReadOnlyList<DoubtfulJar> Jars, int Looked, IReadOnlyList<string> Warnings);
