using Dyewort.Notebook;
using Dyewort.Quantities;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Response;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Pairs that every household warning names (from memory; general chemistry): never planned or proposed, and in a jar only with a
/// written reason.</summary>
public sealed class NeverTogetherTests
{
    private static readonly (string First, string Second)[] Pairs =
    [
        ("bleach", "white vinegar"),
        ("bleach", "cider vinegar"),
        ("bleach", "cleaning vinegar"),
        ("bleach", "citric acid"),
        ("bleach", "lemon juice"),
        ("bleach", "cream of tartar"),
        ("bleach", "tartaric acid"),
        ("bleach", "oxalic acid"),
        ("bleach", "hydrochloric acid"),
        ("bleach", "vitamin C"),
        ("bleach", "alum"),
        ("bleach", "aluminium sulfate"),
        ("bleach", "iron sulfate"),
        ("bleach", "copper sulfate"),
        ("bleach", "rusty nails in vinegar"),
        ("bleach", "household ammonia"),
        ("bleach", "sal ammoniac"),
        ("bleach", "vodka"),
        ("bleach", "methylated spirit"),
        ("bleach", "rubbing alcohol"),
        ("bleach", "acetone"),
        ("bleach", "hydrogen peroxide"),
        ("bleach", "oxygen bleach"),
        ("pool chlorine", "white vinegar"),
        ("javel water", "alum"),
        ("hydrogen peroxide", "white vinegar"),
        ("hydrogen peroxide", "acetic acid"),
        ("hydrogen peroxide", "formic acid"),
        ("hydrogen peroxide", "acetone"),
        ("hydrogen peroxide", "potassium permanganate"),
        ("oxygen bleach", "sodium dithionite"),
        ("oxygen bleach", "metabisulfite"),
        ("metabisulfite", "citric acid"),
        ("metabisulfite", "white vinegar"),
        ("campden tablet", "lemon juice"),
        ("sodium dithionite", "white vinegar"),
        ("liver of sulfur", "white vinegar"),
        ("liver of sulfur", "alum"),
        ("yellow prussiate", "citric acid"),
        ("red prussiate", "iron sulfate"),
        ("potassium cyanide", "white vinegar"),
        ("potassium permanganate", "glycerine"),
        ("potassium permanganate", "honey"),
        ("potassium permanganate", "vodka"),
        ("nitric acid", "vodka"),
        ("nitric acid", "glycerine"),
        ("nitric acid", "hydrochloric acid"),
        ("sulfuric acid", "caustic soda"),
        ("potassium dichromate", "vodka"),
        ("potassium dichromate", "sodium dithionite"),
    ];

    [Fact]
    public async Task Two_that_must_not_meet_are_not_planned_and_not_written_down_without_a_reason()
    {
        Assert.True(Pairs.Length >= 40);
        await using var bench = await Bench.SetUpAsync();
        var trials = await bench.DoAsync<NotebookTrials, TrialSource>(notebook => notebook.HandleAsync(default));
        foreach (var (first, second) in Pairs)
        {
            var (one, other) = (await MaterialAsync(bench, first), await MaterialAsync(bench, second));
            var both = $"{first} and {second}";

            // Not planned, whatever kind of plan names both; not set out, though a form is made by hand.
            var spread = await bench.DoAsync<PlanTrial, Outcome<PlanTrialAnswer>?>(plan =>
                plan.HandleAsync(Spread(one, other), trials, default)
            );
            Assert.False(spread!.TryGet(out _), both);
            Assert.Contains("is not planned", spread.Problems[0].What, StringComparison.Ordinal);
            var around = await bench.DoAsync<PlanTrial, Outcome<PlanTrialAnswer>?>(plan =>
                plan.HandleAsync(
                    Spread(one, other) with
                    {
                        Kind = PlanKind.Around,
                        Additions = [],
                        Around = [(one, 5), (other, 5)],
                    },
                    trials,
                    default
                )
            );
            Assert.False(around!.TryGet(out _), both);
            var set = await bench.DoAsync<MakePlan, Outcome<string>>(plan =>
                plan.HandleAsync(bench.Pot, new() { Jar = [$"{one.Id}=1 g|{other.Id}=1 g"], VolumeMl = "20" }, default)
            );
            Assert.False(set.TryGet(out _), both);

            // At the bench the first goes in, with its reason where it has no place in an ink itself; the second is asked about.
            await bench.DoneAsync<AddToSample, Guid>(add => add.HandleAsync(bench.Pot, "A1", Step(one, "an old recipe"), default));
            var asked = await bench.DoAsync<AddToSample, Outcome<Guid>>(add =>
                add.HandleAsync(bench.Pot, "A1", Step(other, null), default)
            );
            Assert.True(asked.Problems is [{ Field: nameof(AddToSampleForm.Reason) }], $"{both}: {string.Join(" ", asked.Problems)}");
            var blank = await bench.DoAsync<AddToSample, Outcome<Guid>>(add =>
                add.HandleAsync(bench.Pot, "A1", Step(other, "  "), default)
            );
            Assert.Equal(nameof(AddToSampleForm.Reason), Assert.Single(blank.Problems).Field);
            await bench.DoneAsync<AddToSample, Guid>(add => add.UndoAsync(bench.Pot, "A1", false, default));
        }
    }

