using Dyewort.Chemistry.Solving;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>What stands in a jar: a volume of liquor and what was added, in order.</summary>
public sealed record JarContents
{
    /// <summary>Liquor the jar was filled with, ml, measured cold (20 °C); above 0, at most a million.</summary>
    public required double LiquorMillilitres { get; init; }

    /// <summary>What the liquor is; pure water without CO2 unless said otherwise.</summary>
    public Liquor Liquor { get; init; } = Liquor.PureWater;

    /// <summary>The additions, first to last.</summary>
    public IReadOnlyList<Portion> Portions { get; init; } = [];

    /// <summary>Names of what is in the jar as well and cannot be counted: nobody knows how much, or what it is.</summary>
    public IReadOnlyList<string> Uncounted { get; init; } = [];

    /// <summary>What is in the jar, counted or not, whose effect on the pH nobody can compute; where there is any, no pH is
    /// known.</summary>
    public IReadOnlyList<string> OutsideTheSums =>
        [
            .. Uncounted
                .Concat(
                    Portions
                        .Where(portion => portion.Grams > 0 && portion.Substance.IsAny(SubstanceClasses.PhUnknown))
                        .Select(portion => portion.Substance.Name)
                )
                .Distinct(),
        ];

    /// <summary>The same with one more addition.</summary>
    public JarContents Plus(Portion portion) => this with { Portions = [.. Portions, portion] };

    /// <summary>Everything times a factor.</summary>
    public JarContents Times(double factor) =>
        this with
        {
            LiquorMillilitres = LiquorMillilitres * factor,
            Portions = [.. Portions.Select(portion => portion.Times(factor))],
        };

    /// <summary>Volume of all liquids, ml; powders are not counted, spirit shrinks on mixing.</summary>
    public double VolumeMillilitres
    {
        get
        {
            var sum = LiquorMillilitres + Portions.Sum(portion => portion.Millilitres);
            var spirits = Portions.Where(portion => portion.Substance.Form == SubstanceForm.Spirit).ToList();
            if (spirits.Count == 0)
                return sum;
            var watery = sum - spirits.Sum(portion => portion.Millilitres);
            return AlcoholMix
                .Mix([(watery, 0), .. spirits.Select(portion => (portion.Millilitres, portion.Named.Strength!.Value))])
                .Millilitres;
        }
    }

    /// <summary>Ethanol, % by volume after mixing.</summary>
    public double AlcoholPercent
    {
        get
        {
            var spirits = Portions.Where(portion => portion.Substance.Form == SubstanceForm.Spirit).ToList();
            if (spirits.Count == 0)
                return 0;
            var watery =
                LiquorMillilitres
                + Portions.Where(portion => portion.Substance.Form != SubstanceForm.Spirit).Sum(portion => portion.Millilitres);
            return AlcoholMix
                .Mix([(watery, 0), .. spirits.Select(portion => (portion.Millilitres, portion.Named.Strength!.Value))])
                .PercentByVolume;
        }
    }

    /// <summary>Tannin is there, added or of the liquor's own.</summary>
    internal bool HoldsTannin =>
        Portions.Any(portion => portion.Grams > 0 && portion.Substance.IsAny(SubstanceClasses.Tannin))
        || Liquor is Liquor.Extract { Belief.Kind.Name: "galls" or "tea" or "sumac heads" or "avocado and cones" or "nuts and wood" };

    /// <summary>Kilograms of solvent: water of every origin, crystal water too, and the ethanol.</summary>
    internal double SolventKilograms
    {
        get
        {
            var grams = LiquorMillilitres * AlcoholMix.WaterGramsPerMillilitre;
            foreach (var portion in Portions)
            {
                grams += portion.WaterGrams + (portion.Moles * portion.Substance.Ions.Moles.GetValueOrDefault("H2O") * Water.MolarMass);
                if (portion.Substance.Form == SubstanceForm.Spirit)
                    grams += portion.PureGrams;
            }

            return grams / 1000;
        }
    }

