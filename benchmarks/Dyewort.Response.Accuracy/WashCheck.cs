using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

internal static class WashCheck
{
    public static void Run(int plants)
    {
        foreach (var wash in new[] { 0.5, 0.25 })
        {
            double three = 0, spectra = 0, threeTrue = 0, spectraTrue = 0, inside = 0;
            var count = 0;
            for (var p = 0; p < plants; p++)
            {
                var plant = new PlantMaker(3000 + p);
                for (var i = 0; i < 4; i++)
                {
                    var point = plant.Draw("x");
                    var full = plant.ColourOf(point);
                    var truth = plant.ColourOf(point with { Wash = wash });
                    foreach (var known in new[] { false, true })
                    {
                        var film = new Film(known ? plant.Paper : Film.GuessedPaper);
                        var d = film.DensityOf(full);
                        var a = Difference.Ciede2000(truth, film.ColourOf(new(d.Blue * wash, d.Green * wash, d.Red * wash)));
                        var paper = Paper.Of(known ? plant.Paper.ToXyz() : Film.GuessedPaper.ToXyz());
                        var uncertain = InkFilm.FromColour(full.ToXyz(), paper).Wash(wash).UncertainOn(paper);
                        var b = Difference.Ciede2000(truth, uncertain.Lab);
                        if (known) (threeTrue, spectraTrue, inside) = (threeTrue + a, spectraTrue + b, inside + (b <= uncertain.Radius95De00() ? 1 : 0));
                        else (three, spectra) = (three + a, spectra + b);
                    }

                    count++;
                }
            }

            Console.WriteLine($"wash {wash}: guessed paper, three bands {three / count:0.00}, spectra {spectra / count:0.00}; known paper {threeTrue / count:0.00}, {spectraTrue / count:0.00} cover {100 * inside / count:0}");
        }
    }
}
