using Dyewort.Response.Tests.Generated;

namespace Dyewort.Response.Tests;

public sealed class WrongJarTests
{
    [Fact]
    public void Slips_that_show_are_found_and_mostly_named_first()
    {
        int shown = 0,
            found = 0,
            first = 0;
        var missed = new List<string>();
        for (var seed = 0; seed < 30; seed++)
        {
            var plant = new PlantMaker(1501 + seed);
            var kind = SlipMaker.Kinds[seed % SlipMaker.Kinds.Length];
            var seeded = SlipMaker.Make(plant, kind, 18, seed, measuredPh: seed % 2 == 0);
            if (seeded.ShowsDe00 < 6)
                continue;
            shown++;
            Assert.True(WrongJar.Look(seeded.Rows, plant.Used).TryGet(out var doubtful));
            if (doubtful.FirstOrDefault(one => one.Row.Point.Sample == seeded.Jar) is not { } jar)
            {
                missed.Add($"{seed} {kind} {seeded.ShowsDe00:0}: not seen");
                continue;
            }

            found++;
            var ranked = jar.Slips.Where(slip => slip.Kind is not (SlipKind.AsWritten or SlipKind.SomethingElse)).ToList();
            var rank = ranked.FindIndex(slip => Same(slip, seeded));
            first += rank == 0 ? 1 : 0;
            if (rank != 0)
                missed.Add(
                    $"{seed} {plant.Kind} {kind} {seeded.ShowsDe00:0}: rank {rank + 1}, "
                        + $"{string.Join("; ", jar.Slips.Take(3).Select(slip => $"{slip.Probability:0.00} {slip.Words}"))}"
                );
        }

        var words = $"{shown} shown, {found} found, {first} named first\n{string.Join('\n', missed)}";
        Assert.True(found >= 0.7 * shown && first >= 0.85 * found, words);
    }

    /// <summary>The same kind, and the same jar within what spoons tell apart.</summary>
    private static bool Same(Slip slip, SlipMaker.Seeded seeded) =>
        seeded.Kind == SlipKind.Swapped
            ? slip.Kind == SlipKind.Swapped && slip.Other == seeded.Truth.Sample
            : slip.Meant.GramsPerLitre.Count == seeded.Truth.GramsPerLitre.Count
                && slip.Meant.GramsPerLitre.All(own =>
                    seeded.Truth.Dose(own.Name) is var dose && dose > 0 && Math.Abs(Math.Log(dose / own.Amount)) < 0.05
                );

    [Fact]
    public void Sound_tables_accuse_hardly_anybody()
    {
        int accused = 0,
            jars = 0;
        for (var seed = 0; seed < 8; seed++)
        {
            var plant = new PlantMaker(1601 + seed);
            var rows = Enumerable.Range(0, 18).Select(i => plant.Read(plant.Draw($"S{i}", plain: i == 0), 1)).ToArray();
            Assert.True(WrongJar.Look(rows, plant.Used).TryGet(out var doubtful));
            accused += doubtful.Count;
            jars += rows.Length;
        }

        Assert.True(accused <= 0.05 * jars, $"{accused} of {jars}");
    }

    [Fact]
    public void Probabilities_add_up_and_every_explanation_has_a_sentence()
    {
        var plant = new PlantMaker(1503);
        var seeded = SlipMaker.Make(plant, SlipKind.OtherPowder, 18, 2, measuredPh: true);
        Assert.True(WrongJar.Look(seeded.Rows, plant.Used).TryGet(out var doubtful));
        foreach (var jar in doubtful)
        {
            Assert.InRange(jar.Slips.Sum(slip => slip.Probability), 0.5, 1 + 1e-9);
            Assert.Equal(jar.Slips.Select(slip => slip.Probability).OrderDescending(), jar.Slips.Select(slip => slip.Probability));
            Assert.All(jar.Slips, slip => Assert.EndsWith(".", slip.Words, StringComparison.Ordinal));
            Assert.InRange(jar.ChanceAsWritten, 0, 0.5);
        }
    }

    [Fact]
    public void Too_few_samples_accuse_nobody()
    {
        var plant = new PlantMaker(1504);
        var outcome = WrongJar.Look([.. Enumerable.Range(0, 7).Select(i => plant.Read(plant.Draw($"S{i}"), 1))], plant.Used);
        Assert.False(outcome.TryGet(out _));
        Assert.StartsWith("Not enough trials yet", outcome.Problems[0].What, StringComparison.Ordinal);
    }
}
