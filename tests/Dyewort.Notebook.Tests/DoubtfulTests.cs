using Dyewort.Quantities;
using Xunit;

namespace Dyewort.Notebook.Tests;

public sealed class DoubtfulTests
{
    [Theory]
    [InlineData("2 g", 20, null)]
    [InlineData("7 g", 20, null)]
    [InlineData("8 g", 20, "8 g of alum in 20 ml is 40 g to 100 ml; about 12 g dissolve.")]
    [InlineData("90 g", 90, "90 g of alum in 90 ml is 100 g to 100 ml; about 12 g dissolve.")]
    [InlineData("1000 kg", 20, "1000 kg of alum in 20 ml is 5000 kg to 100 ml; about 12 g dissolve.")]
    public void A_powder_is_doubted_where_many_times_more_goes_in_than_dissolves(string said, double jarMl, string? doubt) =>
        Assert.Equal(doubt, Doubtful.InJar(Measured(said, 1), "alum", jarMl, isPoured: false, dissolves: 12));

    [Theory]
    [InlineData("9 g", 90, null)]
    [InlineData("10 g", 90, "10 g of chalk in 90 ml is 11.1 g to 100 ml; about nothing of it dissolves.")]
    public void What_hardly_dissolves_is_stirred_in_up_to_a_tenth(string said, double jarMl, string? doubt) =>
        Assert.Equal(doubt, Doubtful.InJar(Measured(said, 1), "chalk", jarMl, isPoured: false, dissolves: 0.001));

    [Theory]
    [InlineData("45 g", 90, null)]
    [InlineData("46 g", 90, "46 g of sugar in 90 ml is 51.1 g to 100 ml, a paste and no ink.")]
    public void Half_as_much_powder_as_liquor_is_a_paste_whatever_dissolves(string said, double jarMl, string? doubt) =>
        Assert.Equal(doubt, Doubtful.InJar(Measured(said, 1), "sugar", jarMl, isPoured: false, dissolves: 200));

    [Theory]
    [InlineData("45 ml", 90, null)]
    [InlineData("3 tbsp", 90, null)]
    [InlineData("50 ml", 90, "50 ml of vinegar into 90 ml is more than half as much again: would it fit?")]
    [InlineData("90 ml", 90, "90 ml of vinegar is as much as the 90 ml in this jar.")]
    [InlineData("2 L", 20, "2 L of vinegar is 100 times as much as the 20 ml in this jar.")]
    public void A_liquid_is_doubted_where_the_jar_may_run_over(string said, double jarMl, string? doubt) =>
        Assert.Equal(doubt, Doubtful.InJar(Measured(said, 1), "vinegar", jarMl, isPoured: true));

    [Theory]
    [InlineData(400.0, 4000.0, null)]
    [InlineData(1000.0, 100.0, null)]
    [InlineData(400.0, 4.0, "400 g of plant in 4 ml of liquid is 100 times its weight.")]
    [InlineData(200_000.0, null, "200 kg of plant is more than any pot holds.")]
    [InlineData(null, 400_000.0, "400 L is more than any pot holds.")]
    public void A_pot_holds_what_a_pot_holds(double? grams, double? ml, string? doubt) => Assert.Equal(doubt, Doubtful.InPot(grams, ml));

    [Theory]
    [InlineData(4000.0, 400.0, 0.0, 4400.0, null)]
    [InlineData(4000.0, 400.0, 0.0, 4500.0, "4.5 L of liquor is more than went into the pot.")]
    [InlineData(4000.0, 400.0, 500.0, 4500.0, null)]
    [InlineData(4000.0, null, 0.0, 8000.0, null)]
    [InlineData(null, null, 0.0, 8000.0, null)]
    [InlineData(null, null, 0.0, 8_000_000.0, "8000 L is more than any pot holds.")]
    public void No_more_liquor_comes_out_than_went_in(double? liquidMl, double? grams, double toppedUp, double ml, string? doubt) =>
        Assert.Equal(
            doubt,
            Doubtful.OutOfPot(
                ml,
                new()
                {
                    Id = Guid.Empty,
                    WrittenAt = default,
                    Code = "EB25-1",
                    LotId = Guid.Empty,
                    MadeOn = new(2025, 9, 6),
                    LiquidMl = liquidMl,
                    PlantGrams = grams,
                },
                toppedUp
            )
        );

    [Theory]
    [InlineData("2016-12-01", false)]
    [InlineData("2016-11-30", true)]
    [InlineData("1900-01-01", true)]
    public void A_day_that_lies_far_back_is_a_slip_of_the_year(string day, bool doubted) =>
        Assert.Equal(
            doubted,
            Doubtful.Day(DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture), new(2026, 12, 1)) is not null
        );

    [Theory]
    [InlineData(1000, null)]
    [InlineData(5000, "The liquor is 5 L where 500 ml were planned.")]
    [InlineData(50, "The liquor is 50 ml where 500 ml were planned.")]
    public void A_batch_is_near_what_was_planned(double ml, string? doubt) => Assert.Equal(doubt, Doubtful.Batch("The liquor", ml, 500));

    [Theory]
    [InlineData("6 g", null)]
    [InlineData("20 g", "20 g of alum is 10 times the 2 g that were planned.")]
    public void A_step_is_near_what_was_planned(string said, string? doubt) =>
        Assert.Equal(doubt, Doubtful.Step("alum", Measured(said, 1), Measured("2 g", 1)));

    [Theory]
    [InlineData(-1, 100, false)]
    [InlineData(-2, 100, false)]
    [InlineData(-2.1, 100, true)]
    public void As_jugs_are_read_two_per_cent_more_is_not_more(double left, double measured, bool overdrawn) =>
        Assert.Equal(overdrawn, LiquorSum.IsOverdrawn(left, measured));

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
