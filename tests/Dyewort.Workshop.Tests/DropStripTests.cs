using System.Globalization;
using Dyewort.Colour;
using Dyewort.Pots;
using Dyewort.Testing;
using Dyewort.Workshop.Readings;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Two liquors dripped on a printed strip, photographed by a simulator that knows nothing of this program, and compared.</summary>
public sealed class DropStripTests
{
    private static readonly string? Python = File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : Tool.Find("python3");

    [Theory]
    [InlineData("anthocyanin_mild", 0.30, 0.20)]
    [InlineData("tannin_brown", 0.24, 0.32)]
    [InlineData("flavonol_alum_yellow", 0.15, 0.10)]
    public void The_strength_ratio_of_two_liquors_is_read_within_8_percent_from_one_photo(string ink, double first, double second)
    {
        Assert.SkipWhen(Repository.Shared("sim", "simulate.py") is null, Repository.NoShared);
        Assert.SkipWhen(Python is null || Tool.Find("pdftoppm") is null, "Python or pdftoppm is not on this machine.");
        var folder = Directory.CreateTempSubdirectory("dyewort-drops-").FullName;
        try
        {
            Assert.True(
                new PrintSheet(TimeProvider.System)
                    .Handle(
                        new PrintSheetForm
                        {
                            Cells = "4x2",
                            Page = "A5",
                            Title = "Drops",
                        }
                    )
                    .TryGet(out var sheet)
            );
            File.WriteAllBytes(Path.Combine(folder, "sheet.pdf"), sheet.Pdf);
            File.WriteAllText(
                Path.Combine(folder, "cells.json"),
                $"[{string.Join(',', sheet.Layout.Cells.Select(cell => $$"""{"id":"{{cell.Id}}","polygon":[{{string.Join(',', cell.PolygonMm.Select(point => string.Create(CultureInfo.InvariantCulture, $"[{point.X},{point.Y}]")))}}]}"""))}]"
            );
            var painted = sheet.Layout.Cells.Select(cell => (cell.Id, Strength: cell.Id.EndsWith('1') ? first : second)).ToList();
            Assert.Equal(8, painted.Count);
            File.WriteAllText(
                Path.Combine(folder, "swatches.json"),
                $"[{string.Join(',', painted.Select(one => string.Create(CultureInfo.InvariantCulture, $$"""{"cell":"{{one.Id}}","ink":"{{ink}}","c":{{one.Strength}},"coverage":"flat"}""")))}]"
            );
            Run("pdftoppm", ["-r", "200", "-png", "-singlefile", "sheet.pdf", "sheet"], folder);
            Run(
                Python!,
                [
                    Repository.Shared("sim", "simulate.py")!,
                    "--sheet",
                    "sheet.png",
                    "--size-mm",
                    "148x210",
                    "--cells",
                    "cells.json",
                    "--swatches",
                    "swatches.json",
                    "--out",
                    "out",
                    "--scenes",
                    "1",
                    "--seed",
                    "41",
                    "--preset",
                    "phone",
                    "--card",
                    "never",
                    "--mp",
                    "8",
                ],
                folder
            );

            var photo = File.ReadAllBytes(Path.Combine(folder, "out", "scene_000", "photo.jpg"));
            Assert.True(new ReadPhoto().Handle(new ReadPhotoRequest { Picture = photo, Layout = sheet.Layout }).TryGet(out var answer));
            using (answer)
            {
                List<Painted> Liquor(char row) =>
                    [
                        .. answer
                            .Result.Swatches.Where(swatch => swatch.Id.EndsWith(row))
                            .Select(swatch => new Painted(
                                swatch.Id,
                                UncertainColour.FromRadius(swatch.Lab.ToXyz(), Math.Max(0.3, swatch.UncertaintyDe00))
                            )),
                    ];
                Assert.True(LiquorStrength.Compare(Liquor('1'), Liquor('2'), Paper.DrawingPaperGuess.Colour).TryGet(out var ratio));
                TestContext.Current.TestOutputHelper?.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{ink}: {ratio.Ratio:0.000} ± {2 * ratio.Uncertainty:0.000}, painted {first / second:0.000}, off by {100 * ((ratio.Ratio * second / first) - 1):0.0} %"
                    )
                );
                Assert.Equal(1, ratio.Ratio * second / first, 0.08);
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static void Run(string program, string[] arguments, string folder)
    {
        var (code, _, error) = Tool.Run(program, arguments, TimeSpan.FromMinutes(3), folder);
        Assert.True(code == 0, error);
    }
}
