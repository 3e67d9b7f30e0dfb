using Dyewort.Numerics;

namespace Dyewort.Pots;

/// <summary>Predicts the next of a row of positive figures from the ones so far and a guess.</summary>
/// <remarks>Normal–inverse-gamma on the logarithm: the prediction is a Student t there.</remarks>
internal sealed class LogNormalLearner
{
    private readonly double centre;
    private readonly double reach;
    private readonly double freedom;

    /// <param name="logs">Natural logarithms of the figures so far.</param>
    /// <param name="guess">Logarithm of the guess.</param>
    /// <param name="guessWeight">How many figures the guess counts for.</param>
    /// <param name="scatter">Usual scatter of the logarithm, worth six figures.</param>
    internal LogNormalLearner(IReadOnlyList<double> logs, double guess, double guessWeight, double scatter)
    {
        const double shapeBefore = 3;
        var n = logs.Count;
        var mean = n > 0 ? logs.Average() : guess;
        var weight = guessWeight + n;
        centre = ((guessWeight * guess) + (n * mean)) / weight;
        var shape = shapeBefore + (n / 2.0);
        var scale =
            (shapeBefore * scatter * scatter)
            + (0.5 * logs.Sum(value => (value - mean) * (value - mean)))
            + (guessWeight * n * (mean - guess) * (mean - guess) / (2 * weight));
        freedom = 2 * shape;
        reach = Math.Sqrt(scale / shape * (1 + (1 / weight)));
    }

    /// <summary>The figure that the next one stays below with a chance.</summary>
    /// <param name="chance">Between 0 and 1.</param>
    internal double Quantile(double chance) => Math.Exp(centre + (reach * StudentDistribution.Quantile(chance, freedom)));
}