    /// <summary>Moles of each component in the whole jar.</summary>
    internal Dictionary<string, double> Totals(double celsius)
    {
        var totals = new Dictionary<string, double>();
        foreach (var (component, perLitre) in Liquor.Totals(celsius))
            totals[component] = perLitre * LiquorMillilitres / 1000;
        foreach (var portion in Portions)
        {
            var moles = portion.Moles;
            foreach (var (component, count) in portion.Substance.Ions.Moles)
            {
                if (component == "H2O")
                    continue;
                totals[component] = totals.GetValueOrDefault(component) + (count * moles);
            }
        }

        return totals;
    }
}

/// <summary>What is dissolved of one addition.</summary>
/// <param name="Name">The substance's name.</param>
/// <param name="GramsPerLitre">g per litre of the jar's volume, counted as the substance that was added.</param>
/// <param name="MolesPerLitre">The same in mol/L; 0 where a mixture has no formula.</param>
public sealed record Dissolved(string Name, double GramsPerLitre, double MolesPerLitre);

/// <summary>Something that lies undissolved or fell out.</summary>
/// <param name="Name">In words.</param>
/// <param name="Key">Its name in the tables, or the substance's key.</param>
/// <param name="Grams">In the whole jar.</param>
/// <param name="IsSuspension">A powder that never dissolves, as against a solid in balance with the liquid.</param>
public sealed record UndissolvedSolid(string Name, string Key, double Grams, bool IsSuspension);

/// <summary>A jar at equilibrium.</summary>
public sealed record JarState
{
    /// <summary>pH, −log10 of the hydrogen ion's activity.</summary>
    public required double Ph { get; init; }

    /// <summary>mol/kg, which is mol/L within 3 % below 0.3.</summary>
    public required double IonicStrength { get; init; }

    /// <summary>Volume of the liquids, ml.</summary>
    public required double VolumeMillilitres { get; init; }

    /// <summary>What is dissolved, per addition.</summary>
    public required IReadOnlyList<Dissolved> Dissolved { get; init; }

    /// <summary>What is not.</summary>
    public required IReadOnlyList<UndissolvedSolid> Solids { get; init; }

    /// <summary>mol of CO2 that left the jar; negative where air's CO2 was taken up.</summary>
    public required double CarbonDioxideMoles { get; init; }

    /// <summary>Its volume at the jar's temperature and 1 atm, ml; 0 where none left.</summary>
    public required double GasMillilitres { get; init; }

    /// <summary>Pressure of CO2 that the dissolved part would balance, atm.</summary>
    public required double CarbonDioxidePressureAtm { get; init; }

    /// <summary>Largest error of any mass balance or of the charge balance, relative.</summary>
    public required double WorstBalance { get; init; }

    /// <summary>Jar temperature, °C.</summary>
    public required double Celsius { get; init; }

    /// <summary>Newton steps taken.</summary>
    public required int NewtonSteps { get; init; }

    /// <summary>Share of the solvent's activity left to water, 0 to 1.</summary>
    public required double WaterActivity { get; init; }

    internal SolverOutput Solution { get; init; } = null!;

    internal double SolventKilograms { get; init; }

    /// <summary>mol/L of one species by its name in the tables, 0 where it is not there.</summary>
    public double SpeciesMolesPerLitre(string name) =>
        Solution.Species.GetValueOrDefault(name) * SolventKilograms / (VolumeMillilitres / 1000);
}

/// <summary>Computes jars.</summary>
public static class Jar
{
    private const double GasConstantMillilitreAtm = 82.0573661;

    /// <summary>The composition once everything that will happen at once has happened.</summary>
    /// <param name="contents">What is in the jar.</param>
    /// <param name="celsius">Temperature of the jar, 0 to 100 °C; amounts were measured cold.</param>
    /// <param name="carbonDioxide">What its carbon dioxide does.</param>
    /// <param name="model">With what the constants are known to miss, or the bare constants to compare with other programs.</param>
    /// <returns>The state, or a refusal that says why it could not be computed. Never a NaN.</returns>
    public static Outcome<JarState> Equilibrate(
        JarContents contents,
        double celsius = 20,
        CarbonDioxide carbonDioxide = CarbonDioxide.AfterFizzing,
        JarModel model = JarModel.Corrected
    ) => Equilibrate(contents, celsius, carbonDioxide, JarCorrections.Of(model));

