using Xunit;

namespace Dyewort.Safety.Tests;

public sealed class MixtureClassTests
{
    /// <summary>Worked by hand with the limits of Regulation (EC) 1272/2008, Annex I, tables 3.2.3, 3.3.3 and 4.1.1 to 4.1.2 (from memory
    /// of the text) and the specific limits that the bands' own sources name.</summary>
    [Theory]
    // 2 % vinegar acid: below the specific 10 %.
    [InlineData("acetic-acid 2", "none", "")]
    [InlineData("acetic-acid 12", "Warning", "H315 H319")]
    // Two irritants of the eye below their limits each: 6/10 + 5/10 of them together is above one.
    [InlineData("citric-acid 6;soda-ash 5", "Warning", "H319")]
    [InlineData("citric-acid 4;soda-ash 5", "none", "")]
    // Eye damage: 2/3 + 1.5/3 of it.
    [InlineData("copper-sulfate 2;zinc-sulfate 1.5", "Danger", "H318 H400 H411")]
    // 0.3 g in 100 ml harms water life in the long run (M = 1: 0.25 %), and nothing else.
    [InlineData("copper-sulfate 0.3", "none", "H412")]
    // Lead's limit is passed alone; two borates that stay below theirs do not add up.
    [InlineData("borax 0.4", "Danger", "H360FD")]
    [InlineData("borax 0.2;lead 0.2", "none", "")]
    // Iron: H302 from 25 %, the eye from 10 %.
    [InlineData("iron-sulfate 3", "none", "")]
    [InlineData("iron-sulfate 12", "Warning", "H319")]
    // A drop of clove oil: named, no statement.
    [InlineData("clove-oil 0.2", "none", "")]
    [InlineData("clove-oil 1", "Warning", "H317")]
    // Undiluted oil may be breathed into the lungs, ten per cent of it in water is not.
    [InlineData("lavender-oil 100", "Danger", "H304 H317 H319 H412")]
    [InlineData("lavender-oil 10", "Warning", "H317 H319 H412")]
    [InlineData("ethanol 40", "Warning", "H226")]
    [InlineData("ethanol 70", "Danger", "H225 H319")]
    public void A_mixture_is_classed_by_the_rules(string mixture, string signal, string codes)
    {
        var found = MixtureClass.Of(Read(mixture));
        Assert.Equal((signal, codes), (found.SignalWord, string.Join(' ', found.Codes)));
    }

    [Theory]
    [InlineData(1.9, "Danger")]
    [InlineData(2.5, "none")]
    [InlineData(11.6, "Danger")]
    public void Very_sour_and_very_alkaline_liquids_burn(double ph, string signal) =>
        Assert.Equal(signal, MixtureClass.Of(Read("chalk 1"), ph).SignalWord);

    [Fact]
    public void What_makes_allergic_is_named_from_a_tenth_of_its_limit()
    {
        Assert.Equal(["clove-oil"], MixtureClass.Of(Read("clove-oil 0.1")).Allergens);
        Assert.Empty(MixtureClass.Of(Read("clove-oil 0.05")).Allergens);
        Assert.Empty(MixtureClass.Of(Read("clove-oil 2")).Allergens);
    }

    [Fact]
    public void What_nobody_knows_is_named_and_not_taken_for_nothing()
    {
        var found = MixtureClass.Of([new("moon dust", null, 3), new("alum", "alum", null), new("salt", "harmless-salt", 1)]);
        Assert.Equal(["moon dust", "alum"], found.NotReckoned);
    }

    [Fact]
    public void More_of_anything_is_never_milder()
    {
        foreach (var key in HazardList.Keys)
        {
            var worst = 0;
            foreach (var percent in new[] { 0.001, 0.01, 0.1, 0.5, 1, 3, 10, 25, 50, 100 })
            {
                var rank = Rank(MixtureClass.Of([new(key, key, percent)]).SignalWord);
                Assert.True(rank >= worst, $"{key} at {percent} %");
                worst = rank;
            }

            // Undiluted, the rules say what the table says.
            var pure = HazardList.At(key);
            var reckoned = MixtureClass.Of([new(key, key, 100)]);
            Assert.Equal(pure.SignalWord, reckoned.SignalWord);
        }
    }

    [Fact]
    public void A_share_that_cannot_be_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MixtureClass.Of([new("alum", "alum", 101)]));

    private static int Rank(string signal) => Array.IndexOf(["none", "Warning", "Danger"], signal);

    private static List<Ingredient> Read(string mixture) =>
        [
            .. mixture
                .Split(';')
                .Select(part => part.Split(' '))
                .Select(part => new Ingredient(part[0], part[0], double.Parse(part[1], System.Globalization.CultureInfo.InvariantCulture))),
        ];
}
