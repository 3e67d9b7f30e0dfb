using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>Everything that is said about one jar: three kinds of pH, an interval, what is in it and what to look out for.</summary>
public sealed record JarReport
{
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

    /// <summary>Free room a jar or pot needs above the liquid, ml, so that the foam stays in: three times the liquid where it froths
    /// (common practice).</summary>
    public double HeadSpaceMillilitres =>
        AfterFizzing.GasMillilitres < 0.02 * AfterFizzing.VolumeMillilitres
            ? 0
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
        var buffer = Buffering(contents, celsius, fizzed);
        var shares = Uncertainties(contents, celsius, fizzed, open, buffer);
        var below = Math.Sqrt(shares.Sum(share => share.Below * share.Below));
        var above = Math.Sqrt(shares.Sum(share => share.Above * share.Above));
        var report = new JarReport
        {
            AfterFizzing = fizzed,
            Sealed = closed,
            Open = open,
            PhLow = fizzed.Ph - below,
            PhHigh = fizzed.Ph + above,
            Shares = [.. shares.Where(share => share.Below + share.Above > 1e-4).OrderByDescending(share => share.Below + share.Above)],
            Remarks = [],
            BufferMillimolesPerLitrePerPh = buffer,
            AlcoholPercent = contents.AlcoholPercent,
        };
        return Outcome.Of(report with { Remarks = JarRemarks.On(contents, celsius, report) });
    }

    private static double Buffering(JarContents contents, double celsius, JarState state)
    {
        // A little strong alkali and a little strong acid: what they move the pH by says how firmly it is held.
        var step = 1e-5 * contents.VolumeMillilitres / 1000;
        var outcome = Jar.Equilibrate(
            contents,
            celsius,
            state.CarbonDioxideMoles > 0 ? CarbonDioxide.AfterFizzing : CarbonDioxide.Sealed,
            [],
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
            Add(portion.Named.Name, With(i, portion.Times(portion.LowFactor)), With(i, portion.Times(portion.HighFactor)));
        }

        foreach (var (cause, low, high) in contents.Liquor.Ends())
            Add(cause, contents with { Liquor = low }, contents with { Liquor = high });

        var totals = contents.Totals(celsius);
        if (totals.GetValueOrDefault("Al+3") > 0 && totals.GetValueOrDefault("SO4-2") > 0)
            OneSided(
                "alum solutions read lower than the constants say",
                Jar.Equilibrate(contents, celsius, CarbonDioxide.AfterFizzing, ["AlOHSO4"])
            );
        if (totals.GetValueOrDefault("Fe+2") > 0)
        {
            OneSided(
                "a trace of the iron is always oxidised",
                Jar.Equilibrate(
                    contents,
                    celsius,
                    CarbonDioxide.AfterFizzing,
                    [],
                    changed =>
                    {
                        // Half a percent is the ferric limit of the pharmacopoeia's salt; air turns Fe(II) + H+ into Fe(III).
                        var oxidised = 0.005 * changed["Fe+2"];
                        changed["Fe+2"] -= oxidised;
                        changed["Fet+3"] = changed.GetValueOrDefault("Fet+3") + oxidised;
                        changed["H+"] = changed.GetValueOrDefault("H+") - oxidised;
                    }
                )
            );
        }

        var untold = contents.Portions.Sum(portion => UntoldAcid(portion.Substance.Key) * portion.PureGrams);
        if (untold > 0)
        {
            OneSided(
                "acids of gum, honey or tannin that are not computed",
                Jar.Equilibrate(
                    contents,
                    celsius,
                    CarbonDioxide.AfterFizzing,
                    [],
                    changed =>
                    {
                        changed["Extract4-"] = changed.GetValueOrDefault("Extract4-") + untold;
                        changed["H+"] = changed.GetValueOrDefault("H+") + untold;
                    }
                )
            );
        }

        if (buffer < 1 && !contents.Liquor.Ends().Any())
            shares.Add(
                new("a breath of air, where nothing holds the pH", Math.Max(0, state.Ph - open.Ph), Math.Max(0, open.Ph - state.Ph))
            );

        // The activity formula and the constants: about 0.05 where they were checked, more beyond.
        var model = 0.05 + (0.4 * Math.Max(0, state.IonicStrength - 0.3)) + (celsius > 50 ? 0.001 * (celsius - 50) : 0);
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

        void OneSided(string what, Outcome<JarState> moved)
        {
            if (moved.TryGet(out var other))
                shares.Add(new(what, Math.Max(0, state.Ph - other.Ph), Math.Max(0, other.Ph - state.Ph)));
        }
    }

    /// <summary>mol of weak acid per gram of things whose acidity is not computed: they only widen the interval downwards.</summary>
    /// <remarks>Tannic acid so that 1 % reads about pH 3.5, gum so that 3 % reads about 4.7 (both from memory); honey 25 mmol/kg of free
    /// acid (from memory).</remarks>
    private static double UntoldAcid(string key) =>
        key switch
        {
            "tannic-acid" => 0.25e-3,
            "gum-arabic" => 0.002e-3,
            "honey" => 0.025e-3,
            _ => 0,
        };
}

/// <summary>One cause of doubt about a pH.</summary>
/// <param name="Cause">In words.</param>
/// <param name="Below">How far it may pull the pH down.</param>
/// <param name="Above">How far up.</param>
public sealed record PhUncertaintyShare(string Cause, double Below, double Above);
