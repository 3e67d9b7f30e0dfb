using System.Globalization;

namespace Dyewort.Colour.Tests;

/// <summary>Colours of inks, their washes and mixtures, reckoned wave by wave from how each ink swallows light.</summary>
/// <remarks>Half of the inks swallow as a measured pigment does [Deborah2022], moved and widened a little; the others have one to three
/// bands, 80 to 160 nm wide at half their height as dyes in water mostly are (from memory) and steeper on the side of longer waves, over
/// a rise towards the violet. Nothing of the film under test is used.</remarks>
internal static class MadeInks
{
    private const double Surface = 0.02;

    private static readonly double[] Nm = [.. Enumerable.Range(0, 81).Select(i => 380.0 + (5 * i))];

    private static readonly List<double[]> Measured = [.. Pigments()];

    /// <summary>Rows as the simulator prints them: strengths, and CIELAB of paper, both inks, washes of the first and the
    /// mixture.</summary>
    public static List<Dictionary<string, string>> Rows(int count, int seed)
    {
        var random = new Random(seed);
        var rows = new List<Dictionary<string, string>>();
        while (rows.Count < count)
        {
            var paper = Paper(random);
            double[] a = Ink(random),
                b = Ink(random);
            double c = Math.Pow(10, -1.2 + (1.3 * random.NextDouble())),
                d = Math.Pow(10, -1.2 + (1.3 * random.NextDouble()));
            var row = new Dictionary<string, string>(StringComparer.Ordinal) { ["c1"] = Say(c), ["c2"] = Say(d) };
            Add("Paper", paper);
            Add("First", Film(i => c * a[i]));
            Add("Second", Film(i => d * b[i]));
            Add("Half", Film(i => c * a[i] / 2));
            Add("Quarter", Film(i => c * a[i] / 4));
            Add("Mix", Film(i => ((c * a[i]) + (d * b[i])) / 2));
            rows.Add(row);

            double[] Film(Func<int, double> density) =>
                [.. paper.Select((back, i) => back * (Surface + ((1 - Surface) * Math.Pow(10, -2 * density(i)))))];

            void Add(string name, double[] reflectance)
            {
                var lab = Lab.FromXyz(Spectrum.Of(reflectance).ToXyz());
                (row["L" + name], row["a" + name], row["b" + name]) = (Say(lab.L), Say(lab.A), Say(lab.B));
            }
        }

        return rows;
    }

    private static string Say(double value) => value.ToString("0.000000", CultureInfo.InvariantCulture);

    private static double[] Paper(Random random)
    {
        double level = 0.80 + (0.12 * random.NextDouble()),
            violet = 0.02 + (0.08 * random.NextDouble()),
            slope = 0.04 * random.NextDouble();
        return [.. Nm.Select(nm => level - (violet * Math.Exp(-(nm - 380) / 50)) - (slope * (780 - nm) / 400))];
    }

    private static double[] Ink(Random random)
    {
        if (random.Next(2) == 0)
        {
            var shape = Measured[random.Next(Measured.Count)];
            double moved = 24 * (random.NextDouble() - 0.5),
                wider = 0.9 + (0.2 * random.NextDouble());
            return Peak([.. Nm.Select(nm => At(shape, 560 + ((nm - 560 - moved) / wider)))]);
        }

        var bands = Enumerable
            .Range(0, random.Next(1, 4))
            .Select(_ => (Nm: 400 + (280 * random.NextDouble()), Width: 48 + (48 * random.NextDouble()), Height: 0.3 + random.NextDouble()))
            .ToList();
        double tail = 0.5 * random.NextDouble(),
            fall = 40 + (60 * random.NextDouble());
        return Peak([
            .. Nm.Select(nm =>
                (tail * Math.Exp(-(nm - 380) / fall))
                + bands.Sum(band => band.Height * Math.Exp(-Math.Pow((nm - band.Nm) / (nm > band.Nm ? 0.8 * band.Width : band.Width), 2)))
            ),
        ]);
    }

    private static double[] Peak(double[] shape)
    {
        var top = shape.Max();
        return [.. shape.Select(one => one / top)];
    }

    private static double At(double[] shape, double nm)
    {
        var place = Math.Clamp((nm - 380) / 5, 0, shape.Length - 1.001);
        var (whole, rest) = ((int)place, place - (int)place);
        return (shape[whole] * (1 - rest)) + (shape[whole + 1] * rest);
    }

    // The lightest shade of each pigment, over the brightest that it sends back anywhere: nearer to the film than the dark ones.
    private static IEnumerable<double[]> Pigments()
    {
        foreach (var group in Data.Published("deborah2022-pigment-spectra.csv").GroupBy(row => row["pigment"], StringComparer.Ordinal))
        {
            var shades = group.Select(row => Enumerable.Range(0, 33).Select(i => row.Number($"R{410 + (10 * i)}")).ToArray());
            var light = shades.MaxBy(shade => shade.Sum())!;
            var full = light.Max();

            // Browns and blacks so thick that no shade sends half of the light back say nothing about a film.
            if (full < 0.4)
                continue;
            var wide = Nm.Select(nm =>
            {
                var place = Math.Clamp((nm - 410) / 10, 0, 31.999);
                var (whole, rest) = ((int)place, place - (int)place);
                var back = (light[whole] * (1 - rest)) + (light[whole + 1] * rest);
                return -Math.Log10(Math.Max(0.01, (back - 0.02) / (full - 0.02)));
            });
            yield return Peak([.. wide]);
        }
    }
}
