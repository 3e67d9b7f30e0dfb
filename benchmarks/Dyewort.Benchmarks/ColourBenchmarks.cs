using System.Diagnostics;
using System.Globalization;
using Dyewort.Colour;

namespace Dyewort.Benchmarks;

/// <summary>Conversions, differences and searches of the colour room.</summary>
internal static class ColourBenchmarks
{
    private const int Pairs = 100_000;
    private const int Million = 1_000_000;

    public static void Run()
    {
        var random = new Random(7);
        var rgb = new byte[3 * Million];
        random.NextBytes(rgb);
        var (l, a, b) = (new double[Million], new double[Million], new double[Million]);
        Console.WriteLine("| what | per second, one thread | ratio |\n|---|---|---|");

        var single = Measure.PerSecond(
            Pairs,
            () =>
            {
                double sum = 0;
                for (var i = 0; i < Pairs; i++)
                    sum += Lab.FromXyz(RgbSpace.Srgb.ToXyz(new(rgb[3 * i] / 255.0, rgb[(3 * i) + 1] / 255.0, rgb[(3 * i) + 2] / 255.0))).L;
                Keep(sum);
            }
        );
        var npm = Npm();
        Measure.Row("sRGB → CIELAB, npm library", npm.Lab ?? 0, null, npm.Lab is null ? npm.Why : "floor");
        Measure.Row("sRGB → CIELAB, one by one", single, npm.Lab, "npm");
        Measure.Row("sRGB → CIELAB, batch", Measure.PerSecond(Million, () => ColourBatch.LabOfSrgb(rgb, l, a, b)), npm.Lab, "npm");

        var differences = new double[Pairs];
        Measure.Row("CIEDE2000 pairs, npm library", npm.Differences ?? 0, null, npm.Differences is null ? npm.Why : "floor");
        Measure.Row(
            "CIEDE2000 pairs, one by one",
            Measure.PerSecond(
                Pairs,
                () =>
                {
                    for (var i = 0; i < Pairs; i++)
                        differences[i] = Difference.Ciede2000(new(l[i], a[i], b[i]), new(l[Pairs + i], a[Pairs + i], b[Pairs + i]));
                }
            ),
            npm.Differences,
            "npm"
        );
        Measure.Row(
            "CIEDE2000 pairs, batch",
            Measure.PerSecond(
                Pairs,
                () =>
                    ColourBatch.Ciede2000(
                        l.AsSpan(0, Pairs),
                        a.AsSpan(0, Pairs),
                        b.AsSpan(0, Pairs),
                        l.AsSpan(Pairs, Pairs),
                        a.AsSpan(Pairs, Pairs),
                        b.AsSpan(Pairs, Pairs),
                        differences
                    )
            ),
            npm.Differences,
            "npm"
        );

        var build = Stopwatch.GetTimestamp();
        var tree = new NearestColours([.. Enumerable.Range(0, Million).Select(i => new Lab(l[i], a[i], b[i]))]);
        var built = Stopwatch.GetElapsedTime(build).TotalSeconds;
        var wanted = Enumerable
            .Range(0, 64)
            .Select(_ => Lab.FromXyz(RgbSpace.Srgb.ToXyz(new(random.NextDouble(), random.NextDouble(), random.NextDouble()))))
            .ToArray();
        var all = new double[Million];
        var scan = Measure.PerSecond(
            2,
            () =>
            {
                for (var query = 0; query < 2; query++)
                {
                    ColourBatch.Ciede2000(wanted[query], l, a, b, all);
                    Keep(System.Numerics.Tensors.TensorPrimitives.IndexOfMin<double>(all));
                }
            }
        );
        Measure.Row("nearest of a million, full scan with the batch formula", scan, null, "floor");
        foreach (var k in new[] { 1, 10 })
        {
            Measure.Row(
                $"{k} nearest of a million, tree",
                Measure.PerSecond(
                    wanted.Length,
                    () =>
                    {
                        foreach (var colour in wanted)
                            Keep(tree.Find(colour, k)[0].De00);
                    }
                ),
                scan,
                "full scan"
            );
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"\nBuilding the tree took {built:0.0} s."));
        var paper = Paper.DrawingPaperGuess;
        var inks = wanted.Where(colour => colour.L < 90).Take(16).Select(colour => colour.ToXyz()).ToArray();
        Console.WriteLine("\n| what | per second, one thread | |\n|---|---|---|");
        Measure.Row(
            "ink films from a colour",
            Measure.PerSecond(
                inks.Length,
                () =>
                {
                    foreach (var ink in inks)
                        Keep(InkFilm.FromColour(ink, paper).On(paper).Y);
                }
            ),
            null,
            ""
        );
        var film = InkFilm.FromColour(inks[0], paper);
        Measure.Row(
            "colours of washes from a film",
            Measure.PerSecond(
                1000,
                () =>
                {
                    for (var i = 1; i <= 1000; i++)
                        Keep(film.Strength(i / 1000.0).On(paper).Y);
                }
            ),
            null,
            ""
        );
    }

    private static double kept;

    private static void Keep(double value) => kept = value;

    /// <summary>The same work in the npm library, if Node and the library can be had.</summary>
    private static (double? Lab, double? Differences, string Why) Npm()
    {
        var folder = Path.Combine(Path.GetTempPath(), "dyewort-benchmark-culori-4.0.2");
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "package.json"), "{\"private\":true,\"type\":\"module\"}");
        File.Copy(Path.Combine(AppContext.BaseDirectory, "floor.mjs"), Path.Combine(folder, "floor.mjs"), overwrite: true);
        try
        {
            if (!Directory.Exists(Path.Combine(folder, "node_modules", "culori")))
                Call("npm", "install --no-audit --no-fund --silent culori@4.0.2", folder);
            var numbers = Call("node", "floor.mjs", folder)
                .Split(' ')
                .Select(text => double.Parse(text, CultureInfo.InvariantCulture))
                .ToArray();
            return (numbers[0], numbers[1], "");
        }
        catch (Exception problem) when (problem is System.ComponentModel.Win32Exception or InvalidOperationException)
        {
            return (null, null, "npm library not to be had");
        }
    }

    private static string Call(string program, string arguments, string folder)
    {
        using var process = Process.Start(
            new ProcessStartInfo(program, arguments)
            {
                WorkingDirectory = folder,
                RedirectStandardOutput = true,
                UseShellExecute = false,
            }
        )!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? said.Trim() : throw new InvalidOperationException($"{program} ended with {process.ExitCode}.");
    }
}