    [Fact]
    public async Task The_reason_is_kept_with_the_step_and_only_where_it_was_asked_for()
    {
        await using var bench = await Bench.SetUpAsync();
        var (peroxide, vinegar, alum) = (
            await MaterialAsync(bench, "hydrogen peroxide"),
            await MaterialAsync(bench, "white vinegar"),
            await MaterialAsync(bench, "alum")
        );
        await bench.DoneAsync<AddToSample, Guid>(add => add.HandleAsync(bench.Pot, "A1", Step(peroxide, "no need"), default));
        var step = await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A1", Step(vinegar, "poured before I looked"), default)
        );
        await bench.DoneAsync<AddToSample, Guid>(add => add.HandleAsync(bench.Pot, "A1", Step(alum, null), default));
        await using (var db = bench.Read())
        {
            var kept = await db.Additions.AsNoTracking().Where(one => one.Reason != null).ToListAsync();
            Assert.Equal(("poured before I looked", vinegar.Id), (Assert.Single(kept).Reason, kept[0].MaterialId));
        }

        // What it turns out to have been, and where it is moved to, is asked in the same way.
        var steps = (await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, "A1", default)))!.Jar.Steps;
        var last = steps[^1].Addition.Id;
        var corrected = await bench.DoAsync<ChangeStep, Outcome<Guid>>(change =>
            change.CorrectAsync(bench.Pot, "A1", last, new() { Amount = "1 ml", Material = vinegar.Id.ToString() }, default)
        );
        Assert.Equal(nameof(ChangeStepForm.Reason), Assert.Single(corrected.Problems).Field);
        var moved = await bench.DoAsync<ChangeStep, Outcome<Guid>>(change =>
            change.MoveAsync(bench.Pot, "A1", steps[0].Addition.Id, bench.Jar.ToString(), default)
        );
        Assert.Contains("is not moved", Assert.Single(moved.Problems).What, StringComparison.Ordinal);
        Assert.NotEqual(Guid.Empty, step);
    }

    private static AddToSampleForm Step(Material material, string? reason) =>
        new()
        {
            Material = material.Id.ToString(),
            Amount = "1 ml",
            Reason = reason,
        };

    private static PlanTrialForm Spread(Material one, Material other) =>
        new()
        {
            Kind = PlanKind.Spread,
            Plant = "elderberry",
            Additions = [one, other],
            Count = 6,
            Sample = Volume.FromMillilitres(20),
        };

    private static async Task<Material> MaterialAsync(Bench bench, string name)
    {
        await using var db = bench.Read();
        if (await db.Materials.AsNoTracking().SingleOrDefaultAsync(one => one.Name == name) is { } known)
            return known;
        var id = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(null, new() { Name = name, Kind = nameof(MaterialKind.Addition) }, default)
        );
        return await db.Materials.AsNoTracking().SingleAsync(one => one.Id == id);
    }
}
