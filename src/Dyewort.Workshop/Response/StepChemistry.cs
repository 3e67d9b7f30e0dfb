using System.Globalization;
using Dyewort.Chemistry;
using Dyewort.Response;

namespace Dyewort.Workshop.Response;

/// <summary>Whether the chemistry lets one more measure of something act at all.</summary>
internal static class StepChemistry
{
    /// <summary>A powder of which less than this share goes into solution is said to stay as it is.</summary>
    private const double Stays = 0.9;

    /// <summary>Neither strip nor kitchen meter shows less (common practice, no source).</summary>
    private const double LeastPhMove = 0.05;

    /// <summary>So many measures must do nothing before it is said that more does nothing.</summary>
    private const int Measures = 4;

    /// <summary>For a jar whose contents are known.</summary>
    /// <param name="jar">Liquor and additions so far.</param>
    /// <param name="step">The next measure.</param>
    /// <param name="name">What to call it.</param>
    /// <returns>A sentence where more of it cannot act now, otherwise empty.</returns>
    public static string NothingMore(JarContents jar, Portion step, string name)
    {
        if (jar.Plus(step).OutsideTheSums.Count > 0)
            return "";
        if (!Jar.Equilibrate(jar).TryGet(out var before) || !Jar.Equilibrate(jar.Plus(step)).TryGet(out var after))
            return "";
        if (after.Solids.Sum(solid => solid.Grams) - before.Solids.Sum(solid => solid.Grams) >= Stays * step.Grams)
            return $"More {name} will not change anything now: it no longer dissolves.";
        if (
            !BenchAdvice.ActsByPhOnly(name)
            || !Jar.Equilibrate(jar.Plus(step.Times(Measures))).TryGet(out var far)
            || Math.Abs(far.Ph - before.Ph) >= LeastPhMove
        )
            return "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"More {name} will not change anything now: the jar holds its pH at {before.Ph:0.0}."
        );
    }

    /// <summary>For a jar that stands in a table of trials.</summary>
    /// <param name="jar">What is in it, and its pH where it was tested.</param>
    /// <param name="millilitres">Its volume.</param>
    /// <param name="book">What is known of its liquor's pH.</param>
    public static string NothingMore(TrialPoint jar, double millilitres, PhBook book, string name, double grams)
    {
        if (KnownMaterials.Of(name) is not { } known)
            return "";
        var contents = new JarContents
        {
            LiquorMillilitres = millilitres,
            Portions =
            [
                .. jar
                    .GramsPerLitre.Select(dose =>
                        KnownMaterials.Of(dose.Name) is { } named ? Portion.OfGrams(named, dose.Amount * millilitres / 1000) : null
                    )
                    .OfType<Portion>(),
            ],
        };
        return NothingMore(contents with { Liquor = Liquor.Of(book.LiquorOf(jar).Buffer) }, Portion.OfGrams(known, grams), name);
    }
}
