using System.Text.Json;
using Dyewort.Notebook;
using Dyewort.Numerics;
using Dyewort.Quantities;
using Dyewort.Safety;
using Dyewort.Workshop.Bottles;
using Dyewort.Workshop.Response;
using Xunit;

namespace Dyewort.Workshop.Tests;

/// <summary>Every substance of published classes at up to three strengths, and every plant of published lists, in every place where a hand
/// meets it: the level there is the one of Data/care-levels.csv and Data/care-plants.csv, whose rows name their sources.</summary>
public sealed class CautionMatrixTests(ITestOutputHelper output)
{
    private static readonly IReadOnlyList<TextRow> Substances = TextTable.Embedded(typeof(CautionMatrixTests), "care-levels.csv").Rows;
    private static readonly IReadOnlyList<TextRow> Plants = TextTable.Embedded(typeof(CautionMatrixTests), "care-plants.csv").Rows;

    [Fact]
    public async Task A_substance_asks_for_the_care_of_its_strength_in_every_place()
    {
        Assert.True(Substances.Count > 100);
        await using var bench = await Bench.SetUpAsync();
        var trials = await bench.DoAsync<NotebookTrials, TrialSource>(notebook => notebook.HandleAsync(default));
        var wrong = new List<(string Why, string Sure)>();
        foreach (var row in Substances)
        {
            var (name, percent, level) = (row["name"], row.NumberOf("percent"), Level(row));
            var material = Material(name, MaterialKind.Addition, percent);
            void Check(string place, bool right)
            {
                if (!right)
                    wrong.Add(($"{name} {percent} % ({row["statements"]}): {place} is not {level}", row["sure"]));
            }

            // Nothing that is known against it may be said more mildly; a note may stand where no class is.
            bool Fits(IReadOnlyList<Caution> cautions) =>
                level == CareLevel.Note ? cautions.All(one => one.Level <= CareLevel.Note) : cautions.Any(one => one.Level == level);
            Check("the pantry", Fits(Caution.For([material])));
            Check("the bench", Fits(Caution.Adding(material, [])));
            Check("jar, recipe and batch", Fits(Caution.Together([material])));
            Check("the waste", Caution.Waste([material]).Count == 1);
            var plan = await bench.DoAsync<PlanTrial, Outcome<PlanTrialAnswer>?>(plan =>
                plan.HandleAsync(
                    new()
                    {
                        Kind = PlanKind.Around,
                        Plant = "elderberry",
                        Around = [(material, 2)],
                        Count = 1,
                        Sample = Volume.FromMillilitres(50),
                    },
                    trials,
                    default
                )
            );
            Check(
                "the plan",
                plan!.TryGet(out var planned)
                    ? level != CareLevel.Stop && Fits([.. planned.Cautions.Where(one => one.MaterialId == material.Id)])
                    : level == CareLevel.Stop
            );
            if (level == CareLevel.Stop)
            {
                var refused = new PrintLabels(TimeProvider.System).Handle(
                    new() { Bottles = $$"""[{"code":"A1","name":"Dusk","contains":["{{name}}"]}]""" }
                );
                Check("the label", !refused.TryGet(out _) && refused.Problems[0].What.Contains("gets no label", StringComparison.Ordinal));
                continue;
            }

            var label = Label(
                JsonSerializer.Serialize(
                    new[]
                    {
                        new
                        {
                            code = "A1",
                            name = "Dusk",
                            contains = new[] { $"{name} {percent} %" },
                        },
                    }
                )
            );
            Check(
                "the label",
                label.Contains(name, StringComparison.OrdinalIgnoreCase)
                    && (level == CareLevel.Note || row["statements"].Length == 0 || label.Contains("undiluted:", StringComparison.Ordinal))
            );
        }

        output.WriteLine(
            $"{Substances.Count} rows, {Substances.Count(row => row["sure"] == "seen")} of them seen, {wrong.Count} wrong in some place, "
                + $"{wrong.Count(one => one.Sure == "seen")} of those seen"
        );
        Assert.True(wrong.Count == 0, string.Join('\n', wrong.Select(one => one.Why)));
    }

    [Fact]
    public void A_plant_asks_for_its_care_in_every_place()
    {
        Assert.True(Plants.Count > 140);
        var wrong = new List<string>();
        foreach (var row in Plants)
        {
            var (name, level) = (row["name"], Level(row));
            var plant = Material(name, MaterialKind.Plant, null);
            bool Fits(IReadOnlyList<Caution> cautions) =>
                level == CareLevel.None
                    ? cautions.All(one => one.Words != Caution.UnlistedPlant)
                    : cautions.Any(one => one.Level >= level && one.Words != Caution.UnlistedPlant);
            void Check(string place, bool right)
            {
                if (!right)
                    wrong.Add($"{name} ({row["effect"]}): {place} does not say {level}");
            }

            Check("pantry, lot and pot", Fits(Caution.For([plant])));
            Check("plan and colour", Fits(Caution.For([], [name])));
            Check("batch and bottle", Fits(Caution.Together([plant])));
            var label = Label(
                JsonSerializer.Serialize(
                    new[]
                    {
                        new
                        {
                            code = "A1",
                            name = "Dusk",
                            plants = new[] { name },
                        },
                    }
                )
            );
            Check("the label", label.Contains($"Made from {name} (", StringComparison.Ordinal));
        }

        output.WriteLine($"{Plants.Count} plants, {Plants.Count(row => row["sure"].StartsWith("seen", StringComparison.Ordinal))} seen");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public void What_no_list_has_is_said_to_be_unknown_in_every_place_and_on_the_label()
    {
        var (dust, herb) = (Material("moon dust", MaterialKind.Addition, null), Material("grey marrowleaf", MaterialKind.Plant, null));
        foreach (var cautions in new[] { Caution.For([dust]), Caution.Adding(dust, []), Caution.Together([dust]) })
            Assert.Equal(Caution.Unlisted, Assert.Single(cautions).Words);
        Assert.Equal(Caution.UnlistedPlant, Assert.Single(Caution.For([herb])).Words);
        var label = Label("""[{"code":"A1","name":"Dusk","contains":["moon dust"],"plants":["grey marrowleaf"]}]""");
        Assert.Contains("Moon dust: not in our list; that does not mean safe.", label, StringComparison.Ordinal);
        Assert.Contains("Made from grey marrowleaf: not in our list of plants", label, StringComparison.Ordinal);
        Assert.Empty(Caution.For([Material("cotton paper", MaterialKind.Paper, null)]));
    }

    private static CareLevel Level(TextRow row) => Enum.Parse<CareLevel>(row["level"], ignoreCase: true);

    private static Material Material(string name, MaterialKind kind, double? percent) =>
        new()
        {
            Id = Guid.NewGuid(),
            WrittenAt = DateTimeOffset.UnixEpoch,
            Name = name,
            Kind = kind,
            StrengthPercent = percent,
        };

    private static string Label(string json)
    {
        var printed = new PrintLabels(TimeProvider.System).Handle(new() { Bottles = json, NoCaps = true });
        Assert.True(printed.TryGet(out var answer), $"{json}: {string.Join(' ', printed.Problems)}");
        return string.Join(' ', answer.Labels[0].Warnings);
    }
}
