namespace Dyewort.Response;

/// <summary>How a reading's stated ± compares with what is usual in its table.</summary>
/// <param name="UsualDe00">Median of the ± that the readings state, ΔE₀₀; 0 where none does.</param>
internal readonly record struct ReadingScatter(double UsualDe00)
{
    /// <summary>The painter's part of a usual reading's variance (estimate, no source): no reading with a smaller ± makes a painter
    /// steadier.</summary>
    private const double PaintersShare = 0.5;

    public static ReadingScatter Of(IEnumerable<TrialRow> rows)
    {
        var stated = rows.Select(row => row.UncertaintyDe00 ?? 0).Where(doubt => doubt > 0).Order().ToArray();
        return new(stated.Length == 0 ? 0 : stated[stated.Length / 2]);
    }

    /// <summary>Variance of a reading's scatter against that of a reading with the usual ±.</summary>
    /// <remarks>How large the usual scatter is, the trials themselves say: what the readings of one photo err by in common moves no square
    /// against another.</remarks>
    public double Times(TrialRow row) =>
        row.UncertaintyDe00 is { } doubt && UsualDe00 > 0
            ? PaintersShare + ((1 - PaintersShare) * doubt * doubt / (UsualDe00 * UsualDe00))
            : 1;
}
