using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>What was found, by the names of the tables, and how well it balances.</summary>
internal static class EquilibriumReport
{
    public static SolverOutput Of(EquilibriumState state, ActivityModel model, Ending ending)
    {
        var problem = state.Problem;
        state.Gather(withHessian: false);
        var (strength, solutes) = state.Strength();
        var species = new Dictionary<string, double>(problem.SpeciesNames.Length);
        for (var i = 0; i < problem.SpeciesNames.Length; i++)
            species[problem.SpeciesNames[i]] = state.Molalities[i];
        var henry = Constants.Henry.LogK(problem.Celsius) * ActivityModel.Ln10;
        var pressure = species.TryGetValue("CO2", out var dioxide)
            ? Math.Exp(Math.Log(Math.Max(dioxide, 1e-300)) + model.LnGamma(0) - henry)
            : 0;
        var gas = 0.0;
        var solids = new Dictionary<string, double>();
        var saturation = new Dictionary<string, double>();
        for (var k = 0; k < problem.Limits.Length; k++)
        {
            var limit = problem.Limits[k];
            if (limit.IsGas)
            {
                gas = state.Multipliers[k];
                continue;
            }

            saturation[limit.Name] = state.Excess(k) / ActivityModel.Ln10;
            if (state.Multipliers[k] > Tolerances.ReportedAmount)
                solids[limit.Name] = state.Multipliers[k];
        }

        var dissolved = new Dictionary<string, double>();
        var activities = new Dictionary<string, double>();
        for (var j = 0; j < problem.ComponentNames.Length; j++)
        {
            dissolved[problem.ComponentNames[j]] = state.Sums[j];
            activities[problem.ComponentNames[j]] = state.X[j] + model.LnGamma(problem.Charges[j]);
        }

        return new()
        {
            PH = -activities["H+"] / ActivityModel.Ln10,
            IonicStrength = strength,
            WaterActivity = ActivityModel.WaterActivity(solutes),
            Species = species,
            Solids = solids,
            GasMoles = gas,
            Saturation = saturation,
            DissolvedTotals = dissolved,
            LnActivity = activities,
            WorstBalance = WorstBalance(state),
            CarbonDioxidePressure = pressure,
            NewtonSteps = state.Steps,
            Ending = ending,
        };
    }

    /// <summary>Largest error of a mass balance or of the charge balance, relative to its own terms.</summary>
    private static double WorstBalance(EquilibriumState state)
    {
        var (problem, worst) = (state.Problem, 0.0);
        for (var j = 0; j < problem.Totals.Length; j++)
        {
            var residual = state.Sums[j] - problem.Totals[j];
            var extent = state.Sizes[j] + Math.Abs(problem.Totals[j]);
            for (var k = 0; k < problem.Limits.Length; k++)
            {
                var fallen = problem.Limits[k].Row[j] * state.Multipliers[k];
                residual += fallen;
                extent += Math.Abs(fallen);
            }

            if (extent > 0)
                worst = Math.Max(worst, Math.Abs(residual) / extent);
        }

        var (net, gross) = (0.0, 0.0);
        for (var i = 0; i < state.Molalities.Length; i++)
        {
            net += problem.Charges[i] * state.Molalities[i];
            gross += Math.Abs(problem.Charges[i]) * state.Molalities[i];
        }

        return gross > 0 ? Math.Max(worst, Math.Abs(net) / gross) : worst;
    }
}
