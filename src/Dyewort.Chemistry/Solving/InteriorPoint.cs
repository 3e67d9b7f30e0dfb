using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>Finds which limits hold where adding and removing them one by one goes in circles, or where two of them say the same.</summary>
/// <remarks>A primal-dual interior-point method: every limit has a slack and an amount, both kept above zero, whose product is driven to
/// zero. Source: Nocedal, Wright, sections 19.2 and 19.3 [NocedalWright2006].</remarks>
internal sealed class InteriorPoint
{
    private const int MostSteps = 300;

    /// <summary>Share of the mean product that the next one aims at, and of the way to zero that a step may go: customary values.</summary>
    private const double Centring = 0.1;
    private const double ShareOfTheWay = 0.95;

    private readonly EquilibriumState state;
    private readonly int[] inequalities;
    private readonly int[] equalities;
    private readonly double[] slack;
    private readonly double[] amount;
    private readonly double[] slackChange;
    private readonly double[] amountChange;
    private readonly double[] matrix;
    private readonly double[] right;
    private readonly double[] scale;

    public InteriorPoint(EquilibriumState state)
    {
        this.state = state;
        var limits = state.Problem.Limits;
        inequalities = [.. Enumerable.Range(0, limits.Length).Where(k => !limits[k].IsEquality)];
        equalities = [.. Enumerable.Range(0, limits.Length).Where(k => limits[k].IsEquality)];
        (slack, amount) = (new double[limits.Length], new double[limits.Length]);
        (slackChange, amountChange) = (new double[limits.Length], new double[limits.Length]);
        var all = state.X.Length + equalities.Length;
        (matrix, right, scale) = (new double[all * all], new double[all], new double[state.X.Length]);
    }

    /// <summary>Searches from a first guess of its own; leaves the best point in the state.</summary>
    /// <param name="active">The limits that hold, afterwards.</param>
    /// <returns>Converged where a point was found at which it can be told which limits hold, else Stalled or RoundLimit.</returns>
    public Ending Search(List<int> active)
    {
        FirstGuess.Set(state, null);
        foreach (var k in inequalities)
        {
            slack[k] = Math.Max(1, -state.Excess(k));
            amount[k] = 1e-2 / slack[k];
        }

        // Rounding can spoil later passes, so the best is kept.
        double[]? bestX = null;
        var (bestSlack, bestAmount, bestMultipliers) = (slack, amount, state.Multipliers);
        var ending = Ending.RoundLimit;
        for (var step = 0; step < MostSteps; step++)
        {
            state.Steps++;
            state.Gather(withHessian: true);
            var complement = 0.0;
            foreach (var k in inequalities)
                complement += slack[k] * amount[k];
            var mu = inequalities.Length > 0 ? Centring * complement / inequalities.Length : 0;
            var worst = Residuals(mu);
            if (worst < Tolerances.InteriorNear && complement < Tolerances.InteriorNearComplement)
            {
                bestX = (double[])state.X.Clone();
                (bestSlack, bestAmount) = ((double[])slack.Clone(), (double[])amount.Clone());
                bestMultipliers = (double[])state.Multipliers.Clone();
                if (worst < Tolerances.InteriorDone && complement < Tolerances.InteriorDoneComplement)
                    break;
            }
            else if (bestX is not null)
            {
                break;
            }

            if (!TryStep(mu))
            {
                ending = Ending.Stalled;
                break;
            }
        }

        if (bestX is null)
            return ending;
        Array.Copy(bestX, state.X, bestX.Length);
        Array.Copy(bestMultipliers, state.Multipliers, bestMultipliers.Length);
        active.Clear();
        active.AddRange(equalities);
        foreach (var k in inequalities)
        {
            state.Multipliers[k] = bestAmount[k] > bestSlack[k] ? bestAmount[k] : 0;
            if (state.Multipliers[k] > 0)
                active.Add(k);
        }

        return Ending.Converged;
    }

