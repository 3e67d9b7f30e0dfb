namespace Dyewort.Pots;

/// <summary>What is believed of a pot's curve before its first drop: medians and spreads in the natural logarithm.</summary>
/// <param name="UptakePerMinuteAt75">Median rate of uptake at 75 °C, per minute.</param>
/// <param name="UptakeSpread">Standard deviation of its logarithm.</param>
/// <param name="UptakeKilojoules">Activation energy of uptake, kJ/mol.</param>
/// <param name="UptakeKilojoulesSpread">Its standard deviation.</param>
/// <param name="LossPerHourAt80">Median first-order loss at 80 °C, per hour.</param>
/// <param name="LossSpread">Standard deviation of its logarithm.</param>
/// <param name="LossKilojoules">Activation energy of loss, kJ/mol.</param>
/// <param name="LossKilojoulesSpread">Its standard deviation.</param>
/// <param name="Source">Where these come from, in a sentence.</param>
public sealed record CurvePrior(
    double UptakePerMinuteAt75,
    double UptakeSpread,
    double UptakeKilojoules,
    double UptakeKilojoulesSpread,
    double LossPerHourAt80,
    double LossSpread,
    double LossKilojoules,
    double LossKilojoulesSpread,
    string Source
)
{
    /// <summary>The belief for a class of colourant and a kind of tissue.</summary>
    /// <remarks>
    /// Uptake: soft tissue is done in 5 to 20 minutes at 60 to 90 °C, hard tissue in an hour or more (working picture from published
    /// extraction studies, no single source); activation energy 17 to 30 kJ/mol [Cisse2012] [PerezOrozco2020].
    /// Loss: anthocyanins 0.04 to 0.45 per hour at 80 °C; 37 to 94 kJ/mol in juices and pulps, far less in sour extracts [Oancea2021]
    /// [Cisse2009]; betanin 77.5 ± 6.8 kJ/mol [BetaninQ10] and about 1.9 per hour at 80 °C, worked out from a half-life of 8.25 h at 30 °C
    /// and 55 kJ/mol [BetacyaninHalf]; all others: robust to an hour's boil by common practice, no rate constant found, so the spread is
    /// wide.
    /// </remarks>
    public static CurvePrior For(ColourantClass colourants, Tissue tissue)
    {
        var (uptake, uptakeSpread) = tissue == Tissue.Soft ? (0.25, 0.8) : (0.05, 0.9);
        var (loss, lossSpread, energy, energySpread, source) = colourants switch
        {
            ColourantClass.Anthocyanin => (0.16, 0.7, 60.0, 18.0, "published loss constants of berry extracts and juices"),
            ColourantClass.Betalain => (1.9, 0.8, 70.0, 10.0, "published loss of betanin"),
            ColourantClass.Curcumin => (0.3, 1.5, 60.0, 15.0, "wide guess: published figures disagree"),
            ColourantClass.Chlorophyll => (0.5, 1.2, 70.0, 15.0, "wide guess: turns olive in hot acid (from memory)"),
            ColourantClass.Carotenoid => (0.05, 1.2, 60.0, 15.0, "wide guess"),
            ColourantClass.Unknown => (0.08, 1.6, 70.0, 15.0, "nothing known of the class: wide guess"),
            _ => (0.02, 1.2, 70.0, 15.0, "common practice: stands an hour's boil; no rate constant found"),
        };
        return new(uptake, uptakeSpread, 23, 6, loss, lossSpread, energy, energySpread, source);
    }
}
