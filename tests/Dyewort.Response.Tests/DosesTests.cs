namespace Dyewort.Response.Tests;

public sealed class DosesTests
{
    private static readonly Doses Some = [new("Alum", 4), new("copperas", 0.5)];

    [Fact]
    public void An_addition_is_found_by_its_name_in_any_case()
    {
        Assert.Equal(4, Some["alum"]);
        Assert.Equal(0, Some["citric acid"]);
        Assert.Null(Some.Find("citric acid"));
        Assert.True(Some.Contains("COPPERAS"));
        Assert.Equal(["Alum", "copperas"], Some.Names);
    }

    [Fact]
    public void Doses_add_and_scale()
    {
        Doses more = [new("copperas", 1), new("soda", 2)];
        Assert.Equal([new("Alum", 4), new("copperas", 1.5), new("soda", 2)], (Some + more).ToArray());
        Assert.Equal([new("Alum", 2), new("copperas", 0.25)], (0.5 * Some).ToArray());
        Assert.Empty(0 * Some);
        Assert.Equal(6, Some.Plus("ALUM", 2)["alum"]);
    }

    [Fact]
    public void Setting_nothing_takes_an_addition_out_and_leaves_the_first_as_it_was()
    {
        Assert.Equal(["copperas"], Some.With("alum", 0).Names);
        Assert.Equal(["Alum", "copperas"], Some.With("alum", 3).Names);
        Assert.Equal(["Alum", "copperas"], Some.Names);
        Assert.Empty(Doses.Of(new Dose("alum", 0)));
    }

    [Fact]
    public void Two_are_equal_whatever_the_order_and_the_case()
    {
        Doses same = [new("COPPERAS", 0.5), new("alum", 4)];
        Assert.Equal(Some, same);
        Assert.Equal(Some.GetHashCode(), same.GetHashCode());
        Assert.NotEqual(Some, same.With("alum", 4.1));
        Assert.NotEqual(Some, same.Plus("soda", 1));
        Assert.Equal(new TrialPoint { Sample = "A1", GramsPerLitre = Some }, new TrialPoint { Sample = "A1", GramsPerLitre = same });
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_amount_is_refused(double amount)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Some.With("alum", amount));
        Assert.Throws<ArgumentOutOfRangeException>(() => Doses.Of(new Dose("alum", amount)));
        Assert.Throws<ArgumentOutOfRangeException>(() => amount * Some);
    }

    [Fact]
    public void An_addition_named_twice_is_refused() =>
        Assert.Throws<ArgumentException>(() => Doses.Of(new Dose("alum", 1), new Dose("Alum", 2)));
}
