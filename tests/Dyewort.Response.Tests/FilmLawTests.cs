using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

/// <summary>Washes and coats that nobody painted, of compositions painted once: a wash thins the film, coats add to it.</summary>
public sealed class FilmLawTests
{
    [Fact]
    public void Untested_washes_and_coats_of_a_tested_ink_come_out_as_its_film_thinned_and_doubled()
    {
        double off = 0,
            undone = 0;
        int within = 0,
            all = 0;
        for (var seed = 651; seed < 657; seed++)
        {
            var plant = new PlantMaker(seed);
            TrialRow[] rows = [.. Enumerable.Range(0, 10).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 0.7))];
            TrialRow paper = new(
                new()
                {
                    Sample = "paper",
                    Plant = plant.Kind,
                    Wash = 0,
                },
                plant.Paper
            );
            Assert.True(ResponseModel.Fit([.. rows, paper], plant.Used).TryGet(out var model));
            foreach (var point in rows.Select(row => row.Point))
            {
                TrialPoint[] ladder =
                [
                    point with
                    {
                        Wash = 0.1,
                    },
                    point with
                    {
                        Wash = 0.25,
                    },
                    point with
                    {
                        Wash = 0.5,
                    },
                    point,
                    point with
                    {
                        Coats = 2,
                    },
                    point with
                    {
                        Coats = 3,
                    },
                ];
                var foretold = Array.ConvertAll(ladder, model.Predict);

                // The more ink, the darker, beginning at the bare paper.
                Assert.Equal(foretold.Select(one => one.Colour.L).OrderDescending(), foretold.Select(one => one.Colour.L));
                Assert.True(foretold[0].Colour.L < plant.Paper.L);
                for (var i = 0; i < ladder.Length; i++)
                {
                    if (i == 3)
                        continue;
                    var truth = plant.ColourOf(ladder[i]);
                    var error = Difference.Ciede2000(truth, foretold[i].Colour);
                    off += error;
                    undone += Difference.Ciede2000(truth, plant.ColourOf(point));
                    within += error <= foretold[i].UncertaintyDe00 ? 1 : 0;
                    all++;
                }
            }
        }

        Assert.True(
            off < 0.12 * undone && within >= 0.9 * all,
            $"off {off / all:0.00}, without a film law {undone / all:0.00}, {within} of {all} inside"
        );
    }
}
