using System.Collections.Concurrent;
using Dyewort.Chemistry.Solving;
using Dyewort.Numerics;

namespace Dyewort.Chemistry;

/// <summary>Salts that dissolve freely: their handbook solubility, and the constant that gives it back in a mixture.</summary>
internal static class Solubility
{
    private static readonly Lazy<Dictionary<string, Entry>> Entries = new(() =>
        TextTable.Embedded(typeof(Jar), "solubility.csv").Rows.Select(Entry.Of).ToDictionary(entry => entry.Name)
    );
    private static readonly ConcurrentDictionary<(string, double), double> SaturationLnK = new();

    public static IEnumerable<Entry> All => Entries.Value.Values;

    public static Entry? Named(string name) => Entries.Value.GetValueOrDefault(name);

    /// <summary>Grams per 100 g water of a form that has <paramref name="molarMass"/> and holds the water named in
    /// <paramref name="ions"/>.</summary>
    public static double? Of(string solid, Composition ions, double molarMass, double celsius)
    {
        if (Named(solid) is { } entry)
        {
            var molality = entry.SaturationMolality(celsius);
            return ToForm(molality, ions, molarMass, entry.Ions);
        }

        if (solid.Length == 0 || !Constants.Solids.TryGetValue(solid, out var reaction))
            return null;
        // A sparing salt: as much as the solver leaves dissolved of a generous spoonful in pure water without CO2.
        var totals = new Dictionary<string, double>();
        foreach (var (component, count) in reaction.Components)
            totals[component] = count * 1.0;
        var output = EquilibriumSolver.Solve(
            new()
            {
                Totals = totals,
                Celsius = celsius,
                CarbonDioxide = CarbonDioxide.Sealed,
            }
        );
        if (output is null)
            return null;
        return (1 - output.Solids.GetValueOrDefault(solid)) * molarMass / 10;
    }

    /// <summary>ln of the ion activity product in the saturated pure solution; crystal water is left out of it here and in the
    /// solver.</summary>
    public static double? LnSaturation(Entry entry, double celsius)
    {
        if (SaturationLnK.TryGetValue((entry.Name, celsius), out var known))
            return known;
        var molality = entry.SaturationMolality(celsius);
        var totals = entry.Ions.Moles.Where(pair => pair.Key != "H2O").ToDictionary(pair => pair.Key, pair => pair.Value * molality);
        var output = EquilibriumSolver.Solve(
            new()
            {
                Totals = totals,
                Celsius = celsius,
                CarbonDioxide = CarbonDioxide.Sealed,
                AllowSolids = false,
            }
        );
        if (output is null)
            return null;
        var product = 0.0;
        foreach (var (component, count) in totals.Keys.Select(key => (key, entry.Ions.Moles[key])))
            product += count * output.LnActivity[component];
        SaturationLnK[(entry.Name, celsius)] = product;
        return product;
    }

    private static double ToForm(double molality, Composition ions, double molarMass, Composition entryIons)
    {
        // Per formula of the entry, this form may carry a different multiple (Na2CO3 either way) and other water.
        var first = entryIons.Moles.First(pair => pair.Key is not ("H2O" or "H+"));
        var formulas = ions.Moles.GetValueOrDefault(first.Key) is > 0 and var count ? first.Value / count : 1;
        var crystalWater = ions.Moles.GetValueOrDefault("H2O") * formulas * Water.MolarMass / 1000;
        var perKilogramAdded = molality / Math.Max(1 - (molality * crystalWater), 0.05);
        return perKilogramAdded * formulas * molarMass / 10;
    }

    internal sealed record Entry(
        string Name,
        string Words,
        string Formula,
        double MolarMass,
        Composition Ions,
        (double Celsius, double Grams)[] Points
    )
    {
        public static Entry Of(TextRow row) =>
            new(
                row["solid"],
                row["words"],
                row["formula"],
                row.NumberOf("molar_mass"),
                Composition.Parse(row["reaction"]),
                [.. row["points"].Split(';').Select(point => point.Split(':')).Select(pair => (Number(pair[0]), Number(pair[1])))]
            );

        /// <summary>mol of the salt per kilogram of all the water, its own included.</summary>
        public double SaturationMolality(double celsius)
        {
            var grams = GramsPer100(celsius);
            var own = Ions.Moles.GetValueOrDefault("H2O") * Water.MolarMass / MolarMass;
            return grams / MolarMass / ((100 + (grams * own)) / 1000);
        }

        /// <summary>Washing soda crystals melt in their own water above 32 °C: no limit a kitchen could meet.</summary>
        public bool AppliesAt(double celsius) => Name != "Natron" || celsius <= 32;

        private double GramsPer100(double celsius)
        {
            if (celsius <= Points[0].Celsius)
                return Points[0].Grams;
            for (var i = 1; i < Points.Length; i++)
            {
                if (celsius > Points[i].Celsius)
                    continue;
                var (a, b) = (Points[i - 1], Points[i]);
                var share = (Inverse(celsius) - Inverse(a.Celsius)) / (Inverse(b.Celsius) - Inverse(a.Celsius));
                return Math.Exp(Math.Log(a.Grams) + (share * Math.Log(b.Grams / a.Grams)));
            }

            return Points[^1].Grams;
        }

        private static double Inverse(double celsius) => 1 / (celsius + 273.15);

        private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
    }
}
