using System.Diagnostics;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Testing;

namespace Dyewort.Response.Accuracy;

/// <summary>Absorption shapes, papers and the eye of the photo simulator that lies beside the checkout, read from it at run time.</summary>
internal sealed class InkTable
{
    private const string Script = """
        import json, sys
        sys.path.insert(0, sys.argv[1])
        import spectral as s
        w = s.CMF * s.ILL['D65'][:, None]
        w = w / w[:, 1].sum()
        print(json.dumps({'wl': list(s.WL), 'inks': {n: list(f()) for n, f in s.INKS.items()},
            'papers': {n: list(s.paper_base(n)[0] + s.paper_base(n)[1]) for n in s.PAPERS},
            'weights': [list(r) for r in w], 'surface': s.SURFACE}))
        """;

    public required double[] Wavelengths { get; init; }

    public required Dictionary<string, double[]> Inks { get; init; }

    public required Dictionary<string, double[]> Papers { get; init; }

    public required double[][] Weights { get; init; }

    public required double Surface { get; init; }

    /// <summary>Null where the simulator or Python is missing.</summary>
    public static InkTable? Load()
    {
        if (Repository.Shared("sim") is not { } folder)
            return null;
        var start = new ProcessStartInfo("/usr/bin/python3")
        {
            RedirectStandardOutput = true,
            ArgumentList = { "-B", "-c", Script, folder },
        };
        try
        {
            using var python = Process.Start(start)!;
            var text = python.StandardOutput.ReadToEnd();
            python.WaitForExit();
            if (python.ExitCode != 0)
                return null;
            using var json = JsonDocument.Parse(text);
            static double[] Row(JsonElement e) => [.. e.EnumerateArray().Select(v => v.GetDouble())];
            static Dictionary<string, double[]> Table(JsonElement e) => e.EnumerateObject().ToDictionary(p => p.Name, p => Row(p.Value));
            var root = json.RootElement;
            return new()
            {
                Wavelengths = Row(root.GetProperty("wl")),
                Inks = Table(root.GetProperty("inks")),
                Papers = Table(root.GetProperty("papers")),
                Weights = [.. root.GetProperty("weights").EnumerateArray().Select(Row)],
                Surface = root.GetProperty("surface").GetDouble(),
            };
        }
        catch (System.ComponentModel.Win32Exception)
        {
            return null;
        }
    }

    /// <summary>CIELAB under D65, white being this table's own perfect diffuser.</summary>
    public Lab Colour(double[] reflectance)
    {
        Span<double> xyz = stackalloc double[3];
        Span<double> white = stackalloc double[3];
        for (var i = 0; i < reflectance.Length; i++)
        {
            for (var k = 0; k < 3; k++)
            {
                xyz[k] += Weights[i][k] * reflectance[i];
                white[k] += Weights[i][k];
            }
        }

        static double F(double t) => t > 216.0 / 24389 ? Math.Cbrt(t) : (t * 841 / 108) + (4.0 / 29);
        var (x, y, z) = (F(xyz[0] / white[0]), F(xyz[1] / white[1]), F(xyz[2] / white[2]));
        return new((116 * y) - 16, 500 * (x - y), 200 * (y - z));
    }
}
