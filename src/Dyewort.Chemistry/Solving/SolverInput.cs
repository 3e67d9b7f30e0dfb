using Dyewort.Numerics;

namespace Dyewort.Chemistry.Solving;

/// <summary>What the solver is asked.</summary>
internal sealed record SolverInput
{
    /// <summary>Moles per kilogram of water of each component; "H+" may be of either sign. Electrically neutral by construction.</summary>
    public required IReadOnlyDictionary<string, double> Totals { get; init; }

    public required double Celsius { get; init; }

    public required CarbonDioxide CarbonDioxide { get; init; }

    /// <summary>Partial pressure of CO2 over an open jar, atm.</summary>
    public double AirPressureOfCarbonDioxide { get; init; } = 420e-6;

    /// <summary>Solids beyond the default ones: name, composition and ln of the ion activity product at saturation.</summary>
    public IReadOnlyList<(string Name, Composition Ions, double LnK)> MoreSolids { get; init; } = [];

    /// <summary>Let solids fall out at all; off while a constant is being found from a saturated solution.</summary>
    public bool AllowSolids { get; init; } = true;

    /// <summary>Names of species that are left out by default and wanted here.</summary>
    public IReadOnlyList<string> ExtraSpecies { get; init; } = [];
}

/// <summary>What the solver found, per kilogram of water.</summary>
internal sealed record SolverOutput
{
    public required double PH { get; init; }

    public required double IonicStrength { get; init; }

    public required double WaterActivity { get; init; }

    /// <summary>mol/kg of every dissolved species.</summary>
    public required IReadOnlyDictionary<string, double> Species { get; init; }

    /// <summary>mol/kg of every solid that is there.</summary>
    public required IReadOnlyDictionary<string, double> Solids { get; init; }

    /// <summary>mol/kg of CO2 that left; negative where it was taken up from the air.</summary>
    public required double GasMoles { get; init; }

    /// <summary>log10 of ion activity product over constant, for each solid considered.</summary>
    public required IReadOnlyDictionary<string, double> Saturation { get; init; }

    /// <summary>mol/kg of each component that is dissolved, in all its species.</summary>
    public required IReadOnlyDictionary<string, double> DissolvedTotals { get; init; }

    /// <summary>ln activity of each component.</summary>
    public required IReadOnlyDictionary<string, double> LnActivity { get; init; }

    /// <summary>Largest |balance| over its own size, of masses and of charge.</summary>
    public required double WorstBalance { get; init; }

    /// <summary>Equivalent pressure of dissolved CO2, atm.</summary>
    public required double CarbonDioxidePressure { get; init; }

    public required int NewtonSteps { get; init; }

    /// <summary>Converged, or Stalled: rounding kept the ionic strength from being matched better than to a millionth.</summary>
    public required Ending Ending { get; init; }
}
