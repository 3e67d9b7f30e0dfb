using Dyewort.Colour;
using Xunit;

namespace Dyewort.Pots.Tests;

/// <summary>Drops made from spectra that this project computes nothing with but here: the film's law on a paper, bands of our own
/// choosing.</summary>
public sealed class StrengthTests
{
    private static readonly Spectrum Paper = Spectrum.Flat(1).Select(_ => 0.87);

    public static TheoryData<string> Inks() => ["elder", "weld", "walnut", "gall", "madder", "woad"];

    private static double[] Absorbance(string ink)
    {
        var values = new double[Spectrum.Count];
        for (var i = 0; i < values.Length; i++)
        {
            double wl = Spectrum.Nanometres(i);
            double Band(double centre, double width, double height) => height * Math.Exp(-0.5 * Math.Pow((wl - centre) / width, 2));
            values[i] = ink switch
            {
                "elder" => Band(535, 45, 1) + Band(400, 60, 0.35) + 0.05,
                "weld" => Band(385, 38, 1) + 0.02,
                "walnut" => Math.Exp(-(wl - 380) / 130) + 0.05,
                "gall" => 0.75 + Band(570, 110, 0.25),
                "madder" => Band(495, 45, 1) + Band(540, 25, 0.4) + Band(400, 40, 0.3),
                _ => Band(640, 50, 1) + Band(400, 50, 0.25),
            };
        }

        return values;
    }

    private static Xyz Look(double[] absorbance, double strength)
    {
        const double surface = 0.012;
        var values = new double[Spectrum.Count];
        for (var i = 0; i < values.Length; i++)
            values[i] = Paper.Values[i] * (surface + ((1 - surface) * Math.Pow(10, -2 * strength * absorbance[i])));
        return Spectrum.Of(values).ToXyz();
    }

    private static UncertainColour Read(Xyz truth, double radius95, Random random)
    {
        if (radius95 <= 0)
            return UncertainColour.FromRadius(truth, 0.2);
        var lab = Lab.FromXyz(truth);
        var root = UncertainColour.FromRadius(truth, radius95).LabCovariance();
        return UncertainColour.FromRadius(
            new Lab(
                lab.L + (Math.Sqrt(root.Xx) * Gauss(random)),
                lab.A + (Math.Sqrt(root.Yy) * Gauss(random)),
                lab.B + (Math.Sqrt(root.Zz) * Gauss(random))
            ).ToXyz(),
            radius95
        );
    }

    [Theory, MemberData(nameof(Inks))]
    public void Half_the_liquor_has_half_the_strength_however_dark(string ink)
    {
        var absorbance = Absorbance(ink);
        var random = new Random(1);
        double[] strengths = [0.05, 0.1, 0.2, 0.4];
        var drops = strengths.Select(one => new Painted($"{one}", Read(Look(absorbance, one), 0, random))).ToList();
        Assert.True(StrengthScale.Learn(drops, Paper.ToXyz()).TryGet(out var scale));
        var read = drops.Select(scale.Read).ToList();
        for (var i = 1; i < read.Count; i++)
            Assert.Equal(2, read[i].Strength / read[i - 1].Strength, 2 * 0.05);

        // Darkness itself would be far off: this is what the scale is for.
        var darkness = drops.Select(drop => 100 - drop.Colour.Lab.L).ToList();
        Assert.True(darkness[3] / darkness[2] < 1.9 || ink == "weld", ink);
    }

