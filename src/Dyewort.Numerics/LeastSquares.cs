namespace Dyewort.Numerics;

/// <summary>The smallest sum of squares that was found.</summary>
/// <param name="Best">The unknowns there.</param>
/// <param name="Cost">Half the sum of the squared residuals.</param>
/// <param name="Ending">Converged: a round gained less than a billionth; Stalled: no damping made it better (the usual ending at a sharp
/// lowest point); RoundLimit.</param>
/// <param name="Rounds">Rounds gone.</param>
public sealed record LeastSquaresFit(double[] Best, double Cost, Ending Ending, int Rounds);

/// <summary>Nonlinear least squares for few unknowns.</summary>
public static class LeastSquares
{
    private const double EnoughGain = 1e-9;
    private const int MostDampings = 8;

    /// <summary>Minimises the sum of squares of residuals by damped Gauss–Newton steps with numeric derivatives.</summary>
    /// <param name="start">First guess; not changed.</param>
    /// <param name="residuals">Fills the residuals of a guess.</param>
    /// <param name="count">How many residuals there are.</param>
    /// <param name="steps">A step per unknown for its derivative, in that unknown's unit.</param>
    /// <param name="rounds">Most rounds to go.</param>
    /// <remarks>Damping scaled by the normal matrix's own diagonal. Source: [Levenberg1944], [Marquardt1963].</remarks>
    public static LeastSquaresFit Minimise(double[] start, Action<double[], double[]> residuals, int count, double[] steps, int rounds = 60)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(residuals);
        ArgumentNullException.ThrowIfNull(steps);
        var n = start.Length;
        var at = (double[])start.Clone();
        var r = new double[count];
        var trial = new double[count];
        var jacobian = new double[count * n];
        var normal = new double[n * n];
        var gradient = new double[n];
        var damped = new double[n * n];
        var step = new double[n];
        residuals(at, r);
        var cost = CostOf(r);
        var damping = 1e-3;
        for (var round = 0; round < rounds; round++)
        {
            for (var j = 0; j < n; j++)
            {
                var keep = at[j];
                at[j] = keep + steps[j];
                residuals(at, trial);
                at[j] = keep;
                for (var i = 0; i < count; i++)
                    jacobian[(i * n) + j] = (trial[i] - r[i]) / steps[j];
            }

            Array.Clear(normal);
            Array.Clear(gradient);
            for (var i = 0; i < count; i++)
            {
                var slope = jacobian.AsSpan(i * n, n);
                for (var j = 0; j < n; j++)
                {
                    gradient[j] -= slope[j] * r[i];
                    for (var k = 0; k <= j; k++)
                        normal[(j * n) + k] += slope[j] * slope[k];
                }
            }

            var improved = false;
            var gain = 0.0;
            for (var attempt = 0; attempt < MostDampings && !improved; attempt++)
            {
                normal.CopyTo(damped, 0);
                for (var j = 0; j < n; j++)
                    damped[(j * n) + j] += (damping * normal[(j * n) + j]) + 1e-12;
                gradient.CopyTo(step, 0);
                if (Cholesky.TrySolve(damped, step))
                {
                    var candidate = new double[n];
                    for (var j = 0; j < n; j++)
                        candidate[j] = at[j] + step[j];
                    residuals(candidate, trial);
                    var candidateCost = CostOf(trial);
                    if (double.IsFinite(candidateCost) && candidateCost < cost)
                    {
                        gain = cost - candidateCost;
                        at = candidate;
                        (r, trial) = (trial, r);
                        cost = candidateCost;
                        damping = Math.Max(damping / 4, 1e-9);
                        improved = true;
                        continue;
                    }
                }

                damping *= 6;
            }

            if (!improved)
                return new(at, cost, Ending.Stalled, round + 1);
            if (gain < EnoughGain * (cost + 1e-12))
                return new(at, cost, Ending.Converged, round + 1);
        }

        return new(at, cost, Ending.RoundLimit, rounds);
    }

    private static double CostOf(double[] residuals)
    {
        double sum = 0;
        foreach (var residual in residuals)
            sum += residual * residual;
        return sum / 2;
    }
}
