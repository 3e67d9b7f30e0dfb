using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>Begins near the answer: pH by bisection, the other components fitted to their totals one by one.</summary>
/// <remarks>Each component is moved as far as its dominant species asks, in the manner of the positive continuous fraction
/// [Carrayrou2002].</remarks>
internal static class FirstGuess
{
    /// <summary>pH within 0.004: more is Newton's work.</summary>
    private const double PhWidth = 0.005;

    /// <summary>Sets X.</summary>
    /// <param name="state">Where to set it.</param>
    /// <param name="ph">The pH to begin at; null finds one whose protons add up.</param>
    public static void Set(EquilibriumState state, double? ph)
    {
        var (x, totals) = (state.X, state.Problem.Totals);
        for (var j = 1; j < x.Length; j++)
            x[j] = Math.Log(Math.Max(totals[j], 1e-6));
        if (ph is { } given)
        {
            x[0] = -given * ActivityModel.Ln10;
            Fit(state, 6);
            return;
        }

        // Where the protons of every pH are too many or too few, the end of the scale is the nearest beginning.
        var isFirst = true;
        Bisection.Narrow(
            -1,
            15,
            PhWidth,
            middle =>
            {
                x[0] = -middle * ActivityModel.Ln10;
                Fit(state, isFirst ? 6 : 2);
                isFirst = false;
                return Protons(state) > totals[0];
            }
        );
    }

    private static double Protons(EquilibriumState state)
    {
        state.ComputeMolalities();
        var (problem, protons) = (state.Problem, 0.0);
        for (var i = 0; i < state.Molalities.Length; i++)
        {
            for (var p = problem.Starts[i]; p < problem.Starts[i + 1]; p++)
            {
                if (problem.Columns[p] == 0)
                    protons += problem.Coefficients[p] * state.Molalities[i];
            }
        }

        return protons;
    }

    private static void Fit(EquilibriumState state, int sweeps)
    {
        var (problem, x) = (state.Problem, state.X);
        var (starts, columns, nu, totals) = (problem.Starts, problem.Columns, problem.Coefficients, problem.Totals);
        Span<double> sums = stackalloc double[x.Length];
        Span<double> largest = stackalloc double[x.Length];
        Span<double> dominant = stackalloc double[x.Length];
        for (var sweep = 0; sweep < sweeps; sweep++)
        {
            state.ComputeMolalities();
            sums.Clear();
            largest.Clear();
            for (var i = 0; i < state.Molalities.Length; i++)
            {
                for (var p = starts[i]; p < starts[i + 1]; p++)
                {
                    var share = nu[p] * state.Molalities[i];
                    sums[columns[p]] += share;
                    if (share <= largest[columns[p]])
                        continue;
                    largest[columns[p]] = share;
                    dominant[columns[p]] = nu[p];
                }
            }

            for (var j = 1; j < x.Length; j++)
            {
                if (totals[j] > 0 && sums[j] > 0)
                    x[j] += Math.Clamp(Math.Log(totals[j] / sums[j]) / dominant[j], -60, 6);
            }
        }
    }
}
