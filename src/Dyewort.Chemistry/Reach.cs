using System.Globalization;
using Dyewort.Numerics;
using Dyewort.Quantities;

namespace Dyewort.Chemistry;

/// <summary>How much more of something brings a jar to a pH.</summary>
/// <param name="Named">What to add.</param>
/// <param name="Grams">How much, g; of a liquid the liquid.</param>
/// <param name="Millilitres">Its volume where it is a liquid, else 0.</param>
/// <param name="GramsLow">Least that may be needed, from the liquor's doubt and the substance's own spread.</param>
/// <param name="GramsHigh">Most.</param>
/// <param name="State">The jar then.</param>
public sealed record ReachAnswer(NamedSubstance Named, double Grams, double Millilitres, double GramsLow, double GramsHigh, JarState State)
{
    /// <summary>The answer as a maker measures it.</summary>
    public string Words
    {
        get
        {
            var spoon = Millilitres > 0 || Named.Substance.GramsPerTeaspoon is not { } weight ? "" : Spoons(Grams / weight.Typical);
            var much = Millilitres > 0 ? string.Create(CultureInfo.InvariantCulture, $"{Millilitres:0.#} ml") : Said.Grams(Grams);
            var range =
                GramsHigh > 1.1 * GramsLow
                    ? string.Create(CultureInfo.InvariantCulture, $" (between {Said.Grams(GramsLow)} and {Said.Grams(GramsHigh)})")
                    : "";
            return string.Create(
                CultureInfo.InvariantCulture,
                $"{much}{spoon} of {Named.Name}{range} takes it to pH {State.Ph:0.0}. Add half, stir, test, then go on by drops or grains."
            );
        }
    }

    private static string Spoons(double teaspoons)
    {
        foreach (
            var (size, name) in (ReadOnlySpan<(double, string)>)
                [(2, "2"), (1.5, "1½"), (1, "1"), (0.75, "¾"), (0.5, "½"), (0.25, "¼"), (0.125, "⅛"), (0.0625, "1/16")]
        )
        {
            if (teaspoons > size * 0.85 && teaspoons < size * 1.18)
                return $", about {name} tsp,";
        }

        return "";
    }
}

/// <summary>Finds such amounts.</summary>
public static class Reach
{
    private static readonly string[] Sour = ["white-vinegar", "citric-acid", "cream-of-tartar"];
    private static readonly string[] Alkaline = ["baking-soda", "soda-ash", "chalk"];

