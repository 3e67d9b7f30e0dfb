using CsCheck;
using Xunit;

namespace Dyewort.Colour.Tests;

public sealed class BatchTests
{
    private static readonly Gen<Lab> Labs = Gen.Select(
        Gen.Double[0, 100],
        Gen.Double[-100, 100],
        Gen.Double[-100, 100],
        (l, a, b) => new Lab(l, a, b)
    );

    /// <summary>Colours that formulas stumble over: greys, equal hues, opposite hues, the blue corner.</summary>
    private static readonly Gen<Lab> Awkward = Gen.OneOf(
        Labs,
        Gen.Double[0, 100].Select(l => new Lab(l, 0, 0)),
        Gen.Select(Gen.Double[0, 100], Gen.Double[-90, 90]).Select(pair => new Lab(pair.Item1, pair.Item2, 0)),
        Gen.Select(Gen.Double[0, 100], Gen.Double[-3, 3]).Select(pair => new Lab(pair.Item1, pair.Item2, -pair.Item2)),
        Gen.Select(Gen.Double[0, 60], Gen.Double[0, 60], Gen.Double[-110, -60])
            .Select(triple => new Lab(triple.Item1, triple.Item2, triple.Item3))
    );

    [Fact]
    public void Many_sRGB_colours_at_once_are_the_same_as_one_by_one() =>
        Gen
            .Byte.Array[0, 100]
            .Sample(
                bytes =>
                {
                    var rgb = bytes.AsSpan(0, bytes.Length / 3 * 3);
                    var n = rgb.Length / 3;
                    var (l, a, b) = (new double[n], new double[n], new double[n]);
                    ColourBatch.LabOfSrgb(rgb, l, a, b);
                    for (var i = 0; i < n; i++)
                    {
                        var lab = Lab.FromXyz(
                            RgbSpace.Srgb.ToXyz(new(rgb[3 * i] / 255.0, rgb[(3 * i) + 1] / 255.0, rgb[(3 * i) + 2] / 255.0))
                        );
                        Assert.Equal(lab.L, l[i], 1e-9);
                        Assert.Equal(lab.A, a[i], 1e-9);
                        Assert.Equal(lab.B, b[i], 1e-9);
                    }
                },
                iter: 2000
            );

    [Fact]
    public void Many_differences_at_once_are_the_same_as_one_by_one() =>
        Gen.Select(Awkward, Awkward.Array[0, 40])
            .Sample(
                (one, many) =>
                {
                    var (l, a, b) = (
                        many.Select(lab => lab.L).ToArray(),
                        many.Select(lab => lab.A).ToArray(),
                        many.Select(lab => lab.B).ToArray()
                    );
                    var (against, paired) = (new double[many.Length], new double[many.Length]);
                    ColourBatch.Ciede2000(one, l, a, b, against);
                    double[] Same(double value) => [.. Enumerable.Repeat(value, many.Length)];
                    ColourBatch.Ciede2000(Same(one.L), Same(one.A), Same(one.B), l, a, b, paired);
                    for (var i = 0; i < many.Length; i++)
                    {
                        Assert.Equal(Difference.Ciede2000(one, many[i]), against[i], 1e-9);
                        Assert.Equal(against[i], paired[i], 1e-12);
                    }
                },
                iter: 5000
            );

    [Fact]
    public void The_published_pairs_come_out_of_the_batch_too()
    {
        var rows = Data.Published("sharma2005-ciede2000.csv");
        double[] Column(string name) => [.. rows.Select(row => row.Number(name))];
        var differences = new double[rows.Count];
        ColourBatch.Ciede2000(Column("L1"), Column("a1"), Column("b1"), Column("L2"), Column("a2"), Column("b2"), differences);
        for (var i = 0; i < rows.Count; i++)
            Assert.Equal(rows[i].Number("dE00"), differences[i], 0.00005);
    }

    [Fact]
    public void Lengths_that_do_not_fit_are_our_mistake()
    {
        Assert.Throws<ArgumentException>(() => ColourBatch.LabOfSrgb(new byte[4], new double[1], new double[1], new double[1]));
        Assert.Throws<ArgumentException>(() => ColourBatch.Ciede2000(default, new double[2], new double[1], new double[2], new double[2]));
    }

    [Fact]
    public void The_nearest_are_those_a_full_scan_finds()
    {
        var colours = Awkward.Array[3000].Single(_ => true, "0001Cg4BtMT2");
        var tree = new NearestColours(colours);
        Gen.Select(Awkward, Gen.Int[1, 12])
            .Sample(
                (wanted, k) =>
                {
                    var scan = colours
                        .Select((colour, place) => (Index: place, De00: Difference.Ciede2000(wanted, colour)))
                        .OrderBy(pair => pair.De00)
                        .ThenBy(pair => pair.Index)
                        .Take(k)
                        .ToList();
                    var found = tree.Find(wanted, k);
                    Assert.Equal(k, found.Count);
                    for (var i = 0; i < k; i++)
                        Assert.Equal(scan[i].De00, found[i].De00, 1e-9);
                },
                iter: 2000
            );
    }

    [Fact]
    public void Near_neighbours_within_the_blue_corner_are_found_too()
    {
        // Where the rotation term is strongest the bound has least room.
        var blues = Gen.Select(Gen.Double[10, 50], Gen.Double[-20, 60], Gen.Double[-110, -30], (l, a, b) => new Lab(l, a, b));
        var colours = blues.Array[4000].Single(_ => true, "0002Cg4BtMT2");
        var tree = new NearestColours(colours);
        blues.Sample(
            wanted =>
            {
                var best = colours.Min(colour => Difference.Ciede2000(wanted, colour));
                Assert.Equal(best, tree.Find(wanted, 1)[0].De00, 1e-9);
            },
            iter: 500
        );
    }

    [Fact]
    public void Asking_for_more_than_there_are_gives_all()
    {
        var tree = new NearestColours([new(50, 0, 0), new(60, 0, 0)]);
        Assert.Equal([0, 1], tree.Find(new(52, 0, 0), 5).Select(pair => pair.Index));
        Assert.Throws<ArgumentOutOfRangeException>(() => tree.Find(default, 0));
        Assert.Throws<ArgumentException>(() => new NearestColours([]));
        Assert.Throws<ArgumentException>(() => new NearestColours([new(double.NaN, 0, 0)]));
    }
}
