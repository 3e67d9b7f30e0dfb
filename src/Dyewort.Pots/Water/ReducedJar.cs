using Dyewort.Chemistry;
using Dyewort.Quantities;

namespace Dyewort.Pots;

/// <summary>What is in a liquor before and after it is reduced, once cold.</summary>
/// <param name="PhBefore">pH before.</param>
/// <param name="PhAfter">pH after; the plant's own acids are taken to keep their strength.</param>
/// <param name="Doses">Every addition, g per 100 ml before and after.</param>
/// <param name="FallenOut">What lies undissolved after cooling, g in the pot.</param>
/// <param name="Warnings">What to mind, in sentences.</param>
public sealed record ReducedJar(
    double PhBefore,
    double PhAfter,
    IReadOnlyList<RestatedDose> Doses,
    IReadOnlyList<UndissolvedSolid> FallenOut,
    IReadOnlyList<string> Warnings
)
{
    private static readonly string[] Volatile = ["vinegar", "acetic", "ammonia", "spirit", "alcohol", "ethanol"];

    /// <summary>Computes both states at 20 °C.</summary>
    /// <param name="before">The liquor with everything that was added to it.</param>
    /// <param name="endMillilitres">Volume after reducing, above 0 and below the volume before.</param>
    public static Outcome<ReducedJar> Of(JarContents before, double endMillilitres)
    {
        var start = before.VolumeMillilitres;
        if (!(endMillilitres > 0 && endMillilitres < start))
            return Outcome.Refused<ReducedJar>([
                Sentence.Bad(
                    "to",
                    $"{endMillilitres:0.#} ml is not between 0 and the {start:0.#} ml there are.",
                    "Give a smaller volume than there is."
                ),
            ]);
        var poured = before.Portions.Sum(portion => portion.Millilitres);
        if (endMillilitres <= poured)
            return Outcome.Refused<ReducedJar>([
                Sentence.Bad(
                    "to",
                    $"{endMillilitres:0.#} ml is less than the {poured:0.#} ml of liquids that were added.",
                    "Give a larger volume, or leave out liquids that boil away."
                ),
            ]);
        var after = before with { LiquorMillilitres = endMillilitres - poured };
        var (first, second) = (Jar.Equilibrate(before), Jar.Equilibrate(after));
        if (!first.TryGet(out var was) || !second.TryGet(out var becomes))
            return Outcome.Refused<ReducedJar>([.. first.Problems, .. second.Problems]);

        var doses = before
            .Portions.Select(portion => new RestatedDose(
                portion.Named.Name,
                100 * portion.Grams / start,
                100 * portion.Grams / endMillilitres,
                null
            ))
            .ToList();
        var warnings = becomes
            .Solids.Where(solid => solid.Grams > 0.01)
            .Where(solid => solid.Grams > (1.05 * was.Solids.Where(one => one.Key == solid.Key).Sum(one => one.Grams)) + 0.01)
            .Select(solid => Sentence.Of($"{solid.Name}: {solid.Grams:0.##} g will lie undissolved once cold."))
            .ToList();
        foreach (
            var portion in before.Portions.Where(portion =>
                Volatile.Any(word => portion.Named.Name.Contains(word, StringComparison.OrdinalIgnoreCase))
            )
        )
            warnings.Add($"{portion.Named.Name} leaves with the steam: window open, no flame near spirit, and test the pH again.");
        return Outcome.Of(new ReducedJar(was.Ph, becomes.Ph, doses, [.. becomes.Solids.Where(solid => solid.Grams > 0.01)], warnings));
    }
}