    /// <summary>Fills the right side of the next step and tells the largest error of any equation.</summary>
    private double Residuals(double mu)
    {
        var (problem, worst) = (state.Problem, 0.0);
        for (var j = 0; j < state.X.Length; j++)
        {
            var total = problem.Totals[j];
            var gradient = state.Sums[j] - total;
            foreach (var k in inequalities)
                gradient += problem.Limits[k].Row[j] * amount[k];
            foreach (var k in equalities)
                gradient += problem.Limits[k].Row[j] * state.Multipliers[k];
            worst = Math.Max(worst, Math.Abs(gradient) / (state.Sizes[j] + Math.Abs(total) + 1e-12));
            right[j] = total - state.Sums[j];
            foreach (var k in inequalities)
            {
                var primal = state.Excess(k) + slack[k];
                right[j] -= problem.Limits[k].Row[j] * ((mu / slack[k]) + (amount[k] / slack[k] * primal));
            }
        }

        foreach (var k in inequalities)
            worst = Math.Max(worst, Math.Abs(state.Excess(k) + slack[k]));
        foreach (var k in equalities)
            worst = Math.Max(worst, Math.Abs(state.Excess(k)));
        return worst;
    }

    /// <summary>One Newton step towards products of <paramref name="mu"/>, shortened so that slacks and amounts stay above zero.</summary>
    private bool TryStep(double mu)
    {
        var limits = state.Problem.Limits;
        var n = state.X.Length;
        SetUp(n);
        var all = n + equalities.Length;
        if (!LinearSystem.TrySolve(matrix, right))
            return false;
        var largest = 0.0;
        for (var j = 0; j < n; j++)
            largest = Math.Max(largest, Math.Abs(right[j] * scale[j]));
        var share = largest > Tolerances.LongestStep ? Tolerances.LongestStep / largest : 1;
        foreach (var k in inequalities)
        {
            var along = 0.0;
            for (var j = 0; j < n; j++)
                along += limits[k].Row[j] * right[j] * scale[j];
            slackChange[k] = -(state.Excess(k) + slack[k]) - along;
            amountChange[k] = ((mu - (amount[k] * slackChange[k])) / slack[k]) - amount[k];
            if (slackChange[k] < 0)
                share = Math.Min(share, -ShareOfTheWay * slack[k] / slackChange[k]);
            if (amountChange[k] < 0)
                share = Math.Min(share, -ShareOfTheWay * amount[k] / amountChange[k]);
        }

        for (var j = 0; j < n; j++)
            state.X[j] += share * right[j] * scale[j];
        foreach (var k in inequalities)
        {
            slack[k] += share * slackChange[k];
            amount[k] += share * amountChange[k];
        }

        for (var e = n; e < all; e++)
            state.Multipliers[equalities[e - n]] += share * (right[e] - state.Multipliers[equalities[e - n]]);
        return true;
    }

    /// <summary>The matrix of the step, slacks and amounts eliminated, scaled so that its diagonal is one.</summary>
    private void SetUp(int n)
    {
        var limits = state.Problem.Limits;
        var all = n + equalities.Length;
        Array.Clear(matrix);
        for (var r = 0; r < n; r++)
        {
            for (var c = 0; c < n; c++)
            {
                var value = state.Hessian[(r * n) + c];
                foreach (var k in inequalities)
                    value += limits[k].Row[r] * limits[k].Row[c] * amount[k] / slack[k];
                matrix[(r * all) + c] = value;
            }
        }

        for (var j = 0; j < n; j++)
            scale[j] = 1 / Math.Sqrt(Math.Max(matrix[(j * all) + j], 1e-300));
        for (var r = 0; r < n; r++)
        {
            for (var c = 0; c < n; c++)
                matrix[(r * all) + c] *= scale[r] * scale[c];
            right[r] *= scale[r];
            for (var e = 0; e < equalities.Length; e++)
            {
                var scaled = limits[equalities[e]].Row[r] * scale[r];
                matrix[(r * all) + n + e] = scaled;
                matrix[((n + e) * all) + r] = scaled;
            }
        }

        for (var e = 0; e < equalities.Length; e++)
            right[n + e] = -state.Excess(equalities[e]);
    }
}
