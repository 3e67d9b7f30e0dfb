using Dyewort.Colour;

namespace Dyewort.Response;

/// <summary>One reading foretold from all other samples.</summary>
/// <param name="Row">The reading.</param>
/// <param name="Predicted">The colour the other samples let expect.</param>
/// <param name="UncertaintyDe00">95 % radius of the painted colour around <paramref name="Predicted"/>.</param>
/// <param name="ReadingDe00">95 % radius for one reading of it: what the painting leaves open and the reader's scatter together.</param>
/// <param name="OffDe00">ΔE₀₀ from <paramref name="Predicted"/> to what was read.</param>
/// <param name="Inside">True where <paramref name="OffDe00"/> is within <paramref name="ReadingDe00"/>.</param>
public sealed record LeftOut(TrialRow Row, Lab Predicted, double UncertaintyDe00, double ReadingDe00, double OffDe00, bool Inside);

/// <summary>How well a plant's samples foretell each other.</summary>
/// <remarks>Every reading of a sample is left out together with the sample's other readings (other papers, washes, states): they would give
/// it away. The hyperparameters stay those of the whole table, so with fewer than about ten samples the error is a little
/// flattered.</remarks>
public sealed record LeaveOneOut
{
    internal LeaveOneOut(IReadOnlyList<LeftOut> readings)
    {
        Readings = readings;
        var off = readings.Select(one => one.OffDe00).Order().ToArray();
        MeanDe00 = off.Average();
        MedianDe00 = (off[(off.Length - 1) / 2] + off[off.Length / 2]) / 2;
        Percentile95De00 = off[Math.Min(off.Length - 1, (int)Math.Ceiling(0.95 * off.Length) - 1)];
        Coverage = (double)readings.Count(one => one.Inside) / readings.Count;
    }

    /// <summary>One per painted reading, in the order of the table.</summary>
    public IReadOnlyList<LeftOut> Readings { get; }

    /// <summary>Mean ΔE₀₀ between what was foretold and what was read; the reader's own scatter is part of it.</summary>
    public double MeanDe00 { get; }

    /// <summary>Median of the same.</summary>
    public double MedianDe00 { get; }

    /// <summary>95th percentile of the same.</summary>
    public double Percentile95De00 { get; }

    /// <summary>Share of the readings inside their 95 % radius, 0 to 1.</summary>
    public double Coverage { get; }
}