    [Theory, MemberData(nameof(Inks))]
    public void The_ratio_of_two_liquors_is_found_within_its_uncertainty(string ink)
    {
        var absorbance = Absorbance(ink);
        var random = new Random(2);
        var (inside, worst) = (0, 0.0);
        const int pairs = 30;
        for (var pair = 0; pair < pairs; pair++)
        {
            var (a, b) = (0.15 + (0.25 * random.NextDouble()), 0.15 + (0.25 * random.NextDouble()));
            List<Painted> Drops(double strength) =>
                [.. Enumerable.Range(0, 3).Select(i => new Painted($"drop {i}", Read(Look(absorbance, strength), 1.0, random)))];
            Assert.True(LiquorStrength.Compare(Drops(a), Drops(b), Paper.ToXyz()).TryGet(out var answer));
            if (Math.Abs(answer.Ratio - (a / b)) <= 2 * answer.Uncertainty)
                inside++;
            worst = Math.Max(worst, Math.Abs((answer.Ratio * b / a) - 1));
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{ink}: {inside} of {pairs} within two deviations, worst {100 * worst:0.0} %");
        Assert.True(inside >= 0.9 * pairs, $"{ink}: {inside} of {pairs}");
        Assert.True(worst < 0.12, $"{ink}: {worst}");
    }

    [Fact]
    public void A_wash_ladder_gives_the_full_liquors_strength_and_says_whether_it_thins_in_proportion()
    {
        var absorbance = Absorbance("elder");
        var random = new Random(3);
        double[] shares = [1, 0.5, 0.25, 0.125];
        List<Painted> Ladder(Func<double, double> real) =>
            [.. shares.Select(share => new Painted($"1:{(1 / share) - 1}", Read(Look(absorbance, 0.4 * real(share)), 0.7, random), share))];
        Assert.True(LiquorStrength.Of(Ladder(share => share), Paper.ToXyz()).TryGet(out var good));
        Assert.InRange(good.Steepness!.Value, 0.9, 1.1);
        Assert.Empty(good.Remarks);
        Assert.True(LiquorStrength.Of([Ladder(share => share)[0]], Paper.ToXyz()).TryGet(out var single));
        Assert.Equal(1, good.Strength / single.Strength, 0.1);
        Assert.Null(single.Steepness);
        Assert.True(LiquorStrength.Of(Ladder(share => Math.Pow(share, 0.6)), Paper.ToXyz()).TryGet(out var wrong));
        Assert.Contains(wrong.Remarks, remark => remark.Contains("do not thin in proportion", StringComparison.Ordinal));
    }

    [Fact]
    public void Liquors_of_two_hues_are_said_to_be_so()
    {
        var random = new Random(4);
        List<Painted> Drops(string ink) =>
            [.. new[] { 0.2, 0.3 }.Select(one => new Painted($"{ink} {one}", Read(Look(Absorbance(ink), one), 0.7, random)))];
        Assert.True(LiquorStrength.Compare(Drops("elder"), Drops("weld"), Paper.ToXyz()).TryGet(out var answer));
        Assert.Contains(answer.Remarks, remark => remark.Contains("not of one hue", StringComparison.Ordinal));
    }

    [Fact]
    public void Paper_alone_and_nonsense_are_refused()
    {
        var bare = Paper.ToXyz();
        var blank = new Painted("blank", UncertainColour.FromRadius(bare, 1));
        Assert.False(StrengthScale.Learn([blank], bare).TryGet(out _));
        Assert.False(StrengthScale.Learn([], bare).TryGet(out _));
        Assert.False(StrengthScale.Learn([new("nothing", UncertainColour.FromRadius(new Xyz(double.NaN, 1, 1), 1))], bare).TryGet(out _));
        Assert.False(StrengthScale.Learn([blank], new Xyz(0, 0, 0)).TryGet(out _));
        Assert.False(LiquorStrength.Of([blank with { Share = 0 }], bare).TryGet(out _));
    }

    /// <summary>From the stove to the curve: colours of drops with reading noise, strengths from them, the fit; the bands hold the true
    /// curve.</summary>
    [Fact]
    public void Bands_hold_from_the_colours_of_the_drops_on()
    {
        var random = new Random(5);
        var prior = CurvePrior.For(ColourantClass.Anthocyanin, Tissue.Soft);
        double[] minutes = [4, 10, 20, 40, 80];
        var (shape, best, total) = (0, 0, 0);
        foreach (var ink in new[] { "elder", "madder", "walnut" })
        {
            var absorbance = Absorbance(ink);
            for (var pot = 0; pot < 22; pot++)
            {
                var ke = prior.UptakePerMinuteAt75 * Math.Exp(prior.UptakeSpread * Gauss(random));
                var kd =
                    prior.LossPerHourAt80
                    / 60
                    * Math.Exp(prior.LossSpread * Gauss(random))
                    * Arrhenius.Factor(prior.LossKilojoules, 80, 75);
                var cmax = 0.15 + (0.3 * random.NextDouble());
                var drops = minutes
                    .Select(minute =>
                        (
                            minute,
                            Read(Look(absorbance, CurveFit.Strength(cmax, ke, kd, minute) * (1 + (0.05 * Gauss(random)))), 1.0, random)
                        )
                    )
                    .ToList();
                Assert.True(LiquorStrength.Timed(drops, Paper.ToXyz()).TryGet(out var timed));
                Assert.True(CurveFit.Fit(timed, HeatHistory.Steady(75), prior, seed: pot).TryGet(out var fit));

                // The scale's own unit cancels in the change from one minute to another.
                var change = (CurveFit.Strength(1, ke, kd, 110) / CurveFit.Strength(1, ke, kd, 80)) - 1;
                var said = fit.ChangeBy(80, 30);
                if (change >= said.Low && change <= said.High)
                    shape++;
                var time = CurveFit.BestTime(ke, kd);
                if (time >= fit.BestMinute.Low && time <= fit.BestMinute.High)
                    best++;
                total++;
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"change {100.0 * shape / total:0} %, best time {100.0 * best / total:0} % inside");
        Assert.InRange((shape + best) / (2.0 * total), 0.90, 0.98);
    }

    private static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
