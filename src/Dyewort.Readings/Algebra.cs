namespace Dyewort.Readings;

/// <summary>Small dense linear algebra and least squares for the few unknowns that a photo has.</summary>
public static class Algebra
{
    /// <summary>Inverse of a 3 × 3 matrix.</summary>
    /// <exception cref="ArgumentException">The matrix has no inverse.</exception>
    public static double[,] Invert3(double[,] m)
    {
        var c00 = (m[1, 1] * m[2, 2]) - (m[1, 2] * m[2, 1]);
        var c01 = (m[1, 2] * m[2, 0]) - (m[1, 0] * m[2, 2]);
        var c02 = (m[1, 0] * m[2, 1]) - (m[1, 1] * m[2, 0]);
        var determinant = (m[0, 0] * c00) + (m[0, 1] * c01) + (m[0, 2] * c02);
        if (Math.Abs(determinant) < 1e-300 || !double.IsFinite(determinant))
            throw new ArgumentException("The matrix has no inverse.", nameof(m));
        var s = 1 / determinant;
        return new[,]
        {
            { c00 * s, ((m[0, 2] * m[2, 1]) - (m[0, 1] * m[2, 2])) * s, ((m[0, 1] * m[1, 2]) - (m[0, 2] * m[1, 1])) * s },
            { c01 * s, ((m[0, 0] * m[2, 2]) - (m[0, 2] * m[2, 0])) * s, ((m[0, 2] * m[1, 0]) - (m[0, 0] * m[1, 2])) * s },
            { c02 * s, ((m[0, 1] * m[2, 0]) - (m[0, 0] * m[2, 1])) * s, ((m[0, 0] * m[1, 1]) - (m[0, 1] * m[1, 0])) * s },
        };
    }

    /// <summary>Solves A x = b for a symmetric positive definite A by Cholesky's method; A is overwritten.</summary>
    /// <returns>x, or null where A is not positive definite.</returns>
    public static double[]? SolvePositive(double[,] a, double[] b)
    {
        var n = b.Length;
        var x = (double[])b.Clone();
        for (var column = 0; column < n; column++)
        {
            var pivot = a[column, column];
            for (var k = 0; k < column; k++)
                pivot -= a[column, k] * a[column, k];
            if (!(pivot > 0) || !double.IsFinite(pivot))
                return null;
            pivot = Math.Sqrt(pivot);
            a[column, column] = pivot;
            for (var row = column + 1; row < n; row++)
            {
                var sum = a[row, column];
                for (var k = 0; k < column; k++)
                    sum -= a[row, k] * a[column, k];
                a[row, column] = sum / pivot;
            }
        }

        for (var row = 0; row < n; row++)
        {
            for (var k = 0; k < row; k++)
                x[row] -= a[row, k] * x[k];
            x[row] /= a[row, row];
        }

        for (var row = n - 1; row >= 0; row--)
        {
            for (var k = row + 1; k < n; k++)
                x[row] -= a[k, row] * x[k];
            x[row] /= a[row, row];
        }

        return x;
    }

    /// <summary>Minimises the sum of squares of residuals by damped Gauss–Newton steps with numeric derivatives.</summary>
    /// <param name="start">First guess; not changed.</param>
    /// <param name="residuals">Fills the residuals of a guess.</param>
    /// <param name="count">How many residuals there are.</param>
    /// <param name="steps">A step per unknown for its derivative, in that unknown's unit.</param>
    /// <param name="rounds">Most rounds to go.</param>
    /// <returns>The best guess and half its sum of squares.</returns>
    /// <remarks>The method of Levenberg and Marquardt as numerical textbooks give it.</remarks>
    public static (double[] Best, double Cost) Minimise(
        double[] start,
        Action<double[], double[]> residuals,
        int count,
        double[] steps,
        int rounds = 60
    )
    {
        var n = start.Length;
        var at = (double[])start.Clone();
        var r = new double[count];
        var trial = new double[count];
        var jacobian = new double[count, n];
        residuals(at, r);
        var cost = Cost(r);
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
                    jacobian[i, j] = (trial[i] - r[i]) / steps[j];
            }

            var normal = new double[n, n];
            var gradient = new double[n];
            for (var i = 0; i < count; i++)
            {
                for (var j = 0; j < n; j++)
                {
                    gradient[j] -= jacobian[i, j] * r[i];
                    for (var k = 0; k <= j; k++)
                        normal[j, k] += jacobian[i, j] * jacobian[i, k];
                }
            }

            var improved = false;
            var gain = 0.0;
            for (var attempt = 0; attempt < 8 && !improved; attempt++)
            {
                var damped = new double[n, n];
                for (var j = 0; j < n; j++)
                {
                    for (var k = 0; k <= j; k++)
                        damped[j, k] = damped[k, j] = normal[j, k];
                    damped[j, j] += (damping * normal[j, j]) + 1e-12;
                }

                var step = SolvePositive(damped, gradient);
                if (step is not null)
                {
                    var candidate = new double[n];
                    for (var j = 0; j < n; j++)
                        candidate[j] = at[j] + step[j];
                    residuals(candidate, trial);
                    var candidateCost = Cost(trial);
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

            if (!improved || gain < 1e-9 * (cost + 1e-12))
                break;
        }

        return (at, cost);
    }

    private static double Cost(double[] residuals)
    {
        double sum = 0;
        foreach (var residual in residuals)
            sum += residual * residual;
        return sum / 2;
    }
}
