using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class NextStepTests
{
    private static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed, int samples = 16) =>
        LearntPlants.Learn(seed, samples);

    /// <summary>Iron on a tannin: most of the way at 0.2 g/L, nothing left to bind above 1.</summary>
    private static ResponseModel Gall()
    {
        static TrialRow Row(string code, double dose, double l, double a, double b) =>
            new(
                new()
                {
                    Sample = code,
                    Plant = "gall",
                    Ph = 4.5,
                    GramsPerLitre = [new("copperas", dose)],
                },
                new Lab(l, a, b)
            );
        TrialRow[] rows =
        [
            Row("G0", 0, 78, 3, 18),
            Row("G1", 0.1, 55, 2, 6),
            Row("G2", 0.2, 42, 1, 0),
            Row("G3", 0.5, 33, 0.5, -2),
            Row("G4", 1, 30.2, 0.5, -3),
            Row("G5", 2, 29.8, 0.4, -3.1),
            Row("G6", 4, 30, 0.6, -2.9),
            Row("G7", 8, 29.9, 0.4, -3),
            Row("G8", 12, 30.1, 0.5, -3),
        ];
        Assert.True(ResponseModel.Fit(rows, ["copperas"]).TryGet(out var model));
        return model;
    }

    [Fact]
    public void The_stated_chances_and_ranges_of_a_step_come_true()
    {
        int inside = 0,
            all = 0;
        double stated = 0,
            seen = 0,
            off = 0,
            expected = 0;
        var low = (Seen: 0, All: 0);
        var high = (Seen: 0, All: 0);
        for (var seed = 1201; seed < 1211; seed++)
        {
            var (model, plant, rows) = Learn(seed);
            foreach (var name in Compositions.Ranges(model).Select(range => range.Name))
            {
                for (var i = 0; i < 6; i++)
                {
                    var now = plant.Draw("now");
                    var step = Compositions.Ranges(model).Single(range => range.Name == name).High * new[] { 0.02, 0.1, 0.4 }[i % 3];
                    Assert.True(BenchAdvice.Next(model, now, name, step).TryGet(out var next));
                    var doses = now.GramsPerLitre.With(name, now.Dose(name) + step);
                    var made = Difference.Ciede2000(plant.ColourOf(now), plant.ColourOf(now with { GramsPerLitre = doses }));
                    inside += made >= next.De00Low && made <= next.De00High ? 1 : 0;
                    all++;
                    stated += next.ChanceSeen;
                    seen += made >= 1 ? 1 : 0;
                    off += Math.Abs(made - next.ExpectedDe00);
                    expected += made;
                    if (next.ChanceSeen < 0.2)
                        low = (low.Seen + (made >= 1 ? 1 : 0), low.All + 1);
                    if (next.ChanceSeen > 0.8)
                        high = (high.Seen + (made >= 1 ? 1 : 0), high.All + 1);
                }
            }
        }

        var words =
            $"inside {100.0 * inside / all:0} % of {all}, stated seen {stated / all:0.00}, seen {seen / all:0.00}, below 0.2: {low.Seen} "
            + $"of {low.All}, above 0.8: {high.Seen} of {high.All}, off {off / all:0.00} of {expected / all:0.00}";
        Assert.True(inside >= 0.88 * all, words);
        Assert.True(Math.Abs(stated - seen) <= 0.08 * all, words);
        Assert.True(low.Seen <= 0.2 * low.All && high.Seen >= 0.8 * high.All, words);
        Assert.True(off < 0.5 * expected, words);
    }

    [Fact]
    public void A_smaller_step_is_seen_less_and_the_just_seen_step_is_seen_half_the_time()
    {
        // Iron on a gall liquor that darkens as far as 1 g/L.
        var model = Gall();
        var rows = model.Rows;
        const string name = "copperas";
        Assert.True(BenchAdvice.Next(model, rows[0].Point, name, 0.001).TryGet(out var small));
        Assert.True(BenchAdvice.Next(model, rows[0].Point, name, 0.2).TryGet(out var large));
        Assert.True(small.ChanceSeen < large.ChanceSeen, $"{name}: {small.ChanceSeen} and {large.ChanceSeen}");
        Assert.True(small.ExpectedDe00 < large.ExpectedDe00);
        Assert.NotNull(large.JustSeenGramsPerLitre);
        Assert.True(BenchAdvice.Next(model, rows[0].Point, name, large.JustSeenGramsPerLitre.Value).TryGet(out var just));
        Assert.InRange(just.ChanceSeen, 0.35, 0.65);
        Assert.NotNull(large.SurelySeenGramsPerLitre);
        Assert.True(large.SurelySeenGramsPerLitre > large.JustSeenGramsPerLitre);
    }

    [Fact]
    public void Where_the_ladder_has_gone_flat_more_changes_nothing()
    {
        var model = Gall();
        var rows = model.Rows;
        Assert.True(BenchAdvice.Next(model, rows[6].Point, "copperas", 1).TryGet(out var flat));
        Assert.Contains("will not change anything", flat.NothingMore, StringComparison.Ordinal);
        Assert.Equal(flat.NothingMore, flat.Words);
        Assert.True(BenchAdvice.Next(model, rows[0].Point, "copperas", 0.2).TryGet(out var steep));
        Assert.Empty(steep.NothingMore);
        Assert.Contains("darker", steep.Move, StringComparison.Ordinal);
        Assert.True(steep.ChanceSeen > 0.95);
    }

    [Fact]
    public void What_the_chemistry_says_goes_first()
    {
        var (model, _, rows) = Learn(1203);
        var name = Compositions.Ranges(model)[0].Name;
        Assert.True(BenchAdvice.Next(model, rows[0].Point, name, 1, "The last spoon lies undissolved on the bottom.").TryGet(out var step));
        Assert.Equal("The last spoon lies undissolved on the bottom.", step.Words);
    }

    [Fact]
    public void An_addition_that_was_never_tested_is_refused()
    {
        var (model, _, rows) = Learn(1204);
        var outcome = BenchAdvice.Next(model, rows[0].Point, "moonshine", 1);
        Assert.False(outcome.TryGet(out _));
        Assert.StartsWith("Not enough trials yet", outcome.Problems[0].What, StringComparison.Ordinal);
        Assert.False(BenchAdvice.Next(model, rows[0].Point, model.Additions[0], double.NaN).TryGet(out _));
    }
}
