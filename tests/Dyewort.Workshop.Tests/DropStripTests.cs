using System.Globalization;
using System.Text.Json;
using Dyewort.Colour;
using Dyewort.Pots;
using Dyewort.Readings;
using Dyewort.Testing;
using Dyewort.Testing.Photos;
using Dyewort.Workshop.Readings;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Two liquors dripped on a printed strip, photographed by a program that knows nothing of this one, and compared.</summary>
public sealed class DropStripTests
{
    private static readonly string? Python = File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : Tool.Find("python3");

    /// <summary>Liquors drawn wave by wave here; where the simulator of whole photos lies beside the checkout, it is asked too.</summary>
    public static TheoryData<string, double, double> Liquors()
    {
        var data = new TheoryData<string, double, double>
        {
            { nameof(DrawnInk.Berry), 0.30, 0.20 },
            { nameof(DrawnInk.Bark), 0.24, 0.32 },
            { nameof(DrawnInk.Herb), 0.30, 0.20 },
        };
        if (Repository.Shared("sim", "simulate.py") is not null && Python is not null && Tool.Find("pdftoppm") is not null)
        {
            data.Add("anthocyanin_mild", 0.30, 0.20);
            data.Add("tannin_brown", 0.24, 0.32);
            data.Add("flavonol_alum_yellow", 0.15, 0.10);
        }

        return data;
    }

    [Theory, MemberData(nameof(Liquors))]
    public void The_strength_ratio_of_two_liquors_is_read_within_8_percent_from_one_photo(string ink, double first, double second)
    {
        var (picture, layout) = ink switch
        {
            nameof(DrawnInk.Berry) => Drawn(DrawnInk.Berry, first, second),
            nameof(DrawnInk.Bark) => Drawn(DrawnInk.Bark, first, second),
            nameof(DrawnInk.Herb) => Drawn(DrawnInk.Herb, first, second),
            _ => Simulated(ink, first, second),
        };
        Assert.True(new ReadPhoto().Handle(new ReadPhotoRequest { Picture = picture, Layout = layout }).TryGet(out var answer));
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
                    $"{ink}: {ratio.Ratio:0.000} ± {2 * ratio.Uncertainty:0.000}, painted {first / second:0.000}, off by "
                        + $"{100 * ((ratio.Ratio * second / first) - 1):0.0} %"
                )
            );
            Assert.Equal(1, ratio.Ratio * second / first, 0.08);
        }
    }

    private static (byte[] Picture, SheetLayout Layout) Drawn(DrawnInk ink, double first, double second)
    {
        var sheet = DrawnPhoto.OfSmallSheet();
        var photo = sheet with
        {
            Paper = ink.On(0, DrawnInk.DrawingPaper),
            Paint = sheet
                .Layout.Cells.Where(cell => cell.Id[^1] is '1' or '2')
                .ToDictionary(cell => cell.Id, cell => ink.On(cell.Id.EndsWith('1') ? first : second, DrawnInk.DrawingPaper)),
            Width = 2000,
            Height = 1500,
        };
        return (photo.Jpeg(), photo.Layout);
    }

    private static (byte[] Picture, SheetLayout Layout) Simulated(string ink, double first, double second)
    {
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
                JsonSerializer.Serialize(
                    sheet.Layout.Cells.Select(cell => new
                    {
                        id = cell.Id,
                        polygon = cell.PolygonMm.Select(point => new[] { point.X, point.Y }),
                    })
                )
            );
            var painted = sheet.Layout.Cells.Select(cell => (cell.Id, Strength: cell.Id.EndsWith('1') ? first : second)).ToList();
            Assert.Equal(8, painted.Count);
            File.WriteAllText(
                Path.Combine(folder, "swatches.json"),
                JsonSerializer.Serialize(
                    painted.Select(one => new
                    {
                        cell = one.Id,
                        ink,
                        c = one.Strength,
                        coverage = "flat",
                    })
                )
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

            return (File.ReadAllBytes(Path.Combine(folder, "out", "scene_000", "photo.jpg")), sheet.Layout);
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
