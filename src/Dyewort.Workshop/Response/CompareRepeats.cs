using Dyewort.Colour;
using Dyewort.Quantities;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Says whether two groups of squares differ beyond the maker's own scatter.</summary>
public sealed class CompareRepeats : IUseCase
{
    /// <param name="first">What is compared: all its squares of one state, paper, wash and coats count, those that all of both groups
    /// share.</param>
    /// <param name="second">What it is compared with.</param>
    /// <param name="trials">Where the maker's scatter is learned from; null for common practice alone.</param>
    public Outcome<CompareRepeatsAnswer> Handle(
        IReadOnlyList<ComparedSquares> first,
        IReadOnlyList<ComparedSquares> second,
        TrialSource? trials
    )
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var labels = first.Select(one => one.Label).ToHashSet(StringComparer.OrdinalIgnoreCase);
        if (second.Any(other => IsPainted(other) && labels.Contains(other.Label)))
            return Outcome.Refused<CompareRepeatsAnswer>(nameof(second), "Nothing differs from itself.", "Choose another one.");

        // All painted alike, else drying, thinning or another paper would be taken for a difference: dry before settled before wet, then
        // the way that was read most often. A colour that was typed is taken to be painted as the others were.
        var painted = first.Concat(second).Where(IsPainted).ToList();
        var alike = painted
            .SelectMany(one => one.Squares)
            .Select(square => square.Way)
            .OfType<SquareWay>()
            .Where(way => painted.TrueForAll(one => one.Squares.Any(square => square.Way is { } own && own.Matches(way))))
            .GroupBy(way => way)
            .OrderBy(way => Array.IndexOf(Order, way.Key.State) is var place and >= 0 ? place : Order.Length)
            .ThenByDescending(way => way.Key.Paper is not null)
            .ThenByDescending(way => way.Count())
            .Select(way => (SquareWay?)way.Key)
            .FirstOrDefault();
        if (painted.Count > 0 && alike is null)
            return Outcome.Refused<CompareRepeatsAnswer>(
                nameof(second),
                "The two were never read in the same state, wash and coats on the same paper.",
                "Paint them alike, and read both dry."
            );
        List<ComparedSquare> Alike(IReadOnlyList<ComparedSquares> group) =>
            [.. group.SelectMany(one => one.Squares).Where(square => square.Way is not { } own || (alike is { } way && own.Matches(way)))];

        // The groups compared speak for themselves once, not twice.
        var (one, other) = (Alike(first), Alike(second));
        var compared = one.Concat(other).Select(square => square.Row).OfType<TrialRow>().ToHashSet(ReferenceEqualityComparer.Instance);
        var scatter = trials is null
            ? MakerScatter.Unknown
            : MakerScatter.Learn([.. trials.Table.Rows.Where(row => !compared.Contains(row))]);
        var found = scatter.Compare(one.ConvertAll(square => square.Colour), other.ConvertAll(square => square.Colour));
        return found.TryGet(out var comparison)
            ? Outcome.Of(
                new CompareRepeatsAnswer(
                    one.ConvertAll(square => square.Colour),
                    other.ConvertAll(square => square.Colour),
                    alike?.State ?? "",
                    comparison
                )
            )
            : Outcome.Refused<CompareRepeatsAnswer>(found.Problems);
    }

    private static bool IsPainted(ComparedSquares one) => one.Squares.Any(square => square.Way is not null);

    private static readonly string[] Order = ["dry", "settled", "after light", "wet"];
}

/// <param name="First">Colours of the squares of the one.</param>
/// <param name="Second">Those of the other.</param>
/// <param name="State">The state both were read in; empty where only colours were typed.</param>
/// <param name="Found">What that says.</param>
public sealed record CompareRepeatsAnswer(IReadOnlyList<Lab> First, IReadOnlyList<Lab> Second, string State, RepeatComparison Found);