    /// <summary>The pH of pure water or a liquor with so many grams per litre of each substance, after fizzing.</summary>
    /// <param name="liquor">What the additions went into.</param>
    /// <param name="gramsPerLitre">Substance and grams per litre of liquor; of a liquid the grams of the liquid.</param>
    /// <param name="celsius">0 to 100 °C.</param>
    public static Outcome<double> PhOf(Liquor liquor, IEnumerable<KeyValuePair<NamedSubstance, double>> gramsPerLitre, double celsius = 20)
    {
        ArgumentNullException.ThrowIfNull(gramsPerLitre);
        var doses = gramsPerLitre.ToList();

        // What was written long ago may be a slip that no portion can be.
        if (doses.TrueForAll(pair => pair.Value is >= 0 and <= Mass.MaxGrams))
        {
            var contents = new JarContents
            {
                LiquorMillilitres = 1000,
                Liquor = liquor,
                Portions = [.. doses.Select(pair => Portion.OfGrams(pair.Key, pair.Value))],
            };
            if (Equilibrate(contents, celsius).TryGet(out var state))
                return Outcome.Of(state.Ph);
        }

        return Outcome.Refused<double>("additions", "The pH of this mixture could not be computed.", "Check the amounts.");
    }

    internal static Outcome<JarState> Equilibrate(
        JarContents contents,
        double celsius,
        CarbonDioxide carbonDioxide,
        JarCorrections corrections,
        Action<Dictionary<string, double>>? change = null
    )
    {
        ArgumentNullException.ThrowIfNull(contents);
        if (!(contents.LiquorMillilitres is > 0 and <= 1e6))
            return Outcome.Refused<JarState>(
                "volume",
                $"A jar of {contents.LiquorMillilitres:0.###} ml cannot be computed.",
                "Give more than 0 and at most 1000 litres."
            );
        if (!(celsius is >= 0 and <= 100))
            return Outcome.Refused<JarState>(
                "temperature",
                $"{celsius:0.#} °C is outside 0 to 100 °C.",
                "Give the temperature of the liquid."
            );
        var solvent = contents.SolventKilograms;
        var totals = contents.Totals(celsius);
        change?.Invoke(totals);
        corrections.Apply(contents, totals);
        foreach (var component in totals.Keys.ToList())
            totals[component] /= solvent;
        var most = totals.Values.Select(Math.Abs).DefaultIfEmpty(0).Max();
        if (most > 40)
            return Outcome.Refused<JarState>(
                "additions",
                "There is more in this jar than water can hold.",
                "Check the amounts: the additions outweigh the liquid."
            );
        var output = EquilibriumSolver.Solve(
            new()
            {
                Totals = totals,
                Celsius = celsius,
                CarbonDioxide = carbonDioxide,
                ExtraSpecies = corrections.Species,
                MoreSolids = FreelySolubleNearSaturation(totals, celsius),
            }
        );
        if (output is null || !double.IsFinite(output.PH))
            return Outcome.Refused<JarState>(
                "additions",
                "The balance of this mixture was not found.",
                "It is far outside what the model covers: use less of each addition."
            );
        return Outcome.Of(Describe(contents, celsius, solvent, totals, output));
    }

    private static List<(string, Composition, double)> FreelySolubleNearSaturation(Dictionary<string, double> totals, double celsius)
    {
        List<(string, Composition, double)> near = [];
        foreach (var entry in Solubility.All)
        {
            if (!entry.AppliesAt(celsius))
                continue;
            var could = double.PositiveInfinity;
            foreach (var (component, count) in entry.Ions.Moles)
            {
                if (component is "H2O" or "H+")
                    continue;
                could = Math.Min(could, totals.GetValueOrDefault(component) / count);
            }

            // Far from saturation the solid needs no row of its own.
            if (could > 0.2 * entry.SaturationMolality(celsius) && Solubility.LnSaturation(entry, celsius) is { } lnK)
                near.Add((entry.Name, entry.Ions, lnK));
        }

        return near;
    }

