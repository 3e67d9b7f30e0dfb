using Dyewort.Quantities;

namespace Dyewort.Notebook;

/// <summary>Amounts that hardly anybody means: a slipped decimal point or a wrong unit is likelier than such a jar.</summary>
/// <remarks>Both limits are common practice, no source. Sugar, the most soluble thing of a pantry, dissolves about 200 g in 100 ml of
/// water, alum about 12 g; so 100 g in 100 ml is either more than dissolves or no ink.</remarks>
public static class Doubtful
{
    private const double MostGramsPer100Ml = 100;
    private const double MostTimesTheJar = 10;
    private const double MostInAnyJar = 1e5;

    /// <summary>True for more than 100 kg or 100 L: no jar holds that, whatever is meant.</summary>
    public static bool IsBeyondAnyJar(MeasuredAmount amount) => Grams(amount) > MostInAnyJar || Ml(amount) > MostInAnyJar;

    /// <summary>What is doubtful about an amount, as one sentence; null where it may well be meant.</summary>
    /// <param name="amount">What is to go in.</param>
    /// <param name="name">What it is.</param>
    /// <param name="jarMl">The liquor in the jar, millilitres, above 0.</param>
    /// <param name="isPoured">True for a liquid: it is doubted by its volume alone.</param>
    public static string? InJar(MeasuredAmount amount, string name, double jarMl, bool isPoured)
    {
        if (Ml(amount) is { } ml && ml > MostTimesTheJar * jarMl)
            return $"{amount.Text} of {name} is {Figures.Say(ml / jarMl, 2)} times as much as the {Volume.Say(jarMl)} in this " + "jar.";
        if (!isPoured && Grams(amount) / jarMl * 100 is > MostGramsPer100Ml and var per100)
            return $"{amount.Text} of {name} in {Volume.Say(jarMl)} is {Mass.Say(per100)} to 100 ml, more than dissolves.";
        return null;
    }

    // What was too much to be weighed has no grams of its own.
    private static double? Grams(MeasuredAmount amount) => amount.Grams ?? (KitchenMeasures.Grams(amount.Unit) * amount.Number);

    private static double? Ml(MeasuredAmount amount) =>
        amount.Ml ?? (KitchenMeasures.Millilitres(amount.Unit, amount.Spoon ?? Teaspoon.Metric) * amount.Number);
}
