namespace Dyewort.Chemistry.Solving;

/// <summary>Finds the composition of a watery mixture at equilibrium.</summary>
/// <remarks>
/// With the activity coefficients held, equilibrium is the lowest point of the convex function F(x) = Σ m_i(x) − Σ T_j x_j, x = ln molality of the
/// components, under the constraints that no allowed solid is above saturation; a solid's amount is the multiplier of its constraint, and CO2 gas is
/// treated as one more "solid". Newton's method with an active set solves that; where the set goes in circles an interior-point pass finds it.
/// The coefficients (Davies, b = 0.3; neutral species log γ = 0.1 I; water activity 1 − 0.017 Σm) are then matched to the ionic strength by a bracketed secant.
/// Convexity is what makes it converge from anywhere.
/// </remarks>
internal sealed class EquilibriumSolver
{
    /// <summary>Above this ionic strength, mol/kg, the coefficients are held at its value: Davies' formula turns unphysical there.</summary>
    public const double ActivityCeiling = 2;

    private const double Ln10 = 2.302585092994046;
    private const int MaxCharge = 5;

    private readonly SolverInput input;
    private readonly int nc;
    private readonly string[] componentNames;
    private readonly double[] total;
    private readonly int ns;
    private readonly string[] speciesNames;
    private readonly int[] charge;
    private readonly double[] lnK;
    private readonly double[] waters;
    private readonly int[] start;
    private readonly int[] column;
    private readonly double[] nu;
    private readonly int nk;
    private readonly string[] limitNames;
    private readonly double[][] limit;
    private readonly double[] limitLnK;
    private readonly double[] limitWaters;
    private readonly bool[] isEquality;
    private readonly int gasLimit = -1;

    private readonly double[] x;
    private readonly double[] m;
    private readonly double[] lnKNow;
    private readonly double[] limitNow;
    private readonly double[] sum;
    private readonly double[] size;
    private readonly double[] hessian;
    private readonly double[] multiplier;
    private readonly double[] matrix;
    private readonly double[] rhs;
    private readonly double[] scale;
    private readonly double[] lnGamma = new double[MaxCharge + 1];
    private readonly double slope;
    private readonly List<int> active = [];
    private double lnWater;
    private int steps;