    private static JarState Describe(
        JarContents contents,
        double celsius,
        double solvent,
        Dictionary<string, double> totals,
        SolverOutput output
    )
    {
        var volume = contents.VolumeMillilitres;
        var solids = new List<UndissolvedSolid>();
        foreach (var (name, moles) in output.Solids)
        {
            var (words, molarMass) = SolidTable.Describe(name);
            var grams = moles * solvent * molarMass;
            // Less than a hundredth of a milligram is nothing anybody could see.
            if (grams > 1e-5)
                solids.Add(new(words, name, grams, false));
        }

        foreach (
            var group in contents
                .Portions.Where(portion => portion.Substance.Form == SubstanceForm.Suspension && portion.Grams > 0)
                .GroupBy(portion => portion.Substance.Key)
        )
        {
            solids.Add(new($"{group.First().Substance.Name} (in suspension)", group.Key, group.Sum(portion => portion.Grams), true));
        }

        var dissolved = new List<Dissolved>();
        foreach (
            var group in contents
                .Portions.Where(portion =>
                    portion.Substance.Form is not (SubstanceForm.Suspension or SubstanceForm.Water) && portion.Grams > 0
                )
                .GroupBy(portion => portion.Substance.Key)
        )
        {
            var substance = group.First().Substance;
            var component = substance.KeyComponent;
            var share =
                component.Length > 0 && totals.GetValueOrDefault(component) > 0
                    ? Math.Clamp(output.DissolvedTotals.GetValueOrDefault(component) / totals[component], 0, 1)
                    : 1;
            var grams = group.Sum(portion => portion.PureGrams);
            if (contents.AlcoholPercent < SparingTable.SpiritCarriesPercent && SparingTable.GramsPerLitre(substance.Key) is { } most)
            {
                var held = most * volume / 1000;
                if (grams > held)
                {
                    share = held / grams;
                    solids.Add(
                        new($"{substance.Name} (drops or crystals that water does not take up)", substance.Key, grams - held, false)
                    );
                }
            }

            dissolved.Add(new(substance.Name, grams * share / volume * 1000, group.Sum(portion => portion.Moles) * share / volume * 1000));
        }

        var gasMoles = output.GasMoles * solvent;
        return new()
        {
            Ph = output.PH,
            IonicStrength = output.IonicStrength,
            VolumeMillilitres = volume,
            Dissolved = dissolved,
            Solids = solids,
            CarbonDioxideMoles = Math.Abs(gasMoles) < 1e-12 ? 0 : gasMoles,
            GasMillilitres = gasMoles > 1e-9 ? gasMoles * GasConstantMillilitreAtm * (celsius + 273.15) : 0,
            CarbonDioxidePressureAtm = output.CarbonDioxidePressure,
            WorstBalance = output.WorstBalance,
            Celsius = celsius,
            NewtonSteps = output.NewtonSteps,
            WaterActivity = output.WaterActivity,
            Solution = output,
            SolventKilograms = solvent,
        };
    }
}

/// <summary>Words and molar masses of what may lie undissolved.</summary>
internal static class SolidTable
{
    private static readonly Lazy<Dictionary<string, (string Words, double MolarMass)>> Table = new(() =>
        TextTable
            .Embedded(typeof(Jar), "solids.csv")
            .Rows.ToDictionary(row => row["name"], row => (row["words"], row.NumberOf("molar_mass")))
    );

    public static (string Words, double MolarMass) Describe(string name) =>
        Solubility.Named(name) is { } entry ? (entry.Words, entry.MolarMass) : Table.Value[name];
}

/// <summary>How much of an oil water takes up.</summary>
internal static class SparingTable
{
    /// <summary>Alcohol, % by volume, from which an oil is no longer held to what water takes up (common practice, no source).</summary>
    public const double SpiritCarriesPercent = 20;

    private static readonly Lazy<Dictionary<string, double>> Table = new(() =>
        TextTable.Embedded(typeof(Jar), "sparing.csv").Rows.ToDictionary(row => row["key"], row => row.NumberOf("g_per_l"))
    );

    /// <summary>g/L in cold water; null for what has no such limit.</summary>
    public static double? GramsPerLitre(string key) => Table.Value.TryGetValue(key, out var grams) ? grams : null;
}
