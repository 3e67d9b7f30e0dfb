using Dyewort.Colour;
using Dyewort.Pots;

namespace Dyewort.Response.Tests;

public sealed class HarvestTests
{
    private static readonly Lab PaperLab = new(95.5, 0, 3.5);

    /// <summary>Drops of one film at several strengths, painted by the film's own arithmetic in full spectra.</summary>
    private static Painted[] Drops(string name, double strength)
    {
        var paper = Paper.TryOf(PaperLab.ToXyz())!;
        var ink = InkFilm.FromColour(new Lab(45, 40, -5).ToXyz(), paper);
        return
        [
            .. new[] { 1.0, 0.5, 0.25 }.Select(share => new Painted(
                $"{name} {share}",
                UncertainColour.FromRadius(ink.Strength(strength * share).On(paper), 0.6),
                share
            )),
        ];
    }

    [Fact]
    public void A_weaker_pot_is_boiled_down_by_its_ratio_and_the_doses_follow()
    {
        Assert.True(LiquorStrength.Compare(Drops("new", 0.6), Drops("old", 1), PaperLab.ToXyz()).TryGet(out var ratio));
        Assert.InRange(ratio.Ratio, 0.57, 0.63);
        Assert.True(Harvest.Carry(ratio, 1000, [new("alum", 10), new("citric acid", 4)]).TryGet(out var advice));
        Assert.Equal(1000 * ratio.Ratio, advice.BringToMillilitres, 1e-9);
        Assert.Equal(advice.BringToMillilitres - 1000, advice.WaterMillilitres, 1e-9);
        Assert.True(advice.RatioLow < 0.6 && advice.RatioHigh > 0.6);
        var alum = advice.Doses.Single(dose => dose.Name == "alum");
        Assert.True(alum.FollowsDye);
        Assert.Equal(10 * ratio.Ratio, alum.AsItIsGramsPerLitre, 1e-9);
        var acid = advice.Doses.Single(dose => dose.Name == "citric acid");
        Assert.False(acid.FollowsDye);
        Assert.Contains("pH", acid.Words, StringComparison.Ordinal);
        Assert.Contains(advice.Words, line => line.StartsWith("Boil", StringComparison.Ordinal));
    }

    [Fact]
    public void A_stronger_pot_is_thinned_and_one_that_may_be_the_same_says_so()
    {
        Assert.True(LiquorStrength.Compare(Drops("new", 1.4), Drops("old", 1), PaperLab.ToXyz()).TryGet(out var strong));
        Assert.True(Harvest.Carry(strong, 500, Doses.None).TryGet(out var thinned));
        Assert.InRange(thinned.WaterMillilitres, 150, 250);
        Assert.Contains(thinned.Words, line => line.StartsWith("Thin", StringComparison.Ordinal));
        Assert.True(LiquorStrength.Compare(Drops("new", 1), Drops("old", 1), PaperLab.ToXyz()).TryGet(out var same));
        Assert.True(Harvest.Carry(same, 500, Doses.None).TryGet(out var left));
        Assert.True(left.MayBeTheSame);
        Assert.False(Harvest.Carry(same, 0, Doses.None).TryGet(out _));
    }
}
