using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Workshop.Batches;
using Dyewort.Workshop.Chemistry;
using Dyewort.Workshop.Pantry;
using Dyewort.Workshop.Recipes;
using Dyewort.Workshop.Trials;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>One spoonful weighs the same wherever it is asked for.</summary>
public sealed class OneSpoonfulTests
{
    private const string Spoon = "¼ tsp";

    [Fact]
    public async Task A_spoonful_of_every_known_material_weighs_the_same_at_the_jar_in_sums_in_recipes_and_in_batches()
    {
        await using var bench = await Bench.SetUpAsync();
        // Bleach is never a line of a recipe.
        var known = SubstanceCatalogue.Standard.Substances.Where(substance => substance.Key != "bleach").ToList();
        Guid sample;
        await using (var db = bench.Read())
            sample = (await db.Samples.SingleAsync(one => one.Jar == "A1")).Id;
        var recipe = await bench.DoneAsync<KeepRecipe, string>(keep =>
            keep.HandleAsync(new() { Sample = sample.ToString(), Name = "Everything" }, default)
        );
        var stocked = await StockAllAsync(bench, known);
        foreach (var material in stocked)
        {
            await bench.DoneAsync<AddToSample, Guid>(add =>
                add.HandleAsync(bench.Pot, "A3", new() { Material = material.Id.ToString(), Amount = Spoon }, default)
            );
            await bench.DoneAsync<CorrectRecipe, string>(correct =>
                correct.AddLineAsync(recipe, new() { Material = material.Id.ToString(), Amount = Spoon }, default)
            );
        }

        var batch = await bench.DoneAsync<StartBatch, string>(start => start.HandleAsync(recipe, new() { Volume = "20 ml" }, default));
        await bench.DoneAsync<MeasureBatch, string>(measure =>
            measure.HandleAsync(batch, new(), Enumerable.Range(1, known.Count).ToDictionary(step => step, _ => (string?)Spoon), default)
        );
        await using var read = bench.Read();
        var inJar = await (
            from addition in read.Additions
            join one in read.Samples on addition.SampleId equals one.Id
            where one.Jar == "A3"
            select addition
        ).ToDictionaryAsync(one => one.MaterialId);
        var inRecipe = await read.RecipeSteps.ToDictionaryAsync(step => step.MaterialId!.Value);
        var inBatch = await read.BatchSteps.ToDictionaryAsync(step => step.MaterialId!.Value);
        foreach (var material in stocked)
        {
            var grams = inJar[material.Id].Amount.Grams!.Value;
            Assert.True(grams > 0, $"{material.Name} weighs nothing.");
            foreach (
                var (where, other) in new[]
                {
                    ("liquid", InSums(material.Name)),
                    ("scale", InScaling(material.Name)),
                    ("the recipe", inRecipe[material.Id].Amount.Grams!.Value),
                    ("the plan of the batch", inBatch[material.Id].Planned.Grams!.Value),
                    ("what was measured for the batch", inBatch[material.Id].Measured!.Grams!.Value),
                }
            )
                Assert.True(Math.Abs(other - grams) <= 1e-9 * grams, $"{material.Name}: {grams} g in the jar, {other} g in {where}.");
        }
    }

    [Fact]
    public async Task What_the_maker_weighed_goes_before_the_table_with_any_teaspoon()
    {
        await using var bench = await Bench.SetUpAsync();
        var own = await bench.DoneAsync<SaveMaterial, Guid>(save =>
            save.HandleAsync(
                null,
                new()
                {
                    Name = "soda ash",
                    Kind = "Addition",
                    TenSpoons = "31",
                },
                default
            )
        );
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A3", new() { Material = own.ToString(), Amount = Spoon }, default)
        );
        await bench.DoneAsync<AddToSample, Guid>(add =>
            add.HandleAsync(bench.Pot, "A3", new() { Material = own.ToString(), Amount = "¼ imperial tsp" }, default)
        );
        await using var read = bench.Read();
        var grams = await read
            .Additions.Where(one => one.MaterialId == own)
            .OrderBy(one => one.Step)
            .Select(one => one.Amount.Grams!.Value)
            .ToListAsync();
        Assert.Equal(3.1 / 4, grams[0], 1e-9);
        Assert.Equal(3.1 / 4 * 4546.09 / 768 / 5, grams[1], 1e-9);
    }

    [Fact]
    public async Task What_is_stocked_from_the_list_brings_no_weight_and_no_caution_of_its_own()
    {
        await using var bench = await Bench.SetUpAsync();
        await bench.DoneAsync<StockCommon, int>(stock => stock.HandleAsync(["soda ash", "salt"], default));
        await using var read = bench.Read();
        var ash = await read.Materials.SingleAsync(one => one.Name == "soda ash");
        Assert.Equal(("soda ash", null, null), (ash.Substance, ash.GramsPerTeaspoon, ash.Caution));
        Assert.Contains("5 g (2.5 to 5.5 by the tables", SpoonWeight.Of(ash, 5)!.Words, StringComparison.Ordinal);
    }

    private static async Task<IReadOnlyList<Material>> StockAllAsync(Bench bench, IReadOnlyList<Substance> known)
    {
        await using var db = bench.Read();
        var now = bench.Clock.GetUtcNow();

        // The bench's own alum and vinegar were weighed; these are not.
        foreach (var there in await db.Materials.Where(one => one.Kind == MaterialKind.Addition).ToListAsync())
            there.WithdrawnAt = now;
        List<Material> stocked =
        [
            .. known.Select(substance => new Material
            {
                Id = Guid.CreateVersion7(now),
                WrittenAt = now,
                Name = substance.Name,
                Kind = MaterialKind.Addition,
            }),
        ];
        db.AddRange(stocked);
        await db.SaveChangesAsync();
        return stocked;
    }

    private static double InSums(string name)
    {
        var described = new DescribeJar().Handle(new DescribeJarForm { Volume = "90ml", Additions = [$"{name}={Spoon}"] });
        Assert.True(described.TryGet(out var answer), string.Join(' ', described.Problems));
        return Assert.Single(answer.Contents.Portions).Grams;
    }

    private static double InScaling(string name)
    {
        var scaled = MakingTests.Scale($"90ml: {name}={Spoon}", "90ml");
        Assert.True(scaled.TryGet(out var answer), string.Join(' ', scaled.Problems));
        return Assert.Single(answer.Scaled.Lines).Grams!.Value.Grams;
    }
}
