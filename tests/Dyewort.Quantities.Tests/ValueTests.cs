using Xunit;

namespace Dyewort.Quantities.Tests;

public sealed class ValueTests
{
    [Theory]
    [InlineData(24.4, "24.4 g")]
    [InlineData(0.05, "50 mg")]
    [InlineData(1.349, "1.35 g")]
    [InlineData(154, "154 g")]
    [InlineData(999.7, "1 kg")]
    [InlineData(1234, "1.23 kg")]
    [InlineData(0, "0 g")]
    public void Masses_are_said_to_three_figures(double grams, string said) => Assert.Equal(said, Mass.FromGrams(grams).ToString());

    [Theory]
    [InlineData(90, "90 ml")]
    [InlineData(1500, "1.5 L")]
    [InlineData(1283, "1.28 L")]
    [InlineData(0.25, "0.25 ml")]
    public void Volumes_are_said_to_three_figures(double millilitres, string said) =>
        Assert.Equal(said, Volume.FromMillilitres(millilitres).ToString());

    [Theory]
    [InlineData("90ml", 90)]
    [InlineData("1.5L", 1500)]
    [InlineData("2 tbsp", 30)]
    public void Volumes_are_read(string text, double millilitres)
    {
        Assert.True(Volume.Parse("volume", text).TryGet(out var volume));
        Assert.Equal(millilitres, volume.Millilitres, 1e-9);
    }

    [Theory]
    [InlineData("2 g")]
    [InlineData("4 cloves")]
    [InlineData("-90ml")]
    [InlineData("99999 L")]
    [InlineData("")]
    public void What_is_not_a_volume_is_refused(string text) => Assert.Single(Volume.Parse("volume", text).Problems);

    [Theory]
    [InlineData("1 tsp")]
    [InlineData("5 ml")]
    [InlineData("99999 kg")]
    public void What_is_not_a_weight_is_refused(string text) => Assert.Single(Mass.Parse("mass", text).Problems);

    [Theory]
    [InlineData("70", 70)]
    [InlineData("70 C", 70)]
    [InlineData("70°C", 70)]
    [InlineData("212 °F", 100)]
    [InlineData("32F", 0)]
    [InlineData("-5", -5)]
    [InlineData("20,5 °C", 20.5)]
    public void Temperatures_are_read(string text, double celsius)
    {
        Assert.True(Temperature.Parse("temperature", text).TryGet(out var temperature));
        Assert.Equal(celsius, temperature.Celsius, 1e-9);
    }

    [Theory]
    [InlineData("warm")]
    [InlineData("")]
    [InlineData("900 C")]
    [InlineData("NaN")]
    [InlineData("F")]
    public void What_is_not_a_temperature_is_refused(string text) => Assert.Single(Temperature.Parse("temperature", text).Problems);

    [Theory]
    [InlineData("full", 1)]
    [InlineData("1:3", 0.25)]
    [InlineData("1/4", 0.25)]
    [InlineData("25 %", 0.25)]
    [InlineData("0,25", 0.25)]
    [InlineData("1:0", 1)]
    [InlineData("0.4/0.8", 0.5)]
    [InlineData("1/1", 1)]
    public void Washes_are_read(string text, double share)
    {
        Assert.True(Dilution.Parse("wash", text).TryGet(out var wash));
        Assert.Equal(share, wash.Share, 1e-12);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("2")]
    [InlineData("0:3")]
    [InlineData("1/0")]
    [InlineData("-1:3")]
    [InlineData("thin")]
    public void What_is_not_a_wash_is_refused(string text) => Assert.Single(Dilution.Parse("wash", text).Problems);

    [Fact]
    public void A_wash_is_said_as_ink_to_water()
    {
        Assert.Equal("1:3", Dilution.FromShare(0.25).ToString());
        Assert.Equal("full", Dilution.Full.ToString());
        Assert.Equal("full", Dilution.FromShare(1).ToString());
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(-0.001)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(1.000001e6)]
    public void No_value_type_takes_a_number_outside_its_range(double number)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Mass.FromGrams(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => Volume.FromMillilitres(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => Dilution.FromShare(number));
        Assert.Throws<ArgumentOutOfRangeException>(() => Temperature.FromCelsius(number - 100));
    }

    [Theory]
    [InlineData(1354, 3, "1350")]
    [InlineData(0.000123456, 3, "0.000123")]
    [InlineData(99.96, 3, "100")]
    [InlineData(-2.345, 3, "-2.35")]
    public void Figures_are_said_without_exponents(double number, int figures, string said) =>
        Assert.Equal(said, Figures.Say(number, figures));
}
