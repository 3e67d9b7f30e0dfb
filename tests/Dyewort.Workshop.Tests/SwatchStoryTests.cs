using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Testing;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Pantry;
using Microsoft.EntityFrameworkCore;
using SkiaSharp;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>What a chart says of its swatches over time, beside an instrument, and on a measured paper.</summary>
public sealed class SwatchStoryTests
{
    [Theory]
    [InlineData(0.2, 0.1, "nobody would see it")]
    [InlineData(0.8, 1.5, "may not be visible")]
    [InlineData(2, 2.5, "probably visible, not certain")]
    [InlineData(4, 1, "clearly visible")]
    public void Whether_a_change_would_be_seen_is_said_with_its_doubt(double de00, double uncertain, string words) =>
        Assert.Equal(words, new Change(de00, uncertain, "").Seen);

    [Fact, Published("Sharma2005", "Table 1, pair 1")]
    public void The_difference_and_the_grade_are_those_of_the_published_formulas()
    {
        var (before, after) = (
            At(SwatchState.Aged, new(50, 2.6772, -79.7751), 1, 0.6),
            At(SwatchState.Exposed, new(50, 0, -82.7485), 2, 0.8)
        );
        var story = SwatchStory.Of([before, after], WetToDry.Learn([]), new(95, 0, 3));
        Assert.Equal(2.0425, story.Exposure!.Change.De00, 4);
        Assert.Equal(1, story.Exposure.Change.UncertaintyDe00, 6);
        Assert.Equal(GreyScale.Change(Lab.FromXyz(before.Colour), Lab.FromXyz(after.Colour)).Grade, story.Exposure.Grade);
    }

    [Fact]
    public void A_wet_swatch_is_foretold_until_it_has_been_read_dry()
    {
        Lab paper = new(95, 0, 3),
            wetColour = new(40, 25, -10),
            dryColour = new(48, 20, -9);
        var wet = At(SwatchState.Wet, wetColour, 1, 1);
        var none = SwatchStory.Of([wet], WetToDry.Learn([]), paper).DriesTo!;
        var taught = SwatchStory
            .Of([wet], WetToDry.Learn([.. Enumerable.Repeat(new WetDryPair(wetColour, dryColour, paper), 12)]), paper)
            .DriesTo!;
        Assert.Equal((0, 12), (none.Pairs, taught.Pairs));
        Assert.True(taught.UncertaintyDe00 < none.UncertaintyDe00);
        Assert.InRange(Difference.Ciede2000(taught.Dry, dryColour), 0, 2.5);
        Assert.Null(SwatchStory.Of([wet, At(SwatchState.Dry, dryColour, 2, 1)], WetToDry.Learn([]), paper).DriesTo);
    }

    [Fact]
    public async Task An_instrument_stands_beside_the_picture_typed_or_from_its_file()
    {
        await using var bench = await Bench.SetUpAsync();
        var code = await bench.DoneAsync<StartChart, string>(start =>
            start.HandleAsync(bench.Pot, "A", new() { Page = "A5", Columns = "2" }, default)
        );
        var number = int.Parse(code.Substring(1));
        var layout = await LayoutAsync(bench, number);
        Lab painted = new(48, 24, -12);
        var picture = SheetPicture.Draw(
            layout,
            new()
            {
                Paint = new Dictionary<string, Xyz>
                {
                    ["A1"] = painted.ToXyz(),
                    ["A2"] = painted.ToXyz(),
                    ["A3"] = painted.ToXyz(),
                },
                Paper = Paper.DrawingPaperGuess.Colour,
            }
        );
        await bench.DoneAsync<SendPhoto, SendPhotoSent>(send => send.HandleAsync(number, picture, new() { State = "Dry" }, default));

        // A1 typed for D50 as the instrument shows it; A2 and A3 from a file that says D65, with the first one far off.
        var d50 = Adaptation.LabToD50(painted);
        var typed = FormattableString.Invariant($"{d50.L:0.00} {d50.A:0.00} {d50.B:0.00}");
        var file =
            "CGATS.17\nORIGINATOR \"test\"\nKEYWORD \"ILLUMINANT\"\nILLUMINANT \"D65\"\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID "
            + "LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nNUMBER_OF_SETS 2\nBEGIN_DATA\na2 80 0 0\nA3 48 24 -12\nEND_DATA\n";
        Assert.Equal(
            3,
            await bench.DoneAsync<AddInstrumentReadings, int>(add =>
                add.HandleAsync(
                    number,
                    new()
                    {
                        State = "Dry",
                        Illuminant = "D50",
                        Values = new Dictionary<string, string> { ["A1"] = typed },
                        File = file,
                        With = "a borrowed one",
                    },
                    default
                )
            )
        );
        var shown = await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(number, default));
        Assert.Equal(DateOnly.FromDateTime(bench.Clock.GetUtcNow().UtcDateTime), shown!.Chart.PaintedOn);
        SwatchStory.Check CheckOf(string cell) => Assert.Single(shown!.Cells.Single(one => one.Swatch.Cell == cell).Story.Checks);
        Assert.InRange(Difference.Ciede2000(Lab.FromXyz(CheckOf("A1").Instrument.Colour), painted), 0, 0.05);
        Assert.True(CheckOf("A1").IsInside, $"{CheckOf("A1").De00:0.0} of {CheckOf("A1").Stated:0.0}");
        Assert.True(CheckOf("A3").IsInside);
        Assert.False(CheckOf("A2").IsInside);

