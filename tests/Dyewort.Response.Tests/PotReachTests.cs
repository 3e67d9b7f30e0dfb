using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class PotReachTests
{
    private static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed) => LearntPlants.Learn(seed, 20);

    /// <summary>How far outside a counter-clockwise convex polygon a point lies; below 0 inside.</summary>
    private static double Outside(IReadOnlyList<PlanePoint> hull, Lab colour) =>
        Enumerable
            .Range(0, hull.Count)
            .Max(i =>
            {
                var (p, q) = (hull[i], hull[(i + 1) % hull.Count]);
                var (a, b) = (q.A - p.A, q.B - p.B);
                return ((b * (colour.A - p.A)) - (a * (colour.B - p.B))) / Math.Sqrt((a * a) + (b * b));
            });

    [Fact]
    public void What_the_plant_can_make_lies_in_the_reach_and_what_it_cannot_lies_outside()
    {
        int near = 0,
            all = 0;
        double gap = 0;
        for (var seed = 1301; seed < 1305; seed++)
        {
            var (model, plant, _) = Learn(seed);
            var reach = PotReach.Of(model);
            for (var i = 0; i < 8; i++)
            {
                var wanted = plant.ColourOf(plant.Draw("w", wash: i % 2 == 0 ? 1 : 0.3));
                var nearest = reach.Nearest(wanted);
                all++;
                near += nearest.De00 <= Math.Max(1, nearest.UncertaintyDe00) ? 1 : 0;
                gap += nearest.De00;
                Assert.True(Outside(reach.Hull, wanted) < 8, $"{wanted} is {Outside(reach.Hull, wanted):0.0} outside");
            }

            var green = reach.Nearest(new Lab(85, -70, 80));
            Assert.False(green.Reached);
            Assert.StartsWith("Out of reach", green.Why, StringComparison.Ordinal);
            Assert.True(green.Chroma > 3, $"{green.Chroma}");
        }

        Assert.True(near >= 0.85 * all && gap / all < 1.5, $"{near} of {all}, mean {gap / all:0.00}");
    }

    [Fact]
    public void The_outline_goes_once_around_the_paper_and_lies_in_the_hull()
    {
        var (model, _, rows) = Learn(1305);
        var reach = PotReach.Of(model);
        Assert.Equal(PotReach.Bins, reach.Outline.Count);
        Assert.Equal(PotReach.Bins, reach.ByHue.Count);
        var turned = 0.0;
        for (var i = 0; i < reach.Hull.Count; i++)
        {
            var (o, p, q) = (reach.Hull[i], reach.Hull[(i + 1) % reach.Hull.Count], reach.Hull[(i + 2) % reach.Hull.Count]);
            Assert.True(((p.A - o.A) * (q.B - p.B)) - ((p.B - o.B) * (q.A - p.A)) > 0);
        }

        foreach (var corner in reach.Outline)
            Assert.True(Outside(reach.Hull, new Lab(50, corner.A, corner.B)) < 1e-9, $"{corner}");
        for (var i = 0; i < reach.Outline.Count; i++)
        {
            var (p, q) = (reach.Outline[i], reach.Outline[(i + 1) % reach.Outline.Count]);
            if (p == new PlanePoint(reach.Paper.A, reach.Paper.B) || q == new PlanePoint(reach.Paper.A, reach.Paper.B))
                continue;
            var turn = Math.Atan2(q.B - reach.Paper.B, q.A - reach.Paper.A) - Math.Atan2(p.B - reach.Paper.B, p.A - reach.Paper.A);
            turned += turn < -Math.PI ? turn + (2 * Math.PI) : turn;
            Assert.True(turn is > -1e-9 or < -Math.PI, "the outline runs backwards");
        }

        Assert.True(turned is > 0 and <= (2 * Math.PI) + 1e-9, $"turned {turned}");
        Assert.InRange(reach.DarkestL, 0, rows.Min(row => row.Colour.L) + 3);
        Assert.All(
            reach.ByHue.Where(bin => bin.MostChroma > 0),
            bin => Assert.True(bin.DarkestL <= bin.LightestL && bin.LightestL <= reach.Paper.L + 2, $"{bin}")
        );
    }

    [Fact]
    public void A_tested_square_is_reached_and_a_black_one_is_too_dark()
    {
        var (model, _, rows) = Learn(1306);
        var reach = PotReach.Of(model);
        var painted = reach.Nearest(rows[4].Colour);
        Assert.True(painted.Reached, painted.Why);
        var black = reach.Nearest(new Lab(2, 0, 0));
        Assert.True(black.Lightness < -3, $"{black.Lightness}");
        Assert.Contains("darker", black.Why, StringComparison.Ordinal);
    }
}
