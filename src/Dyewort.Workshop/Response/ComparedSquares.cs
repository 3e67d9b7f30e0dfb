using Dyewort.Colour;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Squares of one thing, to be compared with those of another.</summary>
/// <param name="Label">What it is called: a sample's code and its paper, a batch, or a colour as it was typed.</param>
/// <param name="Squares">Its squares.</param>
public sealed record ComparedSquares(string Label, IReadOnlyList<ComparedSquare> Squares)
{
    /// <summary>A colour that was typed.</summary>
    public static ComparedSquares Of(string label, Lab colour) => new(label, [new(colour, null, null)]);

    /// <summary>All that was read of a sample, on whatever paper; null where the trials do not hold it.</summary>
    public static ComparedSquares? Of(TrialSource trials, string sample)
    {
        ArgumentNullException.ThrowIfNull(trials);
        var rows = trials
            .PaintedRows.Where(row => string.Equals(row.Point.Sample, sample, StringComparison.OrdinalIgnoreCase))
            .Select(ComparedSquare.Of)
            .ToList();
        return rows.Count > 0 ? new(sample, rows) : null;
    }
}

/// <param name="Colour">Its colour.</param>
/// <param name="Way">How it was painted; null for a colour that was typed.</param>
/// <param name="Row">Its row in the trials; null where it stands in none.</param>
public sealed record ComparedSquare(Lab Colour, SquareWay? Way, TrialRow? Row)
{
    /// <summary>A row of the trials.</summary>
    public static ComparedSquare Of(TrialRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return new(row.Colour, new(row.Point.State, row.Point.Paper, row.Point.Wash, row.Point.Coats), row);
    }
}

/// <summary>How a square was painted: squares that differ in this cannot be compared.</summary>
/// <param name="State">"dry" and so on, as the trials name it.</param>
/// <param name="Paper">The paper; null where nobody wrote it down, which matches any.</param>
/// <param name="Wash">One part of ink in so many of the whole.</param>
/// <param name="Coats">How many coats.</param>
public readonly record struct SquareWay(string State, string? Paper, double Wash, double Coats)
{
    /// <summary>True where squares of the two may be compared.</summary>
    public bool Matches(SquareWay other) =>
        string.Equals(State, other.State, StringComparison.OrdinalIgnoreCase)
        && Wash == other.Wash
        && Coats == other.Coats
        && (Paper is null || other.Paper is null || string.Equals(Paper, other.Paper, StringComparison.OrdinalIgnoreCase));
}
