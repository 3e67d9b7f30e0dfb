using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>The lowest point of the convex function with the activity coefficients held: Newton's method with an active set of
/// limits.</summary>
/// <remarks>Limits that hold are met exactly by the bordered system of their multipliers; one whose amount turns negative is let go, the
/// most supersaturated of the others is let in. Where that goes in circles the interior point says which limits hold.
/// Source: Nocedal, Wright, sections 16.1 and 16.5 [NocedalWright2006]; the dual function is that of Smith, Missen, chapter 6
/// [SmithMissen1982].</remarks>
internal sealed class ActiveSetNewton
{
    private const int MostSteps = 120;
    private const int MostChangesOfSet = 40;

    private readonly EquilibriumState state;
    private readonly InteriorPoint interior;
    private readonly double[] matrix;
    private readonly double[] right;
    private readonly double[] scale;
    private readonly List<int> active = [];

    public ActiveSetNewton(EquilibriumState state)
    {
        this.state = state;
        interior = new(state);
        var (components, limits) = (state.X.Length, state.Multipliers.Length);
        matrix = new double[(components + limits) * (components + limits)];
        right = new double[components + limits];
        scale = new double[components];
    }

    private SolubilityLimit[] Limits => state.Problem.Limits;

    /// <summary>Forgets which limits held: only those that must hold do.</summary>
    public void Reset()
    {
        active.Clear();
        Array.Clear(state.Multipliers);
        for (var k = 0; k < Limits.Length; k++)
        {
            if (Limits[k].IsEquality)
                active.Add(k);
        }
    }

    /// <summary>Solves from where the state stands, beginning with the limits that held before.</summary>
    /// <returns>Converged; RoundLimit where neither way found the answer.</returns>
    public Ending Solve()
    {
        for (var round = 0; round < MostChangesOfSet; round++)
        {
            if (Newton() != Ending.Converged)
                return ByInteriorPoint();
            if (Leaving() is { } leaving)
            {
                active.Remove(leaving);
                state.Multipliers[leaving] = 0;
            }
            else if (Entering() is { } entering)
            {
                active.Add(entering);
            }
            else
            {
                return Ending.Converged;
            }
        }

        return ByInteriorPoint();
    }

    private int? Leaving()
    {
        var (worst, which) = (Tolerances.NegativeAmount, (int?)null);
        foreach (var k in active)
        {
            if (!Limits[k].IsEquality && state.Multipliers[k] < worst)
                (worst, which) = (state.Multipliers[k], k);
        }

        return which;
    }

    private int? Entering()
    {
        var (worst, which) = (Tolerances.Supersaturation, (int?)null);
        for (var k = 0; k < Limits.Length; k++)
        {
            if (active.Contains(k))
                continue;
            var above = state.Excess(k);
            if (above > worst)
                (worst, which) = (above, k);
        }

        return which;
    }

    private Ending ByInteriorPoint()
    {
        if (interior.Search(active) != Ending.Converged)
            return Ending.RoundLimit;
        var kept = (double[])state.X.Clone();
        var keptMultipliers = (double[])state.Multipliers.Clone();
        if (Newton() == Ending.Converged)
            return Ending.Converged;
        // Two limits that say the same leave Newton's matrix singular; the interior point's own answer is good to its tolerance.
        Array.Copy(kept, state.X, kept.Length);
        Array.Copy(keptMultipliers, state.Multipliers, keptMultipliers.Length);
        state.Gather(withHessian: false);
        return Ending.Converged;
    }

    /// <summary>Newton's method with the active limits as equations.</summary>
    /// <returns>Converged, Stalled (a singular matrix) or RoundLimit.</returns>
    private Ending Newton()
    {
        var n = state.X.Length;
        for (var step = 0; step < MostSteps; step++)
        {
            state.Steps++;
            state.Gather(withHessian: true);
            if (step > 0 && IsSettled())
                return Ending.Converged;
            var all = n + active.Count;
            SetUp(n, all);
            if (!LinearSystem.TrySolve(matrix.AsSpan(0, all * all), right.AsSpan(0, all)))
                return Ending.Stalled;
            var largest = 0.0;
            for (var j = 0; j < n; j++)
                largest = Math.Max(largest, Math.Abs(right[j] * scale[j]));
            if (!double.IsFinite(largest))
                return Ending.Stalled;
            var share = largest > Tolerances.LongestStep ? Tolerances.LongestStep / largest : 1;
            for (var j = 0; j < n; j++)
                state.X[j] += share * right[j] * scale[j];
            for (var a = 0; a < active.Count; a++)
                state.Multipliers[active[a]] = right[n + a];
            // Balances cannot be met better than rounding allows; steps this small are the end of the road.
            if (largest < Tolerances.SmallestStep && step > 2)
            {
                state.Gather(withHessian: false);
                return Ending.Converged;
            }
        }

        return Ending.RoundLimit;
    }

    private bool IsSettled()
    {
        for (var j = 0; j < state.X.Length; j++)
        {
            var total = state.Problem.Totals[j];
            var (residual, extent) = (state.Sums[j] - total, state.Sizes[j]);
            foreach (var k in active)
            {
                var fallen = Limits[k].Row[j] * state.Multipliers[k];
                residual += fallen;
                extent += Math.Abs(fallen);
            }

            if (Math.Abs(residual) > Tolerances.Balance * (extent + Math.Abs(total)))
                return false;
        }

        return active.TrueForAll(k => Math.Abs(state.Excess(k)) <= Tolerances.Saturation);
    }

    /// <summary>The bordered matrix, scaled so that its diagonal is one, and its right side.</summary>
    private void SetUp(int n, int all)
    {
        for (var j = 0; j < n; j++)
            scale[j] = 1 / Math.Sqrt(Math.Max(state.Hessian[(j * n) + j], 1e-300));
        for (var r = 0; r < n; r++)
        {
            for (var c = 0; c < n; c++)
                matrix[(r * all) + c] = state.Hessian[(r * n) + c] * scale[r] * scale[c];
            for (var a = 0; a < active.Count; a++)
            {
                var scaled = Limits[active[a]].Row[r] * scale[r];
                matrix[(r * all) + n + a] = scaled;
                matrix[((n + a) * all) + r] = scaled;
            }

            right[r] = (state.Problem.Totals[r] - state.Sums[r]) * scale[r];
        }

        for (var a = 0; a < active.Count; a++)
        {
            for (var b = 0; b < active.Count; b++)
                matrix[((n + a) * all) + n + b] = 0;
            right[n + a] = -state.Excess(active[a]);
        }
    }
}
