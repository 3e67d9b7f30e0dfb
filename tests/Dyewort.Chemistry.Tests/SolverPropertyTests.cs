using CsCheck;
using Xunit;

namespace Dyewort.Chemistry.Tests;

/// <summary>What must hold for any mixture. CsCheck prints the seed of a failure.</summary>
public sealed class SolverPropertyTests
{
    private static readonly Substance[] Reacting =
    [
        .. SubstanceCatalogue.Standard.Substances.Where(one => one.Form is SubstanceForm.Powder or SubstanceForm.Liquid),
    ];

    private static readonly Gen<Portion> AnyPortion =
        from which in Gen.Int[0, Reacting.Length - 1]
        from exponent in Gen.Double[-4, 0.9]
        select Portion.OfGrams(new(Reacting[which], Reacting[which].UsualStrength, false), Math.Pow(10, exponent));

    private static readonly Gen<JarContents> AnyJar =
        from portions in AnyPortion.Array[0, 6]
        select new JarContents { LiquorMillilitres = 90, Portions = portions };

    private static readonly Gen<CarbonDioxide> AnyMode = Gen.Int[0, 2].Select(mode => (CarbonDioxide)mode);

    [Fact]
    public void Any_mixture_at_any_temperature_balances_to_a_billionth()
    {
        Gen.Select(AnyJar, Gen.Double[0, 100], AnyMode)
            .Sample(
                (jar, celsius, mode) =>
                {
                    var state = Solve(jar, celsius, mode);
                    Assert.True(double.IsFinite(state.Ph) && double.IsFinite(state.IonicStrength) && double.IsFinite(state.GasMillilitres));
                    Assert.InRange(state.WorstBalance, 0, 1e-9);
                    Assert.All(state.Solids, solid => Assert.True(solid.Grams > 0));
                    Assert.All(
                        state.Solution.Saturation,
                        pair => Assert.True(pair.Value < 1e-6, $"{pair.Key} is left supersaturated by {pair.Value}.")
                    );
                },
                iter: 1500,
                print: Print
            );
    }

    [Theory]
    [InlineData(66, CarbonDioxide.Open, "0.0056 g chalk; 2.3337 g copper-sulfate-anhydrous; 27.0999 g slaked-lime")]
    [InlineData(57, CarbonDioxide.Open, "23.6452 g slaked-lime; 0.0017 g copper-sulfate-anhydrous")]
    [InlineData(59, CarbonDioxide.Open, "10.4827 g copper-sulfate-anhydrous; 0.0008 g iron-chloride; 10.617 g washing-soda-crystals")]
    [InlineData(41, CarbonDioxide.Open, "11.5 g chalk; 0.009 g borax; 0.001 g cream-of-tartar; 0.008 g salt")]
    [InlineData(23, CarbonDioxide.Sealed, "25.1305 g soda-ash; 0.0001 g malt-vinegar")]
    [InlineData(11.799184191878505, CarbonDioxide.Sealed, "0.0010967123367703413 g copper-sulfate; 4.0467827244682395 g chalk")]
    [InlineData(43.89551204810641, CarbonDioxide.Sealed, "0.000236842050598389 g copper-liquor; 3.659031344290329 g chalk")]
    [InlineData(36, CarbonDioxide.Open, "4.3531 g baking-soda; 12.8173 g copper-sulfate; 0.3 g gypsum; 1.3012 g iron-sulfate")]
    public void Mixtures_that_were_hard_once_balance(double celsius, CarbonDioxide mode, string additions)
    {
        var portions = additions
            .Split("; ")
            .Select(part => part.Split(" g "))
            .Select(pair =>
            {
                var substance = SubstanceCatalogue.Standard.ByKey(pair[1])!;
                return Portion.OfGrams(new(substance, substance.UsualStrength, false), PublishedTable.Number(pair[0]));
            });
        var state = Solve(new() { LiquorMillilitres = 90, Portions = [.. portions] }, celsius, mode);
        Assert.InRange(state.WorstBalance, 0, 1e-9);
        Assert.True(state.Solution.Saturation.Values.Max() < 1e-6);
    }

    [Fact]
    public void The_order_of_additions_does_not_matter()
    {
        Gen.Select(AnyJar, AnyMode)
            .Sample(
                (jar, mode) =>
                {
                    var turned = jar with { Portions = [.. jar.Portions.Reverse()] };
                    Assert.Equal(Solve(jar, 20, mode).Ph, Solve(turned, 20, mode).Ph, 1e-6);
                },
                iter: 300,
                print: pair => Print((pair.Item1, 20, pair.Item2))
            );
    }

    [Fact]
    public void Scaling_all_amounts_changes_nothing()
    {
        Gen.Select(AnyJar, Gen.Double[0.01, 100])
            .Sample(
                (jar, factor) =>
                {
                    var (one, many) = (
                        Solve(jar, 20, CarbonDioxide.AfterFizzing),
                        Solve(jar.Times(factor), 20, CarbonDioxide.AfterFizzing)
                    );
                    Assert.Equal(one.Ph, many.Ph, 1e-6);
                    foreach (var solid in one.Solids.Where(solid => solid.Grams > 0.01))
                    {
                        var other = Assert.Single(many.Solids, candidate => candidate.Key == solid.Key);
                        Assert.Equal(1, other.Grams / factor / solid.Grams, 1e-5);
                    }
                },
                iter: 300,
                print: pair => Print((pair.Item1, 20, CarbonDioxide.AfterFizzing))
            );
    }

    [Fact]
    public void More_strong_acid_never_raises_the_pH_and_more_strong_alkali_never_lowers_it()
    {
        Gen.Select(AnyJar, Gen.Double[1e-6, 5e-3], Gen.Bool)
            .Sample(
                (jar, moles, isAcid) =>
                {
                    var before = Solve(jar, 20, CarbonDioxide.AfterFizzing);
                    var outcome = Jar.Equilibrate(
                        jar,
                        20,
                        CarbonDioxide.AfterFizzing,
                        JarCorrections.Usual,
                        totals =>
                        {
                            totals["H+"] = totals.GetValueOrDefault("H+") + (isAcid ? moles : -moles);
                            var ion = isAcid ? "Cl-" : "Na+";
                            totals[ion] = totals.GetValueOrDefault(ion) + moles;
                        }
                    );
                    Assert.True(outcome.TryGet(out var after));
                    // More salt changes the activity coefficients a little, which may move an otherwise unmoved pH by some hundredths.
                    var allowed = 0.02 + (0.3 * Math.Abs(after.IonicStrength - before.IonicStrength));
                    if (before.IonicStrength > 0.5 || after.IonicStrength > 0.5)
                        return;
                    Assert.True(
                        isAcid ? after.Ph < before.Ph + allowed : after.Ph > before.Ph - allowed,
                        $"{before.Ph:0.000} became {after.Ph:0.000}."
                    );
                },
                iter: 300,
                print: triple => Print((triple.Item1, 20, CarbonDioxide.AfterFizzing))
            );
    }

    private static JarState Solve(JarContents jar, double celsius, CarbonDioxide mode)
    {
        var outcome = Jar.Equilibrate(jar, celsius, mode);
        Assert.True(outcome.TryGet(out var state), outcome.Problems.Count > 0 ? outcome.Problems[0].What : "");
        return state;
    }

    private static string Print((JarContents Jar, double Celsius, CarbonDioxide Mode) sample) =>
        $"{sample.Celsius:0.0} °C, {sample.Mode}: "
        + $"{string.Join("; ", sample.Jar.Portions.Select(portion => $"{portion.Grams:R} g {portion.Named.Name}"))}";
}
