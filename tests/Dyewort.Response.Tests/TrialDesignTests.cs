using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class TrialDesignTests
{
    private static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed, int samples) =>
        LearntPlants.Learn(seed, samples);

    private static BenchLimits Fine(double sample = 30) =>
        new() { SampleMillilitres = sample, SmallestGrams = [.. PlantMaker.Materials.Select(name => new Dose(name, 0.01))] };

    /// <summary>Paints planned samples of a generated plant.</summary>
    private static IEnumerable<TrialRow> Paint(PlantMaker plant, TrialDesign design) =>
        design.Samples.Select(sample =>
        {
            Doses doses = [.. sample.Additions.Select(one => new Dose(one.Name, one.GramsPerLitre))];
            return plant.Read(
                new TrialPoint
                {
                    Sample = $"N{sample.Number}",
                    Plant = plant.Kind,
                    GramsPerLitre = doses,
                    Ph = Math.Round(plant.PhOf(doses), 2),
                },
                1
            );
        });

    [Fact]
    public void Six_samples_chosen_to_teach_most_teach_more_than_six_drawn_at_random()
    {
        double chosen = 0,
            drawn = 0;
        for (var seed = 1401; seed < 1409; seed++)
        {
            var (model, plant, rows) = Learn(seed, 8);
            Assert.True(TrialDesigner.Next(model, plant.Used, Fine(), 6).TryGet(out var design));
            Assert.Equal(6, design.Samples.Count);
            Assert.True(design.DoubtAfter < design.DoubtBefore);
            Assert.True(ResponseModel.Fit([.. rows, .. Paint(plant, design)], plant.Used).TryGet(out var taught));
            Assert.True(
                ResponseModel
                    .Fit([.. rows, .. Enumerable.Range(0, 6).Select(i => plant.Read(plant.Draw($"R{i}"), 1))], plant.Used)
                    .TryGet(out var lucky)
            );
            for (var i = 0; i < 30; i++)
            {
                var point = plant.Draw("held");
                var truth = plant.ColourOf(point);
                chosen += Difference.Ciede2000(truth, taught.QuickColour(point));
                drawn += Difference.Ciede2000(truth, lucky.QuickColour(point));
            }
        }

        Assert.True(chosen < 0.92 * drawn, $"{chosen / 240:0.00} against {drawn / 240:0.00}");
    }

    [Fact]
    public void Samples_near_a_wanted_colour_are_preferred_when_one_is_named()
    {
        var (model, plant, _) = Learn(1412, 12);
        var wanted = plant.ColourOf(plant.Draw("w"));
        Assert.True(TrialDesigner.Next(model, plant.Used, Fine(), 4, wanted).TryGet(out var towards));
        Assert.True(TrialDesigner.Next(model, plant.Used, Fine(), 4).TryGet(out var anywhere));
        double Off(TrialDesign design) => design.Samples.Average(sample => Difference.Ciede2000(wanted, sample.Expected!.Value));
        Assert.True(Off(towards) < Off(anywhere), $"{Off(towards):0.0} against {Off(anywhere):0.0}");
    }

    [Fact]
    public void A_spread_keeps_samples_farther_apart_in_colour_than_chance_does()
    {
        var (model, plant, _) = Learn(1413, 16);
        string[] names = [.. plant.Used.Take(3)];
        Assert.True(TrialDesigner.Spread(model, names, Fine(), 8).TryGet(out var design));
        Assert.Equal(8, design.Samples.Count);
        Assert.Empty(design.Samples[0].Additions);
        double Smallest(IReadOnlyList<Lab> colours) =>
            Enumerable
                .Range(0, colours.Count)
                .SelectMany(i => Enumerable.Range(0, i).Select(j => Difference.Ciede2000(colours[i], colours[j])))
                .Min();
        var ours = Smallest([.. design.Samples.Select(sample => sample.Expected!.Value)]);
        var chance = Enumerable
            .Range(0, 40)
            .Select(_ => Smallest([.. Enumerable.Range(0, 8).Select(i => model.QuickColour(plant.Draw("c", plain: i == 0)))]))
            .Order()
            .ToArray();
        Assert.True(ours > chance[36], $"{ours:0.0}; 9 of 10 random sets stay below {chance[36]:0.0}");
    }

    [Fact]
    public void Before_any_trial_doses_spread_over_the_usual_range()
    {
        Assert.True(TrialDesigner.Spread(null, ["alum", "bicarbonate of soda", "copperas"], Fine(90), 9).TryGet(out var design));
        Assert.All(design.Samples, sample => Assert.Null(sample.Expected));
        Assert.Contains(design.Samples, sample => sample.Additions.Count == 3);
        Assert.Contains(design.Samples, sample => sample.Additions.Count is 1 or 2);
        Assert.Equal(9, design.Samples.Select(sample => string.Join('|', sample.Additions)).Distinct().Count());
        foreach (var addition in design.Samples.SelectMany(sample => sample.Additions))
            Assert.InRange(addition.GramsPerLitre, UsualDoses.Of(addition.Name).Low * 0.8, UsualDoses.Of(addition.Name).High * 1.001);
    }

    [Fact]
    public void Amounts_are_whole_spoons_and_stay_below_what_is_safe()
    {
        var limits = new BenchLimits
        {
            SampleMillilitres = 100,
            SmallestGrams = [new("alum", 0.6), new("copper sulphate", 0.15)],
            MostGramsPerLitre = [new("copper sulphate", 3)],
        };
        Assert.True(TrialDesigner.Spread(null, ["alum", "copper sulphate"], limits, 10).TryGet(out var design));
        foreach (var addition in design.Samples.SelectMany(sample => sample.Additions))
        {
            Assert.True(addition.Measures >= 1);
            Assert.Equal(addition.Measures * limits.Smallest(addition.Name), addition.Grams, 1e-12);
            Assert.Equal(addition.Grams * 10, addition.GramsPerLitre, 1e-9);
            Assert.True(addition.GramsPerLitre <= limits.Most(addition.Name) * 1.001);
        }

        Assert.Contains(design.Notes, note => note.Contains("copper sulphate stays at or below 3 g/L", StringComparison.Ordinal));
    }

    [Fact]
    public void The_liquor_and_the_jars_cut_the_trial_short_aloud()
    {
        var limits = Fine() with { LiquorMillilitres = 155, Jars = 4 };
        Assert.True(TrialDesigner.Spread(null, ["alum"], limits, 12).TryGet(out var design));
        Assert.Equal(4, design.Samples.Count);
        Assert.Contains(design.Notes, note => note.Contains("fills 5 samples", StringComparison.Ordinal));
        Assert.Contains(design.Notes, note => note.Contains("4 jars", StringComparison.Ordinal));
        Assert.False(TrialDesigner.Spread(null, ["alum"], Fine() with { LiquorMillilitres = 20 }, 4).TryGet(out _));
    }

    [Fact]
    public void A_spoon_too_coarse_for_the_jar_is_said()
    {
        var limits = new BenchLimits { SampleMillilitres = 20, SmallestGrams = [new("copperas", 0.6)] };
        Assert.True(TrialDesigner.Spread(null, ["alum", "copperas"], limits, 5).TryGet(out var design));
        Assert.DoesNotContain(design.Samples.SelectMany(sample => sample.Additions), addition => addition.Name == "copperas");
        Assert.Contains(
            design.Notes,
            note =>
                note.StartsWith("copperas was left out", StringComparison.Ordinal) && note.Contains("Dissolve", StringComparison.Ordinal)
        );
        Assert.False(TrialDesigner.Spread(null, ["copperas"], limits, 5).TryGet(out _));
    }

    [Theory]
    [InlineData(0, 5)]
    [InlineData(30, 0)]
    [InlineData(double.NaN, 5)]
    public void Nonsense_is_refused(double sample, int count) =>
        Assert.False(TrialDesigner.Spread(null, ["alum"], Fine(sample), count).TryGet(out _));
}
