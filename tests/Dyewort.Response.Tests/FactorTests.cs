using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

/// <summary>What pots, papers and days of one plant have in common.</summary>
public sealed class FactorTests
{
    [Fact]
    public void Four_samples_of_a_new_pot_tell_more_beside_sixteen_of_an_old_one()
    {
        double alone = 0,
            together = 0;
        for (var seed = 701; seed < 709; seed++)
        {
            var plant = new PlantMaker(seed);

            // The new pot is thinner: its films have three quarters of the density.
            TrialRow Fresh(string code, bool plain) => Renamed(plant.Read(plant.Draw(code, plain, wash: 0.75), 1), "new");
            TrialRow[] old = [.. Enumerable.Range(0, 16).Select(i => Renamed(plant.Read(plant.Draw($"S{i}", plain: i == 0), 1), "old"))];
            TrialRow[] few = [.. Enumerable.Range(0, 4).Select(i => Fresh($"N{i}", i == 0))];
            Assert.True(ResponseModel.Fit(few, plant.Used).TryGet(out var small));
            Assert.True(ResponseModel.Fit([.. old, .. few], plant.Used).TryGet(out var large));
            for (var i = 0; i < 15; i++)
            {
                var point = plant.Draw($"H{i}", wash: 0.75);
                var truth = plant.ColourOf(point);
                var asked = point with { Wash = 1, Pot = "new" };
                alone += Difference.Ciede2000(truth, small.Predict(asked).Colour);
                together += Difference.Ciede2000(truth, large.Predict(asked).Colour);
            }
        }

        Assert.True(together < 0.6 * alone, $"{together / 120:0.00} against {alone / 120:0.00}");
    }

    [Fact]
    public void A_colour_tested_on_one_paper_is_foretold_on_another_from_three_shared_squares()
    {
        double ours = 0,
            same = 0;
        int within = 0,
            all = 0;
        for (var seed = 720; seed < 728; seed++)
        {
            // Another paper takes the ink up less: a fifth thinner, on a creamier ground.
            var plant = new PlantMaker(seed);
            var first = new Film(new Lab(95.5, 0, 3.5));
            var second = new Film(new Lab(91, 1, 9));
            Lab Moved(Lab colour)
            {
                var d = first.DensityOf(colour);
                return second.ColourOf(new(0.8 * d.Blue, 0.8 * d.Green, 0.8 * d.Red));
            }

            TrialRow[] rows =
            [
                .. Enumerable
                    .Range(0, 16)
                    .Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1))
                    .Select(row => row with { Point = row.Point with { Paper = "smooth" } }),
            ];
            TrialRow[] shared = [.. rows.Take(3).Select(row => new TrialRow(row.Point with { Paper = "cream" }, Moved(row.Colour)))];
            TrialRow[] bare = [Bare("smooth", first.Paper), Bare("cream", second.Paper)];
            Assert.True(ResponseModel.Fit([.. rows, .. shared, .. bare], plant.Used).TryGet(out var model));
            foreach (var row in rows.Skip(3))
            {
                var truth = Moved(plant.ColourOf(row.Point));
                var prediction = model.Predict(row.Point with { Paper = "cream" });
                ours += Difference.Ciede2000(truth, prediction.Colour);
                same += Difference.Ciede2000(truth, row.Colour);
                within += Difference.Ciede2000(truth, prediction.Colour) <= prediction.UncertaintyDe00 ? 1 : 0;
                all++;
            }
        }

        Assert.True(ours < 0.6 * same, $"{ours / all:0.00} against {same / all:0.00} when the paper is left out of the sum");
        Assert.InRange(100.0 * within / all, 88, 100);
    }

    [Fact]
    public void The_settled_colour_is_foretold_from_a_wet_reading()
    {
        double ours = 0,
            wetAsIt = 0;
        var all = 0;
        for (var seed = 740; seed < 746; seed++)
        {
            // Wet ink is a third denser; twelve samples were read wet and after seven days, four wet only.
            var plant = new PlantMaker(seed);
            TrialRow Wet(TrialPoint point) =>
                plant.Read(point with { Wash = 1.35 }, 1) is var row ? row with { Point = point with { State = "wet" } } : null!;
            TrialPoint[] points = [.. Enumerable.Range(0, 16).Select(i => plant.Draw($"S{i}", plain: i == 0))];
            TrialRow[] rows =
            [
                .. points.Select(Wet),
                .. points.Take(12).Select(point => plant.Read(point, 1) with { Point = point with { State = "dry" } }),
            ];
            Assert.True(ResponseModel.Fit(rows, plant.Used).TryGet(out var model));
            for (var i = 12; i < 16; i++)
            {
                var truth = plant.ColourOf(points[i]);
                ours += Difference.Ciede2000(truth, model.Predict(points[i] with { State = "dry" }).Colour);
                wetAsIt += Difference.Ciede2000(truth, rows[i].Colour);
                all++;
            }
        }

        Assert.True(ours < 0.5 * wetAsIt, $"{ours / all:0.00} against {wetAsIt / all:0.00}");
    }

    private static TrialRow Renamed(TrialRow row, string pot) =>
        row with
        {
            Point = row.Point with { Pot = pot, Sample = pot + row.Point.Sample, Wash = 1 },
        };

    private static TrialRow Bare(string paper, Lab colour) =>
        new(
            new()
            {
                Sample = "bare",
                Paper = paper,
                Wash = 0,
            },
            colour
        );
}