    /// <summary>How much of one substance takes a jar to a pH, after fizzing.</summary>
    /// <param name="contents">The jar as it is.</param>
    /// <param name="named">What to add.</param>
    /// <param name="goalPh">Wanted pH, 1 to 13.5.</param>
    /// <param name="celsius">0 to 100 °C.</param>
    /// <returns>The amount, or a refusal that says how far it can go.</returns>
    public static Outcome<ReachAnswer> With(JarContents contents, NamedSubstance named, double goalPh, double celsius = 20)
    {
        ArgumentNullException.ThrowIfNull(contents);
        ArgumentNullException.ThrowIfNull(named);
        if (!(goalPh is >= 1 and <= 13.5))
            return Outcome.Refused<ReachAnswer>(
                "pH",
                $"pH {goalPh:0.0} is outside what inks are made at.",
                "Ask for a pH between 1 and 13.5."
            );
        if (contents.OutsideTheSums is { Count: > 0 } untold)
            return Outcome.Refused<ReachAnswer>(
                "pH",
                $"How much it takes is not known: {string.Join(" and ", untold)} cannot be put into these sums.",
                "Add a little at a time, stir, and test with a strip."
            );
        var now = Jar.Equilibrate(contents, celsius);
        if (!now.TryGet(out var start))
            return Outcome.Refused<ReachAnswer>(now.Problems);
        if (Math.Abs(start.Ph - goalPh) < 0.005)
            return Outcome.Of(new ReachAnswer(named, 0, 0, 0, 0, start));
        var found = Amount(contents, named, goalPh, celsius, start.Ph, out var farthest);
        if (found is not { } grams)
        {
            var far = string.Create(
                CultureInfo.InvariantCulture,
                $"{named.Name} takes this jar from pH {start.Ph:0.0} to {farthest:0.0} at most, not to {goalPh:0.0}."
            );
            var stronger = goalPh > start.Ph ? "Use a stronger alkali, such as soda ash." : "Use a stronger acid, such as citric acid.";
            return Outcome.Refused<ReachAnswer>(
                "pH",
                far,
                Math.Abs(farthest - start.Ph) < 0.05 || (farthest > start.Ph) != (goalPh > start.Ph)
                    ? (goalPh > start.Ph ? "Use an alkali, such as bicarbonate of soda." : "Use an acid, such as vinegar.")
                    : stronger
            );
        }

        var portion = Portion.OfGrams(named, grams);
        var (low, high) = (grams / portion.HighFactor, grams / portion.LowFactor);
        foreach (var (_, one, other) in contents.Liquor.Ends())
        {
            foreach (var liquor in (ReadOnlySpan<Liquor>)[one, other])
            {
                var there = contents with { Liquor = liquor };
                if (!Jar.Equilibrate(there, celsius).TryGet(out var itsStart))
                    continue;
                var needed =
                    (itsStart.Ph - goalPh) * (start.Ph - goalPh) <= 0
                        ? 0
                        : Amount(there, named, goalPh, celsius, itsStart.Ph, out _) ?? grams;
                (low, high) = (Math.Min(low, needed), Math.Max(high, needed));
            }
        }

        return Jar.Equilibrate(contents.Plus(portion), celsius).TryGet(out var state)
            ? Outcome.Of(new ReachAnswer(named, grams, portion.Millilitres, low, high, state))
            : Outcome.Refused<ReachAnswer>("pH", "The balance of this mixture was not found.", "Ask for a pH nearer to the present one.");
    }

    /// <summary>What the kitchen has for it: each acid or alkali that can reach the pH, least grams first.</summary>
    public static IReadOnlyList<ReachAnswer> Options(JarContents contents, double goalPh, double celsius = 20)
    {
        if (!Jar.Equilibrate(contents, celsius).TryGet(out var start))
            return [];
        var answers = new List<ReachAnswer>();
        foreach (var key in goalPh < start.Ph ? Sour : Alkaline)
        {
            var substance = SubstanceCatalogue.Standard.ByKey(key)!;
            if (With(contents, new(substance, substance.UsualStrength, false), goalPh, celsius).TryGet(out var answer))
                answers.Add(answer);
        }

        return [.. answers.OrderBy(answer => answer.Grams)];
    }

    private static double? Amount(
        JarContents contents,
        NamedSubstance named,
        double goalPh,
        double celsius,
        double startPh,
        out double farthest
    )
    {
        var isUp = goalPh > startPh;
        farthest = startPh;
        var kilograms = contents.VolumeMillilitres / 1000;
        // From a tenth of a milligram per litre to as much as a jar can hold: a third of its weight of a powder, ten times its volume of a
        // liquid.
        var most = kilograms * (Portion.IsLiquid(named.Substance) ? 10_000 : 300);
        var (below, above) = (0.0, double.NaN);
        for (var grams = kilograms * 1e-4; grams <= most; grams *= 1.6)
        {
            if (Ph(grams) is not { } ph)
                break;
            farthest = isUp ? Math.Max(farthest, ph) : Math.Min(farthest, ph);
            if (isUp ? ph >= goalPh : ph <= goalPh)
            {
                above = grams;
                break;
            }

            below = grams;
        }

        if (double.IsNaN(above))
            return null;
        var isComputed = true;
        var bracket = Bisection.Narrow(
            below,
            above,
            1e-7 * above,
            grams =>
            {
                var ph = Ph(grams);
                isComputed &= ph is not null;
                return isUp ? ph < goalPh : ph > goalPh;
            }
        );
        // The whole reach up to the first amount that does it was walked above, so the goal lies between the ends.
        return isComputed ? bracket.High : null;

        double? Ph(double grams) =>
            Jar.Equilibrate(contents.Plus(Portion.OfGrams(named, grams)), celsius).TryGet(out var state) ? state.Ph : null;
    }
}
