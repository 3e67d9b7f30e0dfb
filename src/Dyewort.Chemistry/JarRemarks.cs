using System.Globalization;

namespace Dyewort.Chemistry;

/// <summary>Reasons and warnings in plain words, each with its rule.</summary>
internal static class JarRemarks
{
    private const string Household = "general chemistry and household-safety teaching, from memory";
    private const string Solver = "computed from the constants in the tables";

    private static readonly string[] Acids =
    [
        "white-vinegar",
        "cider-vinegar",
        "wine-vinegar",
        "malt-vinegar",
        "cleaning-vinegar",
        "acetic-acid",
        "cream-of-tartar",
        "citric-acid",
        "citric-acid-monohydrate",
        "tartaric-acid",
        "lemon-juice",
        "lime-juice",
        "ascorbic-acid",
        "iron-liquor",
        "copper-liquor",
    ];
    private static readonly string[] UncertainLiquids =
    [
        "iron-liquor",
        "copper-liquor",
        "wood-ash-lye",
        "lemon-juice",
        "lime-juice",
        "lime-water",
    ];

    public static IReadOnlyList<Remark> On(JarContents contents, double celsius, JarReport report)
    {
        var remarks = new List<Remark>();
        var totals = contents.Totals(celsius);
        var state = report.AfterFizzing;
        var keys = contents.Portions.Where(portion => portion.Grams > 0).Select(portion => portion.Substance.Key).ToHashSet();
        var litres = state.VolumeMillilitres / 1000;
        var isAcid = state.Ph < 7;
        bool Has(string component) => totals.GetValueOrDefault(component) > 1e-9;
        double Solid(string key) => state.Solids.Where(solid => solid.Key == key).Sum(solid => solid.Grams);
        void Say(string code, string text, string rule, RemarkWeight weight = RemarkWeight.Note) =>
            remarks.Add(new(code, text, rule, weight));

        // What must not meet.
        if (keys.Contains("bleach"))
        {
            var partner =
                keys.Contains("household-ammonia") || Has("AmmH+") ? "with ammonia it gives off chloramine"
                : isAcid || keys.Overlaps(Acids) ? "with any acid it gives off chlorine"
                : "acids, alum and ammonia turn it into poisonous gas";
            Say(
                "bleach",
                $"Do not: chlorine bleach has no place in an ink, and {partner}. Get into fresh air if it was mixed.",
                Household,
                RemarkWeight.Stop
            );
        }

        // Gas.
        if (state.GasMillilitres > 0.02 * state.VolumeMillilitres)
        {
            Say(
                "foam",
                F(
                    $"It foams: about {Litres(state.GasMillilitres)} of carbon dioxide leaves. Add the second part a little at a time in a vessel with {Litres(report.HeadSpaceMillilitres)} of free room above the liquid."
                ),
                $"acid on carbonate, {Solver}; gas volume at the jar's temperature",
                RemarkWeight.Caution
            );
            Say(
                "no-tight-cap",
                F(
                    $"Leave the cap loose until it is quiet, best for a day: shut in, the gas would press with about {report.Sealed.CarbonDioxidePressureAtm:0.#} atmospheres or more."
                ),
                $"Henry's law, {Solver}",
                RemarkWeight.Caution
            );
        }

        if (Has("CO3-2") && report.Open.Ph - state.Ph > 0.5 && contents.Liquor is not Liquor.TapWater)
            Say(
                "drifts-up",
                F($"Left open, it slowly loses carbon dioxide and drifts towards pH {report.Open.Ph:0.0} over days."),
                $"balance with 420 ppm CO2, {Solver}"
            );
        else if (state.Ph - report.Open.Ph > 0.5 && state.Ph > 8)
            Say(
                "drifts-down",
                F($"Left open, it takes up carbon dioxide from the air and drifts towards pH {report.Open.Ph:0.0} over days."),
                $"balance with 420 ppm CO2, {Solver}"
            );
        if (celsius >= 80 && (keys.Contains("baking-soda") || keys.Contains("potassium-bicarbonate")))
            Say(
                "boiled-bicarbonate",
                "Boiling drives carbon dioxide off and makes washing soda: the pH climbs well above what cold bicarbonate gives. Add bicarbonate after heating, and cold.",
                "2 HCO3- = CO3-2 + CO2 + H2O; general chemistry",
                RemarkWeight.Caution
            );

        // What does not dissolve.
        foreach (var solid in state.Solids.Where(solid => !solid.IsSuspension && solid.Grams > 0.002))
        {
            var own = contents.Portions.Any(portion => portion.Substance.SolidName == solid.Key);
            switch (solid.Key)
            {
                case "KHTartrate" when own:
                    Say(
                        "saturated-cream-of-tartar",
                        F(
                            $"Saturated: {Grams(solid.Grams)} of the cream of tartar lies undissolved, and more will not make it sourer. It would dissolve hot, and fall out again on cooling."
                        ),
                        $"solubility of cream of tartar, {Solver}"
                    );
                    break;
                case "KHTartrate":
                    Say(
                        "tartar-crystals",
                        F($"Cream-of-tartar crystals fall out ({Grams(solid.Grams)}): potassium has met tartaric acid."),
                        Solver
                    );
                    break;
                case "Portlandite":
                    Say(
                        "saturated-lime",
                        F($"Saturated lime water: {Grams(solid.Grams)} stays as powder, and the pH stays the same whatever the excess."),
                        Solver
                    );
                    break;
                case "Calcite" when own:
                    Say(
                        "undissolved-chalk",
                        F($"{Grams(solid.Grams)} of the chalk stays as powder; it goes on dissolving where acid comes."),
                        Solver
                    );
                    break;
                case "Calcite":
                    Say("chalk-falls-out", F($"Chalk falls out ({Grams(solid.Grams)}), as in a kettle."), Solver);
                    break;
                case "Al(OH)3(am)":
                    Say(
                        "lake",
                        F(
                            $"Aluminium hydroxide falls out ({Grams(solid.Grams)} dry): a gel that takes colour with it. That is how a lake is made; in an ink it is sludge."
                        ),
                        $"alkali with alum, {Solver}"
                    );
                    break;
                case "Fe(OH)2"
                or "Siderite"
                or "Ferrihydrite"
                or "Cu(OH)2"
                or "Malachite"
                or "CaTartrate:4H2O"
                or "Ca3Citrate2:4H2O"
                or "Gypsum":
                    break;
                default:
                    Say(
                        "undissolved",
                        F($"{Grams(solid.Grams)} of {solid.Name} stays undissolved at {celsius:0} °C."),
                        "handbook solubility"
                    );
                    break;
            }
        }

        if (Fallen("Fe(OH)2", "Siderite", "Ferrihydrite") is { } iron)
            Say("iron-sludge", $"Iron falls out as {iron} and is lost to the colour; air browns it.", $"alkali or air with iron, {Solver}");
        if (Fallen("Cu(OH)2", "Malachite") is { } mud)
            Say(
                "copper-sludge",
                $"Copper falls out as {mud}: poisonous mud, not to be tipped away.",
                $"alkali with copper, {Solver}",
                RemarkWeight.Caution
            );
        if (Fallen("CaTartrate:4H2O", "Ca3Citrate2:4H2O", "Gypsum") is { } white)
            Say("white-sludge", $"A white haze or sludge of {white} falls out: calcium has met sulfate or a fruit acid.", Solver);
        foreach (
            var portion in contents
                .Portions.Where(portion => portion.Substance.Form == SubstanceForm.Suspension && portion.Grams > 0)
                .DistinctBy(portion => portion.Substance.Key)
        )
            Say(
                "suspension",
                portion.Substance.Key == "clove"
                    ? "Cloves stay whole: take them out before bottling, or keep them in as a habit of the trade; nobody has measured how long they protect."
                    : $"{Capital(portion.Substance.Name)}: it only stays in suspension. Shake before every stroke; its colour is on the particles, not in the liquid.",
                "such powders do not dissolve in water; common practice"
            );

        // Colour and paper.
        var hasTannin =
            keys.Contains("tannic-acid")
            || keys.Contains("gallic-acid")
            || keys.Contains("gallic-acid-anhydrous")
            || (contents.Liquor is Liquor.Extract { Belief.Kind.Name: "galls" or "avocado and cones" or "nuts and wood" });
        var hasIron = Has("Fe+2") || Has("Fet+3");
        if (hasIron && hasTannin)
            Say(
                "iron-with-tannin",
                "Iron with tannin turns grey to blue-black and goes on darkening for days; an acid iron ink eats into paper over the years.",
                "workshop accounts; damage by iron sulfate: Restaurator 21(4), 204–212",
                RemarkWeight.Caution
            );
        else if (hasIron && state.Ph < 4)
            Say(
                "acid-iron",
                "Iron in an acid liquid harms paper and cloth over the years: use little, and let it dry on buffered paper.",
                "Restaurator 21(4), 204–212",
                RemarkWeight.Caution
            );
        if (
            Has("Al+3")
            && state.Ph > 4.5
            && Solid("Al(OH)3(am)") == 0
            && keys.Overlaps(["chalk", "soda-ash", "washing-soda-crystals", "baking-soda"])
        )
            Say("near-lake", F($"At pH {state.Ph:0.0} the alum is close to falling out as a gel."), Solver);

        // Poisons and burns.
        if (Has("Cu+2"))
            Say(
                "copper",
                F(
                    $"Copper is poisonous, above all to water life ({totals["Cu+2"] * 63.546 / litres * 1000:0} mg per litre here): gloves and goggles, keep it from children and pets, nothing of it down the drain. Ask your local waste service."
                ),
                "CLP Annex VI 029-023-00-4",
                RemarkWeight.Caution
            );
        if (
            hasIron
            && contents.Portions.Any(portion =>
                portion.Substance.Hazard?.HCodes.Contains("H302", StringComparison.Ordinal) == true
                && (portion.Substance.Gives("Fe+2") || portion.Substance.Gives("Fet+3"))
            )
        )
            Say(
                "iron-salt",
                "Iron salts make children gravely ill when swallowed: lock the jar away. It stains everything.",
                "CLP Annex VI 026-003-01-4",
                RemarkWeight.Caution
            );
        if (keys.Overlaps(["slaked-lime", "lime-water", "caustic-soda", "caustic-potash", "wood-ash-lye"]) || state.Ph > 11.5)
            Say(
                "caustic",
                F(
                    $"Caustic: lime and lye burn eyes for good and skin slowly (pH {state.Ph:0.0}). Goggles and gloves, powder into cold water, never near aluminium pans; rinse an eye for many minutes and call a doctor."
                ),
                $"H314/H318 classifications; {Household}",
                RemarkWeight.Caution
            );
        if (keys.Contains("household-ammonia"))
            Say(
                "ammonia-fumes",
                "Ammonia fumes choke and burn the eyes: window open, lid on, never heated, and never anywhere near chlorine bleach. Poison centre or doctor if breathed.",
                "H314, H335 for 5 to 10 % solutions",
                RemarkWeight.Caution
            );
        else if (Has("AmmH+") && state.Ph > 8.5)
            Say(
                "ammonia-released",
                F($"At pH {state.Ph:0.0} the ammonium salt gives off ammonia: ventilate, and keep chlorine bleach far away."),
                Household,
                RemarkWeight.Caution
            );
        if (state.Ph < 2.2)
            Say(
                "strong-acid",
                F($"At pH {state.Ph:0.0} it smarts in eyes and cuts, and etches marble, limestone and chipped enamel."),
                Household,
                RemarkWeight.Caution
            );
        if (report.AlcoholPercent >= 5)
        {
            var flash = AlcoholMix.FlashPoint(report.AlcoholPercent);
            Say(
                "alcohol-vapour",
                F(
                    $"{report.AlcoholPercent:0} % alcohol: its vapour can catch fire from about {flash:0} °C. No flame, no hot plate, window open; warm it only in hot water taken off the heat."
                ),
                "flash points of ethanol and water, read cautiously (flash_points.csv); H225",
                RemarkWeight.Caution
            );
            Say(
                "alcohol-model",
                "The pH was computed as if in water: alcohol shifts it, and makes gum, alum and other salts fall out.",
                "general chemistry, from memory"
            );
        }

        foreach (var portion in contents.Portions.Where(portion => portion.Grams > 0).DistinctBy(portion => portion.Substance.Key))
        {
            var hazard = portion.Substance.Hazard;
            if (
                hazard is null
                || hazard.SignalWord == "none"
                || portion.Substance.Key
                    is "bleach"
                        or "household-ammonia"
                        or "copper-sulfate"
                        or "iron-sulfate"
                        or "slaked-lime"
                        or "caustic-soda"
            )
                continue;
            Say(
                "care",
                $"{Capital(portion.Substance.Name)}: {hazard.Caution}",
                hazard.HCodes.Length > 0 ? $"{hazard.SignalWord}; {hazard.HCodes}. {Hazard.GoesFirst}" : Hazard.GoesFirst,
                hazard.SignalWord == "Danger" ? RemarkWeight.Caution : RemarkWeight.Note
            );
        }

        // Keeping.
        foreach (
            var (key, acid) in (ReadOnlySpan<(string, Preservative)>)
                [("sodium-benzoate", Preservative.Benzoate), ("potassium-sorbate", Preservative.Sorbate)]
        )
        {
            if (!keys.Contains(key))
                continue;
            var milligrams =
                contents.Portions.Where(portion => portion.Substance.Key == key).Sum(portion => portion.PureGrams) * 1000 / litres;
            var keeping = acid.At(state.Ph, milligrams);
            Say(
                keeping.IsEnough ? "preservative" : "preservative-asleep",
                keeping.Words,
                "share of the undissociated acid, 1/(1 + 10^(pH − pKa)); thresholds chosen here from published ranges",
                keeping.IsEnough ? RemarkWeight.Note : RemarkWeight.Caution
            );
            if (keeping.CrystalMilligramsPerLitre > 0)
                Say(
                    "preservative-crystals",
                    F(
                        $"So much of it in this acid that about {keeping.CrystalMilligramsPerLitre / 1000:0.0} g per litre of {acid.AcidName} may crystallise out; the computed pH counts it as dissolved."
                    ),
                    $"solubility of {acid.AcidName} {acid.AcidSolubilityGramsPerLitre:0.0} g/L at 25 °C (from memory)"
                );
            if (key == "sodium-benzoate" && keys.Contains("ascorbic-acid"))
                Say(
                    "benzoate-vitamin-c",
                    "Vitamin C with benzoate and light can form traces of benzene: do not combine them.",
                    Household,
                    RemarkWeight.Caution
                );
        }

        if (keys.Contains("wintergreen-oil"))
            Say(
                "wintergreen",
                "Oil of wintergreen is poisonous (a teaspoon has killed small children) and unproven as a preservative: better left out.",
                "Davis 2007, J. Emerg. Med. 32, 63",
                RemarkWeight.Caution
            );

        // Water.
        if (contents.Liquor is Liquor.TapWater tap)
        {
            if (tap.Alkalinity > 50 && contents.Portions.Count > 0)
                Say(
                    "hard-water",
                    F(
                        $"The tap water itself uses up acid: its alkalinity equals {tap.Alkalinity * 2 * 84.007 / 100.087 / 1000:0.00} g of bicarbonate of soda per litre."
                    ),
                    "mass balance of the water's bicarbonate"
                );
            if (report.Open.Solids.Any(solid => solid.Key == "Calcite") && Solid("Calcite") == 0)
                Say("scale", "On standing or heating, this water lets chalk fall out.", Solver);
        }

        // How far the figures can be trusted.
        if (Has("Al+3") && Has("SO4-2") && isAcid && state.Ph > 3.6 && Solid("Al(OH)3(am)") == 0 && !keys.Overlaps(Acids))
            Say(
                "model-alum",
                "Real alum solutions read pH 3 to 3.5: the known constants come out about one unit too high here, so trust the lower end of the interval.",
                "pharmacopoeia test of a 5 % solution, pH 3.0 to 3.5; the missing species is not settled"
            );
        if (Has("Fe+2") && report.PhLow < state.Ph - 0.5)
            Say(
                "model-iron",
                "Real iron(II) salt always holds a trace of iron(III), which makes it much sourer than the pure salt: expect the lower end of the interval.",
                "published pH 3 to 4 for 50 g/L; 0.5 % iron(III) allowed by the pharmacopoeia"
            );
        if (state.IonicStrength > 0.5)
            Say(
                "outside-range",
                F(
                    $"So much salt is dissolved (ionic strength {state.IonicStrength:0.0} mol/L) that the activity formula is outside its range: the pH is a rough one."
                ),
                "Davies formula, fitted below about 0.5 mol/L",
                RemarkWeight.Caution
            );
        if (keys.Contains("tannic-acid"))
            Say(
                "tannin-not-computed",
                "Tannic acid is a mixture without one acid constant: its acidity only widens the interval downwards.",
                "a 1 % solution reads about pH 3.5, from memory"
            );
        foreach (
            var portion in contents
                .Portions.Where(portion => portion.Grams > 0 && !portion.Named.IsStrengthStated && portion.Named.Strength is not null)
                .DistinctBy(portion => portion.Substance.Key)
        )
        {
            var strength = portion.Named.Strength!;
            if (UncertainLiquids.Contains(portion.Substance.Key))
                Say(
                    "unknown-strength",
                    $"The strength of {portion.Substance.Name} is a guess ({strength.Words}); such liquids differ widely. Test it once and state it.",
                    strength.Source,
                    RemarkWeight.Caution
                );
            else
                Say(
                    "usual-strength",
                    $"{Capital(portion.Substance.Name)} was taken as {strength.Words}, the usual strength; read the label and state it if it differs.",
                    strength.Source
                );
        }

        if (contents.Liquor is Liquor.Extract { Belief: var buffer } && buffer.NoteCount == 0)
            Say(
                "untested-liquor",
                $"{buffer.Words()} Test its pH before and after one addition: the first shows where it stands, the second how firmly.",
                buffer.Kind.Source
            );
        if (report.BufferMillimolesPerLitrePerPh < 1 && contents.Liquor is not Liquor.Extract)
            Say(
                "weakly-held",
                "Hardly anything holds this pH: a breath of air or a drop of vinegar moves it, and a strip will not settle.",
                "buffer capacity below 1 mmol/L per pH unit"
            );
        if (keys.Contains("household-ammonia") && state.Ph > 9)
            Say(
                "ammonia-leaves",
                "Ammonia leaves an open jar and the drying paper, and the pH falls with it; that is not in the figure for standing open.",
                Household
            );

        return [.. remarks.OrderByDescending(remark => remark.Weight)];

        string? Fallen(params string[] fallen)
        {
            var lying = state
                .Solids.Where(solid => fallen.Contains(solid.Key) && solid.Grams > 0.002)
                .Select(solid => $"{solid.Name} ({Grams(solid.Grams)})")
                .ToList();
            return lying.Count == 0 ? null : string.Join(" and ", lying);
        }
    }

    internal static string Grams(double grams) =>
        grams >= 1 ? F($"{grams:0.0} g")
        : grams >= 0.01 ? F($"{grams:0.00} g")
        : F($"{grams * 1000:0} mg");

    internal static string Litres(double millilitres) =>
        millilitres >= 1000 ? F($"{millilitres / 1000:0.0} litres") : F($"{millilitres:0} ml");

    private static string Capital(string name) => char.ToUpperInvariant(name[0]) + name[1..];

    private static string F(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
