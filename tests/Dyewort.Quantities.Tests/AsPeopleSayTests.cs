using Xunit;

namespace Dyewort.Quantities.Tests;

/// <summary>Every kind of quantity is read in every unit that makers use for it, and another kind is named as what it is.</summary>
public sealed class AsPeopleSayTests
{
    [Theory]
    [InlineData("1500", 1500)]
    [InlineData("1,5", 1.5)]
    [InlineData("½", 0.5)]
    [InlineData("1½", 1.5)]
    [InlineData("1/4", 0.25)]
    [InlineData("1.5 L", 1500)]
    [InlineData("1,5 l", 1500)]
    [InlineData("25 cl", 250)]
    [InlineData("6 cups", 1500)]
    [InlineData("3 fl oz", 90)]
    [InlineData("1 pint", 500)]
    [InlineData("2 quarts", 2000)]
    [InlineData("1 gallon", 4000)]
    [InlineData("1 US pint", 473.1765)]
    [InlineData("150000", 150000)]
    public void A_volume_is_read_in_any_unit_and_bare_in_the_fields_own(string text, double millilitres)
    {
        Assert.True(Volume.Parse("volume", text, Teaspoon.Metric, AmountUnit.Millilitre).TryGet(out var volume));
        Assert.Equal(millilitres, volume.Millilitres, 1e-6);
    }

    [Theory]
    [InlineData("400", 400)]
    [InlineData("14 oz", 396.89328)]
    [InlineData("2 lb", 907.1848)]
    [InlineData("½ lb", 226.7962)]
    [InlineData("0.4 kg", 400)]
    [InlineData("500 mg", 0.5)]
    [InlineData("nine hundred", 900)]
    public void A_weight_is_read_in_any_unit_and_bare_in_the_fields_own(string text, double grams)
    {
        Assert.True(Mass.Parse("mass", text, AmountUnit.Gram).TryGet(out var mass));
        Assert.Equal(grams, mass.Grams, 1e-6);
    }

    [Theory]
    [InlineData("85", 85)]
    [InlineData("85C", 85)]
    [InlineData("185F", 85)]
    [InlineData("185 °F", 85)]
    [InlineData("185 degrees Fahrenheit", 85)]
    [InlineData("72,5 °C", 72.5)]
    [InlineData("−5", -5)]
    public void A_temperature_is_read_in_both_scales(string text, double celsius)
    {
        Assert.True(Temperature.Parse("temperature", text).TryGet(out var temperature));
        Assert.Equal(celsius, temperature.Celsius, 1e-9);
    }

    [Theory]
    [InlineData("24", 240)]
    [InlineData("24 cm", 240)]
    [InlineData("240mm", 240)]
    [InlineData("9.5\"", 241.3)]
    [InlineData("9½ in", 241.3)]
    [InlineData("10 inches", 254)]
    [InlineData("1 ft", 304.8)]
    public void A_length_is_read_in_any_unit(string text, double millimetres)
    {
        Assert.True(Length.Parse("length", text, bareMillimetres: 10).TryGet(out var length));
        Assert.Equal(millimetres, length.Millimetres, 1e-9);
    }

    [Theory]
    [InlineData("0.75", 45)]
    [InlineData("45 min", 45)]
    [InlineData("1 h 30", 90)]
    [InlineData("1h30", 90)]
    [InlineData("1 h 30 min", 90)]
    [InlineData("1:30", 90)]
    [InlineData("1½ hours", 90)]
    [InlineData("an hour and a half", 90)]
    [InlineData("half an hour", 30)]
    [InlineData("three quarters of an hour", 45)]
    [InlineData("2 days", 2880)]
    [InlineData("1 day 6", 1800)]
    public void A_time_is_read_in_hours_and_minutes(string text, double minutes)
    {
        Assert.True(Duration.Parse("time", text, TimeSpan.FromHours(1)).TryGet(out var time));
        Assert.Equal(minutes, time.TotalMinutes, 1e-6);
    }

    [Theory]
    [InlineData("400 g", "“400 g” is a weight; here a volume is wanted, such as 1.5 L.")]
    [InlineData("85 °C", "“85 °C” is a temperature; here a volume is wanted, such as 1.5 L.")]
    [InlineData("24 cm", "“24 cm” is a length; here a volume is wanted, such as 1.5 L.")]
    [InlineData("45 min", "“45 min” is a time; here a volume is wanted, such as 1.5 L.")]
    [InlineData("3 cloves", "“3 cloves” is a count; here a volume is wanted, such as 1.5 L.")]
    public void Another_kind_is_named(string text, string says) =>
        Assert.Equal(says, Volume.Parse("volume", text, Teaspoon.Metric, AmountUnit.Millilitre).FirstProblem!.What);