    private EquilibriumSolver(SolverInput input)
    {
        this.input = input;
        slope = Water.DebyeHuckelSlope(input.Celsius);
        var present = new List<string> { "H+" };
        foreach (var (name, _) in Constants.Components)
        {
            if (name == "H+")
                continue;
            var isThere = input.Totals.GetValueOrDefault(name) > 0 || (name == "CO3-2" && input.CarbonDioxide == CarbonDioxide.Open);
            if (isThere)
                present.Add(name);
        }

        componentNames = [.. present];
        nc = componentNames.Length;
        var place = componentNames.Select((name, index) => (name, index)).ToDictionary(pair => pair.name, pair => pair.index);
        total = [.. componentNames.Select(name => input.Totals.GetValueOrDefault(name))];

        var names = new List<string>(componentNames);
        var charges = new List<int>(componentNames.Select(Constants.ChargeOf));
        var constants = new List<double>(new double[nc]);
        var water = new List<double>(new double[nc]);
        var starts = new List<int>();
        var columns = new List<int>();
        var coefficients = new List<double>();
        for (var j = 0; j < nc; j++)
        {
            starts.Add(columns.Count);
            columns.Add(j);
            coefficients.Add(1);
        }

        foreach (var reaction in Constants.Species)
            AddSpecies(reaction.Name, reaction.Charge, reaction.Components, reaction.Waters, reaction);
        foreach (var name in input.ExtraSpecies)
        {
            var reaction = Constants.Extra[name];
            AddSpecies(reaction.Name, reaction.Charge, reaction.Components, reaction.Waters, reaction);
        }

        foreach (var (component, logK) in Constants.ExtractAcids)
        {
            if (!place.TryGetValue(component, out var index))
                continue;
            starts.Add(columns.Count);
            columns.AddRange([0, index]);
            coefficients.AddRange([1, 1]);
            names.Add("H" + component[..^1]);
            charges.Add(0);
            constants.Add(logK * Ln10);
            water.Add(0);
        }

        starts.Add(columns.Count);
        ns = names.Count;
        (speciesNames, charge, lnK, waters) = ([.. names], [.. charges], [.. constants], [.. water]);
        (start, column, nu) = ([.. starts], [.. columns], [.. coefficients]);

        var limits = new List<(string Name, double[] Row, double LnK, double Waters, bool IsEquality)>();
        if (input.CarbonDioxide != CarbonDioxide.Sealed && place.TryGetValue("CO3-2", out var carbonate))
        {
            var dissolved = Constants.Species.First(reaction => reaction.Name == "CO2");
            var row = new double[nc];
            row[0] = 2;
            row[carbonate] = 1;
            var pressure = input.CarbonDioxide == CarbonDioxide.Open ? input.AirPressureOfCarbonDioxide : 1;
            var lnLimit = (Constants.Henry.LogK(input.Celsius) - dissolved.LogK(input.Celsius)) * Ln10;
            gasLimit = 0;
            limits.Add(("CO2(g)", row, lnLimit + Math.Log(pressure), dissolved.Waters, input.CarbonDioxide == CarbonDioxide.Open));
        }

        if (input.AllowSolids)
        {
            foreach (var name in Constants.QuickSolids)
            {
                var reaction = Constants.Solids[name];
                if (Row(reaction.Components) is { } row)
                    limits.Add((name, row, reaction.LogK(input.Celsius) * Ln10, reaction.Waters, false));
            }

            foreach (var (name, ions, lnSaturation) in input.MoreSolids)
            {
                // Found from the handbook without the water's activity, so it is compared without it too.
                var withoutWater = ions.Moles.Where(pair => pair.Key != "H2O").ToDictionary(pair => pair.Key, pair => pair.Value);
                if (Row(withoutWater) is { } row)
                    limits.Add((name, row, lnSaturation, 0, false));
            }
        }

        nk = limits.Count;
        limitNames = [.. limits.Select(one => one.Name)];
        limit = [.. limits.Select(one => one.Row)];
        limitLnK = [.. limits.Select(one => one.LnK)];
        // A solid gives its crystal water, a gas needs its own: both stand on the side of the ions.
        limitWaters = [.. limits.Select(one => one.Waters)];
        isEquality = [.. limits.Select(one => one.IsEquality)];

        x = new double[nc];
        m = new double[ns];
        lnKNow = new double[ns];
        limitNow = new double[nk];
        sum = new double[nc];
        size = new double[nc];
        hessian = new double[nc * nc];
        multiplier = new double[nk];
        matrix = new double[(nc + nk) * (nc + nk)];
        rhs = new double[nc + nk];
        scale = new double[nc];

        void AddSpecies(string name, int itsCharge, IReadOnlyDictionary<string, double> components, double itsWaters, Reaction reaction)
        {
            foreach (var component in components.Keys)
            {
                if (!place.ContainsKey(component))
                    return;
            }

            starts.Add(columns.Count);
            foreach (var (component, count) in components)
            {
                columns.Add(place[component]);
                coefficients.Add(count);
            }

            names.Add(name);
            charges.Add(itsCharge);
            constants.Add(reaction.LogK(input.Celsius) * Ln10);
            water.Add(itsWaters);
        }

        double[]? Row(IReadOnlyDictionary<string, double> components)
        {
            var row = new double[nc];
            foreach (var (component, count) in components)
            {
                if (!place.TryGetValue(component, out var index))
                    return null;
                row[index] = count;
            }

            return row;
        }
    }

    /// <summary>Solves, or says that it could not.</summary>
    public static SolverOutput? Solve(SolverInput input)
    {
        var solver = new EquilibriumSolver(input);
        foreach (var startPh in (ReadOnlySpan<double>)[double.NaN, 7, 4, 10, 2, 12.5])
        {
            foreach (var mostStrength in (ReadOnlySpan<double>)[0.3, 0.02, 1.5])
            {
                if (solver.MatchIonicStrength(startPh, mostStrength))
                    return solver.Report();
            }
        }

        return null;
    }

