using Dyewort.Testing;
using Xunit;

namespace Dyewort.Chemistry.Tests;

public sealed class JarTests
{
    [Theory, Published("Solubility04-26", "grams of the form named per 100 g water")]
    [InlineData("alum", 0, 5.6)]
    [InlineData("alum", 20, 11.6)]
    [InlineData("alum", 40, 28.2)]
    [InlineData("alum", 60, 84.8)]
    [InlineData("bicarbonate of soda", 0, 6.9)]
    [InlineData("bicarbonate of soda", 20, 9.6)]
    [InlineData("bicarbonate of soda", 40, 12.7)]
    [InlineData("bicarbonate of soda", 60, 16.4)]
    [InlineData("table salt", 20, 36.0)]
    [InlineData("copper sulfate", 20, 36.7)]
    public void A_salt_that_dissolves_freely_leaves_the_rest_as_the_handbook_says(string name, double celsius, double gramsPer100)
    {
        // Half as much again as dissolves: the jar must hold the handbook's figure, by the whole solver, not by the table alone.
        var named = TradeTests.Named(name);
        var grams = 1.5 * gramsPer100 * 10;
        var jar = new JarContents { LiquorMillilitres = 1000 / 0.99820123, Portions = [Portion.OfGrams(named, grams)] };
        Assert.True(Jar.Equilibrate(jar, celsius, CarbonDioxide.Sealed).TryGet(out var state));
        var undissolved = state.Solids.Where(solid => solid.Key == named.Substance.SolidName).Sum(solid => solid.Grams);
        // The undissolved crystals keep their own water, which the solver counts as solvent: that shifts the figure by some percent where
        // crystals are half water.
        var crystalWater = undissolved * named.Substance.Ions.Moles.GetValueOrDefault("H2O") * 18.015 / named.Substance.MolarMass;
        Assert.Equal(gramsPer100, (grams - undissolved) / (1000 + crystalWater) * 100, (0.01 + (crystalWater / 1000)) * gramsPer100);
    }

    [Theory, Published("Solubility04-26", "cream of tartar: Merck text 0.4 at 10 °C, 0.617 at 25 °C, 6.1 at 100 °C; 0.57 at 20 °C")]
    [InlineData(10, 0.4, 0.125)] // printed as "about 0.4 %": half a unit in the last place
    [InlineData(20, 0.57, 0.08)] // copies of this table disagree (0.37 and 0.57)
    [InlineData(25, 0.617, 0.05)]
    [InlineData(100, 6.1, 0.10)]
    public void Cream_of_tartar_dissolves_as_the_handbook_says(double celsius, double gramsPer100, double share) =>
        Assert.Equal(
            gramsPer100,
            TradeTests.Named("cream of tartar").Substance.SolubilityGramsPer100Grams(celsius)!.Value,
            share * gramsPer100
        );

    [Fact]
    public void The_path_shows_that_order_matters_where_gas_leaves()
    {
        var (soda, vinegar) = (
            Portion.OfGrams(TradeTests.Named("bicarbonate of soda"), 1.15),
            Portion.OfMillilitres(TradeTests.Named("vinegar"), 15)
        );
        var jar = new JarContents { LiquorMillilitres = 90, Portions = [vinegar, soda, vinegar] };
        Assert.True(JarPath.Of(jar).TryGet(out var path));
        Assert.Equal(3, path.Count);
        Assert.True(path[0].State.Ph < 3 && path[1].State.Ph > path[0].State.Ph && path[2].State.Ph < path[1].State.Ph);
        Assert.Equal(0, path[0].GasMillilitres);
        Assert.True(path[1].GasMillilitres > 100);
        Assert.Contains("foams off", path[1].Words, StringComparison.Ordinal);
        Assert.True(Jar.Equilibrate(jar).TryGet(out var atOnce));
        Assert.Equal(atOnce.Ph, path[2].State.Ph, 0.1);
    }