    [Fact]
    public void Every_other_reader_names_it_too()
    {
        Assert.Equal("“90 ml” is a volume; here a weight is wanted, such as 400 g.", Mass.Parse("f", "90 ml").FirstProblem!.What);
        Assert.Equal(
            "“90 ml” is a volume; here a temperature is wanted, such as 72 °C.",
            Temperature.Parse("f", "90 ml").FirstProblem!.What
        );
        Assert.Equal("“90 ml” is a volume; here a length is wanted, such as 24 cm.", Length.Parse("f", "90 ml").FirstProblem!.What);
        Assert.Equal(
            "“90 ml” is a volume; here a time is wanted, such as 1 h 30.",
            Duration.Parse("f", "90 ml", TimeSpan.FromHours(1)).FirstProblem!.What
        );
    }

    [Theory]
    [InlineData("lots")]
    [InlineData("")]
    [InlineData("1,500")]
    [InlineData("2-3 L")]
    [InlineData("-5 L")]
    public void What_is_no_single_volume_is_refused(string text) =>
        Assert.Single(Volume.Parse("volume", text, Teaspoon.Metric, AmountUnit.Millilitre).Problems);

    [Theory]
    [InlineData("400", 400.0, null, null)]
    [InlineData("14 oz", 396.89328, null, null)]
    [InlineData("a handful", 30.0, 10.0, 80.0)]
    [InlineData("2 handfuls", 60.0, 20.0, 160.0)]
    [InlineData("2-3 handfuls", 75.0, 20.0, 240.0)]
    [InlineData("½ head", null, null, null)]
    [InlineData("half a head of red cabbage", null, null, null)]
    [InlineData("3-4 cloves", null, null, null)]
    [InlineData("6 cups", null, null, null)]
    public void Plant_is_weighed_taken_by_the_handful_or_counted(string text, double? grams, double? low, double? high)
    {
        Assert.True(PlantAmount.Parse("plant", text).TryGet(out var plant));
        Assert.Equal(text, plant.Text);
        Assert.Equal((grams, low, high), (plant.Grams is { } mass ? Math.Round(mass, 5) : null, plant.Low, plant.High));
    }

    [Theory]
    [InlineData("plenty")]
    [InlineData("85 °C")]
    [InlineData("45 min")]
    [InlineData("2-3 g")]
    [InlineData("0 heads")]
    [InlineData("-4 g")]
    public void What_is_no_amount_of_plant_is_refused(string text) => Assert.Single(PlantAmount.Parse("plant", text).Problems);

    [Theory]
    [InlineData("3-4 cloves", "6–8 cloves")]
    [InlineData("3 to 4 cloves", "6–8 cloves")]
    [InlineData("three or four cloves", "6–8 cloves")]
    [InlineData("½ head", "1 head")]
    public void A_count_is_scaled_with_its_range(string text, string twice)
    {
        Assert.True(Amount.Parse("amount", text).TryGet(out var amount));
        Assert.Equal(text, amount.Text);
        Assert.Equal(twice, amount.Times(2).Text);
        Assert.True(Amount.Parse("amount", twice).TryGet(out var back));
        Assert.Equal(amount.Times(2), back);
    }

    [Theory]
    [InlineData("2-3 g", "“2-3” is a range.")]
    [InlineData("4-3 cloves", "“4-3” does not rise.")]
    public void A_dose_is_no_range(string text, string says) => Assert.Equal(says, Amount.Parse("amount", text).FirstProblem!.What);

    [Fact]
    public void A_metric_kitchen_agrees_with_itself()
    {
        double Ml(AmountUnit unit) => KitchenMeasures.Millilitres(unit, Teaspoon.Metric)!.Value;
        Assert.Equal(
            (5, 15, 30, 250, 500, 1000, 4000),
            (
                Ml(AmountUnit.Teaspoon),
                Ml(AmountUnit.Tablespoon),
                Ml(AmountUnit.FluidOunce),
                Ml(AmountUnit.Cup),
                Ml(AmountUnit.Pint),
                Ml(AmountUnit.Quart),
                Ml(AmountUnit.Gallon)
            )
        );
    }

    [Theory]
    [InlineData(Teaspoon.Metric)]
    [InlineData(Teaspoon.UsCustomary)]
    [InlineData(Teaspoon.Imperial)]
    public void Two_cups_are_a_pint_two_pints_a_quart_and_four_quarts_a_gallon(Teaspoon kitchen)
    {
        const double PrintedToSevenFigures = 5e-4;
        double Ml(AmountUnit unit) => KitchenMeasures.Millilitres(unit, kitchen)!.Value;
        Assert.Equal(Ml(AmountUnit.Pint), 2 * Ml(AmountUnit.Cup), PrintedToSevenFigures);
        Assert.Equal(Ml(AmountUnit.Quart), 2 * Ml(AmountUnit.Pint), PrintedToSevenFigures);
        Assert.Equal(Ml(AmountUnit.Gallon), 4 * Ml(AmountUnit.Quart), PrintedToSevenFigures);
    }

