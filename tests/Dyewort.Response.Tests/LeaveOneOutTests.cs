using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class LeaveOneOutTests
{
    private static TrialRow[] Rows(int seed, int samples)
    {
        var plant = new PlantMaker(seed);
        return [.. Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1))];
    }

    private static ResponseModel Learn(TrialRow[] rows, int seed)
    {
        Assert.True(ResponseModel.Fit(rows, new PlantMaker(seed).Used).TryGet(out var model));
        return model;
    }

    [Fact]
    public void A_reading_left_out_is_foretold_as_by_a_model_that_never_saw_it()
    {
        // Hyperparameters are kept, so the two agree in the large only: over two plants of 12 samples, the mean error within a third.
        var (quick, slow) = (0.0, 0.0);
        foreach (var seed in new[] { 601, 602 })
        {
            var rows = Rows(seed, 12);
            quick += Learn(rows, seed).LeaveOneOut().MeanDe00 / 2;
            slow +=
                rows.Average(row =>
                    Difference.Ciede2000(row.Colour, Learn([.. rows.Where(other => other != row)], seed).Predict(row.Point).Colour)
                ) / 2;
        }

        Assert.InRange(quick / slow, 0.67, 1.1);
    }

    [Fact]
    public void About_nineteen_of_twenty_readings_lie_inside()
    {
        var all = Enumerable.Range(610, 10).SelectMany(seed => Learn(Rows(seed, 16), seed).LeaveOneOut().Readings).ToArray();
        Assert.InRange(all.Count(one => one.Inside) / (double)all.Length, 0.88, 0.99);
        Assert.All(all, one => Assert.True(one.ReadingDe00 > 0 && one.UncertaintyDe00 <= one.ReadingDe00 * 1.2));
    }

    [Fact]
    public void A_sample_painted_twice_does_not_give_itself_away()
    {
        var rows = Rows(604, 12);
        var spoiled = rows[5] with { Colour = new Lab(rows[5].Colour.L, rows[5].Colour.A + 25, rows[5].Colour.B) };
        TrialRow[] twice = [.. rows.Select((row, i) => i == 5 ? spoiled : row), spoiled];
        var left = Learn(twice, 604).LeaveOneOut().Readings;
        Assert.True(left[5].OffDe00 > 5 && left[12].OffDe00 > 5, $"{left[5].OffDe00:0.0} and {left[12].OffDe00:0.0}");
    }

    [Fact]
    public void Joint_draws_scatter_as_the_single_prediction_says_and_move_together()
    {
        var model = Learn(Rows(605, 10), 605);
        var plant = new PlantMaker(605);
        var point = plant.Draw("x");
        var near = point with { GramsPerLitre = 1.02 * point.GramsPerLitre, Ph = point.Ph };
        var draws = model.ColoursTogether([point, near], oneJar: false);
        var prediction = model.Predict(point);
        var inside = draws[0].Average(colour => Difference.Ciede2000(colour, prediction.Colour) <= prediction.UncertaintyDe00 ? 1 : 0);
        Assert.InRange(inside, 0.91, 0.98);
        var together = draws[0].Zip(draws[1], (one, two) => Difference.Ciede2000(one, two)).Average();
        var apart = draws[0].Zip(draws[1].Skip(1), (one, two) => Difference.Ciede2000(one, two)).Average();
        Assert.True(together < 0.8 * apart, $"{together:0.00} against {apart:0.00}");
    }

    [Fact]
    public void The_quick_colour_is_near_the_predicted_one()
    {
        var model = Learn(Rows(606, 16), 606);
        foreach (var row in model.Rows)
            Assert.True(Difference.Ciede2000(model.QuickColour(row.Point), model.Predict(row.Point).Colour) < 1);
    }
}
