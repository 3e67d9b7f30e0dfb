using Dyewort.Colour;
using Dyewort.Numerics;
using Dyewort.Testing;

namespace Dyewort.Response.Tests;

public sealed class RepeatsTests
{
    private static readonly Lab Jar = new(52, 24, -18);

    /// <summary>A square of a jar: independent normal scatter along lightness, chroma and hue, in ΔE₀₀.</summary>
    private static Lab Square(NormalDraws random, Lab jar, double lightness, double chroma, double hue)
    {
        // CIEDE2000's weights near the jar, found from the formula itself.
        var angle = jar.HueDegrees * Math.PI / 180;
        var (c, s) = (Math.Cos(angle), Math.Sin(angle));
        var l = lightness * random.Next() / Difference.Ciede2000(jar, jar with { L = jar.L + 1 });
        var dc = chroma * random.Next() / Difference.Ciede2000(jar, new(jar.L, jar.A + c, jar.B + s));
        var dh = hue * random.Next() / Difference.Ciede2000(jar, new(jar.L, jar.A - s, jar.B + c));
        return new(jar.L + l, jar.A + (dc * c) - (dh * s), jar.B + (dc * s) + (dh * c));
    }

    private static List<Lab> Squares(NormalDraws random, Lab jar, int count, (double L, double C, double H) scatter) =>
        [.. Enumerable.Range(0, count).Select(_ => Square(random, jar, scatter.L, scatter.C, scatter.H))];

    [Theory, Published("NistF", "1.3.6.7.3, 5 %")]
    [InlineData(1, 1, 161.448)]
    [InlineData(2, 2, 19.000)]
    [InlineData(3, 2, 19.164)]
    [InlineData(3, 3, 9.277)]
    [InlineData(1, 10, 4.965)]
    [InlineData(2, 10, 4.103)]
    [InlineData(3, 10, 3.708)]
    [InlineData(3, 20, 3.098)]
    [InlineData(3, 30, 2.922)]
    [InlineData(3, 60, 2.758)]
    public void The_tail_at_the_printed_critical_value_is_five_per_cent(double above, double below, double critical) =>
        Assert.Equal(0.05, MakerScatter.FTail(critical, above, below), 5e-5);

    [Theory]
    [InlineData(1, 10, 4, 0.439627)]
    [InlineData(2.4, 9.6, 6, 0.410112)]
    [InlineData(3, 30, 12, 0.784525)]
    [InlineData(2, 200, 40, 0.999962)]
    [InlineData(1.5, 6, 0.5, 0.080870)]
    public void The_chance_of_finding_a_difference_agrees_with_an_independent_statistics_library(
        double above,
        double below,
        double noncentrality,
        double power
    ) => Assert.Equal(power, MakerScatter.Found(Math.Sqrt(noncentrality / above), 1, above, below, 1), 2e-6);

    [Theory]
    [InlineData(0.8, 0.8, 0.8)]
    [InlineData(1.4, 0.4, 0.2)]
    [InlineData(2.0, 0, 0)]
    [InlineData(0.3, 0.2, 0.1)]
    public void Squares_of_one_jar_are_seldom_said_to_differ(double lightness, double chroma, double hue)
    {
        var random = new NormalDraws(4711);
        var really = 0;
        const int Times = 1500;
        for (var time = 0; time < Times; time++)
        {
            // A maker with twelve repeats, and two or three squares of each jar now.
            var scatter = MakerScatter.Learn(
                Enumerable.Range(0, 6).Select(_ => (IReadOnlyList<Lab>)Squares(random, new Lab(70, 5, 30), 3, (lightness, chroma, hue)))
            );
            Assert.Equal(12, scatter.Repeats);
            really +=
                scatter.Verdict(Squares(random, Jar, 2, (lightness, chroma, hue)), Squares(random, Jar, 3, (lightness, chroma, hue)))
                == DifferenceVerdict.Really
                    ? 1
                    : 0;
        }

        // Stated: once in twenty. Common practice is mixed in, so that a steadier hand than usual is called a little less often.
        Assert.InRange((double)really / Times, 0, 0.075);
    }

    [Fact]
    public void The_promised_number_of_squares_settles_it_eight_times_of_ten()
    {
        var random = new NormalDraws(99);
        var spread = (1.0, 0.6, 0.4);
        var scatter = MakerScatter.Learn(Enumerable.Range(0, 20).Select(_ => (IReadOnlyList<Lab>)Squares(random, Jar, 3, spread)));
        var other = new Lab(Jar.L + (1.6 / Difference.Ciede2000(Jar, Jar with { L = Jar.L + 1 })), Jar.A, Jar.B);
        Assert.True(scatter.Compare([Jar], [other]).TryGet(out var now));
        Assert.NotEqual(DifferenceVerdict.Really, now.Verdict);
        Assert.NotNull(now.MoreSquaresOfEach);
        var squares = 1 + now.MoreSquaresOfEach.Value;
        var found = 0;
        const int Times = 800;
        for (var time = 0; time < Times; time++)
        {
            found +=
                scatter.Verdict(Squares(random, Jar, squares, spread), Squares(random, other, squares, spread)) == DifferenceVerdict.Really
                    ? 1
                    : 0;
        }

        Assert.InRange((double)found / Times, 0.74, 0.93);
    }

    [Fact]
    public void Without_repeats_common_practice_stands_in_and_says_so()
    {
        Assert.True(MakerScatter.Unknown.Compare([Jar], [new Lab(54, 24, -18)]).TryGet(out var near));
        Assert.Equal(DifferenceVerdict.No, near.Verdict);
        Assert.Contains("common practice", near.Words, StringComparison.Ordinal);
        Assert.InRange(near.UsualRepeatDe00, 1, 3);
        Assert.True(MakerScatter.Unknown.Compare([Jar], [new Lab(70, -10, 20)]).TryGet(out var far));
        Assert.Equal(DifferenceVerdict.Really, far.Verdict);
        Assert.Equal(0, far.MoreSquaresOfEach);
        Assert.False(MakerScatter.Unknown.Compare([], [Jar]).TryGet(out _));
    }

    [Fact]
    public void The_makers_own_scatter_is_learned_from_the_table()
    {
        var random = new NormalDraws(5);
        TrialRow[] rows =
        [
            .. Enumerable
                .Range(0, 60)
                .Select(i => new TrialRow(new() { Sample = $"S{i / 3}", Plant = "elder" }, Square(random, Jar, 0.3, 0.2, 0.1))),
        ];
        var steady = MakerScatter.Learn(rows);
        Assert.Equal(40, steady.Repeats);
        Assert.InRange(steady.UsualDe00, Math.Sqrt(2 * 0.14) * 0.85, 1.1);
        Assert.True(steady.UsualDe00 < MakerScatter.Unknown.UsualDe00);
    }
}