    [Theory]
    [InlineData("1,5", 100, 1.5)]
    [InlineData("½", 100, 0.5)]
    [InlineData("−1,25", 100, -1.25)]
    [InlineData("1,125", 100, 1.125)]
    [InlineData("1,500", 10000, null)]
    [InlineData("--1", 100, null)]
    [InlineData("1 2", 100, null)]
    public void A_number_is_read_as_people_write_it(string text, double most, double? number) =>
        Assert.Equal(number, Figures.Read(text, most));

    [Fact]
    public void An_amount_keeps_the_kitchen_it_was_meant_in()
    {
        Assert.True(Amount.Parse("amount", "½ tsp").TryGet(out var amount));
        var meant = amount.In(Teaspoon.Metric);
        Assert.True(meant.Times(2).ToVolume("amount", Teaspoon.UsCustomary).TryGet(out var volume));
        Assert.Equal(5, volume.Millilitres, 1e-12);
        Assert.Equal(("½ tsp", "½ metric tsp"), (meant.TextIn(Teaspoon.Metric), meant.TextIn(Teaspoon.UsCustomary)));
    }

    [Theory]
    [InlineData("1e308 g", "“e” is not a unit")]
    [InlineData("1e308", "“e” is not a unit")]
    [InlineData("1e-3 handfuls", "“e” is not a unit")]
    [InlineData("20000 handfuls", "more than any pot holds")]
    [InlineData("99999 heads", "more than any pot holds")]
    public void No_plant_weighs_more_than_can_be_written_down(string said, string why) =>
        Assert.Contains(why, PlantAmount.Parse("plant", said).Problems.Single().What, StringComparison.Ordinal);

    [Theory]
    [InlineData("1 tbsp + 1 tsp", 4, AmountUnit.Teaspoon)]
    [InlineData("1 tbsp and 1½ tsp", 4.5, AmountUnit.Teaspoon)]
    [InlineData("1 tsp plus 2 tbsp+1 tsp", 8, AmountUnit.Teaspoon)]
    [InlineData("½ tsp + ¼ tsp", 0.75, AmountUnit.Teaspoon)]
    [InlineData("1 kg + 200 g", 1200, AmountUnit.Gram)]
    [InlineData("1 L + 20 ml", 1020, AmountUnit.Millilitre)]
    [InlineData("2 cloves + 3 cloves", 5, AmountUnit.Piece)]
    [InlineData("1 US cup + 2 US tbsp", 18, AmountUnit.Tablespoon)]
    [InlineData("1 tsp + 1 pinch", 17, AmountUnit.Pinch)]
    public void Amounts_that_are_said_to_go_together_add_up_in_the_words_that_were_said(string said, double number, AmountUnit unit)
    {
        Assert.True(Amount.Parse("amount", said).TryGet(out var amount));
        Assert.Equal((said, unit), (amount.Text, amount.Unit));
        Assert.Equal(number, amount.Number, 1e-4);
    }

    [Theory]
    [InlineData("1 cup + 1 tbsp", "without knowing")]
    [InlineData("1 g + 1 tsp", "without knowing")]
    [InlineData("2 cloves + 1 tsp", "without knowing")]
    [InlineData("1 tbsp + lots", "lots")]
    [InlineData("99999 g + 99999 g", "without knowing")]
    public void What_does_not_add_up_is_refused_with_a_sentence(string said, string why) =>
        Assert.Contains(why, Amount.Parse("amount", said).Problems.Single().What, StringComparison.Ordinal);

    [Theory]
    [InlineData("1 cup + 2 tbsp", Teaspoon.Metric, 280)]
    [InlineData("1 cup + 2 tbsp", Teaspoon.UsCustomary, 236.5882 + (2 * 14.78676))]
    [InlineData("6 cups and 1 pint", Teaspoon.Metric, 2000)]
    [InlineData("400 + 200", Teaspoon.Metric, 600)]
    public void A_volume_adds_up_in_its_own_kitchen(string said, Teaspoon kitchen, double ml)
    {
        Assert.True(Volume.Parse("volume", said, kitchen, AmountUnit.Millilitre).TryGet(out var volume));
        Assert.Equal(ml, volume.Millilitres, 1e-6);
    }

    [Theory]
    [InlineData("1 lb + 2 oz", 453.5924 + (2 * 28.34952))]
    [InlineData("400 + 50.5", 450.5)]
    public void A_weight_adds_up(string said, double grams)
    {
        Assert.True(Mass.Parse("weight", said, AmountUnit.Gram).TryGet(out var mass));
        Assert.Equal(grams, mass.Grams, 1e-6);
        Assert.True(PlantAmount.Parse("plant", said).TryGet(out var plant));
        Assert.Equal(grams, plant.Grams!.Value, 1e-6);
    }
}
