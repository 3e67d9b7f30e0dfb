using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class ResponseModelTests
{
    private static (ResponseModel Model, PlantMaker Plant) Learn(int seed, int samples, double scatter)
    {
        var plant = new PlantMaker(seed);
        var rows = Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), scatter)).ToArray();
        Assert.True(ResponseModel.Fit(rows, plant.Used).TryGet(out var model));
        return (model, plant);
    }

    [Fact]
    public void Held_back_doses_of_generated_plants_are_foretold_far_better_than_by_the_nearest_square()
    {
        double ours = 0,
            nearest = 0;
        int within = 0,
            all = 0;
        for (var seed = 501; seed < 525; seed++)
        {
            var (model, plant) = Learn(seed, 16, 1);
            for (var i = 0; i < 25; i++)
            {
                var point = plant.Draw($"H{i}");
                var truth = plant.ColourOf(point);
                var prediction = model.Predict(point);
                var error = Difference.Ciede2000(truth, prediction.Colour);
                ours += error;
                all++;
                within += error <= prediction.UncertaintyDe00 ? 1 : 0;
                nearest += Difference.Ciede2000(truth, Baselines.Nearest(model.Rows, point, plant.Used));
            }
        }

        Assert.True(ours < 0.4 * nearest, $"mean {ours / all:0.00} against {nearest / all:0.00}");
        Assert.InRange(100.0 * within / all, 90, 98.5);
    }

    [Fact]
    public void The_same_table_gives_the_same_numbers()
    {
        var first = Learn(7, 10, 1);
        var again = Learn(7, 10, 1);
        var point = first.Plant.Draw("x");
        Assert.Equal(first.Model.Predict(point).Colour, again.Model.Predict(point).Colour);
        Assert.Equal(first.Model.Predict(point).UncertaintyDe00, again.Model.Predict(point).UncertaintyDe00);
    }

    [Fact]
    public void Three_samples_are_not_enough()
    {
        var plant = new PlantMaker(3);
        var outcome = ResponseModel.Fit([.. Enumerable.Range(0, 3).Select(i => plant.Read(plant.Draw($"S{i}"), 1))], plant.Used);
        Assert.False(outcome.TryGet(out _));
        Assert.Contains("Not enough trials yet", outcome.Problems[0].What, StringComparison.Ordinal);
    }

    [Fact]
    public void Beyond_the_tested_doses_it_says_so_and_is_less_sure()
    {
        var (model, plant) = Learn(4, 12, 1);
        var inside = model.Predict(model.Rows[3].Point);
        var name = plant.Used[0];
        var beyond = model.Predict(model.Rows[3].Point with { GramsPerLitre = [new(name, 400)], Ph = 11.5 });
        Assert.False(inside.Extrapolating);
        Assert.True(beyond.Extrapolating);
        Assert.Contains(beyond.Why, why => why.Contains(name, StringComparison.Ordinal));
        Assert.True(beyond.UncertaintyDe00 > 2 * inside.UncertaintyDe00);
    }

    [Fact]
    public void Of_two_readings_of_one_jar_the_one_with_the_smaller_uncertainty_says_more()
    {
        var plant = new PlantMaker(541);
        TrialRow[] rows =
        [
            .. Enumerable.Range(0, 7).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 0.5) with { UncertaintyDe00 = 1 }),
        ];
        var light = rows[3] with { Colour = rows[3].Colour with { L = rows[3].Colour.L + 2 } };
        var dark = rows[3] with { Colour = rows[3].Colour with { L = rows[3].Colour.L - 2 } };
        double LightnessWith(double ofLight, double ofDark)
        {
            TrialRow[] table =
            [
                .. rows[..3],
                light with
                {
                    UncertaintyDe00 = ofLight,
                },
                dark with
                {
                    UncertaintyDe00 = ofDark,
                },
                .. rows[4..],
            ];
            Assert.True(ResponseModel.Fit(table, plant.Used).TryGet(out var model));
            return model.Predict(rows[3].Point).Colour.L;
        }

        var (left, middle, right) = (LightnessWith(1, 8), LightnessWith(1, 1), LightnessWith(8, 1));
        Assert.True(
            left > middle + 0.5 && middle > right + 0.5,
            $"{left:0.0}, {middle:0.0}, {right:0.0} between {dark.Colour.L:0.0} and {light.Colour.L:0.0}"
        );
    }

    [Fact]
    public void The_same_uncertainty_on_every_reading_changes_nothing()
    {
        var plant = new PlantMaker(8);
        TrialRow[] rows = [.. Enumerable.Range(0, 8).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1))];
        Assert.True(ResponseModel.Fit(rows, plant.Used).TryGet(out var without));
        Assert.True(ResponseModel.Fit([.. rows.Select(row => row with { UncertaintyDe00 = 2 })], plant.Used).TryGet(out var with));
        var point = plant.Draw("x");
        Assert.Equal(without.Predict(point).Colour, with.Predict(point).Colour);
    }
}
