using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response;

namespace Dyewort.Benchmarks;

/// <summary>Tables learned and samples foretold per second.</summary>
/// <remarks>The floor is the bare arithmetic that no Gaussian process on three densities gets by without: one Cholesky factorisation of
/// three rows per
/// sample, in plain loops.</remarks>
internal static class ResponseBenchmarks
{
    private static readonly string[] Additions = ["alum", "citric acid", "bicarbonate of soda"];

    public static void Run()
    {
        Console.WriteLine("| what | per second, one thread | costs as much as |\n|---|---|---|");
        foreach (var samples in (int[])[8, 16, 30, 60])
        {
            var rows = Rows(samples);
            if (!ResponseModel.Fit(rows, Additions).TryGet(out var model))
                throw new InvalidOperationException("The table was not learned.");
            var floor = Measure.PerSecond(1, () => Factorise(3 * samples));
            void Row(string what, double perSecond) =>
                Console.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"| {what} | {perSecond:#,0.##} | {floor / perSecond:#,0.#} factorisations |"
                    )
                );

            Measure.Row($"bare factorisation, {samples} samples", floor, null, "floor");
            var known = rows[samples / 2].Point with { Ph = null };
            Row($"foretell a sample from {samples}", Measure.PerSecond(1, () => model.Predict(known)));
            var dose = 0;
            Row(
                $"foretell a new composition from {samples}, its pH computed for 25 liquors",
                Measure.PerSecond(1, () => model.Predict(known with { GramsPerLitre = [new("alum", 5 + (++dose * 1e-6))] }))
            );
            Row($"learn a table of {samples}", Measure.PerSecond(1, () => ResponseModel.Fit(rows, Additions)));
        }
    }

    /// <summary>An invented plant: red in acid, blue-green in soda, violet with alum.</summary>
    private static TrialRow[] Rows(int samples) =>
        [
            .. Enumerable
                .Range(0, samples)
                .Select(i =>
                {
                    var (alum, acid, soda) = (
                        i % 3 == 1 ? 1 + (i * 0.7) : 0,
                        i % 4 == 2 ? 0.5 + (i * 0.2) : 0,
                        i % 5 == 3 ? 0.5 + (i * 0.3) : 0
                    );
                    var ph = 4.5 - (acid / (acid + 2)) + (3 * soda / (soda + 3));
                    var point = new TrialPoint
                    {
                        Sample = $"S{i}",
                        Plant = "invented",
                        Ph = ph,
                        GramsPerLitre = [new("alum", alum), new("citric acid", acid), new("bicarbonate of soda", soda)],
                    };
                    return new TrialRow(
                        point,
                        new Lab(
                            60 - (20 * alum / (alum + 4)) + (0.4 * (i % 3)),
                            35 - (9 * (ph - 3)) + (0.5 * (i % 2)),
                            5 - (4 * (ph - 3)) - (10 * alum / (alum + 4))
                        )
                    );
                }),
        ];

    private static double Factorise(int size)
    {
        var m = new double[size * size];
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j <= i; j++)
                m[(i * size) + j] = i == j ? 2 : Math.ScaleB(1, -Math.Min(i - j, 40));
        }

        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = m[(i * size) + j];
                for (var k = 0; k < j; k++)
                    sum -= m[(i * size) + k] * m[(j * size) + k];
                m[(i * size) + j] = i == j ? Math.Sqrt(sum) : sum / m[(j * size) + j];
            }
        }

        return m[^1];
    }
}
