using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>The strength of one drop.</summary>
/// <param name="Minute">Minutes since the plant met the liquid.</param>
/// <param name="Strength">Absorbance-like strength, not darkness.</param>
/// <param name="Uncertainty">Standard deviation of the reading, above 0.</param>
public sealed record Drop(double Minute, double Strength, double Uncertainty);

/// <summary>A value with the ends of its 95 % band.</summary>
/// <param name="Median">The middle: as likely too low as too high.</param>
/// <param name="Low">2.5 % of the belief lies below.</param>
/// <param name="High">2.5 % lies above.</param>
public sealed record Band(double Median, double Low, double High);

/// <summary>A curve C(t) = Cmax (1 − e^(−kₑ t)) e^(−k_d t) fitted to drops, as many equally likely curves.</summary>
/// <remarks>
/// Bayes with the priors of <see cref="CurvePrior"/>; hand scatter between drops (about 5 % of the strength, common practice, no source)
/// is learned with the rest. Sampled with the affine-invariant ensemble of Goodman and Weare 2010 [GoodmanWeare2010], seeded: the same
/// drops give the same answer. With a heat history k·t stands for the integral of k over time, each rate following its Arrhenius line.
/// </remarks>
public sealed class CurveFit
{
    private const int Walkers = 36;
    private const int Warming = 250;
    private const int Kept = 400;
    private const int Thin = 8;

    private readonly Parameters[] samples;
    private readonly HeatHistory heat;
    private readonly double reference;

    private CurveFit(Parameters[] samples, HeatHistory heat, double reference, IReadOnlyList<Drop> drops)
    {
        (this.samples, this.heat, this.reference, Drops) = (samples, heat, reference, drops);
        Plateau = Of(one => one.Plateau);
        UptakePerMinute = Of(one => one.Uptake);
        LossPerHour = Of(one => 60 * one.Loss);
        HandScatter = Of(one => one.Scatter);
        BestMinute = Of(one => BestTime(one.Uptake, one.Loss));
        Doubtful = [.. drops.Where(IsDoubtful)];
    }

    /// <summary>The drops it was fitted to.</summary>
    public IReadOnlyList<Drop> Drops { get; }

    /// <summary>Cmax: the strength if nothing were lost.</summary>
    public Band Plateau { get; }

    /// <summary>kₑ per minute at the pot's mean temperature.</summary>
    public Band UptakePerMinute { get; }

    /// <summary>k_d per hour at the pot's mean temperature.</summary>
    public Band LossPerHour { get; }

    /// <summary>Scatter between drops of one strength, as a share.</summary>
    public Band HandScatter { get; }

    /// <summary>The pot's mean temperature over the drops, °C: where the rates hold.</summary>
    public double Celsius => reference;

    /// <summary>The strongest minute if the mean temperature is held: ln(1 + kₑ/k_d)/kₑ.</summary>
    public Band BestMinute { get; }

    /// <summary>Drops that lie further from the curve than three times what reading and hand explain.</summary>
    public IReadOnlyList<Drop> Doubtful { get; }

