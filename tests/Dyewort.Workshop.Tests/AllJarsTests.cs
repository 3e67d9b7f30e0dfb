using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>The same step into every jar of a trial at once.</summary>
public sealed class AllJarsTests
{
    [Fact]
    public async Task One_step_goes_into_every_jar_and_what_was_seen_stays_with_one()
    {
        await using var bench = await Bench.SetUpAsync();
        var form = new AddToSampleForm
        {
            Material = await AlumAsync(bench),
            Amount = "¼ tsp",
            All = "yes",
            Ph = "3.4",
            PhBy = "Meter",
            Saw = ["darker", "cloudy"],
        };
        bench.Clock.Pass(TimeSpan.FromMinutes(1));
        await bench.DoneAsync<AddToSample, Guid>(add => add.HandleAsync(bench.Pot, "A3", form, default));
        var given = await GivenAsync(bench);
        Assert.Equal([("A1", 1), ("A2", 3), ("A3", 1)], given.Select(one => (one.Jar, one.Step.Step)));
        Assert.All(given, one => Assert.Equal(1.2, one.Step.Amount.Grams!.Value, 1e-9));
        Assert.Equal([null, null, 3.4], given.Select(one => one.Step.Ph));
        Assert.Equal([null, null, PhTool.Meter], given.Select(one => one.Step.PhBy));
        Assert.Equal([null, null, "darker, cloudy"], given.Select(one => one.Step.Seen));
        Assert.Equal(3, (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, "A1", default)))!.LastInto);

        // Taken back in one jar, and then in those that are left.
        await bench.DoneAsync<AddToSample, Guid>(add => add.UndoAsync(bench.Pot, "A3", false, default));
        Assert.Equal(["A1", "A2"], (await GivenAsync(bench)).Select(one => one.Jar));
        await bench.DoneAsync<AddToSample, Guid>(add => add.UndoAsync(bench.Pot, "A1", true, default));
        Assert.Empty(await GivenAsync(bench));

        // What had gone into A2 before is untouched.
        await using var db = bench.Read();
        Assert.Equal(2, await db.Additions.CountAsync(step => step.WithdrawnAt == null));
    }

    [Fact]
    public async Task A_step_that_is_written_up_late_belongs_to_one_jar_and_a_pH_beyond_the_scale_is_refused()
    {
        await using var bench = await Bench.SetUpAsync();
        foreach (
            var (form, field) in new (AddToSampleForm, string)[]
            {
                (new() { Before = Guid.NewGuid().ToString(), All = "yes" }, "Before"),
                (new() { Before = "no key" }, "Before"),
                (new() { Ph = "15" }, "Ph"),
                (new() { PhBy = "tongue" }, "PhBy"),
            }
        )
        {
            var material = await AlumAsync(bench);
            var outcome = await bench.DoAsync<AddToSample, Outcome<Guid>>(add =>
                add.HandleAsync(bench.Pot, "A1", form with { Material = material, Amount = "¼ tsp" }, default)
            );
            Assert.Equal(field, Assert.Single(outcome.Problems).Field);
        }

        Assert.Empty(await GivenAsync(bench));
    }

    private static async Task<string> AlumAsync(Bench bench)
    {
        await using var db = bench.Read();
        return (await db.Materials.SingleAsync(one => one.Name == "alum")).Id.ToString();
    }

    /// <summary>¼ teaspoons of alum that count, by jar.</summary>
    private static async Task<List<(string Jar, Addition Step)>> GivenAsync(Bench bench)
    {
        await using var db = bench.Read();
        return
        [
            .. (
                await (
                    from step in db.Additions
                    join jar in db.Samples on step.SampleId equals jar.Id
                    where step.WithdrawnAt == null && step.Amount.Text == "¼ tsp"
                    orderby jar.Jar
                    select new { jar.Jar, step }
                ).ToListAsync()
            ).Select(one => (one.Jar, one.step)),
        ];
    }
}
