using System.Globalization;
using Dyewort.Colour;
using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>What is done with the trials of a notebook: a trial of alum on a pot, painted and read, and everything that is asked of
/// it.</summary>
public sealed class ResponseFromNotebookTests : IAsyncLifetime
{
    private static readonly double[] Ladder = [0, 0.05, 0.1, 0.2, 0.4, 0.8];
    private Bench bench = null!;

    public async ValueTask InitializeAsync() => bench = await Bench.SetUpAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task Before_there_are_enough_trials_nothing_is_guessed()
    {
        var answer = await MatchAsync(Wanted("#5b3f7a"));
        Assert.Empty(answer.Ways);
        Assert.Contains("Not enough trials yet", Assert.Single(answer.NotYet).What, StringComparison.Ordinal);
        Assert.Contains(
            "Not enough trials yet",
            (await bench.DoAsync<TeachPlant, TeachPlantAnswer?>(teach => teach.HandleAsync("elderberry", default)))!.NotYet!.What,
            StringComparison.Ordinal
        );
        Assert.False((await AdviceAsync("A2", "1/4 tsp"))!.TryGet(out _));
        Assert.Null(await bench.DoAsync<TeachPlant, TeachPlantAnswer?>(teach => teach.HandleAsync("weld", default)));
    }

    [Fact]
    public async Task A_tested_colour_is_found_again_with_amounts_for_the_volume_and_a_caution()
    {
        await PaintLadderAsync();
        var answer = await MatchAsync(Wanted(Text(ColourAt(0.4))), 1000);
        Assert.True(answer.Reached, answer.Why);
        var asIs = answer.Ways.First(way => way.Proposal.Kind == MatchKind.AsIs);
        Assert.Equal("EB25-1 B5", asIs.Proposal.Sample);
        Assert.True(asIs.Proposal.ExpectedDe00 < 1.5, $"off by {asIs.Proposal.ExpectedDe00}");

        // 0.4 g in 20 ml are 20 g in a litre; a level teaspoon weighs 4.8 g.
        var dose = Assert.Single(asIs.Pours[0].Doses);
        Assert.Equal(("alum", 20.0, "20 g"), (dose.Material.Name, Math.Round(dose.Grams, 6), dose.Amount));
        Assert.Equal(20 / 4.8, dose.Teaspoons!.Value, 1e-6);
        Assert.True(asIs.Pours[0].TooLittle);
        Assert.Contains(asIs.Cautions, caution => caution.Of == "alum");
        Assert.Contains(asIs.Cautions, caution => caution.Of.StartsWith("elder", StringComparison.Ordinal));
        Assert.Equal("elderberry", answer.NearestPlant);
    }

    [Fact]
    public async Task Jars_that_hold_the_same_are_one_way_and_not_several()
    {
        double[] grams = [0, 0.1, 0.2, 0.4, 0.4, 0.4, 0.8];
        await PaintLadderAsync(grams, grams);
        var ways = (await MatchAsync(Wanted(Text(ColourAt(0.4))))).Ways;
        Assert.Single(ways, way => way.Pours is [{ Doses: [{ Amount: "2 g" }] }] && way.WaterMl == 0);
        Assert.Single(ways, way => way.Proposal.Kind == MatchKind.AsIs && way.Pours[0].Code is "EB25-1 B4" or "EB25-1 B5" or "EB25-1 B6");
    }

    [Fact]
    public async Task A_colour_out_of_reach_is_said_to_be_and_the_nearest_is_named()
    {
        await PaintLadderAsync();
        var answer = await MatchAsync(Wanted("#00c040"));
        Assert.False(answer.Reached);
        Assert.NotEmpty(answer.Why);
        var trials = await TrialsAsync();
        var asked = await bench.DoAsync<ShowReach, Outcome<ShowReachAnswer>?>(reach =>
            reach.HandleAsync(trials, answer.NearestPlant, "", Lab.FromXyz(answer.Wanted.Colour), default)
        );
        Assert.True(asked!.TryGet(out var shown));
        Assert.False(shown.Nearest!.Reached);
        Assert.True(shown.Nearest.De00 > 20);
        Assert.Equal(7, shown.Tested.Count);
    }

    [Fact]
    public async Task A_swatch_and_a_nonsense_volume_are_understood_as_such()
    {
        await PaintLadderAsync();
        var wish = await bench.DoneAsync<FindWish, Wish>(find => find.OfSwatchAsync(bench.Square, default));
        Assert.Equal(("C3 B2, as it was read", 1.2, Thing.Swatch("C3", "B2")), (wish.ReadAs, wish.UncertaintyDe00, wish.Thing));
        var trials = await TrialsAsync();
        var refused = await bench.DoAsync<MatchColour, Outcome<MatchColourAnswer>>(match =>
            match.HandleAsync(
                new()
                {
                    Wanted = wish,
                    Volume = Volume.FromMillilitres(0.5),
                    Paper = "silk",
                },
                trials,
                default
            )
        );
        Assert.Equal(["Paper", "Volume"], refused.Problems.Select(problem => problem.Field).Order());
    }

