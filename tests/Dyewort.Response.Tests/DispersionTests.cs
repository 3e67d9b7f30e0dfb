using CsCheck;
using Dyewort.Colour;
using Dyewort.Testing;
using Google.OrTools.Sat;

namespace Dyewort.Response.Tests;

public sealed class DispersionTests
{
    private static readonly Gen<Lab> Colours = Gen.Select(
        Gen.Double[15, 95],
        Gen.Double[-50, 60],
        Gen.Double[-50, 70],
        (l, a, b) => new Lab(l, a, b)
    );

    private static double[,] Distances(Lab[] colours)
    {
        var result = new double[colours.Length, colours.Length];
        for (var i = 0; i < colours.Length; i++)
        {
            for (var j = 0; j < colours.Length; j++)
                result[i, j] = i == j ? 0 : Difference.Ciede2000(colours[i], colours[j]);
        }

        return result;
    }

    [Fact]
    public void Equals_trying_every_set() =>
        Gen.Select(Colours.Array[9, 13], Gen.Int[2, 5])
            .Sample(
                (colours, k) =>
                {
                    var distance = Distances(colours);
                    var best = 0.0;
                    for (var set = 0; set < 1 << colours.Length; set++)
                    {
                        if (System.Numerics.BitOperations.PopCount((uint)set) != k)
                            continue;
                        var places = Enumerable.Range(0, colours.Length).Where(i => (set >> i & 1) == 1).ToArray();
                        best = Math.Max(best, places.SelectMany(i => places.Where(j => j < i).Select(j => distance[i, j])).Min());
                    }

                    var answer = Dispersion.Farthest(distance, k);
                    Assert.True(answer.Optimal);
                    Assert.Equal(best, answer.Value);
                    Assert.Equal(best, answer.Chosen.SelectMany(i => answer.Chosen.Where(j => j < i).Select(j => distance[i, j])).Min());
                    Assert.Equal(k, answer.Chosen.Distinct().Count());
                },
                iter: 60
            );

    [Fact]
    public void Equals_a_constraint_solver_on_sixty_recipes() =>
        Chance.Try(random =>
        {
            var colours = Enumerable
                .Range(0, 60)
                .Select(_ => new Lab(20 + (70 * random.NextDouble()), -40 + (90 * random.NextDouble()), -40 + (100 * random.NextDouble())))
                .ToArray();
            var distance = Distances(colours);
            foreach (var k in new[] { 4, 6 })
            {
                var model = new CpModel();
                var chosen = colours.Select((_, i) => model.NewBoolVar($"x{i}")).ToArray();
                var smallest = model.NewIntVar(0, 200_000, "smallest");
                model.Add(LinearExpr.Sum(chosen) == k);
                for (var i = 0; i < colours.Length; i++)
                {
                    for (var j = 0; j < i; j++)
                        model.Add(smallest <= (long)Math.Floor(distance[i, j] * 1000)).OnlyEnforceIf([chosen[i], chosen[j]]);
                }

                model.Maximize(smallest);
                var solver = new CpSolver { StringParameters = "num_workers:1,max_time_in_seconds:60,random_seed:1" };
                Assert.Equal(CpSolverStatus.Optimal, solver.Solve(model));
                Assert.Equal(solver.ObjectiveValue, Math.Floor(Dispersion.Farthest(distance, k).Value * 1000));
            }
        });

    [Fact]
    public void Eight_of_two_hundred_are_proved_best()
    {
        var random = new Random(5);
        var colours = Enumerable
            .Range(0, 200)
            .Select(_ => new Lab(20 + (70 * random.NextDouble()), -30 + (70 * random.NextDouble()), -30 + (90 * random.NextDouble())))
            .ToArray();
        var answer = Dispersion.Farthest(Distances(colours), 8);
        Assert.True(answer.Optimal);
        Assert.Equal(8, answer.Chosen.Count);
        Assert.True(answer.Value > 0);
    }

    [Fact]
    public void A_search_that_is_called_off_states_its_gap()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var random = new Random(6);
        var colours = Enumerable
            .Range(0, 120)
            .Select(_ => new Lab(100 * random.NextDouble(), -40 + (80 * random.NextDouble()), -40 + (80 * random.NextDouble())))
            .ToArray();
        var answer = Dispersion.Farthest(Distances(colours), 9, source.Token);
        Assert.False(answer.Optimal);
        Assert.True(answer.Bound > answer.Value);
    }

    [Fact]
    public void A_palette_is_covered_as_well_as_trying_every_set_covers_it() =>
        Gen.Select(Colours.Array[4, 6], Colours.Array[8, 10], Gen.Int[1, 4])
            .Sample(
                (palette, items, k) =>
                {
                    var distance = new double[palette.Length, items.Length];
                    for (var i = 0; i < palette.Length; i++)
                    {
                        for (var j = 0; j < items.Length; j++)
                            distance[i, j] = Difference.Ciede2000(palette[i], items[j]);
                    }

                    var best = double.PositiveInfinity;
                    for (var set = 1; set < 1 << items.Length; set++)
                    {
                        if (System.Numerics.BitOperations.PopCount((uint)set) > k)
                            continue;
                        var places = Enumerable.Range(0, items.Length).Where(i => (set >> i & 1) == 1).ToArray();
                        best = Math.Min(
                            best,
                            Enumerable.Range(0, palette.Length).Max(colour => places.Min(item => distance[colour, item]))
                        );
                    }

                    var answer = Dispersion.Cover(distance, k);
                    Assert.True(answer.Optimal);
                    Assert.Equal(best, answer.Value);
                    Assert.True(answer.Chosen.Count <= k);
                },
                iter: 40
            );

    [Fact]
    public void A_quota_per_group_is_kept_and_nothing_better_was_missed() =>
        Gen.Select(Colours.Array[8, 11], Gen.Int[2, 4], Gen.Int[0, 2].Array[11], Gen.Int[1, 2])
            .Sample(
                (colours, k, groups, most) =>
                {
                    var quota = new Quota([.. groups.Take(colours.Length)], [most, most, most]);
                    if (quota.Room < k)
                        return;
                    var distance = Distances(colours);
                    double variety = -1,
                        reach = double.PositiveInfinity;
                    for (var set = 1; set < 1 << colours.Length; set++)
                    {
                        var places = Enumerable.Range(0, colours.Length).Where(i => (set >> i & 1) == 1).ToArray();
                        if (places.Length > k || places.GroupBy(i => groups[i]).Any(group => group.Count() > most))
                            continue;
                        reach = Math.Min(reach, Enumerable.Range(0, 3).Max(colour => places.Min(i => distance[colour, i])));
                        if (places.Length == k)
                            variety = Math.Max(variety, places.SelectMany(i => places.Where(j => j < i).Select(j => distance[i, j])).Min());
                    }

                    var chosen = Dispersion.Farthest(distance, k, quota);
                    Assert.True(chosen.Optimal);
                    Assert.Equal(variety, chosen.Value);
                    Assert.All(chosen.Chosen.GroupBy(i => groups[i]), group => Assert.True(group.Count() <= most));
                    var palette = new double[3, colours.Length];
                    for (var i = 0; i < 3; i++)
                    {
                        for (var j = 0; j < colours.Length; j++)
                            palette[i, j] = distance[i, j];
                    }

                    var covered = Dispersion.Cover(palette, k, quota);
                    Assert.Equal(reach, covered.Value);
                    Assert.All(covered.Chosen.GroupBy(i => groups[i]), group => Assert.True(group.Count() <= most));
                },
                iter: 60
            );
}