    [Fact]
    public void The_last_addition_is_said_to_have_thrown_down_what_it_threw_down()
    {
        var jar = new JarContents
        {
            LiquorMillilitres = 90,
            Portions = [Portion.OfGrams(TradeTests.Named("alum"), 1), Portion.OfGrams(TradeTests.Named("soda ash"), 0.5)],
        };
        Assert.True(JarPath.Of(jar).TryGet(out var path));
        var gel = Assert.Single(path[^1].Fell);
        Assert.Equal("Al(OH)3(am)", gel.Key);
        Assert.Contains("aluminium hydroxide", path[^1].Words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("vinegar", 4)]
    [InlineData("citric acid", 4)]
    [InlineData("bicarbonate of soda", 7)]
    [InlineData("soda ash", 9.5)]
    public void How_much_more_reaches_the_pH_it_was_asked_for(string name, double goal)
    {
        Assert.True(ExtractBuffer.Find("liquor", "butterfly pea").TryGet(out var extract));
        var jar = new JarContents { LiquorMillilitres = 90, Liquor = Liquor.Of(extract) };
        Assert.True(Reach.With(jar, TradeTests.Named(name), goal).TryGet(out var answer));
        Assert.Equal(goal, answer.State.Ph, 0.001);
        Assert.True(answer.GramsLow <= answer.Grams && answer.Grams <= answer.GramsHigh);
        Assert.Contains("Add half, stir, test", answer.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_reach_a_pH_says_how_far_it_goes()
    {
        var jar = new JarContents { LiquorMillilitres = 90 };
        var tartar = Reach.With(jar, TradeTests.Named("cream of tartar"), 3.0);
        Assert.False(tartar.TryGet(out _));
        Assert.Contains("3.6", tartar.Problems[0].What, StringComparison.Ordinal);
        Assert.False(Reach.With(jar, TradeTests.Named("vinegar"), 9).TryGet(out _));
        Assert.NotEmpty(Reach.Options(jar, 3.5));
    }

    [Fact]
    public void Boiling_to_half_doubles_and_topping_up_brings_it_back()
    {
        Assert.True(ExtractBuffer.Find("liquor", "elderberry").TryGet(out var extract));
        var jar = new JarContents
        {
            LiquorMillilitres = 200,
            Liquor = Liquor.Of(extract),
            Portions = [Portion.OfGrams(TradeTests.Named("alum"), 1)],
        };
        Assert.True(VolumeChange.BoilDown(jar, 100).TryGet(out var strong));
        Assert.Equal(100, strong.Contents.VolumeMillilitres, 1e-9);
        Assert.Equal(2, strong.Factor, 1e-9);
        Assert.Equal(10, VolumeChange.Strengths(strong.Contents).Single().GramsPerLitre, 1e-9);
        Assert.True(VolumeChange.TopUp(strong.Contents, 200).TryGet(out var back));
        Assert.True(Jar.Equilibrate(jar).TryGet(out var before));
        Assert.True(Jar.Equilibrate(back.Contents).TryGet(out var after));
        Assert.Equal(before.Ph, after.Ph, 1e-6);
        Assert.False(VolumeChange.BoilDown(jar, 300).TryGet(out _));
        Assert.False(VolumeChange.TopUp(jar, 10).TryGet(out _));
    }

    [Fact]
    public void Blending_a_jar_with_itself_changes_nothing_and_with_another_lies_between()
    {
        var sour = new JarContents { LiquorMillilitres = 90, Portions = [Portion.OfGrams(TradeTests.Named("citric acid"), 0.5)] };
        var sweet = new JarContents { LiquorMillilitres = 90, Portions = [Portion.OfGrams(TradeTests.Named("bicarbonate of soda"), 0.2)] };
        Assert.True(Jar.Equilibrate(sour).TryGet(out var acid));
        Assert.True(Jar.Equilibrate(sweet).TryGet(out var alkali));
        Assert.True(VolumeChange.Blend([(sour, 30), (sour, 50)]).TryGet(out var same));
        Assert.True(Jar.Equilibrate(same.Contents).TryGet(out var still));
        Assert.Equal(acid.Ph, still.Ph, 1e-9);
        Assert.True(VolumeChange.Blend([(sour, 50), (sweet, 50)]).TryGet(out var mixed));
        Assert.True(Jar.Equilibrate(mixed.Contents).TryGet(out var between));
        Assert.InRange(between.Ph, acid.Ph, alkali.Ph);
        Assert.False(VolumeChange.Blend([]).TryGet(out _));
    }

    [Theory]
    [InlineData("saturated-cream-of-tartar", "cream of tartar", 2, null, 0)]
    [InlineData("lake", "alum", 1, "soda ash", 0.6)]
    [InlineData("iron-sludge", "copperas", 0.5, "soda ash", 0.6)]
    [InlineData("foam", "citric acid", 1, "bicarbonate of soda", 1.2)]
    [InlineData("no-tight-cap", "citric acid", 1, "bicarbonate of soda", 1.2)]
    [InlineData("iron-with-tannin", "copperas", 0.3, "tannic acid", 0.5)]
    [InlineData("copper", "copper sulfate", 0.2, null, 0)]
    [InlineData("caustic", "slaked lime", 0.3, null, 0)]
    [InlineData("caustic", "caustic soda", 0.3, null, 0)]
    [InlineData("ammonia-fumes", "household ammonia", 1, null, 0)]
    [InlineData("ammonia-released", "sal ammoniac", 0.5, "soda ash", 1)]
    [InlineData("bleach", "bleach", 1, "vinegar", 5)]
    [InlineData("suspension", "turmeric", 1, null, 0)]
    [InlineData("preservative-asleep", "sodium benzoate", 0.09, "bicarbonate of soda", 1)]
    [InlineData("preservative", "sodium benzoate", 0.09, "citric acid", 1)]
    [InlineData("benzoate-vitamin-c", "sodium benzoate", 0.09, "vitamin C", 1)]
    [InlineData("model-alum", "alum", 1, null, 0)]
    [InlineData("model-iron", "copperas", 1, null, 0)]
    [InlineData("outside-range", "salt", 6, null, 0)]
    [InlineData("unknown-strength", "rusty nails in vinegar", 5, null, 0)]
    [InlineData("usual-strength", "vinegar", 5, null, 0)]
    [InlineData("white-sludge", "calcium chloride", 1, "cream of tartar", 0.7)]
    [InlineData("weakly-held", "salt", 1, null, 0)]
    public void A_jar_says_what_must_be_said(string code, string first, double firstGrams, string? second, double secondGrams)
    {
        var portions = new List<Portion> { Portion.OfGrams(TradeTests.Named(first), firstGrams) };
        if (second is not null)
            portions.Add(Portion.OfGrams(TradeTests.Named(second), secondGrams));
        Assert.True(JarReport.Of(new() { LiquorMillilitres = 90, Portions = portions }).TryGet(out var report));
        var remark = Assert.Single(report.Remarks, one => one.Code == code);
        Assert.NotEmpty(remark.Text);
        Assert.NotEmpty(remark.Rule);
        Assert.DoesNotContain("NaN", remark.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Stop_comes_first_and_a_harmless_jar_warns_of_nothing()
    {
        Assert.True(
            JarReport
                .Of(
                    new()
                    {
                        LiquorMillilitres = 90,
                        Portions = [Portion.OfGrams(TradeTests.Named("vinegar 5 %"), 5), Portion.OfGrams(TradeTests.Named("bleach"), 5)],
                    }
                )
                .TryGet(out var bad)
        );
        Assert.Equal(RemarkWeight.Stop, bad.Remarks[0].Weight);
        Assert.True(
            JarReport
                .Of(new() { LiquorMillilitres = 90, Portions = [Portion.OfGrams(TradeTests.Named("vinegar 5 %"), 5)] })
                .TryGet(out var good)
        );
        Assert.All(good.Remarks, remark => Assert.Equal(RemarkWeight.Note, remark.Weight));
    }

    [Fact]
    public void The_interval_carries_the_spoon_and_reaches_down_to_what_alum_and_copperas_really_read()
    {
        var spooned = new JarContents { LiquorMillilitres = 90, Portions = [Portion.OfTeaspoons(TradeTests.Named("soda ash"), 0.125)] };
        var weighed = new JarContents { LiquorMillilitres = 90, Portions = [Portion.OfGrams(TradeTests.Named("soda ash"), 0.625)] };
        Assert.True(JarReport.Of(spooned).TryGet(out var wide));
        Assert.True(JarReport.Of(weighed).TryGet(out var narrow));
        Assert.Equal(wide.AfterFizzing.Ph, narrow.AfterFizzing.Ph, 1e-9);
        Assert.True(wide.PhHigh - wide.PhLow > 1.3 * (narrow.PhHigh - narrow.PhLow));
        // 5 % alum and 5 % copperas read 3.0 to 3.5 and 3.0 to 4.0 in the pharmacopoeia's tests.
        Assert.True(
            JarReport
                .Of(new() { LiquorMillilitres = 100, Portions = [Portion.OfGrams(TradeTests.Named("alum"), 5)] }, 25)
                .TryGet(out var alum)
        );
        Assert.InRange(3.4, alum.PhLow, alum.PhHigh);
        Assert.True(
            JarReport
                .Of(new() { LiquorMillilitres = 100, Portions = [Portion.OfGrams(TradeTests.Named("copperas"), 5)] }, 25)
                .TryGet(out var iron)
        );
        Assert.InRange(3.95, iron.PhLow, iron.PhHigh);
    }

    [Fact]
    public void Hard_tap_water_eats_a_little_acid()
    {
        var acid = Portion.OfGrams(TradeTests.Named("citric acid"), 0.02);
        Assert.True(Jar.Equilibrate(new() { LiquorMillilitres = 90, Portions = [acid] }).TryGet(out var pure));
        Assert.True(
            Jar.Equilibrate(
                    new()
                    {
                        LiquorMillilitres = 90,
                        Liquor = Liquor.Tap(300, 250),
                        Portions = [acid],
                    }
                )
                .TryGet(out var hard)
        );
        Assert.True(hard.Ph > pure.Ph + 1);
        Assert.True(Jar.Equilibrate(new() { LiquorMillilitres = 90, Liquor = Liquor.Tap(300, 250) }).TryGet(out var tap));
        Assert.InRange(tap.Ph, 6.8, 8.2);
    }

    [Fact]
    public void A_belief_about_a_liquor_moves_towards_what_was_read_and_not_past_it()
    {
        Assert.True(ExtractBuffer.Find("liquor", "elderberries").TryGet(out var prior));
        var after = prior.Learn(PhNote.Read(4.5, PhTool.Strip));
        var surer = after.Learn(PhNote.Read(4.5, PhTool.Meter));
        Assert.InRange(after.Ph, prior.Ph, 4.5);
        Assert.InRange(surer.Ph, after.Ph, 4.5);
        Assert.True(surer.PhUncertainty < after.PhUncertainty && after.PhUncertainty < prior.PhUncertainty);
        Assert.Contains("surer", surer.Words(after), StringComparison.Ordinal);
        // Twice a pH that hardly moved under much alkali: a firm liquor.
        var firm = prior.Learn(PhNote.Read(3.9, PhTool.Meter, -60)).Learn(PhNote.Read(3.8, PhTool.Meter, -40));
        Assert.True(firm.BufferMillimolesPerLitrePerPh > 1.3 * prior.BufferMillimolesPerLitrePerPh);
        Assert.False(ExtractBuffer.Find("liquor", "granite").TryGet(out _));
    }

    [Theory]
    [InlineData(5e7)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void A_dose_that_cannot_be_has_no_pH(double gramsPerLitre) =>
        Assert.False(Jar.PhOf(Liquor.PureWater, [new(TradeTests.Named("alum"), gramsPerLitre)]).TryGet(out _));

    [Fact]
    public void The_pH_of_a_liquor_with_grams_per_litre_is_there_for_the_rooms_to_the_right()
    {
        Assert.True(Jar.PhOf(Liquor.PureWater, [new(TradeTests.Named("bicarbonate of soda"), 12.78)]).TryGet(out var ph));
        Assert.Equal(8.13, ph, 0.03);
        Assert.True(ExtractBuffer.Find("liquor", "hibiscus").TryGet(out var hibiscus));
        Assert.True(Jar.PhOf(Liquor.Of(hibiscus), []).TryGet(out var own));
        Assert.Equal(hibiscus.Ph, own, 0.1);
    }
}