    [Fact]
    public async Task The_notebook_and_a_file_of_the_same_trials_give_the_same_answers()
    {
        await PaintLadderAsync();
        var notebook = await TrialsAsync();
        Assert.True(TrialTable.Parse("trials", Csv(notebook.Table), needColours: true).TryGet(out var table));
        var file = TrialSource.Of(table);
        Assert.Equal(notebook.Plants, file.Plants);
        Assert.Equal(Csv(notebook.Table), Csv(file.Table));
        var alum = await MaterialAsync("alum");
        var shelf = new ModelShelf();
        var answers = new List<string>();
        foreach (var trials in new[] { notebook, file })
        {
            var said = new List<string>();
            void Say(FormattableString text) => said.Add(FormattableString.Invariant(text));
            var asked = await new MatchColour(shelf).HandleAsync(new() { Wanted = Wanted(Text(ColourAt(0.3))) }, trials, default);
            Assert.True(asked.TryGet(out var match));
            foreach (var way in match.Ways)
            {
                var grams = way.Pours[0].Doses.Sum(dose => dose.Grams);
                Say($"{way.Proposal.Kind} {way.Proposal.ExpectedDe00:0.000} {way.Pours[0].Code} {grams:0.000}");
            }

            Assert.NotEmpty(match.Ways);

            var point = trials.Table.Points.Single(one => one.Sample == "EB25-1 B3");
            Assert.True(Amount.Parse("step", "0.2 g").TryGet(out var amount));
            var next = await new ForetellStep(shelf).HandleAsync(
                new()
                {
                    Jar = point,
                    Volume = Volume.FromMillilitres(20),
                    Material = trials.MaterialOf("alum"),
                    Amount = amount,
                },
                trials,
                default
            );
            Assert.True(next!.TryGet(out var step));
            Say($"{step.Step.ExpectedDe00:0.000} {step.Step.ChanceSeen:0.000} {step.JustSeen?.Grams:0.000}");

            var wrong = await new CorrectBatch(shelf).HandleAsync(
                new()
                {
                    Believed = point,
                    Measured = ColourAt(0.1),
                    Wanted = ColourAt(0.4),
                    Millilitres = 100,
                },
                trials,
                default
            );
            Assert.True(wrong!.TryGet(out var correction));
            foreach (var way in correction.Ways)
                Say($"{way.Correction.Kind} {way.Correction.ExpectedDe00:0.000} {way.Doses.Sum(dose => dose.Grams):0.000}");

            var looked = await new FindSlips(shelf).HandleAsync(trials, "elderberry", default);
            Assert.True(looked!.TryGet(out var slips));
            Say($"{slips.Looked} {string.Join(' ', slips.Jars.Select(jar => jar.Row.Point.Sample))}");

            var compared = new CompareRepeats().Handle(
                [ComparedSquares.Of(trials, "EB25-1 B1")!],
                [ComparedSquares.Of(trials, "EB25-1 B6")!],
                trials
            );
            Assert.True(compared.TryGet(out var repeats));
            Say($"{repeats.Found.Verdict} {repeats.Found.De00:0.000} {repeats.Found.ByChance:0.0000}");

            Assert.True(new ChooseBottles().Handle(new() { Count = 3 }, trials, default).TryGet(out var chosen));
            Say($"{string.Join(' ', chosen.Samples)} {chosen.Value:0.000} {chosen.OutOf}");

            var reached = await new ShowReach(shelf).HandleAsync(trials, "", "", ColourAt(0.2), default);
            Assert.True(reached!.TryGet(out var reach));
            Say($"{reach.Reach.DarkestL:0.000} {reach.Nearest!.De00:0.000}");

            var planned = await new PlanTrial(shelf).HandleAsync(
                new()
                {
                    Kind = PlanKind.Ladder,
                    Additions = [trials.MaterialOf("alum")],
                    Count = 5,
                    Sample = Volume.FromMillilitres(20),
                    Measure = BenchMeasure.FineScale,
                },
                trials,
                default
            );
            Assert.True(planned!.TryGet(out var plan));
            foreach (var jar in plan.Jars)
                Say($"{jar.Number} {string.Join(' ', jar.Doses.Select(dose => dose.Say))} {jar.UncertaintyDe00:0.000}");
            answers.Add(string.Join('\n', said));
        }

        Assert.Equal(answers[0], answers[1]);
        Assert.Equal(alum.Id, notebook.MaterialOf("alum").Id);
    }

    /// <summary>The table as a maker would have typed it.</summary>
    private static string Csv(TrialTable table)
    {
        static string Number(double? number) => number?.ToString("R", CultureInfo.InvariantCulture) ?? "";
        var lines = table.Rows.Select(row =>
            string.Join(
                ',',
                [
                    row.Point.Sample,
                    row.Point.Plant,
                    row.Point.Pot,
                    .. table.Additions.Select(name => Number(row.Point.Dose(name))),
                    Number(row.Point.Ph),
                    Number(row.Point.Wash),
                    Number(row.Point.Coats),
                    row.Point.Paper,
                    row.Point.State,
                    Number(row.Point.LeftMillilitres),
                    Number(row.UncertaintyDe00),
                    Number(row.Colour.L),
                    Number(row.Colour.A),
                    Number(row.Colour.B),
                ]
            )
        );
        var doses = string.Concat(table.Additions.Select(name => $"{name} g/L,"));
        return string.Join('\n', [$"sample,plant,pot,{doses}pH,wash,coats,paper,state,left ml,u95,L,a,b", .. lines]);
    }

