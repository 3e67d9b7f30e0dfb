using Dyewort.Quantities;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Pots;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

public sealed class JarChemistryTests
{
    [Fact]
    public async Task Vinegar_and_alum_make_the_jar_sourer_than_the_plain_one()
    {
        await using var bench = await Bench.SetUpAsync();
        var plain = await HoldsAsync(bench, "A1");
        var added = await HoldsAsync(bench, "A2");
        Assert.True(added.Words.Ph < plain.Words.Ph - 0.05, $"{added.Words.Ph} should lie below {plain.Words.Ph}.");
        Assert.InRange(added.Words.Ph, added.Words.PhLow, added.Words.PhHigh);
        Assert.Contains(added.Words.Dissolved, line => line.Contains("alum", StringComparison.OrdinalIgnoreCase));
        Assert.Empty(added.NotCounted);
    }

    [Fact]
    public async Task A_tested_pot_narrows_what_is_believed_of_its_jars()
    {
        await using var bench = await Bench.SetUpAsync();
        var before = await HoldsAsync(bench, "A1");
        await bench.DoneAsync<AddToLog, Guid>(log => log.HandleAsync(bench.Pot, new() { Kind = "Ph", Ph = "4.5" }, default));
        var after = await HoldsAsync(bench, "A1");
        Assert.NotEqual(before.Liquor, after.Liquor);
        Assert.True(
            Math.Abs(after.Words.Ph - 4.5) < Math.Abs(before.Words.Ph - 4.5),
            $"{after.Words.Ph} should lie nearer to the strip's 4.5 than {before.Words.Ph}."
        );
        Assert.True(after.Words.PhHigh - after.Words.PhLow < before.Words.PhHigh - before.Words.PhLow);
    }

    [Fact]
    public async Task An_iron_pot_and_hard_water_are_counted_in_every_jar()
    {
        await using var bench = await Bench.SetUpAsync();
        var before = await HoldsAsync(bench, "A1");
        Assert.Empty(before.Hidden);
        await bench.DoneAsync<SavePotSheet, string>(save =>
            save.HandleAsync(
                bench.Pot,
                new()
                {
                    Metal = "Iron",
                    Water = "tap",
                    Hardness = "300",
                    Alkalinity = "250",
                },
                default
            )
        );
        var after = await HoldsAsync(bench, "A1");
        Assert.Contains(after.Hidden, line => line.Contains("copperas", StringComparison.Ordinal));
        Assert.Contains(after.Hidden, line => line.Contains("chalk", StringComparison.Ordinal));
        Assert.True(after.Words.Ph > before.Words.Ph, $"{after.Words.Ph} should lie above {before.Words.Ph}: the water is alkaline.");
        Assert.Contains(
            after.Words.Dissolved,
            line =>
                line.Contains("iron", StringComparison.OrdinalIgnoreCase) || line.Contains("copperas", StringComparison.OrdinalIgnoreCase)
        );
    }

    [Fact]
    public async Task A_measured_pH_stands_beside_the_sums_and_a_clash_is_said()
    {
        await using var bench = await Bench.SetUpAsync();
        await bench.DoneAsync<AddToLog, Guid>(log => log.HandleAsync(bench.Pot, new() { Ph = "9", PhBy = "Meter" }, default));
        var plain = await HoldsAsync(bench, "A3");
        Assert.Equal((9.0, PhTool.Meter), (plain.Measured!.Ph, plain.Measured.By));
        Assert.Contains("usually read", plain.Measured.Clash, StringComparison.Ordinal);
        Assert.InRange(plain.Words.Ph, 8.7, 9.3);

        // What was read of one jar, by strip, after vinegar that cannot have done it.
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.NoteAsync(
                bench.Pot,
                "A2",
                new()
                {
                    Ph = "11",
                    Saw = ["fizzed", "nonsense"],
                    Words = "smells",
                },
                default
            )
        );
        var stirred = await HoldsAsync(bench, "A2");
        Assert.Equal((11.0, PhTool.Strip), (stirred.Measured!.Ph, stirred.Measured.By));
        Assert.Contains("should be", stirred.Measured.Clash, StringComparison.Ordinal);
        await using var db = bench.Read();
        Assert.Equal("fizzed, smells", (await db.Additions.Where(step => step.Ph == 11).SingleAsync()).Seen);
    }

    [Fact]
    public async Task A_powder_of_the_makers_own_is_weighed_by_ten_spoons_and_counted_by_what_it_is()
    {
        await using var bench = await Bench.SetUpAsync();
        var unknown = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(
                null,
                new()
                {
                    Name = "grey crystals of the blue tin",
                    Kind = "Addition",
                    GramsPerTeaspoon = "5",
                },
                default
            )
        );
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A3", new() { Material = unknown.ToString(), Amount = "¼ tsp" }, default)
        );
        var before = await HoldsAsync(bench, "A3");
        Assert.Equal(["grey crystals of the blue tin"], before.NotCounted);
        Assert.StartsWith("pH not known: grey crystals of the blue tin", before.Words.Headline, StringComparison.Ordinal);
        Assert.True(before.Words.PhHigh - before.Words.PhLow > 10);

        await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(
                unknown,
                new()
                {
                    Name = "grey crystals of the blue tin",
                    Kind = "Addition",
                    TenSpoons = "40",
                    Substance = "bicarbonate of soda",
                },
                default
            )
        );
        await using (var db = bench.Read())
        {
            var material = await db.Materials.SingleAsync(one => one.Id == unknown);
            Assert.Equal(4, material.GramsPerTeaspoon);
            Assert.Contains("ten level spoons", material.GramsPerTeaspoonSource, StringComparison.Ordinal);
        }

        var after = await HoldsAsync(bench, "A3");
        Assert.Empty(after.NotCounted);
        Assert.DoesNotContain("not known", after.Words.Headline, StringComparison.Ordinal);
        Assert.True(after.Words.Ph > before.Words.Ph + 0.5, $"{after.Words.Ph} should lie well above {before.Words.Ph}.");

        var refused = await bench.DoAsync<SaveMaterial, Outcome<Guid>>(save =>
            save.HandleAsync(
                unknown,
                new()
                {
                    Name = "grey crystals of the blue tin",
                    Kind = "Addition",
                    Substance = "unobtainium",
                },
                default
            )
        );
        Assert.False(refused.TryGet(out _));
        Assert.Contains(refused.Problems, problem => problem.Field == "Substance");
    }

    private static async Task<JarChemistryAnswer> HoldsAsync(Bench bench, string jar)
    {
        var shown = await bench.DoAsync<ShowJar, ShowJarAnswer?>(show => show.HandleAsync(bench.Pot, jar, default));
        Assert.NotNull(shown?.Chemistry);
        return shown.Chemistry;
    }
}
