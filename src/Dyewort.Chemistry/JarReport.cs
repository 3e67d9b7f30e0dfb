using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Everything that is said about one jar: three kinds of pH, an interval, what is in it and what to look out for.</summary>
public sealed record JarReport
{
    /// <summary>Ends of what a jar may read of which nothing is known: from strong acid to lye (common practice, no source).</summary>
    private const double LeastPh = 1;
    private const double MostPh = 13;

    /// <summary>Iron(III) in the iron of fresh crystals and of brown ones (estimate; the pharmacopoeia allows more).</summary>
    private const double LeastOxidisedIron = 0.0003;
    private const double MostOxidisedIron = 0.01;

    private const double MostFreeAcidInCopper = 0.002;

    /// <summary>Iron that air and tannin have blackened after weeks: about what brings a gall ink of eight weeks to the pH 1.7 that was
    /// read of
    /// it.</summary>
    private const double BlackenedIron = 0.3;

    /// <summary>After fizzing: what a maker meets.</summary>
    public required JarState AfterFizzing { get; init; }

    /// <summary>With every gas held in.</summary>
    public required JarState Sealed { get; init; }

    /// <summary>After standing open until in balance with air.</summary>
    public required JarState Open { get; init; }

    /// <summary>Lower end of the pH after fizzing, about 95 % sure: spoons, strengths, the liquor's own acids and what the model is known
    /// to miss.</summary>
    public required double PhLow { get; init; }

    /// <summary>Upper end.</summary>
    public required double PhHigh { get; init; }

    /// <summary>Which uncertainty contributes how much, widest first.</summary>
    public required IReadOnlyList<PhUncertaintyShare> Shares { get; init; }

    /// <summary>What to say, the gravest first.</summary>
    public required IReadOnlyList<Remark> Remarks { get; init; }

    /// <summary>Alkali (or acid) that moves the pH by one unit here, mmol per litre; small means that hardly anything holds the
    /// pH.</summary>
    public required double BufferMillimolesPerLitrePerPh { get; init; }

    /// <summary>Ethanol, % by volume.</summary>
    public required double AlcoholPercent { get; init; }

    /// <summary>pH after fizzing by the published constants alone, to compare with other programs.</summary>
    public required double PlainConstantsPh { get; init; }

    /// <summary>CO2 that may escape where a carbonate falls into the rest, which is sour, ml at 20 °C and 1 atm; 0 where it meets nothing
    /// sour. Stirred in, it may all stay dissolved.</summary>
    public double FizzMillilitres { get; init; }

    /// <summary>What is in the jar and outside these sums; where there is anything, the pH is not known and its interval is the whole
    /// scale.</summary>
    public IReadOnlyList<string> OutsideTheSums { get; init; } = [];

    /// <summary>True where carbonate or bicarbonate is in the jar.</summary>
    public bool HasCarbonate { get; init; }

    /// <summary>True where everything in the jar is in the sums.</summary>
    public bool IsPhKnown => OutsideTheSums.Count == 0;

    /// <summary>Free room a jar or pot needs above the liquid, ml, so that the foam stays in: three times the liquid where it froths
    /// (common practice).</summary>
    public double HeadSpaceMillilitres =>
        AfterFizzing.GasMillilitres < 0.02 * AfterFizzing.VolumeMillilitres
            ? FizzMillilitres < 2
                ? 0
                : Math.Min(0.5 * AfterFizzing.VolumeMillilitres, FizzMillilitres)
            : Math.Min(2 * AfterFizzing.VolumeMillilitres, Math.Max(0.5 * AfterFizzing.VolumeMillilitres, AfterFizzing.GasMillilitres));

