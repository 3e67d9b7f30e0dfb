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
    public void What_was_never_tried_on_a_plant_is_told_as_not_known_and_its_radius_holds()
    {
        int within = 0,
            before = 0,
            all = 0;
        for (var seed = 701; seed < 741; seed++)
        {
            var (model, plant) = Learn(seed, 12, 1);
            foreach (var name in PlantMaker.Materials.Except(plant.Used))
            {
                var (low, high) = UsualDoses.Of(name);
                foreach (var dose in new[] { low, Math.Sqrt(low * high), high })
                {
                    var point = plant.Draw("H", plain: true) with { GramsPerLitre = Doses.None.With(name, dose), Ph = null };
                    var truth = plant.ColourOf(point with { Ph = plant.PhOf(point.GramsPerLitre) });
                    var prediction = model.Predict(point);
                    Assert.Equal([name], prediction.Untried);
                    Assert.Contains("never tried", prediction.NotKnown, StringComparison.Ordinal);
                    var error = Difference.Ciede2000(truth, prediction.Colour);
                    all++;
                    within += error <= prediction.UncertaintyDe00 ? 1 : 0;
                    before += error <= 3.5 ? 1 : 0;
                }
            }
        }

        TestContext.Current.TestOutputHelper!.WriteLine($"{within} of {all} within, {before} within 3.5");
        Assert.InRange(100.0 * within / all, 90, 99.5);
        Assert.True(before < 0.6 * all, "Otherwise no wide ± was needed.");
    }

    [Fact]
    public void Other_plants_narrow_or_widen_what_an_addition_may_do()
    {
        TrialRow Row(string plant, string name, double dose, double lightness) =>
            new(
                new()
                {
                    Sample = $"{name}{dose}",
                    Plant = plant,
                    GramsPerLitre = dose > 0 ? Doses.None.With(name, dose) : Doses.None,
                },
                new Lab(lightness, 0, 0)
            );
        TrialRow[] still =
        [
            .. Enumerable.Range(0, 10).SelectMany(i => new[] { Row($"P{i}", "moonshine", 0, 50), Row($"P{i}", "moonshine", 2, 51) }),
        ];
        TrialRow[] strong =
        [
            .. Enumerable.Range(0, 10).SelectMany(i => new[] { Row($"P{i}", "moonshine", 0, 90), Row($"P{i}", "moonshine", 2, 20) }),
        ];
        var none = Untried.RadiusDe00("moonshine", []);
        Assert.InRange(none, 20, 40);
        Assert.True(Untried.RadiusDe00("moonshine", still) < 0.5 * none);
        Assert.True(Untried.RadiusDe00("moonshine", strong) > 1.5 * none);
        Assert.Equal(Untried.RadiusDe00("alum", []), Untried.RadiusDe00("alum", strong), 1e-9);
        Assert.True(Untried.RadiusDe00("salt", []) < 8);
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
