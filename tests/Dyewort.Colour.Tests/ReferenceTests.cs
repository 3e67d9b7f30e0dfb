using System.Runtime.InteropServices;
using Dyewort.Testing;
using Xunit;

namespace Dyewort.Colour.Tests;

/// <summary>100,000 colours against independent colour libraries from the npm registry.</summary>
public sealed class ReferenceTests
{
    private static readonly string[] Libraries = ["colorjs.io@0.7.1", "culori@4.0.2"];
    private const int Count = 100_000;
    private const int Row = 26;

    [Fact]
    public void Conversions_and_differences_agree_with_independent_libraries()
    {
        var values = Ask("reference.mjs", Count, Row);
        Lab? before = null;
        for (var i = 0; i < Count; i++)
        {
            var row = values.AsSpan(i * Row, Row);
            var colour = RgbSpace.Srgb.ToXyz(new(row[0], row[1], row[2]));
            var lab = Lab.FromXyz(colour);
            var lab50 = Adaptation.LabToD50(lab);
            var lch50 = Lch.FromLab(lab50);
            var ok = Oklab.FromXyz(colour);
            var p3 = RgbSpace.DisplayP3.FromXyz(colour);
            var luv = Luv.FromXyz(colour);
            Check(row, 3, lab.L, lab.A, lab.B, 1e-6);
            Check(row, 6, lab50.L, lab50.A, lab50.B, 1e-6);
            // A hue angle turns fast near grey: compare it as the arc it spans.
            Check(row, 9, lch50.L, lch50.C, row[11], 1e-6);
            Assert.Equal(0, Math.Sin((lch50.HueDegrees - row[11]) * Math.PI / 180) * lch50.C, 1e-6);
            Check(row, 12, ok.L, ok.A, ok.B, 1e-6);
            Check(row, 15, p3.R, p3.G, p3.B, 1e-6);
            Check(row, 18, luv.L, luv.U, luv.V, 1e-6);
            Check(row, 21, colour.X / 100, colour.Y / 100, colour.Z / 100, 1e-8);
            if (before is { } other)
            {
                Assert.Equal(row[24], Difference.Ciede2000(other, lab), 1e-6);
                Assert.Equal(row[25], Difference.Cmc(other, lab), 1e-6);
            }

            before = lab;
        }
    }

    [Fact]
    public void Colours_no_screen_shows_are_mapped_as_another_library_maps_them()
    {
        const int Colours = 3000;
        var values = Ask("gamut.mjs", Colours, 6);
        var outside = 0;
        for (var i = 0; i < Colours; i++)
        {
            var row = values.AsSpan(6 * i, 6);
            var chip = SrgbChip.Of(new Xyz(row[0], row[1], row[2]) * 100);
            if (!chip.IsTrue)
                outside++;
            // Both searches stop within 0.0001 of chroma in OKLCH.
            var theirs = Lab.FromXyz(RgbSpace.Srgb.ToXyz(new Rgb(row[3], row[4], row[5]).Clipped()));
            Assert.InRange(Difference.Ciede2000(theirs, Lab.FromXyz(RgbSpace.Srgb.ToXyz(chip.Encoded))), 0, 0.1);
        }

        Assert.InRange(outside, Colours / 3, Colours);
    }

    /// <summary>Runs a script of this folder where the libraries are installed, and reads the numbers it writes; skips where they cannot be
    /// had.</summary>
    private static double[] Ask(string script, int count, int row)
    {
        var npm = Tool.Find("npm");
        var node = Tool.Find("node");
        Assert.SkipWhen(npm is null || node is null, "Node and npm are not on this machine.");
        var folder = Path.Combine(Path.GetTempPath(), "dyewort-reference-" + string.Join('-', Libraries).Replace('@', '-'));
        Directory.CreateDirectory(folder);
        if (!Libraries.All(library => Directory.Exists(Path.Combine(folder, "node_modules", library.Split('@')[0]))))
        {
            File.WriteAllText(Path.Combine(folder, "package.json"), "{\"private\":true,\"type\":\"module\"}");
            var (installed, _, why) = Tool.Run(
                npm!,
                ["install", "--no-audit", "--no-fund", "--silent", .. Libraries],
                TimeSpan.FromMinutes(2),
                folder
            );
            Assert.SkipWhen(installed != 0, $"npm cannot install {string.Join(" and ", Libraries)} here: {why.Trim()}");
        }

        File.Copy(Repository.PathOf("tests", "Dyewort.Colour.Tests", script), Path.Combine(folder, script), overwrite: true);
        var file = Path.Combine(folder, $"{script}-{Environment.ProcessId}.bin");
        var (exit, _, error) = Tool.Run(node!, [script, $"{count}", file], TimeSpan.FromMinutes(2), folder);
        Assert.True(exit == 0, error);
        var bytes = File.ReadAllBytes(file);
        File.Delete(file);
        var values = MemoryMarshal.Cast<byte, double>(bytes).ToArray();
        Assert.Equal(count * row, values.Length);
        return values;
    }

    private static void Check(ReadOnlySpan<double> row, int at, double first, double second, double third, double tolerance)
    {
        Assert.Equal(row[at], first, tolerance);
        Assert.Equal(row[at + 1], second, tolerance);
        Assert.Equal(row[at + 2], third, tolerance);
    }
}
