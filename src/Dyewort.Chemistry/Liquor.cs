namespace Dyewort.Chemistry;

/// <summary>What the jar was filled with before anything was added.</summary>
public abstract record Liquor
{
    private Liquor() { }

    /// <summary>Water that holds nothing, not even CO2.</summary>
    public static Liquor PureWater { get; } = new Plain();

    /// <summary>Tap water by its hardness and alkalinity.</summary>
    /// <param name="hardnessMilligramsPerLitre">Hardness as mg/L of calcium carbonate, 0 to 1000 (1 °dH is 17.8).</param>
    /// <param name="alkalinityMilligramsPerLitre">Alkalinity as mg/L of calcium carbonate, 0 to 1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public static Liquor Tap(double hardnessMilligramsPerLitre, double alkalinityMilligramsPerLitre)
    {
        if (!(hardnessMilligramsPerLitre is >= 0 and <= 1000))
            throw new ArgumentOutOfRangeException(
                nameof(hardnessMilligramsPerLitre),
                hardnessMilligramsPerLitre,
                "Allowed: 0 to 1000 mg/L as calcium carbonate."
            );
        if (!(alkalinityMilligramsPerLitre is >= 0 and <= 1000))
            throw new ArgumentOutOfRangeException(
                nameof(alkalinityMilligramsPerLitre),
                alkalinityMilligramsPerLitre,
                "Allowed: 0 to 1000 mg/L as calcium carbonate."
            );
        return new TapWater(hardnessMilligramsPerLitre, alkalinityMilligramsPerLitre);
    }

    /// <summary>A plant liquor, known by its pH and how strongly it holds it.</summary>
    public static Liquor Of(ExtractBuffer extract)
    {
        ArgumentNullException.ThrowIfNull(extract);
        return new Extract(extract);
    }

    /// <summary>A plant liquor whose pH and weak acids are taken as known, for sums over many possible liquors.</summary>
    /// <param name="ph">pH before anything is added, 0 to 14.</param>
    /// <param name="weakAcidMolesPerLitre">Sum of its weak acids, mol/L, above 0 to 10.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside those ranges.</exception>
    public static Liquor Known(double ph, double weakAcidMolesPerLitre)
    {
        if (!(ph is >= 0 and <= 14))
            throw new ArgumentOutOfRangeException(nameof(ph), ph, "A pH lies between 0 and 14.");
        if (!(weakAcidMolesPerLitre is > 0 and <= 10))
            throw new ArgumentOutOfRangeException(nameof(weakAcidMolesPerLitre), weakAcidMolesPerLitre, "Allowed: above 0 to 10 mol/L.");
        return new Exact(new ExtractPoint(ph, weakAcidMolesPerLitre));
    }

    /// <summary>What is believed of a plant liquor; null for water.</summary>
    public ExtractBuffer? Buffer => this is Extract extract ? extract.Belief : null;

    /// <summary>Moles per litre of each component.</summary>
    internal abstract IReadOnlyDictionary<string, double> Totals(double celsius);

    /// <summary>Ends of what the liquor may be, one pair per cause of doubt.</summary>
    internal virtual IEnumerable<(string Cause, Liquor Low, Liquor High)> Ends() => [];

    /// <summary>Liquors poured together, or one boiled down: each with the litres of it in a litre of this.</summary>
    internal static Liquor Of(IReadOnlyList<(Liquor Liquor, double LitresPerLitre)> parts) => new Mixed(parts);

    internal sealed record Mixed(IReadOnlyList<(Liquor Liquor, double LitresPerLitre)> Parts) : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius)
        {
            var totals = new Dictionary<string, double>();
            foreach (var (part, share) in Parts)
            {
                foreach (var (component, perLitre) in part.Totals(celsius))
                    totals[component] = totals.GetValueOrDefault(component) + (perLitre * share);
            }

            return totals;
        }

        internal override IEnumerable<(string Cause, Liquor Low, Liquor High)> Ends()
        {
            for (var i = 0; i < Parts.Count; i++)
            {
                foreach (var (cause, low, high) in Parts[i].Liquor.Ends())
                    yield return (cause, With(i, low), With(i, high));
            }

            Mixed With(int index, Liquor other) =>
                new([.. Parts.Select((part, place) => place == index ? (other, part.LitresPerLitre) : part)]);
        }
    }

    internal sealed record Plain : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius) => new Dictionary<string, double>();
    }

    internal sealed record TapWater(double Hardness, double Alkalinity) : Liquor
    {
        private const double ChalkMolarMass = 100.087;

        /// <summary>Dissolved CO2 as a share of the bicarbonate: what keeps supply water near pH 7.4, deep well water near 6.8, and water
        /// that
        /// stood about near 8.4 (common practice, no source).</summary>
        private const double UsualFree = 0.1;
        private const double MostFree = 0.4;
        private const double LeastFree = 0.01;

        private double Free { get; init; } = UsualFree;

        /// <summary>Nobody knows how much CO2 comes out of the tap.</summary>
        internal override IEnumerable<(string Cause, Liquor Low, Liquor High)> Ends() =>
            Alkalinity > 0 ? [("the tap water's carbon dioxide", this with { Free = MostFree }, this with { Free = LeastFree })] : [];

        /// <summary>All hardness is counted as calcium; what alkalinity does not balance is sodium or chloride. CO2 makes it read about pH
        /// 7.5.</summary>
        internal override IReadOnlyDictionary<string, double> Totals(double celsius)
        {
            var calcium = Hardness / 1000 / ChalkMolarMass;
            var bicarbonate = 2 * Alkalinity / 1000 / ChalkMolarMass;
            var free = Free * bicarbonate;
            var totals = new Dictionary<string, double> { ["H+"] = bicarbonate + (2 * free), ["CO3-2"] = bicarbonate + free };
            if (calcium > 0)
                totals["Ca+2"] = calcium;
            var charge = (2 * calcium) - bicarbonate;
            if (charge > 0)
                totals["Cl-"] = charge;
            if (charge < 0)
                totals["Na+"] = -charge;
            return totals;
        }
    }

    internal sealed record Extract(ExtractBuffer Belief) : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius) => Belief.Typical.Totals();

        internal override IEnumerable<(string Cause, Liquor Low, Liquor High)> Ends() =>
            Belief
                .Ends()
                .Select(
                    (pair, index) =>
                        (
                            index == 0 ? "the liquor's own pH" : "how firmly the liquor holds its pH",
                            (Liquor)new Exact(pair.Low),
                            (Liquor)new Exact(pair.High)
                        )
                );
    }

    /// <summary>A liquor with exactly these unknown acids; the interval is made from several of them.</summary>
    internal sealed record Exact(ExtractPoint Point) : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius) => Point.Totals();
    }
}
