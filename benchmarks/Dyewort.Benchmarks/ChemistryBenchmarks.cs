using System.Globalization;
using Dyewort.Chemistry;

namespace Dyewort.Benchmarks;

/// <summary>Jars per second.</summary>
/// <remarks>The independent program that the mixtures were checked with could not be had on the measuring machine, so there is no ratio to
/// its time.
/// The floor is the bare arithmetic that as many Newton steps need: the exponentials of a hundred species and one elimination of twenty
/// unknowns each.</remarks>
internal static class ChemistryBenchmarks
{
    private const int Species = 100;
    private const int Unknowns = 20;

    public static void Run()
    {
        Console.WriteLine("| what | per second, one thread | ratio |\n|---|---|---|");
        string[] ten =
        [
            "0.5 g alum",
            "0.3 g citric acid",
            "0.2 g copperas",
            "1 g baking soda",
            "0.5 g cream of tartar",
            "0.3 g chalk",
            "0.1 g copper sulfate",
            "0.5 g salt",
            "5 g vinegar",
            "1 g household ammonia",
        ];
        foreach (var count in (int[])[1, 2, 5, 10])
        {
            var jar = new JarContents { LiquorMillilitres = 90, Portions = [.. ten.Take(count).Select(Read)] };
            foreach (var mode in (CarbonDioxide[])[CarbonDioxide.Sealed, CarbonDioxide.AfterFizzing, CarbonDioxide.Open])
            {
                if (!Jar.Equilibrate(jar, 20, mode).TryGet(out var state))
                    throw new InvalidOperationException("The jar did not balance.");
                var floor = Measure.PerSecond(1, () => Floor(state.NewtonSteps));
                Measure.Row(
                    $"jar of {count}, {mode}, {state.NewtonSteps} Newton steps",
                    Measure.PerSecond(1, () => Jar.Equilibrate(jar, 20, mode)),
                    floor,
                    "the bare arithmetic"
                );
            }
        }

        var whole = new JarContents { LiquorMillilitres = 90, Portions = [.. ten.Select(Read)] };
        Measure.Row("jar of 10 with its interval and remarks", Measure.PerSecond(1, () => JarReport.Of(whole)), null, "some 25 jars");
    }

    private static Portion Read(string text)
    {
        var words = text.Split(" g ");
        return SubstanceCatalogue.Standard.Find("benchmark", words[1]).TryGet(out var named)
            ? Portion.OfGrams(named, double.Parse(words[0], CultureInfo.InvariantCulture))
            : throw new InvalidOperationException($"{words[1]} is not in the cupboard.");
    }

    private static double Floor(int steps)
    {
        var sum = 0.0;
        var matrix = new double[Unknowns, Unknowns];
        for (var step = 0; step < steps; step++)
        {
            for (var i = 0; i < Species; i++)
                sum += Math.Exp(-0.1 * i);
            for (var r = 0; r < Unknowns; r++)
            {
                for (var c = 0; c < Unknowns; c++)
                    matrix[r, c] = r == c ? 2 : 1.0 / (1 + r + c);
            }

            for (var k = 0; k < Unknowns; k++)
            {
                for (var r = k + 1; r < Unknowns; r++)
                {
                    var factor = matrix[r, k] / matrix[k, k];
                    for (var c = k; c < Unknowns; c++)
                        matrix[r, c] -= factor * matrix[k, c];
                }
            }

            sum += matrix[Unknowns - 1, Unknowns - 1];
        }

        return sum;
    }
}
