using Dyewort.Quantities;

namespace Dyewort.Notebook;

/// <summary>Figures that hardly anybody means: a slipped decimal point, a wrong unit or a wrong year is likelier. Each is said as one
/// sentence, and null stands for what may well be meant.</summary>
/// <remarks>All limits are common practice, no source, and each says below what it stands for.</remarks>
public static class Doubtful
{
    /// <summary>Half as much powder as liquor is a paste and no ink, whatever it is.</summary>
    private const double MostGramsPer100Ml = 50;

    /// <summary>Beyond three times what dissolves, two parts of three lie on the bottom.</summary>
    private const double MostTimesDissolved = 3;

    /// <summary>What hardly dissolves is stirred in nevertheless: chalk and pigments, up to a tenth of the liquor.</summary>
    private const double AlwaysGramsPer100Ml = 10;

    /// <summary>A jar is filled at least half, so that more than half of its liquor again runs over.</summary>
    private const double MostOfTheJar = 0.5;
    private const double MostInAnyJar = 1e5;

    /// <summary>The largest vessel on a stove or a fire, millilitres, and the plant that fits into it, grams.</summary>
    private const double LargestPot = 1e5;

    /// <summary>Juicy berries are simmered in a splash of water; a tenth of their weight is the least of it.</summary>
    private const double MostPlantToLiquid = 10;
    private const int MostYears = 10;

    /// <summary>A batch comes out larger or smaller than planned; beyond twice or half of it a unit was mistaken.</summary>
    private const double MostTimesPlanned = 2;

    /// <summary>Whoever adds by eye while the batch is made stops far below three times the recipe.</summary>
    private const double MostTimesStep = 3;

    /// <summary>True for more than 100 kg or 100 L: no jar holds that, whatever is meant.</summary>
    public static bool IsBeyondAnyJar(MeasuredAmount amount) => Grams(amount) > MostInAnyJar || Ml(amount) > MostInAnyJar;

    /// <summary>What is doubtful about an amount in a jar.</summary>
    /// <param name="amount">What is to go in.</param>
    /// <param name="name">What it is.</param>
    /// <param name="jarMl">The liquor in the jar, millilitres, above 0.</param>
    /// <param name="isPoured">True for a liquid: it is doubted by its volume alone.</param>
    /// <param name="dissolves">Grams of it that dissolve in 100 ml of water; null where that is not known.</param>
    public static string? InJar(MeasuredAmount amount, string name, double jarMl, bool isPoured, double? dissolves = null)
    {
        if (isPoured || Grams(amount) is not { } grams)
            return Ml(amount) is not { } ml || ml <= jarMl * MostOfTheJar ? null
                : ml < jarMl ? $"{amount.Text} of {name} into {Volume.Say(jarMl)} is more than half as much again: would it fit?"
                : ml < jarMl * 1.5 ? $"{amount.Text} of {name} is as much as the {Volume.Say(jarMl)} in this jar."
                : $"{amount.Text} of {name} is {Figures.Say(ml / jarMl, 2)} times as much as the {Volume.Say(jarMl)} in this jar.";
        var per100 = grams / jarMl * 100;
        if (dissolves is { } most && per100 > Math.Max(AlwaysGramsPer100Ml, MostTimesDissolved * most) && per100 > most)
            return $"{amount.Text} of {name} in {Volume.Say(jarMl)} is {Mass.Say(per100)} to 100 ml; about "
                + (most < 0.1 ? "nothing of it dissolves." : $"{Mass.Say(most)} dissolve.");
        return per100 > MostGramsPer100Ml
            ? $"{amount.Text} of {name} in {Volume.Say(jarMl)} is {Mass.Say(per100)} to 100 ml, a paste and no ink."
            : null;
    }

    /// <summary>What is doubtful about the plant and the liquid of a pot.</summary>
    /// <param name="plantGrams">Grams; null where they are not known.</param>
    /// <param name="liquidMl">Millilitres; null where they are not known.</param>
    public static string? InPot(double? plantGrams, double? liquidMl) =>
        liquidMl > LargestPot ? $"{Volume.Say(liquidMl.Value)} is more than any pot holds."
        : plantGrams > LargestPot ? $"{Mass.Say(plantGrams.Value)} of plant is more than any pot holds."
        : plantGrams is { } grams && liquidMl is { } ml && grams > ml * MostPlantToLiquid
            ? $"{Mass.Say(grams)} of plant in {Volume.Say(ml)} of liquid is {Figures.Say(grams / ml, 2)} times its weight."
        : null;

    /// <summary>What is doubtful about the weight of a lot of plant.</summary>
    /// <param name="grams">Grams; null where they are not known.</param>
    public static string? Lot(double? grams) => grams > LargestPot ? $"{Mass.Say(grams.Value)} of plant is more than a cartload." : null;

    /// <summary>What is doubtful about liquor that was measured out of a pot.</summary>
    /// <param name="ml">Millilitres that were measured.</param>
    /// <param name="pot">What the pot was made of.</param>
    /// <param name="toppedUpMl">What was poured on since, millilitres.</param>
    public static string? OutOfPot(double ml, Pot pot, double toppedUpMl)
    {
        ArgumentNullException.ThrowIfNull(pot);
        if (LiquorSum.WentInMl(pot) + toppedUpMl is { } there)
            return ml > there * LiquorSum.JugReads ? $"{Volume.Say(ml)} of liquor is more than went into the pot." : null;
        return ml > LargestPot ? $"{Volume.Say(ml)} is more than any pot holds." : null;
    }

    /// <summary>What is doubtful about a day or a time that lies far back.</summary>
    public static string? Day(DateOnly day, DateOnly today) =>
        day < today.AddYears(-MostYears)
            ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{day:yyyy-MM-dd} is {today.Year - day.Year} years ago.")
            : null;

    /// <summary>What is doubtful about the volume of a batch as it was measured.</summary>
    /// <param name="what">What was measured, at the beginning of a sentence: "The liquor".</param>
    /// <param name="ml">Millilitres; null while nobody measured it.</param>
    /// <param name="plannedMl">Millilitres as planned, above 0.</param>
    public static string? Batch(string what, double? ml, double plannedMl) =>
        ml > plannedMl * MostTimesPlanned || ml < plannedMl / MostTimesPlanned
            ? $"{what} is {Volume.Say(ml.Value)} where {Volume.Say(plannedMl)} were planned."
            : null;

    /// <summary>What is doubtful about an amount that was weighed for a batch.</summary>
    public static string? Step(string name, MeasuredAmount measured, MeasuredAmount planned)
    {
        ArgumentNullException.ThrowIfNull(planned);
        var (of, to) =
            Grams(measured) is { } grams && Grams(planned) is { } plannedGrams
                ? (grams, plannedGrams)
                : (Ml(measured) ?? 0, Ml(planned) ?? 0);
        return to > 0 && of > to * MostTimesStep
            ? $"{measured.Text} of {name} is {Figures.Say(of / to, 2)} times the {planned.Text} that were planned."
            : null;
    }

    // What was too much to be weighed has no grams of its own.
    private static double? Grams(MeasuredAmount amount) => amount.Grams ?? (KitchenMeasures.Grams(amount.Unit) * amount.Number);

    private static double? Ml(MeasuredAmount amount) =>
        amount.Ml ?? (KitchenMeasures.Millilitres(amount.Unit, amount.Spoon ?? Teaspoon.Metric) * amount.Number);
}
