using CsCheck;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class UncertaintyTests
{
    [Fact]
    public void A_stated_radius_comes_out_again() =>
        Gen.Select(Gen.Double[15, 90], Gen.Double[-50, 50], Gen.Double[-50, 50], Gen.Double[0.3, 3])
            .Sample(
                (l, a, b, radius) =>
                    Assert.Equal(radius, UncertainColour.FromRadius(new Lab(l, a, b).ToXyz(), radius).Radius95De00(), radius * 0.12),
                iter: 100
            );

    [Fact]
    public void Covariance_in_Lab_survives_the_way_through_XYZ()
    {
        var given = new Covariance(0.25, 0.05, -0.03, 0.16, 0.02, 0.36);
        var back = UncertainColour.FromLab(new(55, 20, -30), given).LabCovariance();
        Assert.Equal(given.Xx, back.Xx, 1e-6);
        Assert.Equal(given.Xy, back.Xy, 1e-6);
        Assert.Equal(given.Xz, back.Xz, 1e-6);
        Assert.Equal(given.Yy, back.Yy, 1e-6);
        Assert.Equal(given.Zz, back.Zz, 1e-6);
    }

    [Fact]
    public void First_order_propagation_agrees_with_draws()
    {
        // L* of a grey: the derivative dL*/dY = 116/(3·100)·(Y/100)^(−2/3); a deviation of 0.5 in Y at Y = 20 is 0.565 in L*.
        var colour = WhitePoint.D65 * 0.2;
        var deviation = new UncertainColour(colour, new(0, 0, 0, 0.25, 0, 0)).LabCovariance();
        Assert.Equal(116.0 / 300 * Math.Pow(0.2, -2.0 / 3) * 0.5, Math.Sqrt(deviation.Xx), 1e-5);
    }

    [Fact]
    public void The_chance_of_a_visible_difference_behaves()
    {
        UncertainColour At(double l, double radius) => UncertainColour.FromRadius(new Lab(l, 10, 10).ToXyz(), radius);
        Assert.Equal(0, At(50, 0).ChanceOfDifference(At(50, 0)));
        Assert.Equal(1, At(50, 0).ChanceOfDifference(At(60, 0)));
        Assert.InRange(At(50, 0.2).ChanceOfDifference(At(50, 0.2)), 0, 0.01);
        Assert.InRange(At(50, 4).ChanceOfDifference(At(50, 4)), 0.7, 1);
        Assert.True(At(50, 1).ChanceOfDifference(At(51.5, 1)) > At(50, 1).ChanceOfDifference(At(50.5, 1)));
        Assert.Equal(At(50, 1).ChanceOfDifference(At(51, 1)), At(51, 1).ChanceOfDifference(At(50, 1)), 0.04);
    }
}