    /// <summary>The minute at which a share of the strongest was there, the mean temperature held.</summary>
    /// <param name="share">Above 0 and below 1, such as 0.95.</param>
    public Band MinuteOf(double share)
    {
        if (share is not (> 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(share), share, "Allowed: between 0 and 1.");
        return Of(one =>
        {
            var best = BestTime(one.Uptake, one.Loss);
            var target = share * Shape(one, best);
            // The share lies between nothing at the beginning and all at the best minute.
            return Bisection.Narrow(0, best, 1e-12 * best, minute => Shape(one, minute) < target).High;
        });
    }

    /// <summary>Strength at a minute, as the heat history has it.</summary>
    public Band StrengthAt(double minute) => Of(one => one.At(minute, heat, reference));

    /// <summary>Change of strength if the pot stays on from one minute to another, as a share of the strength at the first.</summary>
    /// <param name="fromMinute">The minute now.</param>
    /// <param name="moreMinutes">How much longer, 0 or more.</param>
    /// <param name="celsius">The heat meanwhile; null holds what the pot has.</param>
    /// <returns>−0.08 means 8 % weaker.</returns>
    public Band ChangeBy(double fromMinute, double moreMinutes, double? celsius = null)
    {
        var held = celsius ?? heat.At(fromMinute);
        return Of(one =>
        {
            var uptake = one.Uptake * heat.Equivalent(fromMinute, one.UptakeKilojoules, reference);
            var loss = one.Loss * heat.Equivalent(fromMinute, one.LossKilojoules, reference);
            var now = Released(uptake) * Math.Exp(-loss);
            uptake += one.Uptake * moreMinutes * Arrhenius.Factor(one.UptakeKilojoules, reference, held);
            loss += one.Loss * moreMinutes * Arrhenius.Factor(one.LossKilojoules, reference, held);
            return (Released(uptake) * Math.Exp(-loss) / now) - 1;
        });
    }

    /// <summary>Share of the plant's colour that has been let go at a minute, lost or not.</summary>
    public Band ReleasedAt(double minute) => Of(one => Released(one.Uptake * heat.Equivalent(minute, one.UptakeKilojoules, reference)));

    /// <summary>The strongest minute of one curve.</summary>
    /// <param name="uptake">kₑ &gt; 0.</param>
    /// <param name="loss">k_d &gt; 0 in the same unit.</param>
    public static double BestTime(double uptake, double loss) => Math.Log(1 + (uptake / loss)) / uptake;

    /// <summary>Strength of one curve at a constant heat.</summary>
    /// <param name="plateau">Cmax.</param>
    /// <param name="uptake">kₑ per minute.</param>
    /// <param name="loss">k_d per minute.</param>
    /// <param name="minute">Minutes.</param>
    public static double Strength(double plateau, double uptake, double loss, double minute) =>
        plateau * Released(uptake * minute) * Math.Exp(-loss * minute);

    /// <summary>Fits the curve.</summary>
    /// <param name="drops">Three drops or more, at two different minutes at least.</param>
    /// <param name="heat">How hot the pot was.</param>
    /// <param name="prior">What is believed beforehand.</param>
    /// <param name="seed">Seed of the sampler.</param>
    public static Outcome<CurveFit> Fit(IReadOnlyList<Drop> drops, HeatHistory heat, CurvePrior prior, int seed = 1)
    {
        var problems = Check(drops);
        if (problems.Count > 0)
            return Outcome.Refused<CurveFit>(problems);

        var celsius = heat.Mean(drops.Max(drop => drop.Minute));
        var curves = Ensemble(new Target(drops, heat, prior, celsius), new NormalDraws(seed));
        return Outcome.Of(new CurveFit([.. curves.Select(Parameters.Of)], heat, celsius, drops));
    }

    private static double Released(double uptakes) => 1 - Math.Exp(-uptakes);

    private static double Shape(Parameters one, double minute) => Strength(1, one.Uptake, one.Loss, minute);

    private static List<Problem> Check(IReadOnlyList<Drop> drops)
    {
        var problems = new List<Problem>();
        if (drops.Count < 3)
            problems.Add(
                Sentence.Bad("drops", $"{drops.Count} drops are too few for a curve.", "Take three drops or more, each with its minute.")
            );
        foreach (var drop in drops)
        {
            if (drop.Minute is not (>= 0 and <= 1e5))
                problems.Add(
                    Sentence.Bad(
                        "minute",
                        $"Minute {drop.Minute:0.#} is outside 0 to 100,000.",
                        "Count from when the plant met the liquid."
                    )
                );
            if (drop.Strength is not (>= -0.5 and <= 20))
                problems.Add(
                    Sentence.Bad(
                        "strength",
                        $"A strength of {drop.Strength:0.###} is outside −0.5 to 20.",
                        "Give the absorbance-like strength of the drop, not its lightness."
                    )
                );
            if (drop.Uncertainty is not (> 0 and <= 10))
                problems.Add(
                    Sentence.Bad(
                        "uncertainty",
                        $"An uncertainty of {drop.Uncertainty:0.###} is outside 0 to 10.",
                        "Give the standard deviation of the strength."
                    )
                );
        }

        if (drops.Count >= 3 && drops.Select(drop => drop.Minute).Distinct().Count() < 2)
            problems.Add(new("minute", "All drops have the same minute.", "Write down the minute beside each drop."));
        return problems;
    }

    private Band Of(Func<Parameters, double> value)
    {
        var values = Array.ConvertAll(samples, one => value(one));
        Array.Sort(values);
        return new(Quantiles.OfSorted(values, 0.5), Quantiles.OfSorted(values, 0.025), Quantiles.OfSorted(values, 0.975));
    }

    private bool IsDoubtful(Drop drop)
    {
        var expected = StrengthAt(drop.Minute).Median;
        var scatter = HandScatter.Median * expected;
        return Math.Abs(drop.Strength - expected) > 3 * Math.Sqrt((drop.Uncertainty * drop.Uncertainty) + (scatter * scatter));
    }

    private static List<double[]> Ensemble(Target target, NormalDraws random)
    {
        var size = Target.Size;
        var walkers = new double[Walkers][];
        var heights = new double[Walkers];
        for (var walker = 0; walker < Walkers; walker++)
        {
            // Each walker starts at the best of a few draws from the prior, so that none starts lost.
            heights[walker] = double.NegativeInfinity;
            for (var trial = 0; trial < 30; trial++)
            {
                var point = target.Draw(random);
                var height = target.LogDensity(point);
                if (walkers[walker] is null || height > heights[walker])
                    (walkers[walker], heights[walker]) = (point, height);
            }
        }

        var kept = new List<double[]>(Walkers * Kept / Thin);
        for (var sweep = 0; sweep < Warming + Kept; sweep++)
        {
            for (var walker = 0; walker < Walkers; walker++)
            {
                var half = Walkers / 2;
                var other = (walker < half ? half : 0) + random.NextBelow(half);
                const double stretch = 2;
                var root = ((Math.Sqrt(stretch) - (1 / Math.Sqrt(stretch))) * (1 - random.NextUniform())) + (1 / Math.Sqrt(stretch));
                var z = root * root;
                var proposal = new double[size];
                for (var i = 0; i < size; i++)
                    proposal[i] = walkers[other][i] + (z * (walkers[walker][i] - walkers[other][i]));
                var height = target.LogDensity(proposal);
                if (Math.Log(random.NextUniform()) < ((size - 1) * Math.Log(z)) + height - heights[walker])
                    (walkers[walker], heights[walker]) = (proposal, height);
            }

            if (sweep >= Warming && sweep % Thin == 0)
                kept.AddRange(walkers);
        }

        return kept;
    }

    private readonly record struct Parameters(
        double Plateau,
        double Uptake,
        double Loss,
        double UptakeKilojoules,
        double LossKilojoules,
        double Scatter
    )
    {
        internal static Parameters Of(double[] point) =>
            new(Math.Exp(point[0]), Math.Exp(point[1]), Math.Exp(point[2]), point[3], point[4], Math.Exp(point[5]));

        internal double At(double minute, HeatHistory heat, double reference) =>
            Plateau
            * Released(Uptake * heat.Equivalent(minute, UptakeKilojoules, reference))
            * Math.Exp(-Loss * heat.Equivalent(minute, LossKilojoules, reference));
    }

    /// <summary>The logarithm of prior times likelihood over ln Cmax, ln kₑ, ln k_d (per minute), both energies, ln scatter.</summary>
    private sealed class Target
    {
        internal const int Size = 6;

        private readonly Drop[] drops;
        private readonly HeatHistory.Stretch[] stretches;
        private readonly double reference;
        private readonly double[] mean;
        private readonly double[] spread;

        internal Target(IReadOnlyList<Drop> drops, HeatHistory heat, CurvePrior prior, double reference)
        {
            (this.drops, this.reference) = ([.. drops.OrderBy(drop => drop.Minute)], reference);
            stretches = heat.Between([.. this.drops.Select(drop => drop.Minute)], reference);

            // The rates are believed at 75 and 80 °C: at the pot's own heat the energies' spread comes on top.
            var (uptakeFactor, uptakeSpread) = Moved(prior.UptakeKilojoules, prior.UptakeKilojoulesSpread, 75, prior.UptakeSpread);
            var (lossFactor, lossSpread) = Moved(prior.LossKilojoules, prior.LossKilojoulesSpread, 80, prior.LossSpread);
            mean =
            [
                Math.Log(0.6),
                Math.Log(prior.UptakePerMinuteAt75) + uptakeFactor,
                Math.Log(prior.LossPerHourAt80 / 60) + lossFactor,
                prior.UptakeKilojoules,
                prior.LossKilojoules,
                Math.Log(0.05),
            ];
            spread = [1.5, uptakeSpread, lossSpread, prior.UptakeKilojoulesSpread, prior.LossKilojoulesSpread, 0.5];
        }

        internal double[] Draw(NormalDraws random)
        {
            var point = new double[Size];
            for (var i = 0; i < Size; i++)
                point[i] = mean[i] + (spread[i] * random.Next());
            return point;
        }

        internal double LogDensity(double[] point)
        {
            var sum = 0.0;
            for (var i = 0; i < Size; i++)
            {
                var off = (point[i] - mean[i]) / spread[i];
                sum -= 0.5 * off * off;
            }

            if (sum < -60)
                return double.NegativeInfinity;
            var one = Parameters.Of(point);
            var (uptakes, losses) = (0.0, 0.0);
            for (var place = 0; place < drops.Length; place++)
            {
                var drop = drops[place];
                uptakes += one.Uptake * stretches[place].Equivalent(one.UptakeKilojoules);
                losses += one.Loss * stretches[place].Equivalent(one.LossKilojoules);
                var expected = one.Plateau * Released(uptakes) * Math.Exp(-losses);
                var scatter = one.Scatter * expected;
                var variance = (drop.Uncertainty * drop.Uncertainty) + (scatter * scatter);
                var off = drop.Strength - expected;
                sum -= 0.5 * ((off * off / variance) + Math.Log(variance));
            }

            return sum;
        }

        private (double Factor, double Spread) Moved(double energy, double energySpread, double fromCelsius, double spread)
        {
            var factor = Math.Log(Arrhenius.Factor(energy, fromCelsius, reference));
            var reach = Math.Log(Arrhenius.Factor(energySpread, fromCelsius, reference));
            return (factor, Math.Sqrt((spread * spread) + (reach * reach)));
        }
    }
}
