using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>Something dissolved in a liquor that stays behind when water boils off.</summary>
/// <param name="Name">The addition's name.</param>
/// <param name="Grams">Grams of it in the whole pot, 0 or more.</param>
/// <param name="SolubilityGramsPer100Millilitres">How much of it 100 ml of cold water holds, where that is known.</param>
public sealed record DissolvedDose(string Name, double Grams, double? SolubilityGramsPer100Millilitres = null);

/// <summary>A dose before and after reducing.</summary>
/// <param name="Name">The addition's name.</param>
/// <param name="BeforeGramsPer100Millilitres">g per 100 ml before.</param>
/// <param name="AfterGramsPer100Millilitres">g per 100 ml after.</param>
/// <param name="SolubilityGramsPer100Millilitres">What 100 ml holds once cold, where known.</param>
public sealed record RestatedDose(
    string Name,
    double BeforeGramsPer100Millilitres,
    double AfterGramsPer100Millilitres,
    double? SolubilityGramsPer100Millilitres
)
{
    /// <summary>Whether it will fall out as crystals once cold.</summary>
    public bool FallsOut => AfterGramsPer100Millilitres > SolubilityGramsPer100Millilitres;
}

/// <summary>A pot about to be reduced.</summary>
/// <param name="StartMillilitres">Liquor now, ml.</param>
/// <param name="BoilOff">How fast this pot loses water.</param>
/// <param name="LossPerHour">First-order loss of colour at that heat, per hour; 0 where the class stands a boil.</param>
/// <param name="Doses">What is already in it.</param>
/// <param name="DiameterCentimetres">Inside of the pot, where known: the last 2 cm burn.</param>
/// <param name="LossFactor">How many times more or less the loss may be, 1 or more.</param>
public sealed record PotToReduce(
    double StartMillilitres,
    BoilOffRate BoilOff,
    double LossPerHour = 0,
    IReadOnlyList<DissolvedDose>? Doses = null,
    double? DiameterCentimetres = null,
    double LossFactor = 1
);

/// <summary>What to do and what will come of it.</summary>
/// <param name="StartMillilitres">Liquor at the start, ml.</param>
/// <param name="EndMillilitres">Liquor at the end, ml.</param>
/// <param name="Minutes">How long, at the pot's usual rate.</param>
/// <param name="LowMinutes">Look from this minute on (90 % band).</param>
/// <param name="HighMinutes">It should be done by this minute.</param>
/// <param name="StrengthFactor">Strength after over strength before, colour lost to the heat taken off.</param>
/// <param name="ColourKept">Share of the colour that the heat leaves, 0 to 1.</param>
/// <param name="Doses">Every dose re-stated.</param>
/// <param name="Warnings">What to mind, in sentences.</param>
public sealed record ReductionPlan(
    double StartMillilitres,
    double EndMillilitres,
    double Minutes,
    double LowMinutes,
    double HighMinutes,
    double StrengthFactor,
    double ColourKept,
    IReadOnlyList<RestatedDose> Doses,
    IReadOnlyList<string> Warnings
)
{
    /// <summary>Below a hundredth neither the loss of colour nor the strength is known: words stand for it.</summary>
    private const double Knowable = 0.01;

    /// <summary>Strength after over strength before, in words where no figure could be right.</summary>
    public string StrengthWords =>
        StrengthFactor < Knowable ? "hardly any colour left"
        : StrengthFactor < 0.995 ? FormattableString.Invariant($"thinned to {StrengthFactor:0.##} of its strength")
        : FormattableString.Invariant($"{StrengthFactor:0.##} times");

    /// <summary>What the heat leaves of the colour, in words where no figure could be right.</summary>
    public string KeptWords =>
        ColourKept < Knowable ? "hardly any of the colour" : FormattableString.Invariant($"{100 * ColourKept:0} % of the colour");
}

/// <summary>Plans how far and how long to reduce a liquor.</summary>
/// <remarks>Strength times volume stays constant but for what the heat destroys; salts and acids strengthen by the volumes'
/// ratio.</remarks>
public static class Reduction
{
    /// <summary>Reduces to a volume.</summary>
    /// <param name="pot">The pot.</param>
    /// <param name="endMillilitres">The volume wanted, above 0 and below what is there.</param>
    public static Outcome<ReductionPlan> ToVolume(PotToReduce pot, double endMillilitres)
    {
        var problems = Check(pot);
        if (!(endMillilitres > 0 && endMillilitres < pot.StartMillilitres))
        {
            problems.Add(
                Sentence.Bad(
                    "to",
                    $"{endMillilitres:0.#} ml is not between 0 and the {pot.StartMillilitres:0.#} ml in the pot.",
                    "Give a smaller volume than there is."
                )
            );
        }

        return problems.Count > 0 ? Outcome.Refused<ReductionPlan>(problems) : Outcome.Of(Plan(pot, endMillilitres));
    }

    /// <summary>Reduces until the liquor is so many times as strong.</summary>
    /// <param name="pot">The pot.</param>
    /// <param name="strengthFactor">Wanted strength over the present one, above 1 and up to 50.</param>
    public static Outcome<ReductionPlan> ToStrength(PotToReduce pot, double strengthFactor)
    {
        var problems = Check(pot);
        if (!(strengthFactor is > 1 and <= 50))
        {
            problems.Add(
                Sentence.Bad(
                    "strength",
                    $"{strengthFactor:0.###} times the strength is outside 1 to 50.",
                    "Reducing makes stronger: give a factor above 1."
                )
            );
        }

        if (problems.Count > 0)
            return Outcome.Refused<ReductionPlan>(problems);

        // Strength falls before it rises where the heat destroys colour faster than water leaves: search from the small end.
        var (low, high) = (pot.StartMillilitres / 200, Math.Min(pot.StartMillilitres, Turn(pot)));
        if (Factor(pot, low) < strengthFactor)
        {
            return Outcome.Refused<ReductionPlan>(
                "strength",
                Sentence.Of(
                    $"At this heat {strengthFactor:0.##} times the strength cannot be reached: colour is lost about as fast as "
                        + $"water leaves."
                ),
                "Reduce cooler or in a wider pot, or start from more plant."
            );
        }

        // By halving the logarithm: a hundredth of the volume asks for the same digits as all of it. The small end is known to be strong
        // enough; where all of the volume is too, the upper end is the answer.
        var bracket = Bisection.Narrow(Math.Log(low), Math.Log(high), 1e-14, end => Factor(pot, Math.Exp(end)) >= strengthFactor);
        return Outcome.Of(Plan(pot, Math.Exp(bracket.Low)));
    }

