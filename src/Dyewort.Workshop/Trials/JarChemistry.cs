using Dyewort.Chemistry;
using Dyewort.Notebook;
using Dyewort.Pots;
using Dyewort.Quantities;
using Dyewort.Response;
using Dyewort.Store;
using Dyewort.Workshop.Chemistry;
using Dyewort.Workshop.Pots;
using Microsoft.EntityFrameworkCore;

namespace Dyewort.Workshop.Trials;

/// <summary>What is in a jar of the notebook: its pot's liquor, what pot and water added unasked, and the additions in order.</summary>
public sealed class JarChemistry(NotebookDb db, NotebookSettings settings, IPotLiquors liquors) : IUseCase
{
    public async Task<Outcome<JarChemistryAnswer>> HandleAsync(Pot pot, JarView jar, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(pot);
        ArgumentNullException.ThrowIfNull(jar);
        var plant = await (
            from lot in db.PlantLots.AsNoTracking()
            join material in db.Materials on lot.PlantId equals material.Id
            where lot.Id == pot.LotId
            select material.Name
        ).SingleAsync(cancel);
        var sheet = await db.PotSheets.AsNoTracking().SingleOrDefaultAsync(one => one.PotId == pot.Id, cancel);
        var log = (await db.PotLog.AsNoTracking().Where(one => one.PotId == pot.Id).OrderBy(one => one.At).ToListAsync(cancel))
            .Where(one => one.Counts)
            .ToList();
        var spoon = (await settings.ReadAsync(cancel)).Teaspoon;
        var volume = jar.Sample.VolumeMl;

        // What boils off leaves its salts behind, so the jar holds those of all the liquid that went into it.
        var poured = (pot.LiquidMl ?? 0) + log.Where(one => one.Kind == LogKind.ToppedUp).Sum(one => one.Ml ?? 0);
        var poursPerMl = LiquorSum.MeasuredMl(log) is > 0 and var measured && poured > 0 ? poured / measured : 1;
        var hidden = ShowPotWork.HiddenIn(
            pot,
            sheet,
            log,
            sheet?.Colourants ?? PlantGuide.Find(plant)?.Colourants ?? ColourantClass.Unknown
        );
        var contents = new JarContents { LiquorMillilitres = volume, Portions = HiddenAdditions.Portions(hidden, volume * poursPerMl) };

        var belief = (await liquors.OfPlantAsync(plant, cancel))
            .LiquorOf(
                pot.Code,
                [
                    .. hidden
                        .GroupBy(one => one.Substance, StringComparer.OrdinalIgnoreCase)
                        .Select(one => new Dose(one.Key, one.Sum(given => given.GramsPerLitre) * poursPerMl)),
                ]
            )
            .Buffer;
        List<string> unknown = [];
        foreach (var step in jar.Counting)
        {
            if (Portion(step, spoon) is { } portion)
                contents = contents.Plus(portion);
            else
                unknown.Add(step.Material.Name);
        }

        var described = DescribeJar.Handle(contents with { Liquor = Dyewort.Chemistry.Liquor.Of(belief), Uncounted = unknown });
        return described.TryGet(out var answer)
            ? Outcome.Of(
                new JarChemistryAnswer(
                    answer.Contents,
                    answer.Words,
                    belief.Words(),
                    [
                        .. hidden.Select(one =>
                            FormattableString.Invariant(
                                $"{one.Substance}, about {one.GramsPerLitre:0.##} g per litre of liquid: {one.Why}."
                            )
                        ),
                    ],
                    [.. unknown.Distinct()]
                )
                {
                    Measured = Measured(jar, log, answer.Words, plant),
                }
            )
            : Outcome.Refused<JarChemistryAnswer>(described.Problems);
    }

    /// <summary>What a person read, beside the sums; and what to do where both can hardly be right.</summary>
    private static JarMeasured? Measured(JarView jar, List<PotLogEntry> log, JarWords sums, string plant)
    {
        if (jar.Now.Last is { Ph: { } ph } last)
        {
            var doubt = (last.PhBy ?? PhTool.Strip).Uncertainty();
            var apart = Math.Max(sums.PhLow - ph, ph - sums.PhHigh);
            return new(
                ph,
                last.PhBy,
                apart > 2 * doubt
                    ? "By what is written down it should be "
                        + $"{Figures.Say(sums.Ph, 2)} ({Figures.Say(sums.PhLow, 2)} to {Figures.Say(sums.PhHigh, 2)}). Both can hardly be "
                        + "right: test it once more, or look whether something went in that was not written down. Your reading is the one "
                        + "that counts here and in what is learned."
                    : null
            );
        }

        if (jar.Counting.Any() || log.Where(line => line.Ph is not null).MaxBy(line => line.At) is not { Ph: { } ofPot } read)
            return null;
        var kind = ExtractBuffer.OfPlant(plant).Kind;
        return new(
            ofPot,
            read.PhBy,
            kind.IsUnlike(ofPot, (read.PhBy ?? PhTool.Strip).Uncertainty())
                ? $"Liquors of this kind ({kind.Name}) usually read {Figures.Say(kind.Ph, 2)}. Both can hardly be right: test the pot once "
                    + "more, or say in its log what else went in. Your reading is the one that counts."
                : null
        );
    }

    private static Portion? Portion(JarViewStep step, Teaspoon spoon)
    {
        if (KnownMaterials.Of(step.Material) is not { } named)
            return null;

        var amount = step.Addition.Amount;
        if (amount.Grams is not { } grams)
            return Dyewort.Chemistry.Portion.Measured("amount", named, amount.ToAmount(), spoon).TryGet(out var measured) ? measured : null;

        // What was written at the bench stands, with the spoon and the range of that day.
        if (grams > Mass.MaxGrams)
            return null;
        var portion = Dyewort.Chemistry.Portion.OfGrams(named, grams);
        return amount is { GramsLow: { } low, GramsHigh: { } high } && grams > 0 ? portion.Between(low / grams, high / grams) : portion;
    }
}

/// <param name="Contents">The liquor and the additions as the chemistry takes them.</param>
/// <param name="Words">pH with its interval, what dissolved, what did not, what to look out for.</param>
/// <param name="Liquor">What is believed of the liquor, and from how many tests.</param>
/// <param name="Hidden">What pot, spoon and water added, one sentence each.</param>
/// <param name="NotCounted">Materials in the jar that the chemistry does not know.</param>
public sealed record JarChemistryAnswer(
    JarContents Contents,
    JarWords Words,
    string Liquor,
    IReadOnlyList<string> Hidden,
    IReadOnlyList<string> NotCounted
)
{
    /// <summary>The pH that was read of the jar as it stands; null where nobody read it.</summary>
    public JarMeasured? Measured { get; init; }
}

/// <param name="Ph">What was read, 0 to 14.</param>
/// <param name="By">What it was read with; null where nobody said.</param>
/// <param name="Clash">What to do where the reading and the sums can hardly both be right; null where they agree.</param>
public sealed record JarMeasured(double Ph, PhTool? By, string? Clash);
