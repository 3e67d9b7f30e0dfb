namespace Dyewort.Chemistry.Solving;

/// <summary>Something that may not be above saturation: a solid, or the gas that leaves. Its amount is the multiplier of the
/// constraint.</summary>
/// <param name="Name">Its name in the tables.</param>
/// <param name="Row">Moles of each component in one mole of it.</param>
/// <param name="LnK">ln of the ion activity product at saturation.</param>
/// <param name="Waters">Crystal water it gives, or water a gas needs: both stand on the side of the ions.</param>
/// <param name="IsEquality">True where it must be exactly at saturation: the carbon dioxide of an open jar.</param>
/// <param name="IsGas">True for carbon dioxide.</param>
internal sealed record SolubilityLimit(string Name, double[] Row, double LnK, double Waters, bool IsEquality, bool IsGas);

/// <summary>A jar as a mathematical problem: what may be dissolved, written on the components, and what may fall out or leave.</summary>
/// <remarks>Species i has molality exp(ln K_i + Σ ν_ij x_j), x = ln molality of the components. The first species are the components
/// themselves.</remarks>
internal sealed class EquilibriumProblem
{
    private EquilibriumProblem(double celsius, string[] componentNames, double[] totals, SpeciesRows species, SolubilityLimit[] limits)
    {
        (Celsius, ComponentNames, Totals, Limits) = (celsius, componentNames, totals, limits);
        SpeciesNames = [.. species.Names];
        Charges = [.. species.Charges];
        LnK = [.. species.LnK];
        Waters = [.. species.Waters];
        Starts = [.. species.Starts, species.Columns.Count];
        Columns = [.. species.Columns];
        Coefficients = [.. species.Coefficients];
    }

    /// <summary>Temperature, °C.</summary>
    public double Celsius { get; }

    /// <summary>The components that are there; H+ is the first.</summary>
    public string[] ComponentNames { get; }

    /// <summary>mol/kg of each component; H+ may be negative.</summary>
    public double[] Totals { get; }

    /// <summary>The dissolved species.</summary>
    public string[] SpeciesNames { get; }

    /// <summary>Their charges.</summary>
    public int[] Charges { get; }

    /// <summary>ln of their formation constants at the temperature.</summary>
    public double[] LnK { get; }

    /// <summary>Molecules of water that forming one uses up.</summary>
    public double[] Waters { get; }

    /// <summary>Where each species begins in <see cref="Columns"/> and <see cref="Coefficients"/>; one more than there are
    /// species.</summary>
    public int[] Starts { get; }

    /// <summary>Components of the species, one after the other.</summary>
    public int[] Columns { get; }

    /// <summary>Their stoichiometric coefficients ν.</summary>
    public double[] Coefficients { get; }

    /// <summary>What may fall out or leave.</summary>
    public SolubilityLimit[] Limits { get; }

    /// <summary>Writes a question down as a problem.</summary>
    public static EquilibriumProblem Of(SolverInput input)
    {
        var names = new List<string> { "H+" };
        foreach (var (name, _) in Constants.Components)
        {
            if (name == "H+")
                continue;
            if (input.Totals.GetValueOrDefault(name) > 0 || (name == "CO3-2" && input.CarbonDioxide == CarbonDioxide.Open))
                names.Add(name);
        }

        var place = names.Select((name, index) => (name, index)).ToDictionary(pair => pair.name, pair => pair.index);
        var species = new SpeciesRows(place);
        foreach (var name in names)
            species.AddComponent(name);
        foreach (var reaction in Constants.Species)
            species.AddFormed(reaction, input.Celsius);
        foreach (var name in input.ExtraSpecies)
            species.AddFormed(Constants.Extra[name], input.Celsius);
        foreach (var (component, logK) in Constants.ExtractAcids)
            species.AddAcid(component, logK);
        return new(
            input.Celsius,
            [.. names],
            [.. names.Select(name => input.Totals.GetValueOrDefault(name))],
            species,
            [.. LimitsOf(input, place)]
        );
    }

    private static IEnumerable<SolubilityLimit> LimitsOf(SolverInput input, Dictionary<string, int> place)
    {
        if (input.CarbonDioxide != CarbonDioxide.Sealed && place.TryGetValue("CO3-2", out var carbonate))
        {
            var dissolved = Constants.Species.First(reaction => reaction.Name == "CO2");
            var row = new double[place.Count];
            row[0] = 2;
            row[carbonate] = 1;
            var isOpen = input.CarbonDioxide == CarbonDioxide.Open;
            var pressure = isOpen ? input.AirPressureOfCarbonDioxide : 1;
            var lnLimit = (Constants.Henry.LogK(input.Celsius) - dissolved.LogK(input.Celsius)) * ActivityModel.Ln10;
            yield return new("CO2(g)", row, lnLimit + Math.Log(pressure), dissolved.Waters, isOpen, true);
        }

        if (!input.AllowSolids)
            yield break;
        foreach (var name in Constants.QuickSolids)
        {
            var reaction = Constants.Solids[name];
            if (Row(reaction.Components) is { } row)
                yield return new(name, row, reaction.LogK(input.Celsius) * ActivityModel.Ln10, reaction.Waters, false, false);
        }

        foreach (var (name, ions, lnSaturation) in input.MoreSolids)
        {
            // Found from the handbook without the water's activity, so it is compared without it too.
            var withoutWater = ions.Moles.Where(pair => pair.Key != "H2O").ToDictionary(pair => pair.Key, pair => pair.Value);
            if (Row(withoutWater) is { } row)
                yield return new(name, row, lnSaturation, 0, false, false);
        }

        double[]? Row(IReadOnlyDictionary<string, double> components)
        {
            var row = new double[place.Count];
            foreach (var (component, count) in components)
            {
                if (!place.TryGetValue(component, out var index))
                    return null;
                row[index] = count;
            }

            return row;
        }
    }

    /// <summary>The species as they are gathered, one after the other.</summary>
    private sealed class SpeciesRows(Dictionary<string, int> place)
    {
        public List<string> Names { get; } = [];

        public List<int> Charges { get; } = [];

        public List<double> LnK { get; } = [];

        public List<double> Waters { get; } = [];

        public List<int> Starts { get; } = [];

        public List<int> Columns { get; } = [];

        public List<double> Coefficients { get; } = [];

        public void AddComponent(string name) => Add(name, Constants.ChargeOf(name), 0, 0, [new(name, 1)]);

        /// <summary>A species made of components; left out where one of them is not there.</summary>
        public void AddFormed(Reaction reaction, double celsius)
        {
            if (reaction.Components.Keys.All(place.ContainsKey))
                Add(reaction.Name, reaction.Charge, reaction.LogK(celsius) * ActivityModel.Ln10, reaction.Waters, reaction.Components);
        }

        /// <summary>One of the unknown acids of a plant liquor, undissociated.</summary>
        public void AddAcid(string component, double logK)
        {
            if (place.ContainsKey(component))
                Add("H" + component[..^1], 0, logK * ActivityModel.Ln10, 0, [new("H+", 1), new(component, 1)]);
        }

        private void Add(string name, int charge, double lnK, double waters, IEnumerable<KeyValuePair<string, double>> components)
        {
            Starts.Add(Columns.Count);
            foreach (var (component, count) in components)
            {
                Columns.Add(place[component]);
                Coefficients.Add(count);
            }

            Names.Add(name);
            Charges.Add(charge);
            LnK.Add(lnK);
            Waters.Add(waters);
        }
    }
}