    /// <summary>Examines a jar.</summary>
    /// <param name="contents">What is in it.</param>
    /// <param name="celsius">0 to 100 °C.</param>
    public static Outcome<JarReport> Of(JarContents contents, double celsius = 20)
    {
        ArgumentNullException.ThrowIfNull(contents);
        var sealedJar = Jar.Equilibrate(contents, celsius, CarbonDioxide.Sealed);
        if (!sealedJar.TryGet(out var closed))
            return Outcome.Refused<JarReport>(sealedJar.Problems);
        var fizzed = closed;
        if (closed.CarbonDioxidePressureAtm > 1)
        {
            var vented = Jar.Equilibrate(contents, celsius);
            if (!vented.TryGet(out fizzed))
                return Outcome.Refused<JarReport>(vented.Problems);
        }

        var opened = Jar.Equilibrate(contents, celsius, CarbonDioxide.Open);
        if (!opened.TryGet(out var open))
            return Outcome.Refused<JarReport>(opened.Problems);
        var uncorrected = Jar.Equilibrate(contents, celsius, CarbonDioxide.AfterFizzing, JarModel.PlainConstants);
        if (!uncorrected.TryGet(out var plain))
            return Outcome.Refused<JarReport>(uncorrected.Problems);
        var buffer = Buffering(contents, celsius, fizzed);
        var shares = Uncertainties(contents, celsius, fizzed, open, buffer);
        var below = Math.Sqrt(shares.Sum(share => share.Below * share.Below));
        var above = Math.Sqrt(shares.Sum(share => share.Above * share.Above));
        var untold = contents.OutsideTheSums;
        var report = new JarReport
        {
            AfterFizzing = fizzed,
            Sealed = closed,
            Open = open,
            PhLow = untold.Count > 0 ? Math.Min(LeastPh, fizzed.Ph - below) : fizzed.Ph - below,
            PhHigh = untold.Count > 0 ? Math.Max(MostPh, fizzed.Ph + above) : fizzed.Ph + above,
            OutsideTheSums = untold,
            FizzMillilitres = Fizz(contents, celsius),
            HasCarbonate = contents.Totals(celsius).GetValueOrDefault("CO3-2") > 0,
            PlainConstantsPh = plain.Ph,
            Shares = [.. shares.Where(share => share.Below + share.Above > 1e-4).OrderByDescending(share => share.Below + share.Above)],
            Remarks = [],
            BufferMillimolesPerLitrePerPh = buffer,
            AlcoholPercent = contents.AlcoholPercent,
        };
        return Outcome.Of(report with { Remarks = JarRemarks.On(contents, celsius, report) });
    }

    private static double Fizz(JarContents contents, double celsius)
    {
        const double millilitresPerMole = 24_055;

        // Below the first step of carbonic acid, pKa 6.4, an acid sets CO2 free where a carbonate falls into it.
        const double sourPh = 6;
        var carbonates = contents.Portions.Where(portion => portion.Substance.IsAny(SubstanceClasses.Carbonate)).ToList();
        var moles = carbonates.Sum(portion => portion.Moles * portion.Substance.Ions.Moles.GetValueOrDefault("CO3-2"));
        if (moles <= 0)
            return 0;
        var rest = contents with { Portions = [.. contents.Portions.Except(carbonates)] };
        return Jar.Equilibrate(rest, celsius).TryGet(out var without) && without.Ph < sourPh ? moles * millilitresPerMole : 0;
    }

    /// <summary>A juice or vinegar part of whose acid its own salts hold.</summary>
    private static bool IsSaltyAcid(Substance substance) =>
        substance.Form == SubstanceForm.Liquid && substance.IsAny(SubstanceClasses.Acid) && substance.Gives("K+");

    /// <summary>Nails or coins in vinegar.</summary>
    private static bool IsMetalInVinegar(Substance substance) =>
        substance.Form == SubstanceForm.Liquid
        && substance.Gives("Acetate-")
        && substance.Gives("H+")
        && (substance.Gives("Fe+2") || substance.Gives("Cu+2"));

    private static double Buffering(JarContents contents, double celsius, JarState state)
    {
        // A little strong alkali and a little strong acid: what they move the pH by says how firmly it is held.
        var step = 1e-5 * contents.VolumeMillilitres / 1000;
        var outcome = Jar.Equilibrate(
            contents,
            celsius,
            state.CarbonDioxideMoles > 0 ? CarbonDioxide.AfterFizzing : CarbonDioxide.Sealed,
            JarCorrections.Usual,
            totals =>
            {
                totals["H+"] = totals.GetValueOrDefault("H+") - step;
                totals["Na+"] = totals.GetValueOrDefault("Na+") + step;
            }
        );
        if (!outcome.TryGet(out var after))
            return 0;
        var moved = Math.Abs(after.Ph - state.Ph);
        return moved > 1e-9 ? 0.01 / moved : 1e6;
    }

