using System.Globalization;
using CsCheck;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Quantities.Tests;

public sealed class AmountTests
{
    [Theory]
    [InlineData("1/4 tsp", 0.25, AmountUnit.Teaspoon)]
    [InlineData("¼ tsp", 0.25, AmountUnit.Teaspoon)]
    [InlineData("¼tsp", 0.25, AmountUnit.Teaspoon)]
    [InlineData("1⁄4 tsp", 0.25, AmountUnit.Teaspoon)]
    [InlineData("1 / 4 tsp", 0.25, AmountUnit.Teaspoon)]
    [InlineData("1½ tbsp", 1.5, AmountUnit.Tablespoon)]
    [InlineData("1 1/2 tsp", 1.5, AmountUnit.Teaspoon)]
    [InlineData("1 and 1/2 tsp", 1.5, AmountUnit.Teaspoon)]
    [InlineData("2.5 g", 2.5, AmountUnit.Gram)]
    [InlineData("2,5 g", 2.5, AmountUnit.Gram)]
    [InlineData(".5 g", 0.5, AmountUnit.Gram)]
    [InlineData("0,125 g", 0.125, AmountUnit.Gram)]
    [InlineData("90ml", 90, AmountUnit.Millilitre)]
    [InlineData("90 mL", 90, AmountUnit.Millilitre)]
    [InlineData("  90  ml ", 90, AmountUnit.Millilitre)]
    [InlineData("2 cl", 20, AmountUnit.Millilitre)]
    [InlineData("0.5 cup", 0.5, AmountUnit.Cup)]
    [InlineData("1.5 L", 1.5, AmountUnit.Litre)]
    [InlineData("3 drops", 3, AmountUnit.Drop)]
    [InlineData("1 pinch", 1, AmountUnit.Pinch)]
    [InlineData("a pinch", 1, AmountUnit.Pinch)]
    [InlineData("A Pinch", 1, AmountUnit.Pinch)]
    [InlineData("two pinches", 2, AmountUnit.Pinch)]
    [InlineData("4 oz", 4, AmountUnit.Ounce)]
    [InlineData("4 ounces", 4, AmountUnit.Ounce)]
    [InlineData("4 fl oz", 4, AmountUnit.FluidOunce)]
    [InlineData("4 fl. oz.", 4, AmountUnit.FluidOunce)]
    [InlineData("4 fluid ounces", 4, AmountUnit.FluidOunce)]
    [InlineData("1 lb", 1, AmountUnit.Pound)]
    [InlineData("0.2 kg", 0.2, AmountUnit.Kilogram)]
    [InlineData("250 mg", 250, AmountUnit.Milligram)]
    [InlineData("1 pint", 1, AmountUnit.Pint)]
    [InlineData("2 quarts", 2, AmountUnit.Quart)]
    [InlineData("1 level teaspoon", 1, AmountUnit.Teaspoon)]
    [InlineData("2 teaspoonfuls", 2, AmountUnit.Teaspoon)]
    [InlineData("1 tsp.", 1, AmountUnit.Teaspoon)]
    [InlineData("1 t", 1, AmountUnit.Teaspoon)]
    [InlineData("1 T", 1, AmountUnit.Tablespoon)]
    [InlineData("half a teaspoon", 0.5, AmountUnit.Teaspoon)]
    [InlineData("a half teaspoon", 0.5, AmountUnit.Teaspoon)]
    [InlineData("half teaspoon", 0.5, AmountUnit.Teaspoon)]
    [InlineData("three quarters of a teaspoon", 0.75, AmountUnit.Teaspoon)]
    [InlineData("one and a half teaspoons", 1.5, AmountUnit.Teaspoon)]
    [InlineData("a teaspoon and a half", 1.5, AmountUnit.Teaspoon)]
    [InlineData("⅛ tsp", 0.125, AmountUnit.Teaspoon)]
    [InlineData("0 g", 0, AmountUnit.Gram)]
    [InlineData("eleven drops", 11, AmountUnit.Drop)]
    [InlineData("twelve drops", 12, AmountUnit.Drop)]
    [InlineData("a dozen drops", 12, AmountUnit.Drop)]
    [InlineData("two dozen drops", 24, AmountUnit.Drop)]
    [InlineData("a quarter teaspoon", 0.25, AmountUnit.Teaspoon)]
    [InlineData("three halves of a cup", 1.5, AmountUnit.Cup)]
    [InlineData("a third of a cup", 1.0 / 3, AmountUnit.Cup)]
    [InlineData("two thirds of a cup", 2.0 / 3, AmountUnit.Cup)]
    [InlineData("an eighth of a teaspoon", 0.125, AmountUnit.Teaspoon)]
    [InlineData("three eighths of a teaspoon", 0.375, AmountUnit.Teaspoon)]
    [InlineData("3 decilitres", 300, AmountUnit.Millilitre)]
    [InlineData("1 level metric tsp level", 1, AmountUnit.Teaspoon)]
    public void People_say_amounts_in_many_ways(string text, double number, AmountUnit unit)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        Assert.Equal(number, amount.Number, 1e-12);
        Assert.Equal(unit, amount.Unit);
        Assert.Equal(text.Trim(), amount.Text);
    }

    [Theory]
    [InlineData("4 cloves", 4, "clove", "4 cloves")]
    [InlineData("1 clove", 1, "clove", "1 clove")]
    [InlineData("two rusty", 0, null, null)]
    [InlineData("3 leaves", 3, "leaf", "3 leaves")]
    public void Things_are_counted(string text, double number, string? counted, string? again)
    {
        var taken = Amount.Parse("amount", text).TryGet(out var amount);
        Assert.Equal(counted is not null, taken);
        if (!taken)
            return;
        Assert.Equal(AmountUnit.Piece, amount!.Unit);
        Assert.Equal((number, counted), (amount.Number, amount.Counted));
        Assert.Equal(again, amount.ToString());
    }

    [Theory]
    [InlineData("", "no amount")]
    [InlineData(null, "no amount")]
    [InlineData("lots", "“lots”")]
    [InlineData("tsp", "“tsp”")]
    [InlineData("a few drops", "“few”")]
    [InlineData("3", "“3”")]
    [InlineData("1/4", "“1/4”")]
    [InlineData("3 furlongs", "“furlongs”")]
    [InlineData("1/0 tsp", "“1/0”")]
    [InlineData("1/4/2 tsp", "“1/4/2”")]
    [InlineData("1..5 g", "“1..5”")]
    [InlineData("-3 g", "“-3 g”")]
    [InlineData("−3 g", "“−3 g”")]
    [InlineData("1,500 ml", "1.500 or as 1500")]
    [InlineData("1 500 ml", "“1 500”")]
    [InlineData("1-2 tsp", "“1-2”")]
    [InlineData("1–2 tsp", "“1-2”")]
    [InlineData("1 tsp alum", "“alum”")]
    [InlineData("1 tsp 2 g", "“2”")]
    [InlineData("1 heaped teaspoon", "“heaped”")]
    [InlineData("a handful", "“handful”")]
    [InlineData("2 spoons", "“spoons”")]
    [InlineData("5 gr", "“gr”")]
    [InlineData("NaN g", "“NaN”")]
    [InlineData("1e9 g", "“e”")]
    [InlineData("Infinity g", "“Infinity”")]
    [InlineData("999999999 g", "“999999999 g”")]
    [InlineData("1 1/0 tsp", "“1/0”")]
    [InlineData("2 3/2 tsp", "“3/2”")]
    [InlineData("½½ tsp", "“1/2 1/2”")]
    [InlineData("1 tsp; drop table", "“;”")]
    public void Nonsense_gets_one_sentence_that_names_the_part_not_understood(string? text, string part)
    {
        var outcome = Amount.Parse("amount", text);
        Assert.False(outcome.TryGet(out _));
        var problem = Assert.Single(outcome.Problems);
        Assert.Equal("amount", problem.Field);
        Assert.Contains(part, problem.What, StringComparison.Ordinal);
        Assert.EndsWith(".", problem.What, StringComparison.Ordinal);
        Assert.EndsWith(".", problem.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Any_typing_gives_an_amount_or_a_sentence()
    {
        var pieces = Pick(
            "1",
            "/",
            "2",
            "½",
            "1/0",
            ".",
            ",",
            "tsp",
            "g",
            " ",
            " a",
            "and",
            "half",
            "of",
            "-",
            "cloves",
            "fl",
            "oz",
            "é",
            "\t",
            "0",
            "9999999999",
            "level",
            "US",
            "T",
            "…",
            "\ud83d"
        );
        pieces
            .Array[0, 7]
            .Select(string.Concat)
            .Sample(
                text =>
                {
                    var outcome = Amount.Parse("amount", text);
                    return outcome.TryGet(out var amount) ? amount.Number is >= 0 and <= 100_000 : outcome.Problems.Count == 1;
                },
                iter: 20_000
            );
    }

    [Fact]
    public void Our_wording_reads_back_as_the_same_amount()
    {
        var units = Enum.GetValues<AmountUnit>().Where(unit => unit != AmountUnit.Piece).ToArray();
        Gen.Select(Gen.Int[0, 400], Pick(1.0, 0.5, 0.25, 0.125, 0.375, 1.0 / 3), Pick(units))
            .Sample(
                (whole, part, unit) =>
                {
                    var amount = Amount.Of(
                        unit is AmountUnit.Gram or AmountUnit.Kilogram or AmountUnit.Milligram or AmountUnit.Millilitre or AmountUnit.Litre
                            ? whole
                            : whole + part,
                        unit
                    );
                    return Amount.Parse("amount", amount.ToString()).TryGet(out var again)
                        && Math.Abs(again.Number - amount.Number) < 1e-9
                        && again.Unit == unit;
                },
                iter: 5_000
            );
    }

    [Theory]
    [InlineData("1/2 tsp", "½ tsp")]
    [InlineData("1.5 tbsp", "1½ tbsp")]
    [InlineData("24.4 g", "24.4 g")]
    [InlineData("1.5 l", "1.5 L")]
    [InlineData("0.333333333333 cup", "⅓ cup")]
    [InlineData("2 cups", "2 cups")]
    [InlineData("0.3 tsp", "0.3 tsp")]
    [InlineData("1 imperial pint", "1 imperial pint")]
    [InlineData("1 imperial gram", "1 g")]
    public void Amounts_are_said_back(string text, string said)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        Assert.Equal(said, amount.ToString());
    }

    // The printed factors, with half a unit in the last printed place.
    [Theory, Published("SP811", "Appendix B.8")]
    [InlineData("1 tsp", Teaspoon.UsCustomary, 4.928922)]
    [InlineData("1 tbsp", Teaspoon.UsCustomary, 14.78676)]
    [InlineData("1 cup", Teaspoon.UsCustomary, 236.5882)]
    [InlineData("1 fl oz", Teaspoon.UsCustomary, 29.57353)]
    [InlineData("1 pint", Teaspoon.UsCustomary, 473.1765)]
    [InlineData("1 quart", Teaspoon.UsCustomary, 946.3529)]
    [InlineData("1 gallon", Teaspoon.UsCustomary, 3785.412)]
    [InlineData("1 gallon", Teaspoon.Imperial, 4546.09)]
    [InlineData("1 fl oz", Teaspoon.Imperial, 28.41306)]
    [InlineData("1 pint", Teaspoon.Imperial, 568.2612)]
    public void Measures_hold_what_the_standard_says(string text, Teaspoon kind, double millilitres)
    {
        Assert.True(Volume.Parse("volume", text, kind).TryGet(out var volume));
        Assert.Equal(millilitres, volume.Millilitres, SeventhFigure(millilitres));
    }

    [Theory, Published("SP811", "Appendix B.8")]
    [InlineData("1 oz", 28.34952)]
    [InlineData("1 lb", 453.5924)]
    public void Weights_are_what_the_standard_says(string text, double grams)
    {
        Assert.True(Mass.Parse("mass", text).TryGet(out var mass));
        Assert.Equal(grams, mass.Grams, SeventhFigure(grams));
    }

    [Fact]
    public void Printed_factors_agree_with_the_exact_definitions()
    {
        const double GallonFromCubicInches = 231 * 2.54 * 2.54 * 2.54;
        foreach (
            var (unit, share) in new[]
            {
                (AmountUnit.Gallon, 1),
                (AmountUnit.Quart, 4),
                (AmountUnit.Pint, 8),
                (AmountUnit.Cup, 16),
                (AmountUnit.FluidOunce, 128),
                (AmountUnit.Tablespoon, 256),
                (AmountUnit.Teaspoon, 768),
            }
        )
        {
            var millilitres = KitchenMeasures.Millilitres(unit, Teaspoon.UsCustomary)!.Value;
            Assert.Equal(GallonFromCubicInches / share, millilitres, SeventhFigure(millilitres));
        }

        // An imperial gallon is 4.54609 litres: four quarts, eight pints, sixteen cups, 160 fluid ounces.
        Assert.Equal(4546.09, 4 * KitchenMeasures.Millilitres(AmountUnit.Quart, Teaspoon.Imperial)!.Value, 1e-6);
        Assert.Equal(4546.09, 16 * KitchenMeasures.Millilitres(AmountUnit.Cup, Teaspoon.Imperial)!.Value, 1e-6);
        Assert.Equal(250, KitchenMeasures.Millilitres(AmountUnit.Cup, Teaspoon.Metric));
        Assert.Equal(453.59237 / 16, KitchenMeasures.Grams(AmountUnit.Ounce)!.Value, 5e-6);
        Assert.Equal(5.919, KitchenMeasures.TeaspoonMillilitres(Teaspoon.Imperial), 0.0005);
        Assert.Equal(4546.09 / 160, KitchenMeasures.Millilitres(AmountUnit.FluidOunce, Teaspoon.Imperial)!.Value, 5e-6);
    }

    [Theory]
    [InlineData("1 tsp")]
    [InlineData("4 cloves")]
    [InlineData("5 ml")]
    public void Only_a_weight_has_grams_of_its_own(string text)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        Assert.Contains("grams", Assert.Single(amount.ToMass("amount").Problems).Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1 tsp", "one teaspoon", true)]
    [InlineData("4 cloves", "four cloves", true)]
    [InlineData("4 cloves", "4 leaves", false)]
    [InlineData("1 tsp", "1 tbsp", false)]
    [InlineData("1 tsp", "1 US tsp", false)]
    [InlineData("1 tsp", "2 tsp", false)]
    public void Amounts_are_the_same_when_they_mean_the_same(string first, string second, bool same)
    {
        Assert.True(Amount.Parse("amount", first).TryGet(out var one));
        Assert.True(Amount.Parse("amount", second).TryGet(out var other));
        Assert.Equal(same, one.Equals(other));
        Assert.True(!same || one.GetHashCode() == other.GetHashCode());
    }

    [Theory]
    [InlineData("1 UK pint", Teaspoon.Imperial)]
    [InlineData("1 british pint", Teaspoon.Imperial)]
    [InlineData("1 imp pint", Teaspoon.Imperial)]
    [InlineData("1 American pint", Teaspoon.UsCustomary)]
    [InlineData("1 U.S. pint", Teaspoon.UsCustomary)]
    [InlineData("1 metric tsp", Teaspoon.Metric)]
    [InlineData("1 pint", null)]
    public void The_text_names_its_measures_in_many_words(string text, Teaspoon? kind)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        Assert.Equal(kind, amount.SaidKind);
    }

    [Fact]
    public void The_text_s_own_measure_goes_before_the_notebook_s()
    {
        Assert.True(Volume.Parse("volume", "1 US tsp", Teaspoon.Imperial).TryGet(out var us));
        Assert.Equal(4.928922, us.Millilitres, 1e-6);
        Assert.True(Volume.Parse("volume", "1 tsp", Teaspoon.Imperial).TryGet(out var imperial));
        Assert.Equal(5.919, imperial.Millilitres, 0.0005);
    }

    [Theory]
    [InlineData("de-DE")]
    [InlineData("ar-SA")]
    [InlineData("tr-TR")]
    public void Reading_and_saying_do_not_depend_on_the_machine_s_language(string culture)
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            Assert.True(Amount.Parse("amount", "2.5 IMPERIAL PINTS").TryGet(out var amount));
            Assert.Equal("2½ imperial pints", amount.ToString());
            Assert.Equal("1.5 L", Volume.FromMillilitres(1500).ToString());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Times_keeps_the_unit()
    {
        Assert.True(Amount.Parse("amount", "1/4 tsp").TryGet(out var amount));
        Assert.Equal("4.17 tsp", amount.Times(1500.0 / 90).ToString());
        Assert.Throws<ArgumentOutOfRangeException>(() => amount.Times(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => amount.Times(-1));
        Assert.Equal(0.5, Amount.Of(0.5, AmountUnit.Gram).Number);
        Assert.Throws<ArgumentOutOfRangeException>(() => Amount.Of(100_001, AmountUnit.Gram));
    }

    /// <summary>Half a unit in the seventh significant figure, which is as far as the table is printed.</summary>
    private static double SeventhFigure(double value) => 0.5 * Math.Pow(10, Math.Floor(Math.Log10(value)) - 6);

    private static Gen<T> Pick<T>(params T[] choices) => Gen.Int[0, choices.Length - 1].Select(index => choices[index]);
}
