using System.Globalization;
using Dyewort.Colour;
using Dyewort.Imaging;
using Dyewort.Notebook;
using Dyewort.Numerics;
using Dyewort.Quantities;
using Dyewort.Readings;
using Dyewort.Store;
using Dyewort.Store.Sqlite;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Charts;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Dyewort.Workshop.Demo;

/// <summary>Fills an empty notebook with a season's invented work, step by step through the same use cases a maker goes through.</summary>
public static class MakeSeason
{
    private const string Paper = "cotton paper 300 g";

    /// <summary>Writes the season.</summary>
    /// <param name="folder">A folder without a notebook.</param>
    /// <param name="progress">Told what is being made.</param>
    /// <param name="only">Letters of the pots to make; all when null.</param>
    /// <exception cref="RefusalException">The folder holds a notebook already.</exception>
    public static async Task HandleAsync(
        string folder,
        Action<string> progress,
        CancellationToken cancel,
        IReadOnlyCollection<string>? only = null
    )
    {
        if (File.Exists(Path.Combine(folder, SqliteNotebook.FileName)))
            throw new RefusalException(
                "notebook",
                "This folder holds a notebook already.",
                "Choose an empty folder for the invented season, or none for a fresh one."
            );
        var clock = new SeasonClock(new DateTimeOffset(2025, 2, 7, 9, 0, 0, TimeSpan.Zero));
        await using var desk = await Desk.OpenAsync(folder, clock, cancel);
        progress("the pantry");
        await StockAsync(desk, cancel);
        var jars = TextTable.Embedded(typeof(MakeSeason), "season-jars.csv").Rows.ToLookup(line => line["pot"]);
        foreach (
            var line in TextTable
                .Embedded(typeof(MakeSeason), "season-pots.csv")
                .Rows.Where(line => only?.Contains(line["letters"]) ?? true)
                .OrderBy(line => line["made"], StringComparer.Ordinal)
        )
        {
            progress($"a pot of {line["plant"]}");
            await PotAsync(desk, clock, line, jars, cancel);
            if (line["recipe"].Length > 0)
                await BottleAsync(desk, clock, line, cancel);
        }
    }

    private static async Task StockAsync(IServiceProvider desk, CancellationToken cancel)
    {
        await DoAsync<StockCommon, int>(
            desk,
            stock =>
                stock.HandleAsync(
                    [
                        "alum",
                        "iron sulfate",
                        "bicarbonate of soda",
                        "soda ash",
                        "citric acid",
                        "white vinegar 5 %",
                        "chalk",
                        "tap water",
                        "rain water",
                        "gum arabic powder",
                        "whole cloves",
                        "clove oil",
                        "sodium benzoate",
                        "bottle 30 ml",
                    ],
                    cancel
                )
        );
        var paper = await DoAsync<SaveMaterial, Guid>(
            desk,
            save =>
                save.HandleAsync(
                    null,
                    new SaveMaterialForm
                    {
                        Name = Paper,
                        Kind = nameof(MaterialKind.Paper),
                        PaperKind = nameof(PaperKind.Natural),
                        Note = "chalk-buffered, surface pH about 8",
                    },
                    cancel
                )
        );
        await DoAsync<MeasurePaper, Guid>(
            desk,
            measure =>
                measure.ByInstrumentAsync(
                    paper,
                    new MeasurePaper.InstrumentFigures
                    {
                        Lab = "96.1 -0.4 2.6",
                        Illuminant = "D50",
                        Uncertainty = "0.6",
                    },
                    cancel
                )
        );
        await DoAsync<NotebookSettings, Guid>(
            desk,
            settings =>
                settings.SaveAsync(
                    new NotebookSettingsForm
                    {
                        Maker = "Maren Ostrick (invented)",
                        Place = "Tidewrack Loft, Saltmarl (invented)",
                        Currency = "u",
                    },
                    cancel
                )
        );
    }

