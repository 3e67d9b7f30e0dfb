using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class MatchTests
{
    private static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed) => LearntPlants.Learn(seed, 16);

    [Fact]
    public void The_best_proposal_painted_by_the_generator_is_nearer_than_the_nearest_tested_square()
    {
        double off = 0,
            nearest = 0;
        for (var seed = 901; seed < 909; seed++)
        {
            var (model, plant, rows) = Learn(seed);
            for (var w = 0; w < 3; w++)
            {
                var wanted = plant.ColourOf(plant.Draw("W"));
                off += Difference.Ciede2000(wanted, plant.Paint(Match.Find(wanted, [model]).Proposals[0], rows));
                nearest += rows.Min(row => Difference.Ciede2000(wanted, row.Colour));
            }
        }

        Assert.True(off <= 0.6 * nearest, $"{off:0.0} against {nearest:0.0}");
    }

    [Fact]
    public void No_two_proposals_ask_for_the_same_doses()
    {
        for (var seed = 901; seed < 905; seed++)
        {
            var (model, plant, _) = Learn(seed);
            foreach (var wanted in (Lab[])[plant.ColourOf(plant.Draw("W")), new(32, 25, -29), new(85, -70, 80)])
            {
                var doses = Match.Find(wanted, [model]).Proposals.Where(one => one.Kind == MatchKind.Dose).ToList();
                Assert.NotEmpty(doses);
                Assert.DoesNotContain(doses, one => doses.Exists(other => other != one && Same(one.Point, other.Point)));
            }
        }
    }

    [Fact]
    public void Every_dose_can_be_measured_with_a_kitchen_scale_or_as_millilitres_of_a_stock()
    {
        var (model, plant, rows) = Learn(904);
        var bench = new BenchLimits { SampleMillilitres = 40, SmallestGrams = [new(plant.Used[0], 0.05)] };
        var made = Enumerable
            .Range(0, 4)
            .SelectMany(i => Match.Find(plant.ColourOf(plant.Draw("W", wash: i < 2 ? 1 : 0.5)), [model], "", bench).Proposals)
            .Where(one => one.Kind is MatchKind.Dose or MatchKind.Wash && one.Sample.Length == 0)
            .ToList();
        Assert.NotEmpty(made);
        foreach (
            var (name, dose, wash) in made.SelectMany(one => one.Point.GramsPerLitre.Select(own => (own.Name, own.Amount, one.Point.Wash)))
        )
        {
            var measures = dose * 0.040 * wash / (name == plant.Used[0] ? 0.05 : 0.1);
            Assert.True(measures > 0.09, $"{name} {dose}");
            var steps = measures < 2.95 ? 10 * measures : measures;
            Assert.Equal(Math.Round(steps), steps, 1e-6);
        }
    }

    private static bool Same(TrialPoint one, TrialPoint other) =>
        one.GramsPerLitre.Count == other.GramsPerLitre.Count
        && one.GramsPerLitre.All(own => Math.Abs(other.Dose(own.Name) - own.Amount) < 0.05 * own.Amount)
        && Math.Abs((one.Ph ?? 0) - (other.Ph ?? 0)) < 0.4;

    [Fact]
    public void A_colour_no_ink_makes_is_said_to_be_out_of_reach()
    {
        var (model, _, _) = Learn(903);
        var result = Match.Find(new Lab(85, -70, 80), [model]);
        Assert.False(result.Reached);
        Assert.Contains("saturated", result.Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ladder_starts_plain_ends_at_the_largest_dose_and_steps_evenly()
    {
        var (model, plant, rows) = Learn(905);
        var name = plant.Used.First(one => rows.Any(row => row.Point.Dose(one) > 0));
        var ladder = TrialPlan.Ladder(model, name, 5);
        Assert.Equal(0, ladder[0].GramsPerLitre);
        Assert.Equal(rows.Max(row => row.Point.Dose(name)), ladder[^1].GramsPerLitre);
        Assert.Equal(ladder.Select(step => step.GramsPerLitre).Order(), ladder.Select(step => step.GramsPerLitre));
        var steps = ladder.Skip(1).Select(step => step.StepDe00).ToArray();
        Assert.True(steps.Max() < (2 * steps.Average()) + 0.5, string.Join(' ', steps));
    }
}
