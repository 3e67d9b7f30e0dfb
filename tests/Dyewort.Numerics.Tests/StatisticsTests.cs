using CsCheck;
using Dyewort.Testing;
using MathNet.Numerics.Distributions;
using Xunit;

namespace Dyewort.Numerics.Tests;

/// <summary>Distributions, draws and quantiles against printed tables and by their definitions.</summary>
public sealed class StatisticsTests
{
    [Theory, Published("NistTables", "sections 1.3.6.7.1 and 1.3.6.7.4")]
    [InlineData(0.5, 0)]
    [InlineData(0.84134, 1)]
    [InlineData(0.97725, 2)]
    [InlineData(0.99865, 3)]
    public void Normal_shares(double share, double number)
    {
        Assert.Equal(share, NormalDistribution.Below(number), 0.000005);
        Assert.Equal(number, NormalDistribution.Quantile(NormalDistribution.Below(number)), 1e-12);
    }

    [Theory, Published("NistTables", "section 1.3.6.7.2, upper critical values of Student's t")]
    [InlineData(0.95, 4, 2.132)]
    [InlineData(0.975, 10, 2.228)]
    [InlineData(0.9, 1, 3.078)]
    public void Student_quantiles(double share, double freedom, double printed) =>
        Assert.Equal(printed, StudentDistribution.Quantile(share, freedom), 0.0005);

    [Theory, Published("NistTables", "section 1.3.6.7.4, critical values of chi-squared, 3 degrees of freedom")]
    [InlineData(0.90, 6.251)]
    [InlineData(0.95, 7.815)]
    [InlineData(0.99, 11.345)]
    public void Squared_radius_of_three_normals(double share, double printed) =>
        Assert.Equal(printed, ThreeNormals.SquaredRadius(share), 0.0005);

    [Fact]
    public void The_constants_of_three_normals_are_the_librarys()
    {
        Assert.Equal(ThreeNormals.SquaredRadius95, ChiSquared.InvCDF(3, 0.95), 1e-9);
        Assert.Equal(ThreeNormals.Radius95, Math.Sqrt(ThreeNormals.SquaredRadius95), 1e-14);
    }

    [Fact]
    public void The_density_has_its_scale() =>
        Assert.Equal(Math.Exp(-0.5) / (2 * Math.Sqrt(2 * Math.PI)), NormalDistribution.Density(5, 3, 2), 1e-15);

    [Fact]
    public void Draws_of_one_seed_are_one_row()
    {
        var (first, second, other) = (new NormalDraws(7), new NormalDraws(7), new NormalDraws(8));
        double[] row = [.. Enumerable.Range(0, 20).Select(_ => first.Next())];
        Assert.Equal(row, Enumerable.Range(0, 20).Select(_ => second.Next()));
        Assert.NotEqual(row, Enumerable.Range(0, 20).Select(_ => other.Next()));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Draws_have_mean_0_and_variance_1(bool heavy)
    {
        const int Count = 200_000;
        var draws = new NormalDraws(20261130);
        double[] row = [.. Enumerable.Range(0, Count).Select(_ => heavy ? draws.NextHeavy() : draws.Next())];
        // Five standard errors; t with four degrees of freedom has no fourth moment, so its variance settles slowly.
        Assert.InRange(row.Average(), -5 / Math.Sqrt(Count), 5 / Math.Sqrt(Count));
        Assert.Equal(1, row.Average(value => value * value), heavy ? 0.1 : 5 * Math.Sqrt(2.0 / Count));
        var far = row.Count(value => Math.Abs(value) > 3) / (double)Count;
        var expected = 2 * (heavy ? StudentT.CDF(0, 1, 4, -3 * Math.Sqrt(2)) : NormalDistribution.Below(-3));
        Assert.Equal(expected, far, 5 * Math.Sqrt(expected / Count));
    }

    [Fact]
    public void Uniform_draws_have_a_logarithm()
    {
        var draws = new NormalDraws(1);
        Assert.All(Enumerable.Range(0, 1000).Select(_ => draws.NextUniform()), value => Assert.True(value is > 0 and <= 1));
        Assert.Equal([0, 1, 2], Enumerable.Range(0, 100).Select(_ => draws.NextBelow(3)).Distinct().Order());
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.25, 1.75)]
    [InlineData(0.5, 2.5)]
    [InlineData(0.95, 3.85)]
    [InlineData(1, 4)]
    public void A_quantile_lies_on_the_line_between_its_neighbours(double share, double expected) =>
        Assert.Equal(expected, Quantiles.Of([4, 2, 1, 3], share), 1e-15);

    [Theory]
    [InlineData(0, 1)]
    [InlineData(0.25, 1)]
    [InlineData(0.26, 2)]
    [InlineData(0.95, 4)]
    [InlineData(1, 4)]
    public void A_met_quantile_is_one_of_the_values(double share, double expected) =>
        Assert.Equal(expected, Quantiles.MetOfSorted([1, 2, 3, 4], share));

    [Fact]
    public void The_median_of_an_even_number_is_the_mean_of_the_middle_two()
    {
        Assert.Equal(3, Quantiles.Median([9, 1, 2, 4]), 1e-15);
        Assert.Equal(4, Quantiles.Median([9, 1, 4]), 1e-15);
        Assert.Throws<ArgumentException>(() => Quantiles.Median([]));
        Assert.Throws<ArgumentException>(() => Quantiles.MetOfSorted([], 0.5));
    }

    [Fact]
    public void Ranks_are_those_of_the_sorted_values() =>
        Gen.Int[-20, 20]
            .Array[1, 200]
            .SelectMany(values => Gen.Int[0, values.Length - 1].Select(place => (Values: values, Place: place)))
            .Sample(
                (values, place) =>
                {
                    var floats = values.Select(value => value / 7f).ToArray();
                    return Ranks.Select([.. floats], place) == floats.Order().ElementAt(place);
                }
            );
}