    private static async Task PotAsync(
        ServiceProvider desk,
        SeasonClock clock,
        TextRow line,
        ILookup<string, TextRow> jars,
        CancellationToken cancel
    )
    {
        var made = DateOnly.ParseExact(line["made"], "yyyy-MM-dd", CultureInfo.InvariantCulture);
        clock.At(made, 9);
        if (
            !await DoAsync<NotebookDb, bool>(
                desk,
                async db => Outcome.Of(await db.Materials.AnyAsync(one => one.Name == line["plant"], cancel))
            )
        )
        {
            await DoAsync<SaveMaterial, Guid>(
                desk,
                save =>
                    save.HandleAsync(
                        null,
                        new SaveMaterialForm
                        {
                            Name = line["plant"],
                            Kind = nameof(MaterialKind.Plant),
                            Letters = line["letters"],
                            Caution = line["caution"],
                        },
                        cancel
                    )
            );
        }

        var code = await DoAsync<StartPot, string>(
            desk,
            start =>
                start.HandleAsync(
                    new StartPotForm
                    {
                        Plant = line["plant"],
                        MadeOn = line["made"],
                        GatheredOn = line["gathered"],
                        Place = line["place"],
                        LeaveFrom = line["leave"],
                        Covers = line["covers"],
                        Part = line["part"],
                        Condition = line["condition"],
                        PlantGrams = line["grams"],
                        Liquid = line["liquid"],
                        LiquidMl = line["ml"],
                        Vessel = line["vessel"],
                        How = line["how"],
                    },
                    cancel
                )
        );
        clock.At(made, 11);
        await LogAsync(
            desk,
            code,
            new AddToLogForm
            {
                Kind = nameof(LogKind.Strained),
                Ml = line["strained"],
                Said = "strained through cloth",
            },
            cancel
        );
        clock.At(made, 13);
        if (line["reduced"].Length > 0)
            await LogAsync(
                desk,
                code,
                new AddToLogForm
                {
                    Kind = nameof(LogKind.Reduced),
                    Ml = line["reduced"],
                    Said = "boiled down gently",
                },
                cancel
            );
        await LogAsync(desk, code, new AddToLogForm { Ph = line["pH"], Said = line["said"] }, cancel);

        var samples = jars[code].ToList();
        if (samples.Count == 0)
            return;
        clock.At(made.AddDays(1), 9);
        var letter = await DoAsync<SplitPot, string>(
            desk,
            split =>
                split.HandleAsync(
                    code,
                    new SplitPotForm
                    {
                        Jars = samples.Count.ToString(CultureInfo.InvariantCulture),
                        VolumeMl = "20",
                        Kind = nameof(TrialKind.Singles),
                        Title = $"{char.ToUpperInvariant(line["plant"][0])}{line["plant"][1..]}, {samples.Count} jars",
                    },
                    cancel
                )
        );
        for (var index = 0; index < samples.Count; index++)
        {
            clock.Later(TimeSpan.FromMinutes(4));
            await FillAsync(desk, code, $"{letter}{index + 1}", samples[index], cancel);
        }

        await ChartAsync(
            desk,
            clock,
            code,
            letter,
            samples,
            [.. line["photos"].Split(' ').Select(Enum.Parse<SwatchState>)],
            made.AddDays(1),
            cancel
        );
    }

