using Dyewort.Testing;
using Xunit;

namespace Dyewort.Numerics.Tests;

/// <summary>Iterations find published answers, and say how they ended.</summary>
public sealed class IterationTests
{
    [Fact]
    public void Bisection_finds_where_a_condition_changes()
    {
        var bracket = Bisection.Narrow(0, 1, 1e-12, x => x < Math.Cos(x));
        Assert.Equal(Ending.Converged, bracket.Ending);
        Assert.InRange(0.73908513321516064, bracket.Low, bracket.High);
        Assert.InRange(bracket.High - bracket.Low, 0, 1e-12);
        Assert.Equal(40, bracket.Rounds);
    }

    [Fact]
    public void Bisection_to_the_last_digit_ends()
    {
        var bracket = Bisection.Narrow(1, 2, 0, x => x * x < 2);
        Assert.Equal(Ending.Converged, bracket.Ending);
        Assert.Equal(bracket.High, Math.BitIncrement(bracket.Low));
        Assert.InRange(Math.Sqrt(2), bracket.Low, bracket.High);
    }

    [Theory]
    [InlineData(true, 1)]
    [InlineData(false, 0)]
    public void Bisection_says_when_nothing_changes(bool below, double end)
    {
        var bracket = Bisection.Narrow(0, 1, 1e-9, _ => below);
        Assert.Equal(Ending.NotBracketed, bracket.Ending);
        Assert.Equal(end, bracket.Middle, 1e-9);
    }

    [Fact]
    public void Bisection_says_when_the_rounds_are_used_up() =>
        Assert.Equal(new Bracket(0.5, 0.75, Ending.RoundLimit, 2), Bisection.Narrow(0, 1, 1e-9, x => x < 0.7, rounds: 2));

    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(double.NaN, 1)]
    [InlineData(0, double.PositiveInfinity)]
    public void Bisection_needs_two_ends(double low, double high) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Bisection.Narrow(low, high, 0, _ => true));

    [Theory, Published("NistStRD", "nonlinear regression, Misra1a")]
    [InlineData(500, 0.0001)]
    [InlineData(250, 0.0005)]
    public void Least_squares_as_certified(double first, double second)
    {
        double[] x = [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0];
        double[] y = [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78];
        double[] start = [first, second];
        var fit = LeastSquares.Minimise(
            start,
            (at, off) =>
            {
                for (var i = 0; i < x.Length; i++)
                    off[i] = y[i] - (at[0] * (1 - Math.Exp(-at[1] * x[i])));
            },
            x.Length,
            [1e-4, 1e-9]
        );
        // The steps of the derivatives leave about six digits.
        Assert.Equal(238.94212918, fit.Best[0], 1e-3);
        Assert.Equal(5.5015643181e-4, fit.Best[1], 3e-9);
        Assert.Equal(0.12455138894 / 2, fit.Cost, 1e-9);
        Assert.True(fit.Ending is Ending.Converged or Ending.Stalled);
        Assert.Equal([first, second], start);
    }

    [Fact]
    public void Least_squares_say_when_the_rounds_are_used_up()
    {
        var fit = LeastSquares.Minimise([-1.2, 1], Valley, 2, [1e-7, 1e-7], rounds: 3);
        Assert.Equal((Ending.RoundLimit, 3), (fit.Ending, fit.Rounds));
        Assert.InRange(fit.Cost, 1e-6, 12.1);
    }

    [Fact]
    public void Least_squares_say_when_nothing_gets_better()
    {
        var fit = LeastSquares.Minimise([1, 1], Valley, 2, [1e-7, 1e-7]);
        Assert.Equal((Ending.Stalled, 1, 0.0), (fit.Ending, fit.Rounds, fit.Cost));
        Assert.Equal([1, 1], fit.Best);
    }

    /// <summary>Rosenbrock's valley, lowest at (1, 1).</summary>
    private static void Valley(double[] at, double[] off) => (off[0], off[1]) = (10 * (at[1] - (at[0] * at[0])), 1 - at[0]);
}
