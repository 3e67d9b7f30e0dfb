using System.Globalization;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>A jar after boiling down, topping up or blending, and what to know about it.</summary>
/// <param name="Contents">What is in it now; every amount downstream follows from it.</param>
/// <param name="Factor">How many times stronger the liquor is than before; for a blend 1.</param>
/// <param name="Notes">What the sum leaves out.</param>
public sealed record ChangedJar(JarContents Contents, double Factor, IReadOnlyList<string> Notes);

/// <summary>Boiling down, topping up, blending.</summary>
public static class VolumeChange
{
    /// <summary>Boils a jar down to a volume: water leaves, and what is dissolved stays, as far as it can.</summary>
    /// <param name="contents">Before.</param>
    /// <param name="toMillilitres">Volume after, ml cold.</param>
    public static Outcome<ChangedJar> BoilDown(JarContents contents, double toMillilitres)
    {
        ArgumentNullException.ThrowIfNull(contents);
        var from = contents.VolumeMillilitres;
        if (!(toMillilitres > 0 && toMillilitres <= from))
            return Outcome.Refused<ChangedJar>(
                "to",
                $"{toMillilitres:0.#} ml is not less than the {from:0.#} ml there are.",
                "Give the volume after boiling down."
            );
        var notes = new List<string>();
        var portions = contents.Portions.ToList();
        if (portions.RemoveAll(portion => portion.Substance.Form == SubstanceForm.Spirit) > 0 && toMillilitres < from)
            notes.Add("Alcohol boils off first: it is counted as gone. Its vapour burns: never over a flame.");
        var fixedMillilitres = portions.Sum(portion => portion.Millilitres);
        var liquor = toMillilitres - fixedMillilitres;
        if (liquor < 0.02 * contents.LiquorMillilitres)
            return Outcome.Refused<ChangedJar>(
                "to",
                $"{toMillilitres:0.#} ml leaves no room for the {fixedMillilitres:0.#} ml of liquids that were added.",
                "Boil the liquor down before adding them, or stop at a larger volume."
            );
        if (portions.Exists(portion => portion.Substance.Gives("Acetate-")))
            notes.Add("Some of the vinegar's acid leaves with the steam; all of it is still counted.");
        if (portions.Exists(portion => portion.Substance.Gives("AmmH+")))
            notes.Add("Ammonia leaves with the steam; it is still counted.");
        if (portions.Exists(portion => portion.Substance.IsAny(SubstanceClasses.Bicarbonate)))
            notes.Add("Boiling turns bicarbonate into carbonate: the pH ends higher than this says.");
        if (toMillilitres < 0.5 * from)
            notes.Add("Long boiling costs colour: keep it just under the simmer.");
        var factor = contents.LiquorMillilitres / liquor;
        var changed = contents with { LiquorMillilitres = liquor, Liquor = Liquor.Of([(contents.Liquor, factor)]), Portions = portions };
        return Outcome.Of(new ChangedJar(changed, from / toMillilitres, notes));
    }

    /// <summary>Adds water up to a volume.</summary>
    public static Outcome<ChangedJar> TopUp(JarContents contents, double toMillilitres)
    {
        ArgumentNullException.ThrowIfNull(contents);
        var from = contents.VolumeMillilitres;
        if (!(toMillilitres >= from && toMillilitres <= 1e6))
            return Outcome.Refused<ChangedJar>(
                "to",
                $"{toMillilitres:0.#} ml is less than the {from:0.#} ml there are.",
                "Give the volume after topping up, at most 1000 litres."
            );
        var water = SubstanceCatalogue.Standard.ByKey("water")!;
        var added = Portion.OfMillilitres(new(water, null, false), toMillilitres - from);
        return Outcome.Of(new ChangedJar(contents.Plus(added), from / toMillilitres, []));
    }

    /// <summary>Pours parts of several jars together.</summary>
    /// <param name="parts">Each jar and the millilitres taken of it, stirred, solids and all.</param>
    public static Outcome<ChangedJar> Blend(IReadOnlyList<(JarContents Contents, double Millilitres)> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        if (parts.Count == 0 || parts.Any(part => !(part.Millilitres >= 0)) || parts.Sum(part => part.Millilitres) <= 0)
            return Outcome.Refused<ChangedJar>(
                "parts",
                "There is nothing to pour together.",
                "Give at least one jar and how many millilitres of it."
            );
        var taken = parts
            .Where(part => part.Millilitres > 0)
            .Select(part => part.Contents.Times(part.Millilitres / part.Contents.VolumeMillilitres))
            .ToList();
        var liquor = taken.Sum(one => one.LiquorMillilitres);
        return Outcome.Of(
            new ChangedJar(
                new JarContents
                {
                    LiquorMillilitres = liquor,
                    Liquor = Liquor.Of([.. taken.Select(one => (one.Liquor, one.LiquorMillilitres / liquor))]),
                    Portions = [.. taken.SelectMany(one => one.Portions)],
                    Uncounted = [.. taken.SelectMany(one => one.Uncounted).Distinct()],
                },
                1,
                []
            )
        );
    }

    /// <summary>How a jar's additions stand after the change: grams per litre of each.</summary>
    public static IReadOnlyList<(string Name, double GramsPerLitre)> Strengths(JarContents contents)
    {
        ArgumentNullException.ThrowIfNull(contents);
        return
        [
            .. contents
                .Portions.GroupBy(portion => portion.Substance.Key)
                .Select(group =>
                    (group.First().Substance.Name, group.Sum(portion => portion.PureGrams) / contents.VolumeMillilitres * 1000)
                ),
        ];
    }

    /// <summary>What a volume change does, as a sentence.</summary>
    public static string Words(double fromMillilitres, double toMillilitres)
    {
        var factor = fromMillilitres / toMillilitres;
        var becomes = factor < 0.995 ? $"thinned to {Figures.Say(factor, 2)} of its strength" : $"{Figures.Say(factor)} times as strong";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"From {fromMillilitres:0.#} ml to {toMillilitres:0.#} ml: everything that stays is {becomes}."
        );
    }
}
