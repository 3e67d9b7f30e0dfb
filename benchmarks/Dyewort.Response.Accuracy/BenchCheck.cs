using System.Globalization;
using Dyewort.Colour;
using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Accuracy;

/// <summary>The advice given at the bench, against generated plants: next step, next samples, corrected batches, wrong jars.</summary>
internal static class BenchCheck
{
    public static void Run(int plants, string only, int first)
    {
        if (only is "" or "step")
            Steps(plants, first);
        if (only is "" or "next")
            Designs(plants, first);
        if (only is "" or "correct")
            Corrections(plants, first);
        if (only is "" or "slips")
            Slips(4 * plants, first);
    }

    private static (ResponseModel Model, PlantMaker Plant, TrialRow[] Rows) Learn(int seed, int samples)
    {
        var plant = new PlantMaker(seed);
        var rows = Enumerable.Range(0, samples).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1)).ToArray();
        return ResponseModel.Fit(rows, plant.Used).TryGet(out var model) ? (model, plant, rows) : throw new InvalidOperationException();
    }

    private static void Steps(int plants, int first)
    {
        var all = new List<(double Chance, double Made, double Expected, bool Inside)>();
        for (var seed = 6000 + first; seed < 6000 + first + plants; seed++)
        {
            var (model, plant, _) = Learn(seed, 16);
            foreach (var (name, _, high) in Compositions.Ranges(model))
            {
                for (var i = 0; i < 6; i++)
                {
                    var now = plant.Draw("now");
                    var step = high * new[] { 0.02, 0.1, 0.4 }[i % 3];
                    if (!BenchAdvice.Next(model, now, name, step).TryGet(out var next))
                        throw new InvalidOperationException();
                    var doses = now.GramsPerLitre.With(name, now.Dose(name) + step);
                    var made = Difference.Ciede2000(plant.ColourOf(now), plant.ColourOf(now with { GramsPerLitre = doses }));
                    all.Add((next.ChanceSeen, made, next.ExpectedDe00, made >= next.De00Low && made <= next.De00High));
                }
            }
        }

        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"next step: {all.Count} steps, inside the stated range {100.0 * all.Count(one => one.Inside) / all.Count:0.0} %, mean "
                    + $"made {all.Average(one => one.Made):0.00}, off by {all.Average(one => Math.Abs(one.Made - one.Expected)):0.00}"
            )
        );
        foreach (var (low, high) in new[] { (0.0, 0.1), (0.1, 0.3), (0.3, 0.7), (0.7, 0.9), (0.9, 1.01) })
        {
            var bin = all.Where(one => one.Chance >= low && one.Chance < high).ToArray();
            if (bin.Length > 0)
                Console.WriteLine(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"  chance {low:0.0}–{Math.Min(high, 1):0.0}: {bin.Length}, stated {bin.Average(one => one.Chance):0.00}, came "
                            + $"true {(double)bin.Count(one => one.Made >= 1) / bin.Length:0.00}"
                    )
                );
        }
    }

    private static void Designs(int plants, int first)
    {
        var chosen = new List<double>();
        var drawn = new List<double>();
        for (var seed = 6100 + first; seed < 6100 + first + plants; seed++)
        {
            var (model, plant, rows) = Learn(seed, 8);
            var limits = new BenchLimits
            {
                SampleMillilitres = 30,
                SmallestGrams = [.. PlantMaker.Materials.Select(name => new Dose(name, 0.01))],
            };
            if (!TrialDesigner.Next(model, plant.Used, limits, 6).TryGet(out var design))
                throw new InvalidOperationException();
            var planned = design.Samples.Select(sample =>
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
            ResponseModel.Fit([.. rows, .. planned], plant.Used).TryGet(out var taught);
            ResponseModel
                .Fit([.. rows, .. Enumerable.Range(0, 6).Select(i => plant.Read(plant.Draw($"R{i}"), 1))], plant.Used)
                .TryGet(out var lucky);
            for (var i = 0; i < 40; i++)
            {
                var point = plant.Draw("held");
                var truth = plant.ColourOf(point);
                chosen.Add(Difference.Ciede2000(truth, taught!.Predict(point).Colour));
                drawn.Add(Difference.Ciede2000(truth, lucky!.Predict(point).Colour));
            }
        }

        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"next samples, 8 + 6: mean error {chosen.Average():0.00}, 95th "
                    + $"{chosen.Order().ElementAt((int)(0.95 * chosen.Count)):0.00}; drawn at random {drawn.Average():0.00}, 95th "
                    + $"{drawn.Order().ElementAt((int)(0.95 * drawn.Count)):0.00}"
            )
        );
    }

    private static void Corrections(int plants, int first)
    {
        double before = 0,
            after = 0;
        int inside = 0,
            all = 0,
            worse = 0;
        var factors = new List<double>();
        var byKind = new Dictionary<CorrectionKind, (int Count, int Inside, double Off)>();
        for (var seed = 6200 + first; seed < 6200 + first + plants; seed++)
        {
            var (model, plant, rows) = Learn(seed, 18);
            foreach (var recipe in rows.Where(row => row.Point.GramsPerLitre.Count > 0).Take(4))
            {
                var name = recipe.Point.GramsPerLitre.Names.First();
                var doses = recipe.Point.GramsPerLitre.With(name, recipe.Point.Dose(name) * (all % 2 == 0 ? 0.3 : 3));
                var batch = recipe.Point with { GramsPerLitre = doses, Ph = Math.Round(plant.PhOf(doses), 1) };
                var wanted = plant.ColourOf(recipe.Point);
                if (
                    !BatchCorrection
                        .Find(
                            model,
                            new()
                            {
                                Believed = batch,
                                Measured = plant.Read(batch, 1).Colour,
                                Wanted = wanted,
                                Millilitres = 500,
                            }
                        )
                        .TryGet(out var answer)
                )
                    throw new InvalidOperationException();
                var best = answer.Ranked[0];
                foreach (var (added, grams) in best.AddGrams)
                    doses = doses.Plus(added, 2 * grams);
                var made = plant.ColourOf(batch with { GramsPerLitre = doses, Ph = null, Wash = 500 / (500 + best.WaterMillilitres) });
                var now = Difference.Ciede2000(made, wanted);
                var untouched = Difference.Ciede2000(
                    plant.ColourOf(
                        batch with
                        {
                            GramsPerLitre = recipe.Point.GramsPerLitre.With(name, recipe.Point.Dose(name) * (all % 2 == 0 ? 0.3 : 3)),
                        }
                    ),
                    wanted
                );
                before += untouched;
                after += now;
                worse += now > untouched + 0.5 ? 1 : 0;
                inside += Difference.Ciede2000(made, best.Colour) <= best.UncertaintyDe00 ? 1 : 0;
                var old = byKind.GetValueOrDefault(best.Kind);
                factors.Add(Difference.Ciede2000(made, best.Colour) / best.UncertaintyDe00);
                if (factors[^1] > 1)
                    Console.WriteLine(
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"    outside: plant {seed} {plant.Kind}, {plant.Law}: {best.Words} Missed by "
                                + $"{factors[^1] * best.UncertaintyDe00:0.0} with a radius of {best.UncertaintyDe00:0.0}; learned "
                                + $"scatter {model.ReadingScatterDe00:0.00}"
                        )
                    );
                byKind[best.Kind] = (
                    old.Count + 1,
                    old.Inside + (Difference.Ciede2000(made, best.Colour) <= best.UncertaintyDe00 ? 1 : 0),
                    old.Off + now
                );
                all++;
            }
        }

        foreach (var (kind, (n, i, o)) in byKind)
            Console.WriteLine(FormattableString.Invariant($"  {kind}: {n}, off {o / n:0.00}, inside {100.0 * i / n:0} %"));
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"batches: {all}, a dose of 0.3 or 3 times the recipe's: from ΔE00 {before / all:0.00} to {after / all:0.00}, made worse "
                    + $"by more than 0.5: {worse}, inside the stated radius {100.0 * inside / all:0.0} %; miss over radius 50 % "
                    + $"{factors.Order().ElementAt(all / 2):0.00}, 95 % {factors.Order().ElementAt((int)(0.95 * all)):0.00}"
            )
        );
    }

    private static void Slips(int tables, int from)
    {
        int shown = 0,
            found = 0,
            first = 0,
            accused = 0,
            jars = 0,
            strangers = 0;
        var byKind = new Dictionary<SlipKind, (int Shown, int Found, int First)>();
        for (var seed = 0; seed < tables; seed++)
        {
            var plant = new PlantMaker(6300 + from + seed);
            var kind = SlipMaker.Kinds[seed % SlipMaker.Kinds.Length];
            var seeded = SlipMaker.Make(plant, kind, 18, seed, measuredPh: seed / 6 % 2 == 0);
            if (seeded.ShowsDe00 < 5)
                continue;
            shown++;
            if (!WrongJar.Look(seeded.Rows, plant.Used).TryGet(out var doubtful))
                throw new InvalidOperationException();
            var jar = doubtful.FirstOrDefault(one => one.Row.Point.Sample == seeded.Jar);
            strangers += doubtful.Count(one =>
                one.Row.Point.Sample != seeded.Jar && !(kind == SlipKind.Swapped && one.Row.Point.Sample == seeded.Truth.Sample)
            );
            var best = jar?.Slips.FirstOrDefault(slip => slip.Kind is not (SlipKind.AsWritten or SlipKind.SomethingElse));
            var right =
                best is not null
                && (
                    kind == SlipKind.Swapped
                        ? best.Kind == kind && best.Other == seeded.Truth.Sample
                        : best.Meant.GramsPerLitre.Count == seeded.Truth.GramsPerLitre.Count
                            && best.Meant.GramsPerLitre.All(pair =>
                                seeded.Truth.Dose(pair.Name) is var dose && dose > 0 && Math.Abs(Math.Log(dose / pair.Amount)) < 0.05
                            )
                );
            found += jar is null ? 0 : 1;
            first += right ? 1 : 0;
            var old = byKind.GetValueOrDefault(kind);
            byKind[kind] = (old.Shown + 1, old.Found + (jar is null ? 0 : 1), old.First + (right ? 1 : 0));
        }

        for (var seed = 0; seed < tables / 2; seed++)
        {
            var plant = new PlantMaker(6600 + from + seed);
            var rows = Enumerable.Range(0, 18).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1)).ToArray();
            if (!WrongJar.Look(rows, plant.Used).TryGet(out var doubtful))
                throw new InvalidOperationException();
            accused += doubtful.Count;
            jars += rows.Length;
        }

        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"wrong jars, 18 samples: {shown} slips that move the colour by 5 or more: {found} found, {first} named first; other jars "
                    + $"accused {strangers}; sound tables: {accused} of {jars} jars accused"
            )
        );
        foreach (var (kind, (n, f, r)) in byKind)
            Console.WriteLine($"  {kind}: {n} shown, {f} found, {r} named first");
    }
}
