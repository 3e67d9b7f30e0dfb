namespace Dyewort.Chemistry.Solving;

/// <summary>Where the search stands: the unknowns, and the sums that follow from them.</summary>
/// <remarks>Arrays belong to one problem and are written over at every step: a jar is solved in some ten thousandths of a second, mostly
/// here.</remarks>
internal sealed class EquilibriumState
{
    private readonly EquilibriumProblem problem;
    private readonly double[] lnK;
    private readonly double[] limitLnK;

    public EquilibriumState(EquilibriumProblem problem)
    {
        this.problem = problem;
        var (components, species, limits) = (problem.Totals.Length, problem.SpeciesNames.Length, problem.Limits.Length);
        (lnK, limitLnK) = (new double[species], new double[limits]);
        (X, Multipliers, Molalities) = (new double[components], new double[limits], new double[species]);
        (Sums, Sizes, Hessian) = (new double[components], new double[components], new double[components * components]);
    }

    public EquilibriumProblem Problem => problem;

    /// <summary>ln molality of each component.</summary>
    public double[] X { get; }

    /// <summary>mol/kg of what has fallen out or left, for each limit.</summary>
    public double[] Multipliers { get; }

    /// <summary>mol/kg of each species.</summary>
    public double[] Molalities { get; }

    /// <summary>mol/kg of each component in all its species: the gradient of Σ m.</summary>
    public double[] Sums { get; }

    /// <summary>The same with every term taken as positive: what rounding is measured against.</summary>
    public double[] Sizes { get; }

    /// <summary>Second derivatives of Σ m, row by row.</summary>
    public double[] Hessian { get; }

    /// <summary>Newton steps taken so far, of either kind.</summary>
    public int Steps { get; set; }

    /// <summary>Takes over activity coefficients: they become part of the constants.</summary>
    public void Hold(ActivityModel activities)
    {
        var (starts, columns, nu, charges) = (problem.Starts, problem.Columns, problem.Coefficients, problem.Charges);
        for (var i = X.Length; i < lnK.Length; i++)
        {
            var value = problem.LnK[i] + (problem.Waters[i] * activities.LnWater) - activities.LnGamma(charges[i]);
            for (var p = starts[i]; p < starts[i + 1]; p++)
                value += nu[p] * activities.LnGamma(charges[columns[p]]);
            lnK[i] = value;
        }

        for (var k = 0; k < limitLnK.Length; k++)
        {
            var limit = problem.Limits[k];
            var value = limit.LnK - (limit.Waters * activities.LnWater);
            for (var j = 0; j < X.Length; j++)
            {
                if (limit.Row[j] != 0)
                    value -= limit.Row[j] * activities.LnGamma(charges[j]);
            }

            limitLnK[k] = value;
        }
    }

    /// <summary>Molalities of all species at X.</summary>
    public void ComputeMolalities()
    {
        var (starts, columns, nu, m, x) = (problem.Starts, problem.Columns, problem.Coefficients, Molalities, X);
        for (var i = 0; i < m.Length; i++)
        {
            var exponent = lnK[i];
            for (var p = starts[i]; p < starts[i + 1]; p++)
                exponent += nu[p] * x[columns[p]];
            // e^230 is far beyond any jar; the bound only keeps a wild first step finite.
            m[i] = Math.Exp(Math.Min(exponent, 230));
        }
    }

    /// <summary>Molalities, sums and, if wanted, second derivatives at X.</summary>
    public void Gather(bool withHessian)
    {
        ComputeMolalities();
        Array.Clear(Sums);
        Array.Clear(Sizes);
        if (withHessian)
            Array.Clear(Hessian);
        var (starts, columns, nu, n) = (problem.Starts, problem.Columns, problem.Coefficients, X.Length);
        for (var i = 0; i < Molalities.Length; i++)
        {
            var amount = Molalities[i];
            for (var p = starts[i]; p < starts[i + 1]; p++)
            {
                var weighted = nu[p] * amount;
                Sums[columns[p]] += weighted;
                Sizes[columns[p]] += Math.Abs(weighted);
                if (!withHessian)
                    continue;
                for (var q = starts[i]; q < starts[i + 1]; q++)
                    Hessian[(columns[p] * n) + columns[q]] += weighted * nu[q];
            }
        }
    }

    /// <summary>ln of ion activity product over constant of a limit; 0 at saturation.</summary>
    public double Excess(int limit)
    {
        var row = problem.Limits[limit].Row;
        var value = -limitLnK[limit];
        for (var j = 0; j < row.Length; j++)
            value += row[j] * X[j];
        return value;
    }

    /// <summary>Ionic strength and sum of all dissolved species, mol/kg.</summary>
    public (double Strength, double Solutes) Strength()
    {
        var (strength, solutes) = (0.0, 0.0);
        for (var i = 0; i < Molalities.Length; i++)
        {
            var charge = problem.Charges[i];
            strength += 0.5 * Molalities[i] * charge * charge;
            solutes += Molalities[i];
        }

        return (strength, solutes);
    }
}