    /// <summary>The volume above which boiling makes weaker, not stronger, ml.</summary>
    private static double Turn(PotToReduce pot) =>
        pot.LossPerHour > 0 ? 1000 * pot.BoilOff.LitresPerHour / pot.LossPerHour : double.PositiveInfinity;

    private static double Kept(PotToReduce pot, double endMillilitres) =>
        Math.Exp(-pot.LossPerHour * (pot.StartMillilitres - endMillilitres) / (1000 * pot.BoilOff.LitresPerHour));

    private static double Factor(PotToReduce pot, double endMillilitres) =>
        pot.StartMillilitres / endMillilitres * Kept(pot, endMillilitres);

    private static ReductionPlan Plan(PotToReduce pot, double end)
    {
        var start = pot.StartMillilitres;
        double Minutes(double litresPerHour) => 60 * (start - end) / (1000 * litresPerHour);
        var doses = (pot.Doses ?? [])
            .Select(dose => new RestatedDose(
                dose.Name,
                100 * dose.Grams / start,
                100 * dose.Grams / end,
                dose.SolubilityGramsPer100Millilitres
            ))
            .ToList();
        var kept = Kept(pot, end);
        var warnings = new List<string>();
        foreach (var dose in doses.Where(dose => dose.FallsOut))
        {
            warnings.Add(
                Sentence.Of(
                    $"{dose.Name}: {dose.AfterGramsPer100Millilitres:0.#} g/100 ml is more than cold water holds "
                        + $"({dose.SolubilityGramsPer100Millilitres:0.#} g/100 ml): crystals will fall out. Reduce first, add after."
                )
            );
        }

        if (doses.Count > 0)
            warnings.Add("Salts and acids strengthen with the colour: test the pH again once it is cold.");
        if (kept < 0.95)
        {
            var (most, least) = (Math.Pow(kept, 1 / pot.LossFactor), Math.Pow(kept, pot.LossFactor));
            var range = pot.LossFactor > 1 ? Sentence.Of($", somewhere from {100 * (1 - most):0} to {100 * (1 - least):0} %") : "";
            warnings.Add(
                Sentence.Of($"The heat itself costs about {100 * (1 - kept):0} % of the colour{range}: reduce cooler and wider if you can.")
            );
        }

        if (Turn(pot) < start)
            warnings.Add("At first colour is lost faster than water leaves: this liquor gets weaker before it gets stronger.");
        if (pot.DiameterCentimetres is { } across)
        {
            var depth = 4 * end / (Math.PI * across * across);
            if (depth < 2)
                warnings.Add(
                    Sentence.Of(
                        $"Only {depth:0.#} cm will be left in this pot, and the last 2 cm burn: change to a smaller pot or finish "
                            + $"in a water bath."
                    )
                );
        }

        warnings.Add("Stay with the pot, keep a window open, and never cook food in it.");
        return new(
            start,
            end,
            Minutes(pot.BoilOff.LitresPerHour),
            Minutes(pot.BoilOff.HighLitresPerHour),
            Minutes(pot.BoilOff.LowLitresPerHour),
            Factor(pot, end),
            kept,
            doses,
            warnings
        );
    }

    private static List<Problem> Check(PotToReduce pot)
    {
        var problems = new List<Problem>();
        if (pot.StartMillilitres is not (> 0 and <= 1e6))
            problems.Add(
                Sentence.Bad("from", $"{pot.StartMillilitres:0.#} ml is outside 0 to 1,000,000 ml.", "Give the liquor in the pot.")
            );
        if (!(pot.BoilOff.LitresPerHour > 0))
            problems.Add(new("rate", "The pot's boil-off rate is not above zero.", "Give litres an hour, such as 0.4."));
        if (pot.LossPerHour is not (>= 0 and <= 100))
            problems.Add(
                Sentence.Bad(
                    "loss",
                    $"A loss of {pot.LossPerHour:0.###} per hour is outside 0 to 100.",
                    "Give the first-order loss per hour."
                )
            );
        if (pot.DiameterCentimetres is { } across && across is not (>= 5 and <= 100))
            problems.Add(Sentence.Bad("diameter", $"A pot {across:0.#} cm across is outside 5 to 100 cm.", "Give the inside of the pot."));
        if (!(pot.LossFactor is >= 1 and <= 1000))
            problems.Add(
                Sentence.Bad(
                    "loss",
                    $"A factor of {pot.LossFactor:0.##} on the loss is outside 1 to 1000.",
                    "Give 1 where the loss is known."
                )
            );
        foreach (var dose in pot.Doses ?? [])
        {
            if (dose.Grams is not (>= 0 and <= 1e6))
                problems.Add(
                    Sentence.Bad(
                        "doses",
                        $"{dose.Grams:0.##} g of {dose.Name} is outside 0 to 1,000,000 g.",
                        "Give grams in the whole pot."
                    )
                );
        }

        return problems;
    }
}
