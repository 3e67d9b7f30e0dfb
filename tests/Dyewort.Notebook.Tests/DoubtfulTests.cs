using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class DoubtfulTests
{
    [Theory]
    [InlineData("2 g", 20, null)]
    [InlineData("20 g", 20, null)]
    [InlineData("20.1 g", 20, "20.1 g of alum in 20 ml is 101 g to 100 ml, more than dissolves.")]
    [InlineData("1000 kg", 20, "1000 kg of alum in 20 ml is 5000 kg to 100 ml, more than dissolves.")]
    public void A_powder_is_doubted_where_more_goes_in_than_dissolves(string said, double jarMl, string? doubt) =>
        Assert.Equal(doubt, Doubtful.InJar(Measured(said, 1), "alum", jarMl, isPoured: false));

    [Theory]
    [InlineData("200 ml", 20, null)]
    [InlineData("201 ml", 20, "201 ml of vinegar is 10 times as much as the 20 ml in this jar.")]
    [InlineData("2 L", 20, "2 L of vinegar is 100 times as much as the 20 ml in this jar.")]
    public void A_liquid_is_doubted_where_it_is_many_times_the_jar(string said, double jarMl, string? doubt) =>
        Assert.Equal(doubt, Doubtful.InJar(Measured(said, 1), "vinegar", jarMl, isPoured: true));

    [Theory]
    [InlineData("100 kg", false)]
    [InlineData("101 kg", true)]
    [InlineData("1000 kg", true)]
    [InlineData("100 L", false)]
    [InlineData("99999 tsp", true)]
    public void No_jar_holds_more_than_a_hundred_litres_or_kilograms(string said, bool beyond)
    {
        Assert.True(Amount.Parse("amount", said).TryGet(out var amount));
        Assert.Equal(beyond, Doubtful.IsBeyondAnyJar(MeasuredAmount.Of(amount, null)));
    }

    [Fact]
    public void What_nobody_can_weigh_is_not_doubted() =>
        Assert.Null(Doubtful.InJar(Measured("4 cloves", null), "cloves", 20, isPoured: false));

    [Theory]
    [InlineData("10 g", 1, true)]
    [InlineData("10 g", 10_000, true)]
    [InlineData("10 g", 10_001, false)]
    [InlineData("60 kg", 16, true)]
    [InlineData("60 kg", 17, false)]
    [InlineData("600 L", 1, true)]
    [InlineData("600 L", 2, false)]
    public void So_many_times_an_amount_fits_within_its_number_a_tonne_and_a_thousand_litres(string said, double factor, bool fits) =>
        Assert.Equal(fits, Measured(said, 1).Fits(factor));

    private static MeasuredAmount Measured(string said, double? gramsPerMl)
    {
        Assert.True(Amount.Parse("amount", said).TryGet(out var amount));
        double? ml = amount.ToVolume("amount", Teaspoon.Metric).TryGet(out var volume) ? volume.Millilitres : null;
        double? grams = amount.ToMass("amount").TryGet(out var mass) ? mass.Grams : ml * gramsPerMl;
        return MeasuredAmount.Of(amount, grams, ml: ml);
    }
}