    private static List<PhUncertaintyShare> Uncertainties(
        JarContents contents,
        double celsius,
        JarState state,
        JarState open,
        double buffer
    )
    {
        var shares = new List<PhUncertaintyShare>();
        for (var i = 0; i < contents.Portions.Count; i++)
        {
            var portion = contents.Portions[i];
            if (portion.Substance.Ions.Moles.Count == 0 && portion.Substance.Form != SubstanceForm.Water)
                continue;
            Add(portion.Named.Name, With(i, portion.Stronger(portion.LowFactor)), With(i, portion.Stronger(portion.HighFactor)));
        }

        foreach (var portion in contents.Portions.Where(one => one.Grams > 0 && IsSaltyAcid(one.Substance)))
        {
            // Fruits differ in their salts more than in their acid: from half to twice as much (estimate; food tables give 2.0 to 2.8 for
            // citrus juices and 2.4 to 3.4 for vinegars).
            var salts = portion.Moles * portion.Substance.Ions.Moles["K+"];
            shares.Add(
                new(
                    $"the salts of {portion.Substance.Name}",
                    Math.Max(0, -Apart(JarCorrections.Usual, Salted(-0.5 * salts))),
                    Math.Max(0, Apart(JarCorrections.Usual, Salted(salts)))
                )
            );

            static Action<Dictionary<string, double>> Salted(double more) =>
                changed =>
                {
                    changed["K+"] = changed.GetValueOrDefault("K+") + more;
                    changed["H+"] = changed.GetValueOrDefault("H+") - more;
                };
        }

        foreach (var (cause, low, high) in contents.Liquor.Ends())
            Add(cause, contents with { Liquor = low }, contents with { Liquor = high });

        var totals = contents.Totals(celsius);
        if (totals.GetValueOrDefault("Al+3") > 0 && totals.GetValueOrDefault("SO4-2") > 0)
        {
            // The species that brings alum to what it reads is fitted and unproven: a third of what it does, either way.
            var fitted = Math.Abs(Apart(JarCorrections.Usual with { BasicAluminiumSulfate = false }));
            shares.Add(new("alum solutions read lower than the constants say", 0.3 * fitted, 0.3 * fitted));
        }

        if (totals.GetValueOrDefault("Fe+2") > 0)
            shares.Add(
                new(
                    "a trace of the iron is always oxidised",
                    Math.Max(0, -Apart(JarCorrections.Usual with { OxidisedIron = MostOxidisedIron })),
                    Math.Max(0, Apart(JarCorrections.Usual with { OxidisedIron = LeastOxidisedIron }))
                )
            );
        if (totals.GetValueOrDefault("Fe+2") > 0 && contents.HoldsTannin)
            shares.Add(
                new(
                    "iron that blackens with tannin and sets its acid free over weeks",
                    Math.Max(0, -Apart(JarCorrections.Usual with { OxidisedIron = BlackenedIron })),
                    0
                )
            );
        if (totals.GetValueOrDefault("Cu+2") > 0 && totals.GetValueOrDefault("SO4-2") > 0)
            shares.Add(
                new(
                    "a trace of acid in the copper sulfate",
                    Math.Max(0, -Apart(JarCorrections.Usual with { FreeAcidInCopper = MostFreeAcidInCopper })),
                    Math.Max(0, Apart(JarCorrections.Usual with { FreeAcidInCopper = 0 }))
                )
            );
        foreach (var portion in contents.Portions.Where(one => one.Grams > 0 && IsMetalInVinegar(one.Substance)))
        {
            // Nobody knows how much of the vinegar the metal has used up: from hardly any to nine tenths of it.
            var metal = portion.Substance.Gives("Fe+2") ? "Fe+2" : "Cu+2";
            var (much, acid) = (
                portion.Moles * portion.Substance.Ions.Moles[metal],
                portion.Moles * portion.Substance.Ions.Moles.GetValueOrDefault("H+")
            );
            shares.Add(
                new(
                    $"how far the metal has used up the vinegar in {portion.Substance.Name}",
                    Math.Max(0, -Apart(JarCorrections.Usual, Dissolved(-0.97 * much))),
                    Math.Max(0, Apart(JarCorrections.Usual, Dissolved(0.45 * acid)))
                )
            );

            Action<Dictionary<string, double>> Dissolved(double more) =>
                changed =>
                {
                    changed[metal] = changed.GetValueOrDefault(metal) + more;
                    changed["H+"] = changed.GetValueOrDefault("H+") - (2 * more);
                };
        }

        if (JarCorrections.OwnAcidOf(contents) > 0)
            shares.Add(
                new(
                    "acids of gum, honey or tannin that are only guessed",
                    Math.Max(0, -Apart(JarCorrections.Usual with { OwnAcids = 3 })),
                    Math.Max(0, Apart(JarCorrections.Usual with { OwnAcids = 0.1 }))
                )
            );
        foreach (var portion in contents.Portions.Where(one => one.Grams > 0 && one.Substance.IsAny(SubstanceClasses.BringsItsOwn)))
            shares.Add(Brings(portion));

        // Stirring, pouring and the first hour drive some of the carbon dioxide out, where the liquid holds more than air does: a fifth of
        // the way to the balance with air (estimate, no source).
        if (totals.GetValueOrDefault("CO3-2") > 0 && open.Ph > state.Ph)
            shares.Add(
                contents.Liquor is Liquor.TapWater && !contents.Portions.Any(one => one.Substance.IsAny(SubstanceClasses.Carbonate))
                    ? new("the tap water's carbon dioxide, which leaves", 0, open.Ph - state.Ph)
                    : new("carbon dioxide that leaves while it is stirred", 0, 0.2 * (open.Ph - state.Ph))
            );

        if (buffer < 1 && !contents.Liquor.Ends().Any())
            shares.Add(
                new("a breath of air, where nothing holds the pH", Math.Max(0, state.Ph - open.Ph), Math.Max(0, open.Ph - state.Ph))
            );

        // The activity formula and the constants: 0.05 against pH standards, twice that against what is printed of ordinary solutions
        // (published-ph.csv), more beyond where they were checked.
        var model = 0.1 + (0.4 * Math.Max(0, state.IonicStrength - 0.3)) + (celsius > 50 ? 0.001 * (celsius - 50) : 0);
        shares.Add(new("the model itself", model, model));
        return shares;

        JarContents With(int index, Portion changed)
        {
            var all = contents.Portions.ToArray();
            all[index] = changed;
            return contents with { Portions = all };
        }

        void Add(string what, JarContents low, JarContents high)
        {
            var (below, above) = (0.0, 0.0);
            foreach (var one in (ReadOnlySpan<JarContents>)[low, high])
            {
                if (!Jar.Equilibrate(one, celsius).TryGet(out var moved))
                    continue;
                below = Math.Max(below, state.Ph - moved.Ph);
                above = Math.Max(above, moved.Ph - state.Ph);
            }

            shares.Add(new(what, below, above));
        }

        double Apart(JarCorrections other, Action<Dictionary<string, double>>? change = null) =>
            Jar.Equilibrate(contents, celsius, CarbonDioxide.AfterFizzing, other, change).TryGet(out var moved) ? moved.Ph - state.Ph : 0;

        // Plant matter and ash: about a tenth of a millimole of weak acids a gram, of a liquor between sour and faintly alkaline (estimate,
        // no source).
        PhUncertaintyShare Brings(Portion portion)
        {
            var litres = contents.VolumeMillilitres / 1000;
            var (sour, alkaline) = (Moved(4), Moved(8.5));
            return new(
                $"what {portion.Substance.Name} brings of its own",
                Math.Max(0, -Math.Min(sour, alkaline)),
                Math.Max(0, Math.Max(sour, alkaline))
            );

            double Moved(double ph) =>
                Apart(
                    JarCorrections.Usual,
                    changed =>
                    {
                        foreach (var (component, perLitre) in new ExtractPoint(ph, 1e-4 * portion.Grams / litres).Totals())
                            changed[component] = changed.GetValueOrDefault(component) + (perLitre * litres);
                    }
                );
        }
    }
}

/// <summary>One cause of doubt about a pH.</summary>
/// <param name="Cause">In words.</param>
/// <param name="Below">How far it may pull the pH down.</param>
/// <param name="Above">How far up.</param>
public sealed record PhUncertaintyShare(string Cause, double Below, double Above);