    private bool MatchIonicStrength(double startPh, double mostStrength)
    {
        active.Clear();
        Array.Clear(multiplier);
        lnWater = 0;
        for (var k = 0; k < nk; k++)
        {
            if (isEquality[k])
                active.Add(k);
        }

        var charges = 0.0;
        for (var j = 1; j < nc; j++)
            charges += 0.5 * total[j] * charge[j] * charge[j];
        var strength = Math.Min(charges, mostStrength);
        // Large heaps of solid beside a little dissolved salt leave rounding of this size in the ionic strength.
        var most = total.Max(Math.Abs);
        var lastGap = double.PositiveInfinity;
        SetActivities(strength);
        FirstGuess(startPh);
        var (low, high) = (0.0, double.PositiveInfinity);
        var (before, gapBefore) = (double.NaN, double.NaN);
        for (var pass = 0; pass < 80; pass++)
        {
            SetActivities(strength);
            if (!SolveAtFixedActivity())
                return false;
            var (found, solutes) = StrengthNow();
            var gap = found - strength;
            var newLnWater = Math.Log(Math.Max(0.3, 1 - (0.017 * solutes)));
            var isWaterSettled = Math.Abs(newLnWater - lnWater) < 1e-10;
            lnWater = newLnWater;
            if (Math.Abs(gap) <= 1e-10 + (1e-9 * strength) + (1e-12 * most) && isWaterSettled)
                return true;
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
                    return Math.Abs(gap) < 1e-6;
            }

            (before, gapBefore) = (strength, gap);
            strength = next;
        }

