using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>Finds the composition of a watery mixture at equilibrium.</summary>
/// <remarks>
/// With the activity coefficients held, equilibrium is the lowest point of the convex function F(x) = Σ m_i(x) − Σ T_j x_j, x = ln molality
/// of the components, under the constraints that no allowed solid is above saturation; a solid's amount is the multiplier of its
/// constraint, and CO2 gas is treated as one more "solid" (the dual of minimising the free energy [SmithMissen1982]). Convexity is what
/// makes it converge from anywhere. Here the coefficients are matched to the ionic strength by a secant that is kept inside a bracket
/// [Dekker1969].
/// </remarks>
internal sealed class EquilibriumSolver
{
    private const int MostPasses = 80;

    private readonly EquilibriumState state;
    private readonly ActivityModel activities;
    private readonly ActiveSetNewton newton;

    private EquilibriumSolver(SolverInput input)
    {
        state = new(EquilibriumProblem.Of(input));
        activities = new(input.Celsius);
        newton = new(state);
    }

    /// <summary>Solves, or says that it could not.</summary>
    /// <returns>Null where no beginning led to an answer.</returns>
    public static SolverOutput? Solve(SolverInput input)
    {
        var solver = new EquilibriumSolver(input);
        SolverOutput? best = null;
        foreach (var startPh in (ReadOnlySpan<double?>)[null, 7, 4, 10, 2, 12.5])
        {
            foreach (var mostStrength in (ReadOnlySpan<double>)[0.3, 0.02, 1.5])
            {
                // Stalled is an answer too: as near as rounding lets it come, and nearer than anybody could measure.
                if (solver.MatchIonicStrength(startPh, mostStrength) is not ((Ending.Converged or Ending.Stalled) and var ending))
                    continue;
                var found = EquilibriumReport.Of(solver.state, solver.activities, ending);
                if (Fault(found) <= Tolerances.SoundFault)
                    return found;

                // Where a trace of metal lies beside much chalk the limits that hold may have been guessed wrongly from this beginning;
                // from
                // another they are not.
                if (best is null || Fault(found) < Fault(best))
                    best = found;
            }
        }

        return best;
    }

    /// <summary>How far an answer is from what it must be: a balance that does not close, or a solid left above saturation.</summary>
    private static double Fault(SolverOutput output) =>
        Math.Max(output.WorstBalance, 1e-3 * output.Saturation.Values.DefaultIfEmpty(0).Max());

    private Ending MatchIonicStrength(double? startPh, double mostStrength)
    {
        newton.Reset();
        activities.ForgetSolutes();
        var totals = state.Problem.Totals;
        var charges = 0.0;
        for (var j = 1; j < totals.Length; j++)
            charges += 0.5 * totals[j] * state.Problem.Charges[j] * state.Problem.Charges[j];
        var strength = Math.Min(charges, mostStrength);
        var largest = totals.Max(Math.Abs);
        SetActivities(strength);
        FirstGuess.Set(state, startPh);
        var lastGap = double.PositiveInfinity;
        var (low, high) = (0.0, double.PositiveInfinity);
        var (before, gapBefore) = (double.NaN, double.NaN);
        for (var pass = 0; pass < MostPasses; pass++)
        {
            SetActivities(strength);
            if (newton.Solve() != Ending.Converged)
                return Ending.RoundLimit;
            var (found, solutes) = state.Strength();
            var gap = found - strength;
            var isWaterSettled = activities.SetSolutes(solutes);
            if (Math.Abs(gap) <= Tolerances.Strength(strength, largest) && isWaterSettled)
                return Ending.Converged;
            lastGap = gap;
            if (gap > 0)
                low = Math.Max(low, strength);
            else
                high = Math.Min(high, strength);
            var next = found;
            if (!double.IsNaN(before) && Math.Abs(gap - gapBefore) > 1e-300)
            {
                var secant = strength - (gap * (strength - before) / (gap - gapBefore));
                if (double.IsFinite(secant) && secant > 0)
                    next = secant;
            }

            // The bracket can be stale while the water activity still moves: it is opened again rather than trusted blindly.
            if (!isWaterSettled && pass < 6)
                (low, high) = (0, double.PositiveInfinity);
            if (!(next > low && next < high))
            {
                next = double.IsPositiveInfinity(high) ? Math.Max(found, low * 1.5) : 0.5 * (low + high);
                if (high - low < 1e-13 * Math.Max(1e-3, high))
                    break;
            }

            (before, gapBefore) = (strength, gap);
            strength = next;
        }

        return Math.Abs(lastGap) < Tolerances.EnoughStrength ? Ending.Stalled : Ending.RoundLimit;
    }

    private void SetActivities(double strength)
    {
        activities.SetStrength(strength);
        state.Hold(activities);
    }
}