    [Fact]
    public async Task The_trials_teach_what_alum_does_and_how_well_they_foretell()
    {
        await PaintLadderAsync();
        var answer = (await bench.DoAsync<TeachPlant, TeachPlantAnswer?>(teach => teach.HandleAsync("Elderberry", default)))!;
        Assert.Null(answer.NotYet);
        var alum = Assert.Single(answer.Strips, strip => strip.Material.Name == "alum");
        Assert.Contains("bluer", alum.Move, StringComparison.Ordinal);
        Assert.Equal((0.0, 40.0), (alum.Steps[0].GramsPerLitre, Math.Round(alum.Steps[^1].GramsPerLitre, 6)));
        Assert.Equal(7, alum.Steps.Count);
        Assert.Equal(answer.Readings, answer.LeftOut!.Readings.Count);
        Assert.InRange(answer.LeftOut.MeanDe00, 0.01, 12);
    }

    [Fact]
    public async Task The_jars_page_the_trials_and_the_next_step_believe_one_thing_of_a_pots_liquor()
    {
        await PaintLadderAsync();
        await bench.DoneAsync<AddToLog, Guid>(log => log.HandleAsync(bench.Pot, new() { Kind = "Ph", Ph = "4.6" }, default));
        await bench.DoneAsync<AddToSample, Guid>(add => add.NoteAsync(bench.Pot, "A2", new() { Ph = "3.4" }, default));
        var page = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, "A2", default)))!.Chemistry!.Liquor;
        var (table, jar) = await bench.DoAsync<NotebookTrials, (TrialTable, TrialPoint)>(async trials =>
        {
            await using var db = bench.Read();
            var sample = await db.Samples.SingleAsync(one => one.Jar == "A2");
            return ((await trials.HandleAsync(default)).Table, (await trials.PointAsync(sample.Id, null, default))!);
        });
        Assert.True(new ModelShelf().Of(table, jar.Plant).TryGet(out var model));
        Assert.StartsWith("From 2 pH notes: pH ", page, StringComparison.Ordinal);
        Assert.Equal(page, model.Ph.LiquorOf(bench.Pot).Buffer.Words());
        Assert.Equal(page, model.Ph.LiquorOf(jar).Buffer.Words());
    }

    [Fact]
    public async Task At_the_bench_the_first_pinch_shows_and_the_last_does_not()
    {
        await PaintLadderAsync();
        var first = await NextAsync("B1", "0.4 g");
        Assert.True(first.ChanceSeen > 0.9, first.Words);
        Assert.True(first.After.B < first.Before.B - 5);
        var last = await NextAsync("B6", "0.01 g");
        Assert.True(last.ExpectedDe00 < 1.5, last.Words);
        Assert.True(last.ChanceSeen < first.ChanceSeen);
        Assert.Contains("weighs", Assert.Single((await AdviceAsync("B6", "2 pieces"))!.Problems).What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_planned_ladder_is_set_out_with_jars_tags_and_a_sheet()
    {
        await PaintLadderAsync();
        var alum = (await MaterialAsync("alum")).Id;
        var trials = await TrialsAsync();
        var desk = (await bench.DoAsync<OfferTrial, OfferTrialAnswer?>(offer => offer.HandleAsync(bench.Pot, trials, default)))!;
        Assert.Equal(790 - 60 - 120, desk.LeftMl);
        Assert.Contains(alum, desk.Tested);
        var plan = await PlanAsync(
            trials,
            new()
            {
                Kind = PlanKind.Ladder,
                Plant = desk.Plant,
                Pot = bench.Pot,
                Additions = [await MaterialAsync("alum")],
                Count = 5,
                Sample = Volume.FromMillilitres(20),
                Left = Volume.FromMillilitres(desk.LeftMl!.Value),
                Measure = BenchMeasure.FineScale,
            }
        );
        Assert.Equal(5, plan.Jars.Count);
        Assert.Empty(plan.Jars[0].Doses);
        Assert.Equal(0.8, plan.Jars[^1].Doses[0].Dose.Grams, 1e-9);
        Assert.All(plan.Jars.Skip(1), jar => Assert.Equal(Math.Round(jar.Doses[0].Dose.Grams, 2), jar.Doses[0].Dose.Grams, 1e-9));

        // Even in look: no step is much wider than another.
        var steps = plan.Jars.Skip(1).Select(jar => jar.StepDe00!.Value).ToList();
        Assert.True(steps.Max() < 2 * steps.Min(), string.Join(' ', steps));

        var letter = await bench.DoneAsync<MakePlan, string>(make =>
            make.HandleAsync(
                bench.Pot,
                new()
                {
                    Title = "alum again",
                    VolumeMl = "20",
                    Kind = nameof(TrialKind.Ladder),
                    Jar = [.. plan.Jars.Select(jar => string.Join('|', jar.Doses.Select(dose => $"{dose.Dose.Material.Id}={dose.Say}")))],
                },
                default
            )
        );
        await using var db = bench.Read();
        var trial = await db.Trials.SingleAsync(one => one.Letter == letter);
        var jars = await db.Samples.Where(one => one.TrialId == trial.Id).OrderBy(one => one.Id).ToListAsync();
        Assert.Equal((TrialKind.Ladder, 5), (trial.Kind, jars.Count));
        Assert.Null(jars[0].Said);
        Assert.DoesNotContain(await db.PlannedSteps.ToListAsync(), step => step.SampleId == jars[0].Id);

        // A plan names the material and not its name: another name leaves the plan as it is.
        (await db.Materials.SingleAsync(material => material.Name == "alum")).Name = "alum, the blue jar";
        await db.SaveChangesAsync();
        var planned = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, jars[^1].Jar, default)))!.Jar;
        Assert.Equal("alum, the blue jar 0.8 g", planned.Plan);
        Assert.Equal([("alum, the blue jar", 0.8)], planned.Planned.Select(one => (one.Material.Name, one.Step.Amount.Grams!.Value)));
        Assert.Single(await db.Charts.Where(one => one.TrialId == trial.Id).ToListAsync());
        var tags = await bench.DoAsync<MakePlan, Outcome<byte[]>?>(make => make.TagsAsync(bench.Pot, letter, default));
        Assert.True(tags!.TryGet(out var pdf) && pdf.AsSpan(0, 5).SequenceEqual("%PDF-"u8));
    }

    [Fact]
    public async Task Before_any_trial_two_additions_are_spread_by_their_usual_doses_within_the_liquor()
    {
        var trials = await TrialsAsync();
        var form = new PlanTrialForm
        {
            Kind = PlanKind.Spread,
            Plant = "elderberry",
            Additions = [await MaterialAsync("alum"), await MaterialAsync("white vinegar 5 %")],
            Count = 60,
            Sample = Volume.FromMillilitres(100),
            Left = Volume.FromMillilitres(790 - 60),
        };
        var plan = await PlanAsync(trials, form);
        Assert.Equal(7, plan.Jars.Count);
        Assert.All(plan.Jars, jar => Assert.Null(jar.Expected));
        Assert.Contains(plan.Jars, jar => jar.Doses.Count == 2);
        Assert.Contains(plan.Notes, note => note.Contains("fills 7", StringComparison.Ordinal));
        var refused = await bench.DoAsync<PlanTrial, Outcome<PlanTrialAnswer>?>(one =>
            one.HandleAsync(form with { Sample = Volume.FromMillilitres(800) }, trials, default)
        );
        Assert.Contains(refused!.Problems, problem => problem.Field == nameof(form.Sample) || problem.Field == nameof(form.Left));
        Assert.False(
            (
                await bench.DoAsync<PlanTrial, Outcome<PlanTrialAnswer>?>(one =>
                    one.HandleAsync(form with { Kind = PlanKind.Next }, trials, default)
                )
            )!.TryGet(out _)
        );
    }

    [Fact]
    public async Task Bottles_are_chosen_from_what_was_painted_and_has_liquor_left()
    {
        await PaintLadderAsync();
        var trials = await TrialsAsync();
        Assert.True(new ChooseBottles().Handle(new() { Count = 2 }, trials, default).TryGet(out var answer));
        Assert.Equal(["EB25-1 B1", "EB25-1 B6"], answer.Samples.Order());
        Assert.Equal(
            "Count",
            Assert.Single(new ChooseBottles().Handle(new() { Count = 2, BottleMillilitres = 5000 }, trials, default).Problems).Field
        );
    }

    [Fact]
    public async Task A_jar_that_got_ten_times_the_alum_is_doubted_and_put_right_with_what_was_written_kept()
    {
        await PaintLadderAsync([0, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.6, 0.8], [0, 0.02, 0.5, 0.1, 0.15, 0.2, 0.3, 0.4, 0.6, 0.8]);
        var jar = Assert.Single(await DoubtedAsync(), one => one.Row.Point.Sample == "EB25-1 B3");
        var slips = jar.Slips.ToList();
        var place = slips.FindIndex(slip => slip.Kind == SlipKind.TenTimes && slip.Meant.Dose("alum") > 5);
        Assert.True(place >= 0, string.Join(" | ", slips.Select(slip => slip.Words)));
        Assert.Equal(
            "elderberry",
            await bench.DoneAsync<PutJarRight, string>(put =>
                put.HandleAsync(
                    "elderberry",
                    new() { Sample = jar.Row.Point.Sample, Slip = place.ToString(System.Globalization.CultureInfo.InvariantCulture) },
                    default
                )
            )
        );
        await using (var db = bench.Read())
        {
            var sample = (await db.Samples.SingleAsync(one => one.Jar == "B3")).Id;
            var steps = await db
                .Additions.Where(one => one.SampleId == sample)
                .OrderBy(one => one.Step)
                .ThenBy(one => one.Id)
                .ToListAsync();
            Assert.Equal([0.05, 0.5], steps.Select(step => Math.Round(step.Amount.Grams!.Value, 6)));
            Assert.Equal([false, true], steps.Select(step => step.Counts));
            Assert.Contains("put right", steps[0].WithdrawnWhy, StringComparison.Ordinal);
        }

        Assert.DoesNotContain(await DoubtedAsync(), one => one.Row.Point.Sample == "EB25-1 B3");
        Assert.False(
            (
                await bench.DoAsync<PutJarRight, Outcome<string>>(put =>
                    put.HandleAsync("elderberry", new() { Sample = "EB25-1 B3", Slip = "0" }, default)
                )
            ).TryGet(out _)
        );
    }

    [Fact]
    public async Task Two_samples_differ_really_or_not_and_never_from_themselves()
    {
        await PaintLadderAsync();
        Assert.True(
            (await CompareAsync("EB25-1 B1", "EB25-1 B6")).TryGet(out var far) && far.Found.Verdict == DifferenceVerdict.Really,
            far?.Found.Words
        );
        Assert.True(
            (await CompareAsync("EB25-1 B2", "EB25-1 B3")).TryGet(out var near)
                && near.Found.Verdict != DifferenceVerdict.No
                && near.Found.De00 < far!.Found.De00,
            near?.Found.Words
        );
        Assert.False((await CompareAsync("EB25-1 B1", "EB25-1 B1")).TryGet(out _));
    }

    [Fact]
    public async Task A_batch_with_too_little_alum_is_told_to_take_more()
    {
        await PaintLadderAsync();
        Guid swatch;
        await using (var db = bench.Read())
            swatch = (await db.Swatches.SingleAsync(one => one.Cell == "A5")).Id;
        var recipe = await bench.DoneAsync<Recipes.KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = swatch.ToString(), Name = "Dusk" }, default)
        );
        var batch = await bench.DoneAsync<Batches.StartBatch, string>(start =>
            start.HandleAsync(recipe, new() { Volume = "100 ml", Pot = bench.Pot }, default)
        );

        // A quarter of the recipe's 2 g went in, as the scale said.
        await bench.DoneAsync<Batches.MeasureBatch, string>(measure =>
            measure.HandleAsync(batch, new(), new Dictionary<int, string?> { [1] = "0.5 g" }, default)
        );
        var (found, answer) = await CorrectAsync(batch, ColourAt(0.1));
        Assert.True(found!.De00 > 5);
        var best = answer!.Ways[0];
        Assert.True(best.Correction.ExpectedDe00 < found.De00 / 2, best.Correction.Words);
        Assert.Contains(best.Doses, dose => dose.Material.Name == "alum" && dose.Grams > 0.1);
        Assert.Contains(best.Cautions, caution => caution.Of == "alum");
        Assert.Null((await CorrectAsync("ZZZ", null)).Found);
    }

    [Fact]
    public async Task The_colour_kept_with_a_batch_puts_it_right_and_tells_it_from_another()
    {
        await PaintLadderAsync();
        Guid swatch;
        await using (var db = bench.Read())
            swatch = (await db.Swatches.SingleAsync(one => one.Cell == "A5")).Id;
        var recipe = await bench.DoneAsync<Recipes.KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = swatch.ToString(), Name = "Dusk" }, default)
        );
        var batches = new List<string>();
        foreach (var grams in new[] { 0.1, 0.4 })
        {
            var code = await bench.DoneAsync<Batches.StartBatch, string>(start =>
                start.HandleAsync(recipe, new() { Volume = "100 ml", Pot = bench.Pot }, default)
            );
            foreach (var off in new[] { -0.2, 0.2 })
            {
                var colour = ColourAt(grams) with { L = ColourAt(grams).L + off };
                Assert.Equal(
                    code,
                    await bench.DoneAsync<Batches.KeepBatchColour, string>(keep =>
                        keep.HandleAsync(code, new() { C = Text(colour) }, default)
                    )
                );
            }

            batches.Add(code);
        }

        var (fromKept, ways) = await CorrectAsync(batches[0], null);
        var (fromTyped, _) = await CorrectAsync(batches[0], ColourAt(0.1));
        Assert.InRange(fromKept!.De00, fromTyped!.De00 - 0.05, fromTyped.De00 + 0.05);
        Assert.NotEmpty(ways!.Ways);
        Assert.True(
            (await CompareAsync($"batch {batches[0]}", $"batch {batches[1]}")).TryGet(out var apart)
                && apart.Found.Verdict == DifferenceVerdict.Really,
            apart?.Found.Words
        );
        Assert.True(
            (await CompareAsync($"batch {batches[1]}", "EB25-1 B5")).TryGet(out var near) && near.Found.Verdict != DifferenceVerdict.Really,
            near?.Found.Words
        );

        await using (var db = bench.Read())
            swatch = await (
                from one in db.BatchReadings
                join batch in db.Batches on one.BatchId equals batch.Id
                where batch.Code == batches[0]
                select one.Id
            ).FirstAsync();
        await bench.DoneAsync<Batches.KeepBatchColour, string>(keep => keep.TakeBackAsync(batches[0], swatch.ToString(), default));
        Assert.False(
            (
                await bench.DoAsync<Batches.KeepBatchColour, Outcome<string>>(keep =>
                    keep.TakeBackAsync(batches[0], swatch.ToString(), default)
                )
            ).TryGet(out _)
        );
        Assert.Single(
            (await bench.DoAsync<Batches.ShowBatch, Batches.ShowBatchAnswer?>(show => show.HandleAsync(batches[0], default)))!.View.Readings
        );
    }

    [Fact]
    public async Task A_mixture_is_planned_as_a_jar_and_teaches_by_what_its_two_inks_hold()
    {
        await PaintLadderAsync();
        var form = new MakePlan.Mixture
        {
            First = "EB25-1 B2",
            Second = "EB25-1 B6",
            Share = "0.75",
        };
        var (pot, letter) = await bench.DoneAsync<MakePlan, (string Pot, string Letter)>(make => make.MixAsync(form, default));
        Assert.False(
            (
                await bench.DoAsync<MakePlan, Outcome<(string Pot, string Letter)>>(make =>
                    make.MixAsync(form with { Second = "EB25-1 B2" }, default)
                )
            ).TryGet(out _)
        );
        Assert.Equal(790 - 60 - 120, await bench.DoAsync<LiquorLeft, double?>(left => left.HandleAsync(Id(pot), default)));
        var tags = await bench.DoAsync<MakePlan, Outcome<byte[]>?>(make => make.TagsAsync(pot, letter, default));
        Assert.True(tags!.TryGet(out _));
        await using (var db = bench.Read())
        {
            (await db.Materials.SingleAsync(material => material.Name == "alum")).Caution = "Irritates eyes.";
            await db.SaveChangesAsync();
        }

        var jar = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(pot, $"{letter}1", default)))!;
        Assert.Equal("15 ml of EB25-1 B2 + 5 ml of EB25-1 B6", jar.Jar.Plan);

        // Nothing was stirred into this jar, but what its two inks hold asks for the same care.
        Assert.Empty(jar.Jar.Totals);
        Assert.Equal([("alum", "Irritates eyes.")], Caution.For(jar.Jar.Holds).Select(caution => (caution.Of, caution.Own)));

        // Three quarters of what B2 holds and one of what B6 holds.
        var point = (await bench.DoAsync<NotebookTrials, TrialPoint?>(trials => trials.PointAsync(jar.Jar.Sample.Id, null, default)))!;
        var (two, six) = (Ladder[1] / 0.02, Ladder[5] / 0.02);
        Assert.Equal((0.75 * two) + (0.25 * six), point.Dose("alum"), 1e-9);
        Assert.Null(point.Ph);
        var kept = await bench.DoAsync<Recipes.KeepRecipe, Outcome<string>>(keep =>
            keep.HandleAsync(new() { Sample = jar.Jar.Sample.Id.ToString(), Name = "Both" }, default)
        );
        Assert.Contains(kept.Problems, problem => problem.What.Contains("mixture", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_weaker_harvest_is_to_be_boiled_down()
    {
        await PaintLadderAsync();
        Guid swatch;
        await using (var db = bench.Read())
            swatch = (await db.Swatches.SingleAsync(one => one.Cell == "A5")).Id;
        await bench.DoneAsync<Recipes.KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Swatch = swatch.ToString(), Name = "Dusk" }, default)
        );
        var pot = await bench.DoneAsync<Pots.StartPot, string>(start =>
            start.HandleAsync(
                new()
                {
                    Plant = "elderberry",
                    PlantGrams = "700",
                    LiquidMl = "260",
                    Part = "berries",
                    GatheredOn = "2025-09-05",
                    Place = "the bank",
                },
                default
            )
        );
        await bench.DoneAsync<Pots.AddToLog, Guid>(log =>
            log.HandleAsync(pot, new() { Kind = nameof(LogKind.Strained), Ml = "600" }, default)
        );
        Assert.Contains(
            "No plain swatch",
            (await bench.DoAsync<CompareHarvest, CompareHarvestAnswer?>(compare => compare.HandleAsync(pot, null, default)))!.NotYet!.What,
            StringComparison.Ordinal
        );

        bench.Clock.Pass(TimeSpan.FromHours(1));
        var letter = await bench.DoneAsync<SplitPot, string>(split =>
            split.HandleAsync(pot, new() { Jars = "1", VolumeMl = "20" }, default)
        );
        await using (var db = bench.Read())
        {
            var now = bench.Clock.GetUtcNow();
            var trial = await (
                from one in db.Trials
                join its in db.Pots on one.PotId equals its.Id
                where its.Code == pot && one.Letter == letter
                select one
            ).SingleAsync();
            var sample = await db.Samples.SingleAsync(one => one.TrialId == trial.Id);
            var chart = new Chart
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Number = 12,
                TrialId = trial.Id,
                Title = "plain",
                LayoutJson = "{}",
                Page = "A5",
            };
            var painted = new Swatch
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                ChartId = chart.Id,
                Cell = "A1",
                SampleId = sample.Id,
                Coats = 1,
                Wash = 1,
            };
            db.AddRange(
                chart,
                painted,
                new Reading
                {
                    Id = Guid.CreateVersion7(now.AddHours(2)),
                    WrittenAt = now,
                    SwatchId = painted.Id,
                    At = now.AddHours(2),
                    State = SwatchState.Dry,
                    Colour = new Lab(52, 20, -3).ToXyz(),
                    UncertaintyDe00 = 0.8,
                    Source = ReadingSource.Photo,
                }
            );
            await db.SaveChangesAsync();
        }

        var found = (await bench.DoAsync<CompareHarvest, CompareHarvestAnswer?>(compare => compare.HandleAsync(pot, null, default)))!;
        Assert.Null(found.NotYet);
        Assert.True(new CarryRecipe().Handle(found.Carry!, await TrialsAsync()).TryGet(out var answer));
        Assert.InRange(answer.Advice.Ratio, 0.4, 0.9);
        Assert.True(answer.Advice.BringToMillilitres < 580);
        var dose = Assert.Single(answer.Advice.Doses);
        Assert.True(dose.AsItIsGramsPerLitre < dose.RecipeGramsPerLitre);
        Assert.Equal("alum", Assert.Single(answer.Doses).Material.Name);

        // One deed: a batch of the recipe from this pot with exactly these doses; the recipe stays as it was.
        var form = new StartHarvestBatchForm { Recipe = found.Chosen!.Code, Volume = "300 ml" };
        var batch = await bench.DoneAsync<StartHarvestBatch, string>(start => start.HandleAsync(pot, form, default));
        await using (var db = bench.Read())
        {
            var made = await db.Batches.SingleAsync(one => one.Code == batch);
            Assert.Equal($"corrected for pot {pot}: doses × {Figures.Say(answer.Advice.Ratio, 2)}", made.Note);
            Assert.Equal(300, (await db.BatchLiquors.SingleAsync(one => one.BatchId == made.Id)).Ml);
            var steps = await db.BatchSteps.Where(step => step.BatchId == made.Id).ToListAsync();
            var kept = await db.RecipeSteps.ToListAsync();
            Assert.NotEmpty(steps);
            Assert.Equal(kept.Count, steps.Count);
            foreach (var one in answer.Doses)
                Assert.Equal(
                    one.GramsPerLitre * 0.3,
                    steps.Where(step => step.MaterialId == one.Material.Id).Sum(step => step.Planned.Grams!.Value),
                    1e-6
                );
            Assert.Equal(
                answer.Advice.Ratio * 300 / 20,
                steps.Sum(step => step.Planned.Grams!.Value) / kept.Sum(step => step.Amount.Grams!.Value),
                1e-6
            );
        }

        // More than the pot holds is refused before anything is started.
        var toomuch = await bench.DoAsync<StartHarvestBatch, Outcome<string>>(start =>
            start.HandleAsync(pot, form with { Volume = "300 ml" }, default)
        );
        Assert.Contains("At most 280 ml fit", Assert.Single(toomuch.Problems).Remedy, StringComparison.Ordinal);
        var other = await bench.DoAsync<StartHarvestBatch, Outcome<string>>(start =>
            start.HandleAsync(pot, form with { Recipe = "R9" }, default)
        );
        Assert.Equal(nameof(StartHarvestBatchForm.Recipe), Assert.Single(other.Problems).Field);

        // Its trail says whose trial the recipe was found in; the pot's own trail knows the batch.
        var trail = (await bench.DoAsync<Batches.ShowBatch, Batches.ShowBatchAnswer?>(show => show.HandleAsync(batch, default)))!.Thread;
        Assert.Contains(trail, step => step.Name == $"Pot {pot}");
        Assert.Contains(trail, step => step.Name == $"Trial {found.Theirs!.Stage.Sample.Jar[..1]} of {found.Theirs!.Pot.Code}");
        var own = (await bench.DoAsync<Pots.ShowPot, Pots.ShowPotAnswer?>(show => show.HandleAsync(pot, default)))!.Thread;
        Assert.Contains(own, step => step.Name == $"Batch {batch}" && step.Detail is not null);

        // All of it drawn is not unmeasured.
        await bench.DoneAsync<StartHarvestBatch, string>(start =>
            start.HandleAsync(pot, form with { Volume = "280 ml", MoreThanWritten = "yes" }, default)
        );
        var drawn = (await bench.DoAsync<CompareHarvest, CompareHarvestAnswer?>(compare => compare.HandleAsync(pot, null, default)))!;
        Assert.Equal($"All of the liquor of {pot} was drawn.", drawn.NotYet!.What);
    }

    // Invented: alum takes the liquor from a dull red violet to a blue one and saturates.
    private static Lab ColourAt(double grams)
    {
        var share = grams / (grams + 0.2);
        return new(38 - (5 * share), 26 - (14 * share), -4 - (24 * share));
    }

    private static string Text(Lab lab) => FormattableString.Invariant($"{lab.L:0.##},{lab.A:0.##},{lab.B:0.##}");

    private async Task<Material> MaterialAsync(string name)
    {
        await using var db = bench.Read();
        return await db.Materials.SingleAsync(one => one.Name == name);
    }

    private Guid Id(string pot)
    {
        using var db = bench.Read();
        return db.Pots.Single(one => one.Code == pot).Id;
    }

    private Task<TrialSource> TrialsAsync() => bench.DoAsync<NotebookTrials, TrialSource>(trials => trials.HandleAsync(default));

    private static Wish Wanted(string colour) =>
        Wish.Parse("C", colour).TryGet(out var wish) ? wish : throw new ArgumentException(colour, nameof(colour));

    private async Task<MatchColourAnswer> MatchAsync(Wish wanted, double ml = 100)
    {
        var trials = await TrialsAsync();
        return await bench.DoneAsync<MatchColour, MatchColourAnswer>(match =>
            match.HandleAsync(new() { Wanted = wanted, Volume = Volume.FromMillilitres(ml) }, trials, default)
        );
    }

    private async Task<PlanTrialAnswer> PlanAsync(TrialSource trials, PlanTrialForm form)
    {
        var outcome = await bench.DoAsync<PlanTrial, Outcome<PlanTrialAnswer>?>(plan => plan.HandleAsync(form, trials, default));
        return outcome!.TryGet(out var made) ? made : throw new InvalidOperationException(outcome.Problems[0].ToString());
    }

    private async Task<IReadOnlyList<DoubtfulJar>> DoubtedAsync()
    {
        var trials = await TrialsAsync();
        var outcome = await bench.DoAsync<FindSlips, Outcome<FindSlipsAnswer>?>(slips => slips.HandleAsync(trials, "elderberry", default));
        Assert.True(outcome!.TryGet(out var found));
        return found.Jars;
    }

    private async Task<Outcome<CompareRepeatsAnswer>> CompareAsync(string one, string other)
    {
        var trials = await TrialsAsync();
        var squares = await bench.DoAsync<ListSquares, IReadOnlyList<ComparedSquares>>(list => list.HandleAsync(trials, default));
        ComparedSquares Named(string label) => squares.Single(of => of.Label == label);
        return new CompareRepeats().Handle([Named(one)], [Named(other)], trials);
    }

    private async Task<(FindWrongBatchAnswer? Found, CorrectBatchAnswer? Correction)> CorrectAsync(string code, Lab? colour)
    {
        var trials = await TrialsAsync();
        var found = await bench.DoAsync<FindWrongBatch, FindWrongBatchAnswer?>(find =>
            find.HandleAsync(code, colour?.ToXyz(), false, trials, default)
        );
        if (found?.Batch is not { } batch)
            return (found, null);
        var outcome = await bench.DoAsync<CorrectBatch, Outcome<CorrectBatchAnswer>?>(correct =>
            correct.HandleAsync(batch, trials, default)
        );
        return (found, outcome!.TryGet(out var answer) ? answer : null);
    }

    private async Task<Outcome<ForetellStepAnswer>?> AdviceAsync(string jar, string step)
    {
        var trials = await TrialsAsync();
        var shown = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, jar, default)))!;
        var point = (
            await bench.DoAsync<NotebookTrials, TrialPoint?>(notebook => notebook.PointAsync(shown.Jar.Sample.Id, null, default))
        )!;
        Assert.True(Amount.Parse("step", step).TryGet(out var amount));
        var alum = await MaterialAsync("alum");
        return await bench.DoAsync<ForetellStep, Outcome<ForetellStepAnswer>?>(foretell =>
            foretell.HandleAsync(
                new()
                {
                    Jar = point,
                    Volume = Volume.FromMillilitres(shown.Jar.Sample.VolumeMl),
                    Material = alum,
                    Amount = amount,
                },
                trials,
                default
            )
        );
    }

    private async Task<NextStep> NextAsync(string jar, string step)
    {
        Assert.True((await AdviceAsync(jar, step))!.TryGet(out var answer));
        return answer.Step;
    }

    /// <param name="grams">Alum as it is written into each jar; the usual ladder when null.</param>
    /// <param name="really">Alum as it is in each jar; as written when null.</param>
    private async Task PaintLadderAsync(double[]? grams = null, double[]? really = null)
    {
        grams ??= Ladder;
        bench.Clock.Pass(TimeSpan.FromHours(1));
        var letter = await bench.DoneAsync<SplitPot, string>(split =>
            split.HandleAsync(
                bench.Pot,
                new()
                {
                    Jars = grams.Length.ToString(System.Globalization.CultureInfo.InvariantCulture),
                    VolumeMl = "20",
                    Title = "alum, step by step",
                },
                default
            )
        );
        var alum = (await MaterialAsync("alum")).Id.ToString();
        for (var jar = 0; jar < grams.Length; jar++)
        {
            if (grams[jar] > 0)
                await bench.DoneAsync<AddToSample, Guid>(add =>
                    add.HandleAsync(
                        bench.Pot,
                        $"{letter}{jar + 1}",
                        new() { Material = alum, Amount = FormattableString.Invariant($"{grams[jar]} g") },
                        default
                    )
                );
        }

        bench.Clock.Pass(TimeSpan.FromHours(1));
        await using var db = bench.Read();
        var now = bench.Clock.GetUtcNow();
        var trial = await db.Trials.SingleAsync(one => one.Letter == letter);
        var samples = await db.Samples.Where(one => one.TrialId == trial.Id).OrderBy(one => one.Id).ToListAsync();
        var chart = new Chart
        {
            Id = Guid.CreateVersion7(now),
            WrittenAt = now,
            Number = 9,
            TrialId = trial.Id,
            Title = "alum",
            LayoutJson = "{}",
            Page = "A5",
        };
        db.Add(chart);
        for (var jar = 0; jar < samples.Count; jar++)
        {
            var at = now.AddSeconds(jar);
            var swatch = new Swatch
            {
                Id = Guid.CreateVersion7(at),
                WrittenAt = at,
                ChartId = chart.Id,
                Cell = $"A{jar + 1}",
                SampleId = samples[jar].Id,
                Coats = 1,
                Wash = 1,
            };
            db.AddRange(
                swatch,
                new Reading
                {
                    Id = Guid.CreateVersion7(at.AddHours(2)),
                    WrittenAt = at.AddHours(2),
                    SwatchId = swatch.Id,
                    At = at.AddHours(2),
                    State = SwatchState.Dry,
                    Colour = ColourAt((really ?? grams)[jar]).ToXyz(),
                    UncertaintyDe00 = 0.8,
                    Source = ReadingSource.Photo,
                }
            );
        }

        await db.SaveChangesAsync();
    }
}