        // A millionth of ionic strength moves no pH anybody could measure.
        return Math.Abs(lastGap) < 1e-6;
    }

    private void SetActivities(double strength)
    {
        var held = Math.Min(strength, ActivityCeiling);
        var root = Math.Sqrt(held);
        var davies = -slope * ((root / (1 + root)) - (0.3 * held)) * Ln10;
        for (var z = 1; z <= MaxCharge; z++)
            lnGamma[z] = davies * z * z;
        lnGamma[0] = 0.1 * held * Ln10;
        for (var i = 0; i < ns; i++)
        {
            var value = lnK[i] + (waters[i] * lnWater) - lnGamma[Math.Abs(charge[i])];
            if (i < nc)
            {
                lnKNow[i] = 0;
                continue;
            }

            for (var p = start[i]; p < start[i + 1]; p++)
                value += nu[p] * lnGamma[Math.Abs(charge[column[p]])];
            lnKNow[i] = value;
        }

        for (var k = 0; k < nk; k++)
        {
            var value = limitLnK[k] - (limitWaters[k] * lnWater);
            for (var j = 0; j < nc; j++)
            {
                if (limit[k][j] != 0)
                    value -= limit[k][j] * lnGamma[Math.Abs(charge[j])];
            }

            limitNow[k] = value;
        }
    }

    private (double Strength, double Solutes) StrengthNow()
    {
        var (strength, solutes) = (0.0, 0.0);
        for (var i = 0; i < ns; i++)
        {
            strength += 0.5 * m[i] * charge[i] * charge[i];
            solutes += m[i];
        }

        return (strength, solutes);
    }

    private void Molalities()
    {
        for (var i = 0; i < ns; i++)
        {
            var exponent = lnKNow[i];
            for (var p = start[i]; p < start[i + 1]; p++)
                exponent += nu[p] * x[column[p]];
            // e^230 is far beyond any jar; the bound only keeps a wild first step finite.
            m[i] = Math.Exp(Math.Min(exponent, 230));
        }
    }

    /// <summary>Starts near the answer: pH by bisection, the other components fitted to their totals one by one.</summary>
    private void FirstGuess(double startPh)
    {
        for (var j = 1; j < nc; j++)
            x[j] = Math.Log(Math.Max(total[j], 1e-6));
        if (!double.IsNaN(startPh))
        {
            x[0] = -startPh * Ln10;
            Fit(6);
            return;
        }

        var (low, high) = (-1.0, 15.0);
        for (var step = 0; step < 12; step++)
        {
            var ph = 0.5 * (low + high);
            x[0] = -ph * Ln10;
            Fit(step == 0 ? 6 : 2);
            Molalities();
            var protons = 0.0;
            for (var i = 0; i < ns; i++)
            {
                for (var p = start[i]; p < start[i + 1]; p++)
                {
                    if (column[p] == 0)
                        protons += nu[p] * m[i];
                }
            }

            if (protons > total[0])
                low = ph;
            else
                high = ph;
        }
    }

    private void Fit(int sweeps)
    {
        for (var sweep = 0; sweep < sweeps; sweep++)
        {
            Molalities();
            Array.Clear(sum);
            Array.Clear(size);
            for (var i = 0; i < ns; i++)
            {
                for (var p = start[i]; p < start[i + 1]; p++)
                {
                    var share = nu[p] * m[i];
                    sum[column[p]] += share;
                    if (share <= size[column[p]])
                        continue;
                    size[column[p]] = share;
                    scale[column[p]] = nu[p];
                }
            }

            // Each component is moved as far as its dominant species asks.
            for (var j = 1; j < nc; j++)
            {
                if (total[j] > 0 && sum[j] > 0)
                    x[j] += Math.Clamp(Math.Log(total[j] / sum[j]) / scale[j], -60, 6);
            }
        }
    }

    private bool SolveAtFixedActivity()
    {
        for (var round = 0; round < 40; round++)
        {
            if (!Newton())
                return InteriorPoint();
            var (worst, which) = (-1e-14, -1);
            foreach (var k in active)
            {
                if (!isEquality[k] && multiplier[k] < worst)
                    (worst, which) = (multiplier[k], k);
            }

            if (which >= 0)
            {
                active.Remove(which);
                multiplier[which] = 0;
                continue;
            }

            (worst, which) = (1e-10, -1);
            for (var k = 0; k < nk; k++)
            {
                if (active.Contains(k))
                    continue;
                var above = Excess(k);
                if (above > worst)
                    (worst, which) = (above, k);
            }

            if (which < 0)
                return true;
            active.Add(which);
        }

        return InteriorPoint();
    }

    /// <summary>ln of ion activity product over constant.</summary>
    private double Excess(int k)
    {
        var value = -limitNow[k];
        for (var j = 0; j < nc; j++)
            value += limit[k][j] * x[j];
        return value;
    }

    private void Gather(bool withHessian)
    {
        Molalities();
        Array.Clear(sum);
        Array.Clear(size);
        if (withHessian)
            Array.Clear(hessian);
        for (var i = 0; i < ns; i++)
        {
            var amount = m[i];
            for (var p = start[i]; p < start[i + 1]; p++)
            {
                var weighted = nu[p] * amount;
                sum[column[p]] += weighted;
                size[column[p]] += Math.Abs(weighted);
                if (!withHessian)
                    continue;
                for (var q = start[i]; q < start[i + 1]; q++)
                    hessian[(column[p] * nc) + column[q]] += weighted * nu[q];
            }
        }
    }

    private bool Newton()
    {
        for (var step = 0; step < 120; step++)
        {
            steps++;
            Gather(withHessian: true);
            var isSettled = step > 0;
            for (var j = 0; j < nc && isSettled; j++)
            {
                var (residual, extent) = (sum[j] - total[j], size[j]);
                foreach (var k in active)
                {
                    residual += limit[k][j] * multiplier[k];
                    extent += Math.Abs(limit[k][j] * multiplier[k]);
                }

                if (Math.Abs(residual) > 2e-14 * (extent + Math.Abs(total[j])))
                    isSettled = false;
            }

            foreach (var k in active)
            {
                if (Math.Abs(Excess(k)) > 1e-12)
                    isSettled = false;
            }

            if (isSettled)
                return true;
            var n = nc + active.Count;
            for (var j = 0; j < nc; j++)
                scale[j] = 1 / Math.Sqrt(Math.Max(hessian[(j * nc) + j], 1e-300));
            for (var r = 0; r < nc; r++)
            {
                for (var c = 0; c < nc; c++)
                    matrix[(r * n) + c] = hessian[(r * nc) + c] * scale[r] * scale[c];
                for (var a = 0; a < active.Count; a++)
                {
                    matrix[(r * n) + nc + a] = limit[active[a]][r] * scale[r];
                    matrix[((nc + a) * n) + r] = limit[active[a]][r] * scale[r];
                }

                rhs[r] = (total[r] - sum[r]) * scale[r];
            }

            for (var a = 0; a < active.Count; a++)
            {
                for (var b = 0; b < active.Count; b++)
                    matrix[((nc + a) * n) + nc + b] = 0;
                rhs[nc + a] = -Excess(active[a]);
            }

            if (!DenseSolve.InPlace(matrix, rhs, n, n))
                return false;
            var largest = 0.0;
            for (var j = 0; j < nc; j++)
                largest = Math.Max(largest, Math.Abs(rhs[j] * scale[j]));
            if (!double.IsFinite(largest))
                return false;
            // Uphill steps overshoot an exponential badly, downhill steps never do: hence a cap on the way up only matters far from the answer.
            var share = largest > 3 ? 3 / largest : 1;
            for (var j = 0; j < nc; j++)
                x[j] += share * rhs[j] * scale[j];
            for (var a = 0; a < active.Count; a++)
                multiplier[active[a]] = rhs[nc + a];
            // Balances cannot be met better than rounding allows; steps this small are the end of the road.
            if (largest < 1e-13 && step > 2)
            {
                Gather(withHessian: false);
                return true;
            }
        }

        return false;
    }

    /// <summary>Finds which limits hold where adding and removing them one by one goes in circles, or where two of them say the same.</summary>
    private bool InteriorPoint()
    {
        FirstGuess(double.NaN);
        var slack = new double[nk];
        var weight = new double[nk];
        var inequalities = Enumerable.Range(0, nk).Where(k => !isEquality[k]).ToList();
        var equalities = Enumerable.Range(0, nk).Where(k => isEquality[k]).ToList();
        foreach (var k in inequalities)
        {
            slack[k] = Math.Max(1, -Excess(k));
            weight[k] = 1e-2 / slack[k];
        }

        var ridge = new double[nc];
        (double[] X, double[] Slack, double[] Weight, double[] Multiplier)? best = null;
        for (var step = 0; step < 300; step++)
        {
            steps++;
            Gather(withHessian: true);
            var complement = inequalities.Sum(k => slack[k] * weight[k]);
            var mu = inequalities.Count > 0 ? 0.1 * complement / inequalities.Count : 0;
            var worst = 0.0;
            var n = nc + equalities.Count;
            Array.Clear(matrix);
            for (var j = 0; j < nc; j++)
            {
                var gradient = sum[j] - total[j];
                foreach (var k in inequalities)
                    gradient += limit[k][j] * weight[k];
                foreach (var k in equalities)
                    gradient += limit[k][j] * multiplier[k];
                worst = Math.Max(worst, Math.Abs(gradient) / (size[j] + Math.Abs(total[j]) + 1e-12));
                ridge[j] = total[j] - sum[j];
                foreach (var k in inequalities)
                {
                    var primal = Excess(k) + slack[k];
                    ridge[j] -= limit[k][j] * ((mu / slack[k]) + (weight[k] / slack[k] * primal));
                }
            }

            foreach (var k in inequalities)
                worst = Math.Max(worst, Math.Abs(Excess(k) + slack[k]));
            foreach (var k in equalities)
                worst = Math.Max(worst, Math.Abs(Excess(k)));
            // Near enough to tell which limits hold; Newton's method on those does the rest. Rounding can spoil later passes, so the best is kept.
            if (worst < 1e-7 && complement < 1e-8)
            {
                best = ((double[])x.Clone(), (double[])slack.Clone(), (double[])weight.Clone(), (double[])multiplier.Clone());
                if (worst < 1e-10 && complement < 1e-13)
                    break;
            }
            else if (best is not null)
            {
                break;
            }

            for (var r = 0; r < nc; r++)
            {
                for (var c = 0; c < nc; c++)
                {
                    var value = hessian[(r * nc) + c];
                    foreach (var k in inequalities)
                        value += limit[k][r] * limit[k][c] * weight[k] / slack[k];
                    matrix[(r * n) + c] = value;
                }
            }

            for (var j = 0; j < nc; j++)
                scale[j] = 1 / Math.Sqrt(Math.Max(matrix[(j * n) + j], 1e-300));
            for (var r = 0; r < nc; r++)
            {
                for (var c = 0; c < nc; c++)
                    matrix[(r * n) + c] *= scale[r] * scale[c];
                rhs[r] = ridge[r] * scale[r];
                for (var e = 0; e < equalities.Count; e++)
                {
                    matrix[(r * n) + nc + e] = limit[equalities[e]][r] * scale[r];
                    matrix[((nc + e) * n) + r] = limit[equalities[e]][r] * scale[r];
                }
            }

            for (var e = 0; e < equalities.Count; e++)
                rhs[nc + e] = -Excess(equalities[e]);
            if (!DenseSolve.InPlace(matrix, rhs, n, n))
                break;
            var largest = 0.0;
            for (var j = 0; j < nc; j++)
                largest = Math.Max(largest, Math.Abs(rhs[j] * scale[j]));
            var share = largest > 3 ? 3 / largest : 1;
            var changes = new (double Slack, double Weight)[nk];
            foreach (var k in inequalities)
            {
                var along = 0.0;
                for (var j = 0; j < nc; j++)
                    along += limit[k][j] * rhs[j] * scale[j];
                var slackChange = -(Excess(k) + slack[k]) - along;
                var weightChange = ((mu - (weight[k] * slackChange)) / slack[k]) - weight[k];
                changes[k] = (slackChange, weightChange);
                if (slackChange < 0)
                    share = Math.Min(share, -0.95 * slack[k] / slackChange);
                if (weightChange < 0)
                    share = Math.Min(share, -0.95 * weight[k] / weightChange);
            }

            for (var j = 0; j < nc; j++)
                x[j] += share * rhs[j] * scale[j];
            foreach (var k in inequalities)
            {
                slack[k] += share * changes[k].Slack;
                weight[k] += share * changes[k].Weight;
            }

            for (var e = 0; e < equalities.Count; e++)
                multiplier[equalities[e]] += share * (rhs[nc + e] - multiplier[equalities[e]]);
        }

        if (best is not { } found)
            return false;
        Array.Copy(found.X, x, nc);
        Array.Copy(found.Slack, slack, nk);
        Array.Copy(found.Weight, weight, nk);
        Array.Copy(found.Multiplier, multiplier, nk);
        active.Clear();
        active.AddRange(equalities);
        foreach (var k in inequalities)
        {
            multiplier[k] = weight[k] > slack[k] ? weight[k] : 0;
            if (multiplier[k] > 0)
                active.Add(k);
        }

        var kept = (double[])x.Clone();
        var keptMultipliers = (double[])multiplier.Clone();
        if (Newton())
            return true;
        Array.Copy(kept, x, nc);
        Array.Copy(keptMultipliers, multiplier, nk);
        Gather(withHessian: false);
        return true;
    }

    private SolverOutput Report()
    {
        Gather(withHessian: false);
        var (strength, solutes) = StrengthNow();
        var worst = 0.0;
        for (var j = 0; j < nc; j++)
        {
            var residual = sum[j] - total[j];
            var extent = size[j] + Math.Abs(total[j]);
            for (var k = 0; k < nk; k++)
            {
                residual += limit[k][j] * multiplier[k];
                extent += Math.Abs(limit[k][j] * multiplier[k]);
            }

            if (extent > 0)
                worst = Math.Max(worst, Math.Abs(residual) / extent);
        }

        var (net, gross) = (0.0, 0.0);
        for (var i = 0; i < ns; i++)
        {
            net += charge[i] * m[i];
            gross += Math.Abs(charge[i]) * m[i];
        }

        if (gross > 0)
            worst = Math.Max(worst, Math.Abs(net) / gross);
        var henry = Constants.Henry.LogK(input.Celsius) * Ln10;
        var pressure = 0.0;
        var species = new Dictionary<string, double>(ns);
        for (var i = 0; i < ns; i++)
        {
            species[speciesNames[i]] = m[i];
            if (speciesNames[i] == "CO2")
                pressure = Math.Exp(Math.Log(Math.Max(m[i], 1e-300)) + lnGamma[0] - henry);
        }

        var solids = new Dictionary<string, double>();
        var saturation = new Dictionary<string, double>();
        for (var k = 0; k < nk; k++)
        {
            if (k == gasLimit)
                continue;
            saturation[limitNames[k]] = Excess(k) / Ln10;
            if (multiplier[k] > 1e-13)
                solids[limitNames[k]] = multiplier[k];
        }

        var dissolved = new Dictionary<string, double>();
        var activities = new Dictionary<string, double>();
        for (var j = 0; j < nc; j++)
        {
            dissolved[componentNames[j]] = sum[j];
            activities[componentNames[j]] = x[j] + lnGamma[Math.Abs(charge[j])];
        }

        return new()
        {
            PH = -activities["H+"] / Ln10,
            IonicStrength = strength,
            WaterActivity = Math.Max(0.3, 1 - (0.017 * solutes)),
            Species = species,
            Solids = solids,
            GasMoles = gasLimit >= 0 ? multiplier[gasLimit] : 0,
            Saturation = saturation,
            DissolvedTotals = dissolved,
            LnActivity = activities,
            WorstBalance = worst,
            CarbonDioxidePressure = pressure,
            NewtonSteps = steps,
        };
    }
}
