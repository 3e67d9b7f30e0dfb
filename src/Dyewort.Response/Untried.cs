using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>How far an addition that was never tried on a plant may move its colour: nobody knows, so the ± is what such additions do
/// elsewhere.</summary>
/// <remarks>A scale of moves, ΔE₀₀, learned from pairs of jars of other plants that differ by it alone, on a prior that counts as two such
/// pairs. The prior's radii hold 95 % of the moves that usual doses made on 400 generated plants (docs/accuracy.md): alum 17, copper 24,
/// iron
/// 47, bicarbonate 24, citric acid 20; what neither acts on the pH nor binds is a guess, no source.</remarks>
public static class Untried
{
    private const double PriorPairs = 2;

    /// <summary>95 % of a normal law lies within so many standard deviations.</summary>
    private const double Radius95 = 1.96;

    /// <summary>The additions of a sample that no row has any of.</summary>
    public static IReadOnlyList<string> In(TrialPoint point, IReadOnlyList<TrialRow> rows)
    {
        ArgumentNullException.ThrowIfNull(point);
        ArgumentNullException.ThrowIfNull(rows);
        return [.. point.GramsPerLitre.Names.Where(name => point.Dose(name) > 0 && !rows.Any(row => row.Point.Dose(name) > 0))];
    }

    /// <summary>The ΔE₀₀ within which 19 of 20 such additions leave a colour.</summary>
    /// <param name="addition">The addition by its everyday name.</param>
    /// <param name="others">Rows of other plants; may be none.</param>
    public static double RadiusDe00(string addition, IReadOnlyList<TrialRow> others)
    {
        ArgumentNullException.ThrowIfNull(addition);
        ArgumentNullException.ThrowIfNull(others);
        var prior = PriorDe00(addition) / Radius95;
        double[] moves = [.. others.SelectMany(row => Moves(row, addition, others))];
        return Radius95 * Math.Sqrt(((PriorPairs * prior * prior) + moves.Sum(move => move * move)) / (PriorPairs + moves.Length));
    }

    private static double PriorDe00(string addition) =>
        Agents.Of(addition) switch
        {
            Action.Binds when Agents.IsIron(addition) => 47,
            Action.Binds => 30,
            Action.Idle => 5,
            _ => 24,
        };

    /// <summary>What the addition moved between a jar that has it and one of the same pot, paper and state that is otherwise the
    /// same.</summary>
    private static IEnumerable<double> Moves(TrialRow with, string addition, IReadOnlyList<TrialRow> others)
    {
        if (!(with.Point.Dose(addition) > 0))
            return [];
        return others
            .Where(without =>
                without.Point.Dose(addition) == 0
                && IsSame(with.Point.Plant, without.Point.Plant)
                && IsSame(with.Point.Pot, without.Point.Pot)
                && IsSame(with.Point.Paper, without.Point.Paper)
                && IsSame(with.Point.State, without.Point.State)
                && Math.Abs(with.Point.Wash - without.Point.Wash) < 1e-9
                && with.Point.Coats == without.Point.Coats
                && with.Point.GramsPerLitre.Names.Concat(without.Point.GramsPerLitre.Names)
                    .All(name => IsSame(name, addition) || Math.Abs(with.Point.Dose(name) - without.Point.Dose(name)) < 1e-9)
            )
            .Take(1)
            .Select(without => Difference.Ciede2000(with.Colour, without.Colour));
    }

    private static bool IsSame(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
