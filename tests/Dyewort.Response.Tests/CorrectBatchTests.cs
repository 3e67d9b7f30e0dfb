using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class CorrectBatchTests
{
    private static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed) => LearntPlants.Learn(seed, 18);

    /// <summary>Does to a generated batch what was advised.</summary>
    private static Lab Painted(
        PlantMaker plant,
        TrialPoint batch,
        double millilitres,
        RankedCorrection correction,
        IReadOnlyList<TrialRow> rows
    )
    {
        var doses = batch.GramsPerLitre;
        foreach (var (name, grams) in correction.AddGrams)
            doses = doses.Plus(name, 1000 * grams / millilitres);
        if (correction.Ink.Length > 0)
        {
            var other = rows.First(row => row.Point.Sample == correction.Ink).Point;
            var share = correction.InkMillilitres / (millilitres + correction.InkMillilitres);
            doses = ((1 - share) * doses) + (share * other.GramsPerLitre);
        }

        return plant.ColourOf(
            batch with
            {
                GramsPerLitre = doses,
                Ph = null,
                Wash = batch.Wash * millilitres / (millilitres + correction.WaterMillilitres),
            }
        );
    }

    [Fact]
    public void Batches_with_a_wrong_dose_come_nearer_to_their_recipe()
    {
        double before = 0,
            after = 0;
        int within = 0,
            all = 0;
        for (var seed = 1701; seed < 1709; seed++)
        {
            var (model, plant, rows) = Learn(seed);
            foreach (var recipe in rows.Where(row => row.Point.GramsPerLitre.Count > 0).Take(3))
            {
                // The first addition was under-measured, by a known amount.
                var name = recipe.Point.GramsPerLitre.Names.First();
                var doses = recipe.Point.GramsPerLitre.With(name, recipe.Point.Dose(name) * 0.3);
                var batch = recipe.Point with { GramsPerLitre = doses, Ph = Math.Round(plant.PhOf(doses), 1) };
                var wanted = plant.ColourOf(recipe.Point);
                var read = plant.Read(batch, 1).Colour;
                Assert.True(
                    BatchCorrection
                        .Find(
                            model,
                            new()
                            {
                                Believed = batch,
                                Measured = read,
                                Wanted = wanted,
                                Millilitres = 500,
                            }
                        )
                        .TryGet(out var answer)
                );
                var best = answer.Ranked[0];
                var made = Painted(plant, batch, 500, best, rows);
                before += Difference.Ciede2000(plant.ColourOf(batch), wanted);
                after += Difference.Ciede2000(made, wanted);
                all++;
                within += Difference.Ciede2000(made, best.Colour) <= best.UncertaintyDe00 ? 1 : 0;
                Assert.Contains(answer.Ranked, one => one.Kind == CorrectionKind.Leave);

                // No plan asks for all that a better one asks for, and more.
                Assert.DoesNotContain(
                    answer.Ranked,
                    one =>
                        answer.Ranked.Any(better =>
                            better != one
                            && better.Ink.Length == 0
                            && better.ExpectedDe00 < one.ExpectedDe00
                            && better.AddGrams.Names.All(one.AddGrams.Contains)
                            && (better.WaterMillilitres == 0 || one.WaterMillilitres > 0)
                            && one.Ink.Length == 0
                        )
                );
            }
        }

        Assert.True(
            after < 0.5 * before && within >= 0.85 * all,
            $"{before / all:0.0} to {after / all:0.0}, {within} of {all} within the stated radius"
        );
    }

    [Fact]
    public void A_batch_that_is_too_strong_is_thinned_and_a_good_one_is_left()
    {
        // A tannin so that water does nothing but thin.
        var (model, plant, rows) = Learn(1702);
        var point = rows[0].Point;
        var wanted = plant.ColourOf(point with { Wash = 0.6 });
        Assert.True(
            BatchCorrection
                .Find(
                    model,
                    new()
                    {
                        Believed = point,
                        Measured = plant.ColourOf(point),
                        MeasuredUncertaintyDe00 = 1,
                        Wanted = wanted,
                        Millilitres = 300,
                    }
                )
                .TryGet(out var strong)
        );
        Assert.True(strong.Ranked[0].WaterMillilitres > 0, strong.Advice);
        Assert.True(
            Difference.Ciede2000(Painted(plant, point, 300, strong.Ranked[0], rows), wanted)
                < 0.4 * Difference.Ciede2000(plant.ColourOf(point), wanted),
            strong.Advice
        );
        Assert.True(
            BatchCorrection
                .Find(
                    model,
                    new()
                    {
                        Believed = point,
                        Measured = wanted,
                        Wanted = wanted,
                        Millilitres = 300,
                    }
                )
                .TryGet(out var good)
        );
        Assert.StartsWith("Nothing helps more than leaving it", good.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_ever_taken_out_and_limits_are_kept()
    {
        var (model, plant, rows) = Learn(1704);
        var recipe = rows.First(row => row.Point.GramsPerLitre.Count > 0);
        var name = recipe.Point.GramsPerLitre.Names.First();
        var doses = recipe.Point.GramsPerLitre.With(name, recipe.Point.Dose(name) * 2);
        var batch = recipe.Point with { GramsPerLitre = doses, Ph = null };
        Assert.True(
            BatchCorrection
                .Find(
                    model,
                    new()
                    {
                        Believed = batch,
                        Measured = plant.ColourOf(batch),
                        Wanted = plant.ColourOf(recipe.Point),
                        Millilitres = 250,
                        MostGramsPerLitre = [.. plant.Used.Select(one => new Dose(one, 1.0))],
                        Inks = [.. rows.Take(5).Select(row => new BlendInk(row.Point.Sample, row.Colour, row.Point))],
                    }
                )
                .TryGet(out var answer)
        );
        Assert.Contains(answer.Ranked, one => one.Kind == CorrectionKind.Blend);
        foreach (var one in answer.Ranked)
        {
            Assert.All(one.AddGrams.Select(added => added.Amount), grams => Assert.True(grams > 0));
            Assert.All(one.AddGrams, added => Assert.True(batch.Dose(added.Name) + (1000 * added.Amount / 250) <= 1.05));
            Assert.True(one.WaterMillilitres >= 0 && one.InkMillilitres >= 0);

            // A kitchen scale shows tenths of a gram; hundredths are millilitres of a stock.
            Assert.All(
                one.AddGrams.Select(added => added.Amount),
                grams => Assert.Equal(Math.Round(grams * (grams < 0.295 ? 100 : 10)), grams * (grams < 0.295 ? 100 : 10), 1e-6)
            );
            Assert.InRange(one.ChanceWithinJustVisible, 0, 1);
        }

        Assert.Equal(
            answer.Ranked.Where(one => one.Kind != CorrectionKind.Leave).Select(one => one.Words),
            answer.Ranked.Where(one => one.Kind != CorrectionKind.Leave).Select(one => one.Words).Distinct()
        );
        Assert.False(
            BatchCorrection
                .Find(
                    model,
                    new()
                    {
                        Believed = batch,
                        Measured = recipe.Colour,
                        Wanted = recipe.Colour,
                        Millilitres = 0,
                    }
                )
                .TryGet(out _)
        );
    }

    [Fact]
    public void Another_ink_known_by_its_colour_alone_is_blended_by_its_film()
    {
        var (model, _, rows) = Learn(1705);
        var film = model.FilmOf("");
        var first = film.DensityOf(rows[0].Colour);
        var second = new Lab(45, 5, 45);
        var other = film.DensityOf(second);
        var wanted = film.ColourOf((0.75 * first) + (0.25 * other));
        Assert.True(
            BatchCorrection
                .Find(
                    model,
                    new()
                    {
                        Believed = rows[0].Point,
                        Measured = rows[0].Colour,
                        MeasuredUncertaintyDe00 = 0.5,
                        Wanted = wanted,
                        Millilitres = 300,
                        Inks = [new("weld", second)],
                    }
                )
                .TryGet(out var answer)
        );
        var blend = answer.Ranked.Where(one => one.Ink == "weld").MinBy(one => one.ExpectedDe00)!;
        Assert.InRange(blend.InkMillilitres, 90, 110);
        Assert.True(blend.ExpectedDe00 < 1);
    }
}
