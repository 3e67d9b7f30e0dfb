using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Workshop.Charts;
using Microsoft.EntityFrameworkCore;
using SkiaSharp;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>A strip of patches beside a chart, defined by one photo and used by the next under another lamp.</summary>
public sealed class KeepStripTests
{
    private static readonly string[] Corners = ["240, 12", "840, 12", "840, 92", "240, 92"];

    private static readonly Lab[] Patches =
    [
        new(92, 0, 2),
        new(70, 0, 0),
        new(35, 0, 0),
        new(50, 45, 25),
        new(55, -35, 25),
        new(40, 10, -40),
    ];

    private static readonly Dictionary<string, Lab> Painted = new()
    {
        ["A1"] = new(48, 24, -12),
        ["A2"] = new(66, 6, 40),
        ["A3"] = new(38, -6, -18),
    };

    [Fact]
    public async Task A_strip_defined_once_brings_a_photo_under_another_lamp_back_to_its_day()
    {
        await using var bench = await Bench.SetUpAsync();
        var code = await bench.DoneAsync<StartChart, string>(start =>
            start.HandleAsync(bench.Pot, "A", new() { Page = "A5", Columns = "2" }, default)
        );
        var number = int.Parse(code.Substring(1));
        var first = await bench.DoneAsync<SendPhoto, SendPhotoSent>(async send =>
            await send.HandleAsync(number, await PictureAsync(bench, number, (1.03, 1, 0.94)), new() { State = "Dry" }, default)
        );
        var strip = await bench.DoneAsync<KeepStrip, Guid>(keep =>
            keep.HandleAsync(
                number,
                first.Id,
                new()
                {
                    Name = "tiles",
                    Columns = "6",
                    Rows = "1",
                    Corner = Corners,
                },
                default
            )
        );
        var line = Assert.Single(await bench.DoAsync<KeepStrip, IReadOnlyList<KeepStripLine>>(keep => keep.ListAsync(default)));
        Assert.Equal((strip, 6, 1, 0), (line.Strip.Id, line.Strip.Columns, line.Strip.Rows, line.Used));
        Assert.InRange(line.Patches.Count, 5, 7);

        var again = await bench.DoAsync<KeepStrip, Outcome<Guid>>(keep =>
            keep.HandleAsync(
                number,
                first.Id,
                new()
                {
                    Name = "tiles",
                    Columns = "1",
                    Rows = "1",
                    Corner = Corners[..3],
                },
                default
            )
        );
        Assert.Equal(["Corner", "Name"], again.Problems.Select(problem => problem.Field).Order());

        // Without corners it is looked for; where it is not found the photo waits for the maker. Pointing reads it either way.
        var second = await bench.DoneAsync<SendPhoto, SendPhotoSent>(async send =>
            await send.HandleAsync(
                number,
                await PictureAsync(bench, number, (1, 0.9, 0.72)),
                new() { State = "Dry", Strip = strip.ToString() },
                default
            )
        );
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(number, second.Id, new() { Way = "", StripCorner = Corners }, default)
        );
        await using var db = bench.Read();
        var corrected = await db
            .Readings.Where(reading => reading.CorrectsId != null)
            .Select(reading => reading.CorrectsId!.Value)
            .ToListAsync();
        var before = await db.Readings.Where(reading => reading.PhotoId == first.Id).ToListAsync();
        var after = (await db.Readings.Where(reading => reading.PhotoId == second.Id).ToListAsync())
            .Where(reading => !corrected.Contains(reading.Id))
            .ToList();
        Assert.Equal(3, after.Count);
        foreach (var reading in after)
        {
            Assert.Equal("strip", reading.Method);
            var off = Difference.Ciede2000(
                Lab.FromXyz(reading.Colour),
                Lab.FromXyz(before.Single(one => one.SwatchId == reading.SwatchId).Colour)
            );
            Assert.True(off <= reading.UncertaintyDe00, $"{off:0.0} apart, said ± {reading.UncertaintyDe00:0.0}.");
        }
    }

    [Fact]
    public async Task A_card_is_renamed_and_taken_back_and_the_photo_read_with_it_still_names_it()
    {
        await using var bench = await Bench.SetUpAsync();
        var number = int.Parse(
            (
                await bench.DoneAsync<StartChart, string>(start =>
                    start.HandleAsync(bench.Pot, "A", new() { Page = "A5", Columns = "2" }, default)
                )
            ).Substring(1)
        );
        var file = CardFile.Write([.. Patches.Select((patch, i) => new CardPatch($"{i + 1}", patch))], "card");
        var id = await bench.DoneAsync<KeepStrip, Guid>(keep => keep.HandleAsync(new KeepStripCard("six", "6", "1", file), default));
        var other = await bench.DoneAsync<KeepStrip, Guid>(keep => keep.HandleAsync(new KeepStripCard("seven", "6", "1", file), default));
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(async send =>
            await send.HandleAsync(
                number,
                await PictureAsync(bench, number, (1, 0.9, 0.72)),
                new() { State = "Dry", Strip = id.ToString() },
                default
            )
        );

        var thing = new Thing(ThingKind.Strip, id.ToString());
        foreach (var (name, says) in new[] { ("seven", "“seven” already"), (" ", "missing") })
        {
            var taken = Assert.Single(
                (
                    await bench.DoAsync<ChangeStrip, Outcome<Thing>>(change => change.CorrectAsync(thing, new() { Name = name }, default))
                ).Problems
            );
            Assert.Equal("Name", taken.Field);
            Assert.Contains(says, taken.What);
        }

        await bench.DoneAsync<ChangeStrip, Thing>(change => change.CorrectAsync(thing, new() { Name = "the small card" }, default));
        await bench.DoneAsync<ChangeStrip, Thing>(change => change.WithdrawAsync(thing, new() { Why = "lost" }, default));
        Assert.Equal(
            other,
            Assert.Single(await bench.DoAsync<KeepStrip, IReadOnlyList<KeepStripLine>>(keep => keep.ListAsync(default))).Strip.Id
        );
        Assert.Contains(
            "taken back already",
            Assert
                .Single(
                    (
                        await bench.DoAsync<ChangeStrip, Outcome<Thing>>(change =>
                            change.WithdrawAsync(thing, new() { Why = "lost" }, default)
                        )
                    ).Problems
                )
                .What
        );

        // What stands on it can still be pointed to and read; the name is free again.
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(number, sent.Id, new() { Way = "", StripCorner = Corners }, default)
        );
        Assert.Equal(
            "the small card",
            (await bench.DoAsync<ShowPhoto, ShowPhotoAnswer?>(show => show.HandleAsync(number, sent.Id, default)))!.Strip!.Name
        );
        await bench.DoneAsync<KeepStrip, Guid>(keep => keep.HandleAsync(new KeepStripCard("the small card", "6", "1", file), default));
        Assert.Contains(
            "called “the small card” now",
            Assert.Single((await bench.DoAsync<ChangeStrip, Outcome<Thing>>(change => change.PutBackAsync(thing, default))).Problems).What
        );
    }

    [Theory, InlineData(true, "such as 4"), InlineData(false, "such as 1")]
    public async Task Rows_left_empty_are_asked_for_with_what_is_usual(bool card, string example)
    {
        await using var bench = await Bench.SetUpAsync();
        var number = int.Parse(
            (
                await bench.DoneAsync<StartChart, string>(start =>
                    start.HandleAsync(bench.Pot, "A", new() { Page = "A5", Columns = "2" }, default)
                )
            ).Substring(1)
        );
        var photo = await bench.DoneAsync<SendPhoto, SendPhotoSent>(async send =>
            await send.HandleAsync(number, await PictureAsync(bench, number, (1, 1, 1)), new() { State = "Dry" }, default)
        );
        var outcome = card
            ? await bench.DoAsync<KeepStrip, Outcome<Guid>>(keep =>
                keep.HandleAsync(
                    new KeepStripCard(
                        "six",
                        "6",
                        "",
                        CardFile.Write([.. Patches.Select((patch, i) => new CardPatch($"{i + 1}", patch))], "card")
                    ),
                    default
                )
            )
            : await bench.DoAsync<KeepStrip, Outcome<Guid>>(keep =>
                keep.HandleAsync(
                    number,
                    photo.Id,
                    new()
                    {
                        Name = "tiles",
                        Columns = "6",
                        Corner = Corners,
                    },
                    default
                )
            );
        Assert.Contains(example, Assert.Single(outcome.Problems, problem => problem.Field == "Rows").Remedy);
    }

    [Fact]
    public async Task A_card_kept_with_its_makers_figures_corrects_a_photo_in_which_it_lies()
    {
        await using var bench = await Bench.SetUpAsync();
        var paper = await bench.DoneAsync<Pantry.SaveMaterial, Guid>(save =>
            save.HandleAsync(null, new() { Name = "laid", Kind = "Paper" }, default)
        );
        var number = int.Parse(
            (
                await bench.DoneAsync<StartChart, string>(start =>
                    start.HandleAsync(
                        bench.Pot,
                        "A",
                        new()
                        {
                            Page = "A5",
                            Columns = "2",
                            Paper = paper.ToString(),
                        },
                        default
                    )
                )
            ).Substring(1)
        );
        var file = CardFile.Write([.. Patches.Select((patch, i) => new CardPatch($"{i + 1}", patch))], "card");
        var id = await bench.DoneAsync<KeepStrip, Guid>(keep =>
            keep.HandleAsync(new KeepStripCard("six greys and colours", "6", "1", file), default)
        );
        var line = Assert.Single(await bench.DoAsync<KeepStrip, IReadOnlyList<KeepStripLine>>(keep => keep.ListAsync(default)));
        Assert.True(line.Strip.IsCard);
        Assert.Equal(Patches.Length, line.Patches.Count);

        async Task<Problem> RefusedAsync(string name, string columns, string text) =>
            Assert.Single(
                (
                    await bench.DoAsync<KeepStrip, Outcome<Guid>>(keep =>
                        keep.HandleAsync(new KeepStripCard(name, columns, "1", text), default)
                    )
                ).Problems
            );
        Assert.Equal("Name", (await RefusedAsync("six greys and colours", "6", file)).Field);
        Assert.Equal("Columns", (await RefusedAsync("too small", "4", file)).Field);
        Assert.Equal("Columns", (await RefusedAsync("no grid", "2", file)).Field);
        Assert.Equal("File", (await RefusedAsync("no figures", "6", "hello")).Field);
        Assert.Equal("File", (await RefusedAsync("no file", "6", " ")).Field);

        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(async send =>
            await send.HandleAsync(
                number,
                await PictureAsync(bench, number, (1, 0.9, 0.72)),
                new() { State = "Dry", Strip = id.ToString() },
                default
            )
        );
        await bench.DoneAsync<PlaceSwatches, Guid>(place =>
            place.HandleAsync(number, sent.Id, new() { Way = "", StripCorner = Corners }, default)
        );
        await using var db = bench.Read();
        var standing = (await db.Readings.Where(reading => reading.PhotoId == sent.Id).ToListAsync())
            .GroupBy(reading => reading.SwatchId)
            .Select(group => group.OrderBy(reading => reading.Id).Last())
            .ToList();
        Assert.Equal(3, standing.Count);

        // The drawn sheet's black reflects 4 % of its paper: the card measured it, and the paper keeps it.
        var kept = await db.Materials.SingleAsync(one => one.Id == paper);
        Assert.Equal("card", kept.PrintedBlackMethod);
        Assert.InRange(kept.PrintedBlackPercent!.Value, 3.2, 4.8);
        var swatches = await db.Swatches.ToDictionaryAsync(swatch => swatch.Id, swatch => swatch.Cell);
        foreach (var reading in standing)
        {
            Assert.Equal("card", reading.Method);
            var off = Difference.Ciede2000(Lab.FromXyz(reading.Colour), Painted[swatches[reading.SwatchId]]);
            Assert.True(off <= reading.UncertaintyDe00, $"{off:0.0} off, said ± {reading.UncertaintyDe00:0.0}.");
        }
    }

    /// <summary>The painted sheet with the strip above it, both under one lamp.</summary>
    private static async Task<byte[]> PictureAsync(Bench bench, int number, (double R, double G, double B) lamp)
    {
        await using var db = bench.Read();
        Assert.True(
            SheetLayout.Parse("layout", (await db.Charts.SingleAsync(one => one.Number == number)).LayoutJson).TryGet(out var layout)
        );
        var sheet = SheetPicture.Draw(
            layout,
            new()
            {
                Paint = Painted.ToDictionary(pair => pair.Key, pair => pair.Value.ToXyz()),
                Paper = Paper.DrawingPaperGuess.Colour,
                Tint = lamp,
                Shade = 0.9,
            }
        );
        using var bitmap = SKBitmap.Decode(sheet);
        using (var canvas = new SKCanvas(bitmap))
        {
            for (var i = 0; i < Patches.Length; i++)
            {
                var light = FileColour.Srgb.FromXyz(Patches[i].ToXyz());
                byte One(double channel) => (byte)Math.Round(255 * FileColour.LinearToSrgb(Math.Clamp(channel * 0.86, 0, 1)));
                using var fill = new SKPaint { Color = new SKColor(One(light.R * lamp.R), One(light.G * lamp.G), One(light.B * lamp.B)) };
                canvas.DrawRect(SKRect.Create(240 + (100 * i), 12, 100, 80), fill);
            }
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }
}
