namespace Dyewort.Chemistry;

/// <summary>What the jar was filled with before anything was added.</summary>
public abstract record Liquor
{
    private Liquor()
    {
    }

    /// <summary>Water that holds nothing, not even CO2.</summary>
    public static Liquor PureWater { get; } = new Plain();

    /// <summary>Tap water by its hardness and alkalinity.</summary>
    /// <param name="hardnessMilligramsPerLitre">Hardness as mg/L of calcium carbonate, 0 to 1000 (1 °dH is 17.8).</param>
    /// <param name="alkalinityMilligramsPerLitre">Alkalinity as mg/L of calcium carbonate, 0 to 1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public static Liquor Tap(double hardnessMilligramsPerLitre, double alkalinityMilligramsPerLitre)
    {
        if (!(hardnessMilligramsPerLitre is >= 0 and <= 1000)) throw new ArgumentOutOfRangeException(nameof(hardnessMilligramsPerLitre), hardnessMilligramsPerLitre, "Allowed: 0 to 1000 mg/L as calcium carbonate.");
        if (!(alkalinityMilligramsPerLitre is >= 0 and <= 1000)) throw new ArgumentOutOfRangeException(nameof(alkalinityMilligramsPerLitre), alkalinityMilligramsPerLitre, "Allowed: 0 to 1000 mg/L as calcium carbonate.");
        return new TapWater(hardnessMilligramsPerLitre, alkalinityMilligramsPerLitre);
    }

    /// <summary>A plant liquor, known by its pH and how strongly it holds it.</summary>
    public static Liquor Of(ExtractBuffer extract)
    {
        ArgumentNullException.ThrowIfNull(extract);
        return new Extract(extract);
    }

    /// <summary>What is believed of a plant liquor; null for water.</summary>
    public ExtractBuffer? Buffer => this is Extract extract ? extract.Belief : null;

    /// <summary>Moles per litre of each component.</summary>
    internal abstract IReadOnlyDictionary<string, double> Totals(double celsius);

    internal sealed record Plain : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius) => new Dictionary<string, double>();
    }

    internal sealed record TapWater(double Hardness, double Alkalinity) : Liquor
    {
        private const double ChalkMolarMass = 100.087;

        /// <summary>All hardness is counted as calcium; what alkalinity does not balance is sodium or chloride. CO2 makes it read about pH 7.5.</summary>
        internal override IReadOnlyDictionary<string, double> Totals(double celsius)
        {
            var calcium = Hardness / 1000 / ChalkMolarMass;
            var bicarbonate = 2 * Alkalinity / 1000 / ChalkMolarMass;
            // A tenth more dissolved CO2 than bicarbonate alone: what keeps supply water near pH 7.4 (common practice, no source).
            var free = 0.1 * bicarbonate;
            var totals = new Dictionary<string, double> { ["H+"] = bicarbonate + (2 * free), ["CO3-2"] = bicarbonate + free };
            if (calcium > 0) totals["Ca+2"] = calcium;
            var charge = (2 * calcium) - bicarbonate;
            if (charge > 0) totals["Cl-"] = charge;
            if (charge < 0) totals["Na+"] = -charge;
            return totals;
        }
    }

    internal sealed record Extract(ExtractBuffer Belief) : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius) => Belief.Typical.Totals();
    }

    /// <summary>A liquor with exactly these unknown acids; the interval is made from several of them.</summary>
    internal sealed record Exact(ExtractPoint Point) : Liquor
    {
        internal override IReadOnlyDictionary<string, double> Totals(double celsius) => Point.Totals();
    }
}