        // The same day again is a correction; figures without their light are refused.
        await bench.DoneAsync<AddInstrumentReadings, int>(add =>
            add.HandleAsync(
                number,
                new()
                {
                    State = "Dry",
                    Illuminant = "D65",
                    Values = new Dictionary<string, string> { ["A2"] = "48, 24, -12" },
                },
                default
            )
        );
        shown = await bench.DoAsync<ShowChart, ShowChartAnswer?>(show => show.HandleAsync(number, default));
        Assert.True(CheckOf("A2").IsInside);
        foreach (
            var (illuminant, figures, field) in new[]
            {
                ("", "48 24 -12", "Illuminant"),
                ("D65", "48 24", "Lab-A1"),
                ("D65", "480 24 -12", "Lab-A1"),
            }
        )
        {
            var outcome = await bench.DoAsync<AddInstrumentReadings, Outcome<int>>(add =>
                add.HandleAsync(
                    number,
                    new()
                    {
                        Illuminant = illuminant,
                        Values = new Dictionary<string, string> { ["A1"] = figures },
                    },
                    default
                )
            );
            Assert.Contains(outcome.Problems, problem => problem.Field == field);
        }
    }

    [Fact]
    public async Task A_paper_measured_once_is_what_later_readings_stand_on()
    {
        await using var bench = await Bench.SetUpAsync();
        var paper = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(
                null,
                new()
                {
                    Name = "cream laid",
                    Kind = "Paper",
                    PaperKind = "Cream",
                },
                default
            )
        );
        var code = await bench.DoneAsync<StartChart, string>(start =>
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
        );
        var number = int.Parse(code.Substring(1));
        Lab bare = new(91, 1, 10),
            painted = new(48, 24, -12);
        var picture = SheetPicture.Draw(
            await LayoutAsync(bench, number),
            new()
            {
                Paint = new Dictionary<string, Xyz> { ["A1"] = painted.ToXyz() },
                Paper = bare.ToXyz(),
                Tint = (1, 1, 1),
            }
        );
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(number, picture, new() { State = "Dry" }, default)
        );
        var guessed = await bench.DoAsync<ShowPhoto, ShowPhotoAnswer?>(show => show.HandleAsync(number, sent.Id, default));
        Assert.False(guessed!.Report!.PaperKnown);
        Assert.InRange(guessed.Report.Paper.B, 6, 13);

        await bench.DoneAsync<MeasurePaper, Guid>(measure =>
            measure.ByInstrumentAsync(
                paper,
                new()
                {
                    Lab = "91 1 10",
                    Illuminant = "D65",
                    Uncertainty = "0.5",
                },
                default
            )
        );
        await bench.DoneAsync<PlaceSwatches, Guid>(place => place.AgainAsync(number, sent.Id, default));
        var known = await bench.DoAsync<ShowPhoto, ShowPhotoAnswer?>(show => show.HandleAsync(number, sent.Id, default));
        Assert.True(known!.Report!.PaperKnown);
        var (before, after) = (
            guessed.Swatches.Single(one => one.Cell == "A1").Reading,
            known.Swatches.Single(one => one.Cell == "A1").Reading
        );
        Assert.Equal(before.Id, after.CorrectsId);
        Assert.True(after.UncertaintyDe00 < before.UncertaintyDe00);
        Assert.InRange(Difference.Ciede2000(Lab.FromXyz(after.Colour), painted), 0, after.UncertaintyDe00);

        // The pantry's form shows the measured colour rounded; sent back unchanged it leaves the measurement alone.
        await using (var db = bench.Read())
        {
            var material = await db.Materials.SingleAsync(one => one.Id == paper);
            await bench.DoneAsync<SaveMaterial, Guid>(save =>
                save.HandleAsync(
                    paper,
                    new()
                    {
                        Name = "cream laid",
                        Kind = "Paper",
                        PaperKind = "Cream",
                        BareColour = CssColour.LabText(material.BareColour!.Value),
                    },
                    default
                )
            );
        }

        await using var read = bench.Read();
        var kept = await read.Materials.SingleAsync(one => one.Id == paper);
        Assert.Equal(
            ("instrument", 0.5, new DateOnly(2025, 9, 6)),
            (kept.BareMethod, kept.BareUncertaintyDe00!.Value, kept.BareMeasuredOn!.Value)
        );
        Assert.Equal(bare.ToXyz(), kept.BareColour!.Value);
    }

    [Fact]
    public async Task A_black_written_down_with_its_paper_narrows_what_is_read_on_it()
    {
        await using var bench = await Bench.SetUpAsync();
        var paper = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(null, new() { Name = "laid", Kind = "Paper" }, default)
        );
        await bench.DoneAsync<MeasurePaper, Guid>(measure =>
            measure.ByInstrumentAsync(
                paper,
                new()
                {
                    Lab = "95 0 3",
                    Illuminant = "D65",
                    Uncertainty = "0.5",
                },
                default
            )
        );
        var code = await bench.DoneAsync<StartChart, string>(start =>
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
        );
        var number = int.Parse(code.Substring(1));
        Lab painted = new(48, 24, -12);
        var picture = SheetPicture.Draw(
            await LayoutAsync(bench, number),
            new()
            {
                Paint = new Dictionary<string, Xyz> { ["A1"] = painted.ToXyz() },
                Paper = new Lab(95, 0, 3).ToXyz(),
                Tint = (1, 1, 1),
            }
        );
        var sent = await bench.DoneAsync<SendPhoto, SendPhotoSent>(send =>
            send.HandleAsync(number, picture, new() { State = "Dry" }, default)
        );
        async Task<Notebook.Reading> ReadAsync() =>
            (await bench.DoAsync<ShowPhoto, ShowPhotoAnswer?>(show => show.HandleAsync(number, sent.Id, default)))!
                .Swatches.Single(one => one.Cell == "A1")
                .Reading;
        var unsaid = await ReadAsync();

        var refused = await bench.DoAsync<MeasurePaper, Outcome<Guid>>(measure =>
            measure.ByPrintAsync(paper, new() { Black = "40" }, default)
        );
        Assert.Equal("Black", Assert.Single(refused.Problems).Field);

        // The drawn sheet's black reflects 4 % of its paper.
        await bench.DoneAsync<MeasurePaper, Guid>(measure => measure.ByPrintAsync(paper, new() { Black = "4" }, default));
        await bench.DoneAsync<PlaceSwatches, Guid>(place => place.AgainAsync(number, sent.Id, default));
        var said = await ReadAsync();
        Assert.True(said.UncertaintyDe00 < unsaid.UncertaintyDe00);
        Assert.InRange(Difference.Ciede2000(Lab.FromXyz(said.Colour), painted), 0, said.UncertaintyDe00);

        await using (var db = bench.Read())
        {
            var kept = await db.Materials.SingleAsync(one => one.Id == paper);
            Assert.Equal((4.0, "typed"), (kept.PrintedBlackPercent!.Value, kept.PrintedBlackMethod));
        }

        await bench.DoneAsync<MeasurePaper, Guid>(measure => measure.ByPrintAsync(paper, new() { Black = " " }, default));
        await using (var db = bench.Read())
            Assert.Null((await db.Materials.SingleAsync(one => one.Id == paper)).PrintedBlackPercent);
    }

    [Fact]
    public async Task A_card_in_the_picture_measures_the_paper_beside_it_and_a_scan_does_so_less_surely()
    {
        await using var bench = await Bench.SetUpAsync();
        var paper = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(null, new() { Name = "cream laid", Kind = "Paper" }, default)
        );
        Lab bare = new(91, 1, 10);
        var patches = Enumerable.Range(0, 24).Select(i => new Lab(20 + (3 * i), 30 * Math.Cos(i * 1.3), 30 * Math.Sin(i * 1.3))).ToList();
        var text =
            "CGATS.17\nILLUMINANT \"D65\"\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n"
            + "NUMBER_OF_SETS 24\nBEGIN_DATA\n"
            + string.Concat(
                patches.Select((patch, i) => FormattableString.Invariant($"{i + 1} {patch.L:0.00} {patch.A:0.00} {patch.B:0.00}\n"))
            )
            + "END_DATA\n";
        var picture = Card(patches, bare, warm: true);
        var photo = await bench.DoneAsync<MeasurePaper, Guid>(measure => measure.SendAsync(paper, picture, isScan: false, default));
        MeasurePaper.Pointed form = new()
        {
            Paper = "450, 560",
            Corner = ["100, 100", "700, 100", "700, 500", "100, 500"],
            Columns = "6",
            Rows = "4",
            Card = text,
        };
        await bench.DoneAsync<MeasurePaper, Guid>(measure => measure.ByPictureAsync(paper, photo, form, default));
        await HoldsAsync("card");

        // Turned by half, the card's file does not fit, and a place on the card is no paper.
        var turned = await bench.DoAsync<MeasurePaper, Outcome<Guid>>(measure =>
            measure.ByPictureAsync(paper, photo, form with { Corner = ["700, 500", "100, 500", "100, 100", "700, 100"] }, default)
        );
        Assert.Contains(turned.Problems, problem => problem.Field == "Corner");
        var edge = await bench.DoAsync<MeasurePaper, Outcome<Guid>>(measure =>
            measure.ByPictureAsync(paper, photo, form with { Paper = "100, 300" }, default)
        );
        Assert.Contains(edge.Problems, problem => problem.Field == "Paper");

        var scan = await bench.DoneAsync<MeasurePaper, Guid>(measure =>
            measure.SendAsync(paper, Card([], bare, warm: false), isScan: true, default)
        );
        await bench.DoneAsync<MeasurePaper, Guid>(measure => measure.ByPictureAsync(paper, scan, new() { Paper = "400, 300" }, default));
        await HoldsAsync("scan");

        async Task HoldsAsync(string method)
        {
            await using var db = bench.Read();
            var material = await db.Materials.SingleAsync(one => one.Id == paper);
            Assert.Equal(method, material.BareMethod);
            var off = Difference.Ciede2000(Lab.FromXyz(material.BareColour!.Value), bare);
            Assert.True(off <= material.BareUncertaintyDe00, $"{method}: {off:0.0} off, said ± {material.BareUncertaintyDe00:0.0}.");
        }
    }

    /// <summary>A card of six by four patches on bare paper, 800 by 600 pixels, in plain sRGB; in warm light or as a scanner sees
    /// it.</summary>
    private static byte[] Card(List<Lab> patches, Lab bare, bool warm)
    {
        using var bitmap = new SKBitmap(800, 600);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(Seen(bare, warm));
            for (var i = 0; i < patches.Count; i++)
            {
                using var fill = new SKPaint { Color = Seen(patches[i], warm) };
                canvas.DrawRect(SKRect.Create(100 + (100 * (i % 6)), 100 + (100 * (i / 6)), 100, 100), fill);
            }
        }

        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    private static SKColor Seen(Lab lab, bool warm)
    {
        var light = FileColour.Srgb.FromXyz(lab.ToXyz());
        byte One(double channel) => (byte)Math.Round(255 * FileColour.LinearToSrgb(Math.Clamp(channel, 0, 1)));
        return warm
            ? new SKColor(One(light.R * 0.86), One(light.G * 0.8), One(light.B * 0.66))
            : new SKColor(One(light.R), One(light.G), One(light.B));
    }

    private static Reading At(SwatchState state, Lab colour, int day, double uncertain) =>
        new()
        {
            Id = Guid.NewGuid(),
            WrittenAt = default,
            SwatchId = Guid.Empty,
            At = new DateTimeOffset(2025, 9, day, 12, 0, 0, TimeSpan.Zero),
            State = state,
            Colour = colour.ToXyz(),
            UncertaintyDe00 = uncertain,
            Source = ReadingSource.Photo,
        };

    private static async Task<SheetLayout> LayoutAsync(Bench bench, int number)
    {
        await using var db = bench.Read();
        return SheetLayout.Parse("layout", (await db.Charts.SingleAsync(one => one.Number == number)).LayoutJson).TryGet(out var layout)
            ? layout
            : throw new InvalidOperationException();
    }
}