    private static async Task FillAsync(IServiceProvider desk, string code, string jar, TextRow sample, CancellationToken cancel)
    {
        foreach (var addition in sample["additions"].Split(" + ", StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = addition.Split('=');
            var material = await DoAsync<NotebookDb, Guid>(
                desk,
                async db => Outcome.Of((await db.Materials.Counting().SingleAsync(one => one.Name == parts[0], cancel)).Id)
            );
            await DoAsync<AddToSample, Guid>(
                desk,
                add => add.HandleAsync(code, jar, new AddToSampleForm { Material = material.ToString(), Amount = parts[1] }, cancel)
            );
        }

        var ph = sample["additions"].Length > 0 ? sample["pH"] : null;
        if (ph is not null || sample["said"].Length > 0)
            await DoAsync<AddToSample, Guid>(
                desk,
                add => add.NoteAsync(code, jar, new AddToSample.Seen { Ph = ph, Said = sample["said"] }, cancel)
            );
    }

    private static async Task ChartAsync(
        ServiceProvider desk,
        SeasonClock clock,
        string code,
        string letter,
        List<TextRow> samples,
        IReadOnlyList<SwatchState> states,
        DateOnly painted,
        CancellationToken cancel
    )
    {
        var paper = await DoAsync<NotebookDb, Guid>(
            desk,
            async db => Outcome.Of((await db.Materials.SingleAsync(one => one.Name == Paper, cancel)).Id)
        );
        var chart = await DoAsync<StartChart, string>(
            desk,
            start => start.HandleAsync(code, letter, new StartChartForm { Page = "A5", Paper = paper.ToString() }, cancel)
        );
        var number = int.Parse(chart.AsSpan(1), CultureInfo.InvariantCulture);
        foreach (var state in states)
        {
            clock.At(state == SwatchState.Aged ? painted.AddDays(7) : painted, state == SwatchState.Wet ? 15 : 17);
            var picture = await DoAsync<NotebookDb, byte[]>(
                desk,
                async db =>
                {
                    var entry = await db.Charts.AsNoTracking().SingleAsync(one => one.Number == number, cancel);
                    var cells = await db
                        .Swatches.AsNoTracking()
                        .Where(swatch => swatch.ChartId == entry.Id)
                        .OrderBy(swatch => swatch.Id)
                        .Select(swatch => swatch.Cell)
                        .ToListAsync(cancel);
                    return Outcome.Of(
                        SheetPicture.Draw(
                            ChartSheet.LayoutOf(entry),
                            new SheetShot
                            {
                                Paint = cells
                                    .Select((cell, index) => (cell, Colour: ColourOf(samples[index], state)))
                                    .ToDictionary(one => one.cell, one => one.Colour),
                                Paper = Adaptation.FromD50(new Lab(96.1, -0.4, 2.6).ToXyz(WhitePoint.D50)),
                                Seed = (10 * number) + (int)state,
                                Shade = state == SwatchState.Wet ? 0.8 : 0.68,
                            }
                        )
                    );
                }
            );
            await DoAsync<SendPhoto, SendPhotoSent>(
                desk,
                send => send.HandleAsync(number, picture, new SendPhotoForm { State = state.ToString() }, cancel)
            );
        }

        if (number == 1)
            await LightAsync(desk, clock, number, samples, painted, cancel);
    }

    // What a month in the window did to the first chart, of which the right halves were covered, and two squares under a borrowed
    // instrument.
    private static async Task LightAsync(
        ServiceProvider desk,
        SeasonClock clock,
        int number,
        List<TextRow> samples,
        DateOnly painted,
        CancellationToken cancel
    )
    {
        clock.At(painted.AddDays(2), 11);
        var cells = await DoAsync<NotebookDb, List<string>>(
            desk,
            async db =>
                Outcome.Of(
                    await (
                        from swatch in db.Swatches
                        join chart in db.Charts on swatch.ChartId equals chart.Id
                        where chart.Number == number
                        orderby swatch.Id
                        select swatch.Cell
                    ).ToListAsync(cancel)
                )
        );
        await DoAsync<AddInstrumentReadings, int>(
            desk,
            add =>
                add.HandleAsync(
                    number,
                    new AddInstrumentReadingsForm
                    {
                        State = nameof(SwatchState.Dry),
                        Illuminant = "D65",
                        With = "a borrowed spectrophotometer (invented)",
                        Values = cells
                            .Take(2)
                            .Select((cell, index) => (cell, Lab: Lab.FromXyz(ColourOf(samples[index], SwatchState.Dry))))
                            .ToDictionary(
                                one => one.cell,
                                one => FormattableString.Invariant($"{one.Lab.L + 0.3:0.0} {one.Lab.A - 0.2:0.0} {one.Lab.B + 0.3:0.0}")
                            ),
                    },
                    cancel
                )
        );
        clock.At(painted.AddDays(30), 12);
        var picture = await DoAsync<NotebookDb, byte[]>(
            desk,
            async db =>
            {
                var layout = ChartSheet.LayoutOf(await db.Charts.AsNoTracking().SingleAsync(one => one.Number == number, cancel));
                var paint = new Dictionary<string, Xyz>();
                foreach (var (cell, index) in cells.Select((cell, index) => (cell, index)))
                {
                    var kept = Lab.FromXyz(ColourOf(samples[index], SwatchState.Dry));
                    paint[cell] = kept.ToXyz();
                    paint[$"{cell} open"] = new Lab(kept.L + ((95 - kept.L) * 0.12), kept.A * 0.8, kept.B * 0.85).ToXyz();
                }

                var halves = layout.Cells.SelectMany(cell =>
                {
                    double left = cell.PolygonMm[0].X,
                        top = cell.PolygonMm[0].Y,
                        right = cell.PolygonMm[2].X,
                        bottom = cell.PolygonMm[2].Y,
                        x = (left + right) / 2;
                    return (SheetCell[])
                        [
                            new($"{cell.Id} open", [new(left, top), new(x, top), new(x, bottom), new(left, bottom)]),
                            new(cell.Id, [new(x, top), new(right, top), new(right, bottom), new(x, bottom)]),
                        ];
                });
                return Outcome.Of(
                    SheetPicture.Draw(
                        layout with
                        {
                            Cells = [.. halves],
                        },
                        new SheetShot
                        {
                            Paint = paint,
                            Paper = Adaptation.FromD50(new Lab(96.1, -0.4, 2.6).ToXyz(WhitePoint.D50)),
                            Seed = (10 * number) + 9,
                            Shade = 0.75,
                        }
                    )
                );
            }
        );
        await DoAsync<SendPhoto, SendPhotoSent>(
            desk,
            send =>
                send.HandleAsync(
                    number,
                    picture,
                    new SendPhotoForm
                    {
                        State = nameof(SwatchState.Exposed),
                        Covered = nameof(CoveredHalf.Right),
                        ExposedHours = "150",
                        ExposedTo = "south window, behind glass",
                    },
                    cancel
                )
        );
    }

    private static async Task BottleAsync(ServiceProvider desk, SeasonClock clock, TextRow line, CancellationToken cancel)
    {
        var made = DateOnly.ParseExact(line["bottled"], "yyyy-MM-dd", CultureInfo.InvariantCulture);
        clock.At(made, 10);
        var (pot, swatch, container) = await DoAsync<NotebookDb, (string, Guid, Guid)>(
            desk,
            async db =>
            {
                var found = await (
                    from one in db.Swatches
                    join sample in db.Samples on one.SampleId equals sample.Id
                    join source in db.Pots on sample.PotId equals source.Id
                    where sample.Jar == line["jar"] && source.Code.StartsWith(line["letters"])
                    select new { Pot = source.Code, Swatch = one.Id }
                ).SingleAsync(cancel);
                return Outcome.Of(
                    (found.Pot, found.Swatch, (await db.Materials.SingleAsync(one => one.Name == "bottle 30 ml", cancel)).Id)
                );
            }
        );
        var recipe = await DoAsync<KeepRecipe, string>(
            desk,
            keep =>
                keep.HandleAsync(
                    new KeepRecipeForm
                    {
                        Swatch = swatch.ToString(),
                        Name = line["recipe"],
                        KeepMonths = "12",
                        Caution = line["label"],
                    },
                    cancel
                )
        );
        var batch = await DoAsync<StartBatch, string>(
            desk,
            start =>
                start.HandleAsync(
                    recipe,
                    new StartBatchForm
                    {
                        Volume = line["batch"],
                        Pot = pot,
                        MadeOn = line["bottled"],
                    },
                    cancel
                )
        );
        clock.At(made, 12);
        await DoAsync<FillBottles, int>(
            desk,
            fill =>
                fill.HandleAsync(
                    batch,
                    new FillBottlesForm
                    {
                        Container = container.ToString(),
                        FillMl = "29",
                        FilledOn = line["bottled"],
                        Place = "cool shelf (invented)",
                    },
                    cancel
                )
        );
    }

    // Wet washes are invented from the dry ones: a little darker and stronger, as wet paint mostly is.
    private static Xyz ColourOf(TextRow sample, SwatchState state)
    {
        var which = state == SwatchState.Aged ? "later" : "dry";
        var lab = new Lab(Number(sample[$"{which}L"]), Number(sample[$"{which}A"]), Number(sample[$"{which}B"]));
        if (state == SwatchState.Wet)
            lab = new Lab(Math.Max(8, lab.L - 5), (lab.A * 1.15) + 2, lab.B * 1.1);
        return Adaptation.FromD50(lab.ToXyz(WhitePoint.D50));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static Task<Guid> LogAsync(IServiceProvider desk, string code, AddToLogForm form, CancellationToken cancel) =>
        DoAsync<AddToLog, Guid>(desk, add => add.HandleAsync(code, form, cancel));

    /// <summary>Does one step with services of its own; a refusal here is a fault of the season.</summary>
    private static async Task<T> DoAsync<TUse, T>(IServiceProvider desk, Func<TUse, Task<Outcome<T>>> step)
        where TUse : notnull
        where T : notnull
    {
        await using var scope = desk.CreateAsyncScope();
        var outcome = await step(scope.ServiceProvider.GetRequiredService<TUse>());
        return outcome.TryGet(out var made) ? made : throw new RefusalException(outcome.Problems);
    }

    /// <summary>A clock that stands on the day the season is at.</summary>
    private sealed class SeasonClock(DateTimeOffset now) : TimeProvider
    {
        private DateTimeOffset now = now;

        public override TimeZoneInfo LocalTimeZone => TimeZoneInfo.Utc;

        public override DateTimeOffset GetUtcNow() => now = now.AddMilliseconds(1);

        public void At(DateOnly day, int hour) => now = new DateTimeOffset(day.ToDateTime(new TimeOnly(hour, 0)), TimeSpan.Zero);

        public void Later(TimeSpan time) => now += time;
    }
}
